"""Which marks a pack draws: found in its steps, fold lines and sheet plans, so that the key explains these and no others."""

from collections.abc import Iterator

from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.scene import PlanScene, SpaceScene
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.late_corners import late_work
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.step_views import StepPicture
from creasewright.fitting.gates import gates_of
from creasewright.scoring.members import scored_members

LINES = ("edge", "valley", "mountain", "fold line", "crease", "hidden", "sheet cut", "thread", "hidden thread")
ACTIONS = (
    "front", "behind", "fold and open", "open", "lift", "tuck", "turn over page", "turn over pad", "turn", "slide", "press",
    "repeat", "glue", "scale",
)  # fmt: skip
READING = ("tag", "letter", "cut number", "measure", "datum")
_OF_EDGE = {"valley": "valley", "mountain": "mountain", "score": "fold line", "crease": "crease"}
_OF_ARROW = {"crease": "fold and open"}


def marks_used(context: PackContext) -> frozenset[str]:
    """Names from `LINES`, `ACTIONS` and `READING`."""
    on = {section.key for section in context.layout.sections_on}
    found = {"edge"} | ({"tag"} if context.worked.pieces else set())
    if "steps" in on:
        pictures = list(_pictures(context))
        for picture in pictures:
            found |= _of_picture(picture)
        found |= {"measure"} if any(gates_of(context.worked).values()) else set()
        found |= {"scale"} if len({picture.plan is None for picture in pictures}) > 1 else set()
    if "sheet plans" in on and any(sheet.cuts for plan in context.plans for sheet in plan.sheets):
        found |= {"sheet cut", "cut number"}
    if any(piece.blank.pieces for piece in context.worked.pieces):
        found |= {"fold line"} if "cut list" in on else set()
        found |= {"datum", "mountain", *_of_other_passes(context)} if "score guide" in on else set()
    if "cut list" in on:
        found |= {"letter"} if any(letter_spot(context.worked, piece) for piece in context.worked.pieces) else set()
        found |= {"hidden"} if any(late_work(context.worked, piece.parts) for piece in context.worked.pieces) else set()
    # one arrow for both: the key says both beside it
    return frozenset(found - {"lift"} if "front" in found else found)


def _of_other_passes(context: PackContext) -> set[str]:
    """Lines of the other pass fold toward the maker, as seen in this one."""
    passes = [each for member in scored_members(context.worked) for each in member.passes]
    return {"valley"} if any(len(each.lines) > len(each.own) for each in passes) else set()


def _pictures(context: PackContext) -> Iterator[StepPicture]:
    for steps in pictured_steps(context.worked, context.word_pairs()):
        yield from steps.pictures


def _of_picture(picture: StepPicture) -> set[str]:
    found = {action.kind.removesuffix(" left") for action in picture.marks}
    if picture.flipped:
        found.add("turn over page")
    if picture.plan is not None:
        found |= _of_plan(picture.plan)
    if picture.space is not None:
        found |= _of_space(picture.space)
    return found & {*LINES, *ACTIONS, *READING}


def _of_plan(scene: PlanScene) -> set[str]:
    found = {_OF_EDGE.get(edge.kind, "") for facet in scene.facets for edge in facet.edges}
    found |= {_OF_ARROW.get(arrow.kind, arrow.kind) for arrow in scene.fold_arrows}
    found |= {action.kind for action in scene.actions}
    found |= {"slide"} if scene.slides else set()
    found |= {"measure"} if scene.dimensions else set()
    found |= {"hidden thread" if stitch.hidden else "thread" for stitch in scene.stitches}
    found |= {"hidden"} if scene.landing or any(mark.hidden for mark in scene.glue) else set()
    return found | ({"glue"} if any(not mark.hidden for mark in scene.glue) else set())


def _of_space(scene: SpaceScene) -> set[str]:
    found = {_OF_EDGE.get(kind, "") for facet in scene.facets for kind in facet.edge_kinds}
    found |= {"lift"} if scene.fold_paths else set()
    found |= {"slide"} if scene.slides else set()
    found |= {"hidden"} if any(mark.hidden for mark in scene.glue) else set()
    return found | ({"glue"} if any(not mark.hidden for mark in scene.glue) else set())
