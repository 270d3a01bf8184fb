"""The tools that a pack needs, and what there is to beware of: found in the pieces, the sheet plans and the materials."""

from fractions import Fraction

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.amounts import material_uses, things_inside
from creasewright.booklet.cutting_way import STRAIGHT, TEMPLATE, cutting_way
from creasewright.booklet.hidden_letters import letter_spot
from creasewright.booklet.scoring.pricked_ends import is_pricked
from creasewright.cutting.plan import PaperPlan
from creasewright.fitting.worked import Worked
from creasewright.geometry.outline import Arc
from creasewright.geometry.point import Number
from creasewright.reading.design import Wait
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import every_setting
from creasewright.scoring.score_board import Board

LEVEL = 1e-6
"""mm by which a line may leave the level and still lie along an edge."""
SMALL_PART = (31.7, 57.1)
"""mm: the cylinder that a part which a small child can swallow fits into: diameter and depth. 16 CFR 1501.4, from memory."""


class ToolNeeds(Struct, frozen=True):
    trimmer: bool
    longest_cut: Fraction
    """mm, of those that the trimmer reaches; 0 without one. Longer ones are cut with the knife."""
    scored: bool
    score_board: bool
    """Some line is pressed in a groove of the board."""
    by_ruler: bool
    """Some line square to an edge lies where no groove reaches it."""
    slanted_folds: bool
    """Some fold line runs along no edge, so that no groove guides it."""
    knife: bool
    pin: bool
    """To prick the ends of fold lines through a template."""
    cut_with_scissors: tuple[str, ...]
    """`curves`, then the kinds of materials that are cut to size: `ribbon`, `foam` …"""
    radii: tuple[Number, ...]
    """Of corners to be rounded, mm, smallest first."""
    punch: tuple[Number, ...]
    """Diameters of holes, mm."""
    needle: bool
    awl: bool
    """Holes are pricked for sewing."""
    pressed: tuple[str, ...]
    """What is pressed, in the author's words."""
    eraser: bool
    """Some piece has no hidden place for its letter."""


def tool_needs(worked: Worked, plans: tuple[PaperPlan, ...], board: Board) -> ToolNeeds:
    blanks = [piece.blank for piece in worked.pieces]
    ways = [(blank, cutting_way(blank, worked.paper_of(blank))) for blank in blanks]
    by_knife = [plan for plan in plans if cut_with_knife(worked, plan)]
    cuts, too_long = cut_lengths(tuple(plan for plan in plans if plan not in by_knife))
    traced = [blank for blank, way in ways if way.kind == TEMPLATE]
    rounded = [way.rounded for _, way in ways if way.kind == STRAIGHT]
    radii: set[Number] = {radius for corners in rounded for _, radius in corners}
    slanted = [blank for blank in blanks if _has_slanted_fold(blank)]
    uses = {use.name for use in material_uses(worked) if use.ties or use.sheets}
    cut_to_size = [each.kind for each in worked.design.materials if each.name in uses and each.kind not in ("glue", "thread")]
    curves = any(isinstance(edge, Arc) for blank in traced for edge in blank.outline.edges)
    holes: set[Number] = {hole.across for blank in blanks for hole in blank.holes}
    state = worked.finished.state if worked.finished is not None else None
    kinds = {each.kind for each in worked.design.materials if each.name in {use.name for use in material_uses(worked)}}
    settings = every_setting(worked, board)
    return ToolNeeds(
        trimmer=bool(cuts),
        longest_cut=max(cuts, default=Fraction(0)),
        scored=any(blank.pieces for blank in blanks),
        score_board=any(each.groove is not None for each in settings),
        by_ruler=any(each.groove is None for each in settings),
        slanted_folds=bool(slanted),
        knife=bool(traced) or bool(by_knife) or too_long or any(blank.slits for blank in blanks) or any(way.aids for _, way in ways)
        or bool(state is not None and state.trims),
        pin=any(is_pricked(member, each) for member in scored_members(worked) for each in member.passes),
        cut_with_scissors=tuple(dict.fromkeys(["curves", *cut_to_size] if curves else cut_to_size)),
        radii=tuple(sorted(radii, key=float)),
        punch=tuple(sorted(holes, key=float)),
        needle="thread" in kinds,
        awl=bool(state is not None and state.sewings),
        pressed=pressed_things(worked),
        eraser=any(letter_spot(worked, piece) is None for piece in worked.pieces),
    )


def cut_with_knife(worked: Worked, plan: PaperPlan) -> bool:
    """Whether a plan's sheets are board that is cut: a paper trimmer's blade does not go through it. Common practice, no source."""
    return worked.papers[plan.paper].is_board and any(sheet.cuts for sheet in plan.sheets)


def pressed_things(worked: Worked) -> tuple[str, ...]:
    steps = [step.action for assembly in worked.design.assemblies for step in assembly.steps]
    return tuple(dict.fromkeys(str(action.what) for action in steps if isinstance(action, Wait) and action.verb == "press"))


def cut_lengths(plans: tuple[PaperPlan, ...]) -> tuple[list[Fraction], bool]:
    """Of all cuts that the trimmer reaches, mm, and whether there are others."""
    found: list[Fraction] = []
    too_long = False
    for plan in plans:
        beyond = {(fault.sheet, fault.cut) for fault in plan.trimmer_faults if fault.kind == "cut too long"}
        too_long = too_long or bool(beyond)
        found += [cut.length for k, sheet in enumerate(plan.sheets) for cut in sheet.cuts if (k, cut.number) not in beyond]
    return found, too_long


def _has_slanted_fold(blank: Blank) -> bool:
    straight = [s for s in blank.scores if s.arc is None]
    return any(min(abs(float(s.start.x - s.end.x)), abs(float(s.start.y - s.end.y))) > LEVEL for s in straight)


def dangers(worked: Worked, needs: ToolNeeds) -> tuple[str, ...]:
    """What this pack's tools and materials call for a word about, in the order in which it is said."""
    used = [each for each in worked.design.materials if each.name in {use.name for use in material_uses(worked)}]
    called = " ".join(f"{each.name} {each.called or ''}" for each in used).lower()
    kinds = {each.kind for each in used}
    found = {
        "trimmer": needs.trimmer,
        "knife": needs.knife,
        "scissors": bool(needs.cut_with_scissors),
        "needle": needs.needle,
        "awl": needs.awl,
        "punch": bool(needs.punch),
        "hot glue": "hot glue" in called or "hot-melt" in called,
        "glue": bool(kinds & {"glue", "tape"}) and "hot glue" not in called,
        "cord": bool(kinds & {"ribbon", "cord", "thread"}),
        "small parts": _has_small_parts(worked),
        "magnet": any("magnet" in f"{thing.name} {thing.called or ''}".lower() for thing in worked.design.things),
    }
    return tuple(danger for danger, is_there in found.items() if is_there)


def _has_small_parts(worked: Worked) -> bool:
    """A thing or a piece that fits the cylinder: its shorter side across, its longer along."""
    state = worked.finished.state if worked.finished else None
    inside = {name for name, _ in things_inside(worked)}
    blanks = [*(piece.blank for piece in worked.pieces)]
    blanks += [blank for blank in state.blanks.values() if blank.name in inside] if state else []
    across, along = SMALL_PART
    return any(min(blank.width, blank.height) <= across and max(blank.width, blank.height) <= along for blank in blanks)
