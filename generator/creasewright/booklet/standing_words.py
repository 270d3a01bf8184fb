"""What is told of steps on things that stand, and of glue on what cannot simply be opened.

Gives the name of a sentence of the layout and its values, or None for a step that the plain sentence tells well.
"""

from collections.abc import Callable

from creasewright.booklet.diagrams.plan_facets import lies_flat
from creasewright.booklet.fold_words import Values, Word, called_panels, listed
from creasewright.booklet.join_pictures import new_glue, opened_flaps
from creasewright.booklet.length_words import fine_ruler
from creasewright.booklet.panel_groups import panel_groups
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.typeset import literal
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.panel_graph import panels_of
from creasewright.folding.state import Body, GlueArea, PanelKey, PieceKey, State
from creasewright.folding.swing import centre_of
from creasewright.geometry.rigid_transform import apply, dot, minus, rotate
from creasewright.joining.bodies import stack_of
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import DOWN, mark_in_words

FEW = 2
"""So many panels are named one by one."""
LEVEL = 0.9


class Names:
    """How a piece and a line are called: `**A**`, `between *a* and *b*`, `the tray box`."""

    def __init__(
        self, word: Word, owner: Callable[[PanelKey], str], score: Callable[[PieceKey], str], piece: Callable[[str], str],
        side: Callable[[PanelKey, str], str],
    ) -> None:  # fmt: skip
        self.word, self.owner, self.score, self.piece, self.side = word, owner, score, piece, side


def standing_sentence(run: StepRun, parts: ShownParts, names: Names, join: Callable[[], Values]) -> tuple[str, Values] | None:
    """`join` gives the values of the plain sentence for a join."""
    action = run.written.action
    if run.refused is not None or not run.parts:
        return None
    if isinstance(action, design.Lay) and " of " in str(action.part) and not lies_flat(run.after, run.after.body_of(run.parts[0])):
        return lay_standing(run, action, names)
    if isinstance(action, design.TurnOver) and not lies_flat(run.before, run.before.body_of(run.parts[0])):
        return "turn over standing", {}
    if isinstance(action, design.Join) and run.after.coverings != run.before.coverings:
        return "set over", set_over(run, parts, names, join())
    if isinstance(action, design.Join) and action.verb == "glue" and held(run):
        return gluing(run, names, join())
    return None


def held(run: StepRun) -> bool:
    """Whether the parts lay together before the step."""
    return all(bond.first[0] in run.before.body_of(bond.second[0]).parts for bond in run.new_bonds)


def lay_standing(run: StepRun, action: design.Lay, names: Names) -> tuple[str, Values]:
    state, part = run.after, run.parts[0]
    panel = next(key for key in panels_of(state, run.parts) if key[1] == str(action.part).split(" of ")[0])
    body = state.body_of(part)
    level = rotate(body.view, apply(state.placed[panel], centre_of(state, panel)))[2]
    levels = [rotate(body.view, apply(state.placed[key], centre_of(state, key)))[2] for key in panels_of(state, body.parts)]
    top = level < (min(levels) + max(levels)) / 2
    return "lay standing", {"panel": called_panels(state, [panel], names.word, names.owner), "top": top}


def set_over(run: StepRun, parts: ShownParts, names: Names, values: Values) -> Values:
    """What goes over what, and the room on every side."""
    fit = run.after.coverings[-1]
    rooms = [spare / 2 for spare in (fit.spare_width, fit.spare_height) if spare is not None]
    spare = mark_in_words(min(rooms), fine_ruler(parts.worked.system), DOWN).text if rooms else ""
    onto = list(dict.fromkeys(names.piece(part) for part in fit.around))
    return {"what": values["what"], "onto": f" {names.word('and')} ".join(onto), "spare": "" if spare.startswith("0 ") else spare}


def gluing(run: StepRun, names: Names, values: Values) -> tuple[str, Values] | None:
    """Tabs in a standing box; or panels that lie under others, which a fold that is not their own opens."""
    areas = new_glue(run)
    panels = list(dict.fromkeys(area.panel for area in areas))
    onto = list(dict.fromkeys(area.onto for area in areas))
    if not panels:
        return None
    state, body = run.before, run.before.body_of(run.parts[0])
    band = written_bands(run, panels, names)
    groups = panel_groups(state.blanks[panels[0][0]], [key[1] for key in panels])
    told: Values = {
        "what": band or called_panels(state, panels, names.word, names.owner),
        "several": not band and sum(group.count for group in groups) > 1,
        "onto": called_panels(state, onto, names.word, names.owner) if shortly(state, onto) else "",
        "opens": "",
        "side": "",
        "where": "",
    }
    if not lies_flat(state, body):
        told |= {"side": names.side(panels[0], areas[0].side), "where": where_on(run.after, areas[0]) if told["onto"] else ""}
        return "glue standing", {**values, **told}
    opened = opened_flaps(run, body)
    own = opened is not None and any(own_score(state, key, panel) for key in opened[1] for panel in panels)
    if own and len(panels) <= FEW:
        return None
    if own and not told["several"] and told["onto"]:
        return "glue", {**values, **told}
    told["opens"] = opening_lines(state, list(opened[1]), names) if opened is not None else ""
    return "glue lying", {**values, **told}


def written_bands(run: StepRun, panels: list[PanelKey], names: Names) -> str:
    """The author's own words, where they name one band of one piece."""
    action = run.written.action
    assert isinstance(action, design.Join)
    text = str(action.parts[0]) if len(action.parts) == 1 else ""
    if any(band.name == text for band in run.before.blanks[panels[0][0]].bands):
        return f"{names.word('the')} *{literal(text)}* {names.word('of')} {names.owner(panels[0])}"
    return ""


def own_score(state: State, key: PieceKey, panel: PanelKey) -> bool:
    return key[0] == panel[0] and any(
        piece.name == key[1] and panel[1] in (piece.first, piece.second) for piece in state.blanks[key[0]].pieces
    )


def opening_lines(state: State, keys: list[PieceKey], names: Names) -> str:
    """Whole lines by the bands they part, others as they are called."""
    lines = []
    for key in keys:
        first, slash, second = piece_of(state, key).score.partition("/")
        between = f"{names.word('between')} *{literal(first)}* {names.word('and')} *{literal(second)}*"
        lines.append(between if slash else names.score(key))
    return listed(lines, names.word)


def shortly(state: State, panels: list[PanelKey]) -> bool:
    """Whether they have few names."""
    return sum(
        len(panel_groups(state.blanks[part], [key[1] for key in panels if key[0] == part])) for part in {key[0] for key in panels}
    ) <= FEW


def where_on(state: State, area: GlueArea) -> str:
    """`inside` or `outside`: on which side of a wall of the standing thing the panel lies; empty for what lies level."""
    body = state.body_of(area.panel[0])
    stack = stack_of(body, area.onto)
    wall = apply(state.placed[area.onto], centre_of(state, area.onto))
    if area.panel not in stack.order or abs(rotate(body.view, stack.normal)[2]) > LEVEL:
        return ""
    outward = dot(stack.normal, minus(wall, middle_of_body(state, body))) > 0
    later = stack.order.index(area.panel) > stack.order.index(area.onto)
    return "outside" if later == outward else "inside"


def middle_of_body(state: State, body: Body) -> tuple[float, float, float]:
    spots = [apply(state.placed[key], centre_of(state, key)) for key in panels_of(state, body.parts)]
    x, y, z = (sum(axis) / len(spots) for axis in zip(*spots, strict=True))
    return x, y, z
