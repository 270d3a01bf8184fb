"""Cuts, holes and scores that a step makes: whether the paper there still lies by itself, so that nothing else is cut with it.

A notch or a thumb cut is made before its pocket closes, a corner is rounded before the piece is glued down, a hole punched before a lining
covers it, a line scored before it is folded: common practice, no source. What is cut is looked at where it lies: the part of a rectangle
that a corner or notch takes away, a hole, a slit.
"""

from collections.abc import Iterator

from creasewright.blanks.blank import Blank
from creasewright.blanks.spare_parts import ROUND, TRIM, spare_parts
from creasewright.checks.facts import Facts, earlier, part_words
from creasewright.fitting.worked import AssemblyRun
from creasewright.folding.overlaps import overlap_area
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.loops import holds
from creasewright.geometry.outline import Polygon
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import facing, polygon_in_view
from creasewright.joining.opening_up import opens, placed_in_view
from creasewright.joining.run_step import StepRun
from creasewright.problems import NOTES, WARNS, Finding
from creasewright.reading import design

VERBS = {"round": "rounds", "trim": "trims", "cut": "cuts", "punch": "punches", "score": "scores"}
IN_THE_WAY = 1.0
"""mm² of another panel under a cut."""
BLADE = 0.5
"""mm on either side of a slit."""
FOLDED = 1.0
"""Degrees."""
ON_RIM = 0.05
"""mm between a corner of what goes and the rim of its panel."""


def cut_in_time(facts: Facts) -> list[Finding]:
    found = []
    for assembly, run in facts.original_runs():
        action = run.written.action
        if run.refused is not None or not isinstance(action, design.Make) or action.at is not None:
            continue
        told = scored_late(assembly, run, action) if action.verb == "score" else cut_late(assembly, run, action)
        found += [told] if told is not None else []
    return found


def cut_late(assembly: AssemblyRun, run: StepRun, action: design.Make) -> Finding | None:
    """One finding a step: of what is in the way for good, else of what only lies there, else that it is glued already."""
    verb = VERBS[action.verb]
    lying: list[tuple[PanelKey, PanelKey, Polygon]] = []
    parts = handled(run)
    for part in parts:
        for panels, place in cut_places(run.before.blanks[part], action):
            own = {(part, panel) for panel in panels}
            for panel in sorted(own):
                others = [other for other in lying_there(run.before, panel, place) if other not in own]
                lying += [(panel, other, place) for other in others if other[0] == part or other[0] not in run.parts]
    kept = [one for one in lying if not opens(run.before, run.before.body_of(one[0][0]), one[1], one[0])]
    if lying:
        panel, other, place = (kept or lying)[0]
        since = lying_since(assembly, run, panel, other, place)
        pocket = closed_pocket(run.before, panel, other) if kept else ""
        where = f"{pocket} is closed already" if pocket else f"{called(other)} lies against it{' for good' if kept else ''}"
        by = next((one for one in assembly.runs if pocket and one.number == run.before.pockets[pocket].step), since)
        what = f"step {run.number} {verb} {called(panel)} when {where}: the cut goes through {called(other)} too"
        return earlier(assembly, run, by, what, WARNS if kept else NOTES)
    for part in parts:
        glued = [bond.step for bond in run.before.bonds if bond.kind == "glue" and part in (bond.first[0], bond.second[0])]
        if glued:
            what = f"step {run.number} {verb} {part_words(part)} when it is glued already; it is easier before"
            return earlier(assembly, run, next(one for one in assembly.runs if one.number == min(glued)), what, NOTES)
    return None


def handled(run: StepRun) -> list[str]:
    """Those of its parts that were folded before it or hang on others; any other lies flat by itself."""
    state = run.before
    folded = {part for (part, _), angle in state.angles.items() if abs(angle) > FOLDED} | {part for part, _ in state.creased}
    held = {key[0] for bond in state.bonds for key in (bond.first, bond.second)}
    return [part for part in run.parts if part in folded | held]


def scored_late(assembly: AssemblyRun, run: StepRun, action: design.Make) -> Finding | None:
    """A line that is folded already."""
    names = {str(text).split(" of ")[0] for text in action.parts}
    for part in handled(run):
        for piece in run.before.blanks[part].pieces:
            if (part, piece.name) in run.before.creased and names & {piece.score, piece.name, part.split("/")[-1]}:
                by = next(one for one in assembly.runs if (part, piece.name) in one.after.creased)
                what = f"step {run.number} scores {piece.score} of {part_words(part)} when step {by.number} has folded it already"
                return earlier(assembly, run, by, what, NOTES)
    return None


# --- where it is cut --------------------------------------------------------------------------------------------------


def cut_places(blank: Blank, action: design.Make) -> Iterator[tuple[list[str], Polygon]]:
    """Every place that is cut, in the blank's frame, and the panels that are cut there."""
    if action.verb in (ROUND, TRIM):
        for spare in spare_parts(blank):
            if spare.how == action.verb:
                yield [panel.name for panel in blank.panels if borders(panel.polygon, spare.polygon)], spare.polygon
        return
    names = {str(text).split(" of ")[0] for text in action.parts}
    whole = blank.name in names or not names & {item.name for items in (blank.holes, blank.slits) for item in items}
    for hole in blank.holes if action.verb == "punch" else ():
        if whole or hole.name in names:
            x, y, half = float(hole.centre.x), float(hole.centre.y), float(hole.across) / 2
            square = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
            yield [panel.name for panel in blank.panels if holds(panel.polygon, x, y)], square
    for slit in blank.slits if action.verb == "cut" else ():
        if whole or slit.name in names:
            ring = along_slit(*((float(end.x), float(end.y)) for end in (slit.start, slit.end)))
            yield [panel.name for panel in blank.panels if overlap_area(panel.polygon, ring) > IN_THE_WAY], ring


def borders(panel: Polygon, part: Polygon) -> bool:
    """Whether two corners of what goes, or more, lie on the rim of a panel."""
    return sum(any(on_line(spot, *side) for side in zip(panel, (*panel[1:], panel[0]), strict=True)) for spot in part) > 1


def on_line(spot: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> bool:
    (x, y), (ax, ay), (bx, by) = spot, start, end
    size = (bx - ax) ** 2 + (by - ay) ** 2
    t = max(0.0, min(1.0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / size)) if size else 0.0
    return (ax + t * (bx - ax) - x) ** 2 + (ay + t * (by - ay) - y) ** 2 < ON_RIM * ON_RIM


def along_slit(start: tuple[float, float], end: tuple[float, float]) -> Polygon:
    (ax, ay), (bx, by) = start, end
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 or 1.0
    nx, ny = -(by - ay) / size * BLADE, (bx - ax) / size * BLADE
    return ((ax - nx, ay - ny), (bx - nx, by - ny), (bx + nx, by + ny), (ax + nx, ay + ny))


# --- what lies there --------------------------------------------------------------------------------------------------


def lying_there(state: State, panel: PanelKey, place: Polygon) -> list[PanelKey]:
    """Other panels of its stack that lie over or under a place, beside it in the plane or not; its nearest first."""
    if panel not in state.placed:
        return []
    body = state.body_of(panel[0])
    order = stack_of(body, panel).order
    seen = facing(state, body, panel)
    spot = placed_in_view(state, seen, panel, place)
    here = order.index(panel)
    others = sorted((key for key in order if key != panel), key=lambda key: abs(order.index(key) - here))
    return [key for key in others if overlap_area(polygon_in_view(state, seen, key), spot) > IN_THE_WAY]


def lying_since(assembly: AssemblyRun, run: StepRun, panel: PanelKey, other: PanelKey, place: Polygon) -> StepRun:
    """The step since which the other panel has lain there all the time."""
    since = run
    for one in reversed(assembly.runs[: run.number - 1]):
        if panel not in one.after.placed or other not in lying_there(one.after, panel, place):
            break
        since = one
    return since


def closed_pocket(state: State, panel: PanelKey, other: PanelKey) -> str:
    """The pocket that has these two for its walls; empty where there is none."""
    walls = {pocket.name: {pocket.front, pocket.back, *pocket.closing} for pocket in state.pockets.values()}
    return next((name for name, both in walls.items() if panel in both and other in both), "")
