"""The order of the steps: what cannot be got at any more when its step comes, what is sealed in, and what is easier done before.

Every glue area and insert is looked at in the state in which it is used (`joining.opening_up` says what can still be opened).
That decoration goes on while the work is flat is common practice, no source. `checks/cut_in_time.py` looks at the cuts.
"""

from creasewright.checks.facts import Facts, earlier, part_words
from creasewright.fitting.looks import is_flat
from creasewright.fitting.worked import AssemblyRun
from creasewright.folding.overlaps import overlap_area
from creasewright.folding.refused import called
from creasewright.folding.state import GlueArea, PanelKey, Pocket, State
from creasewright.geometry.loops import holds
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import facing, polygon_in_view
from creasewright.joining.inserting import room_in_view
from creasewright.joining.opening_up import COVERS, closed_in, opens
from creasewright.joining.run_step import StepRun
from creasewright.problems import NOTES, WARNS, Finding
from creasewright.reading import design

ON_SIDE = 1.0
"""mm from a pocket's side within which a fold closes it."""
FOLDED = 170.0
FLAT = 0.99
"""The cosine of a panel's slant from which on it lies flat on the table."""


def order_of_work(facts: Facts) -> list[Finding]:
    found: list[Finding] = []
    seen: set[str] = set()
    for assembly in facts.worked.assemblies:
        if assembly.assembly in seen:
            continue
        seen.add(assembly.assembly)
        for run in assembly.runs:
            if run.refused is None:
                found += glue_reached(assembly, run) + pocket_reached(assembly, run) + holes_reached(assembly, run)
                found += decorated_flat(assembly, run)
    return found + sealed_in(facts)


# --- adhesive ---------------------------------------------------------------------------------------------------------


def glue_reached(assembly: AssemblyRun, run: StepRun) -> list[Finding]:
    """Adhesive on a face that other panels lie over for good."""
    if not isinstance(run.written.action, design.Join):
        return []
    for area in run.after.glue[len(run.before.glue) :]:
        for over in closed_in(run.after, area.panel, area.onto, area.polygon):
            by = closed_since(assembly, run, area.panel, area.onto, over)
            if by is not None:
                name = called(area.panel)
                what = f"step {run.number} glues {name}, over which {called(over)} is closed by step {by.number}"
                return [earlier(assembly, run, by, what)]
    return []


def closed_since(assembly: AssemblyRun, run: StepRun, panel: PanelKey, onto: PanelKey, over: PanelKey) -> StepRun | None:
    """The step before this one since which `over` lies there for good; None where only this step itself holds it."""
    for before in assembly.runs[: run.number - 1]:
        state = before.after
        if any(key not in state.placed for key in (onto, over)):
            continue
        body = state.body_of(onto[0])
        if over[0] in body.parts and over in stack_of(body, onto).order and not opens(state, body, over, onto):
            return before
    return None


# --- pockets ----------------------------------------------------------------------------------------------------------


def pocket_reached(assembly: AssemblyRun, run: StepRun) -> list[Finding]:
    """An insert into a pocket whose open sides have all been closed since it was made."""
    if not isinstance(run.written.action, design.Insert) or len(run.after.fits) == len(run.before.fits):
        return []
    fit = run.after.fits[-1]
    pocket = run.before.pockets.get(fit.pocket)
    if pocket is None or not pocket.open or ways_in(run.before, pocket):
        return []
    by = shut_since(assembly, run, pocket)
    what = f"step {run.number} puts {part_words(fit.part)} into {part_words(fit.pocket)}, which step {by.number} has closed"
    return [earlier(assembly, run, by, what)]


def shut_since(assembly: AssemblyRun, run: StepRun, pocket: Pocket) -> StepRun:
    for before in assembly.runs[: run.number]:
        mine = before.after.pockets.get(pocket.name)
        if mine is not None and not ways_in(before.after, mine):
            return before
    return run


def ways_in(state: State, pocket: Pocket) -> list[str]:
    """The open sides that no fold closes for good, as they were called when it was made."""
    body = state.body_of(pocket.back[0])
    stack = stack_of(body, pocket.back)
    if pocket.front not in stack.order:
        return list(pocket.open)
    room, became = room_in_view(state, body, pocket)
    limits = dict(zip(("left", "head", "right", "tail"), room, strict=True))
    return [side for side in pocket.open if not shut_at(state, pocket, became[side], limits[became[side]])]


def shut_at(state: State, pocket: Pocket, side: str, limit: float) -> bool:
    """A panel that is folded over the opening there, and held."""
    body = state.body_of(pocket.back[0])
    axis = 0 if side in ("left", "right") else 1
    for wall in (pocket.back, pocket.front):
        blank = state.blanks[wall[0]]
        for piece in blank.pieces:
            if wall[1] not in (piece.first, piece.second) or abs(state.angles.get((wall[0], piece.name), 0.0)) < FOLDED:
                continue
            other = (wall[0], piece.second if piece.first == wall[1] else piece.first)
            ends = [rotate(body.view, apply(state.placed[wall], (float(p.x), float(p.y), 0.0))) for p in (piece.start, piece.end)]
            at_side = all(abs(end[axis] - limit) < ON_SIDE for end in ends)
            if at_side and other not in (pocket.front, pocket.back) and not opens(state, body, other, wall):
                return True
    return False


def sealed_in(facts: Facts) -> list[Finding]:
    """What lies in a pocket that is closed for good when everything is done."""
    finished = facts.worked.finished
    if finished is None:
        return []
    found = []
    for fit in finished.state.fits:
        pocket = finished.state.pockets.get(fit.pocket)
        if pocket is None or not pocket.open or ways_in(finished.state, pocket):
            continue
        found.append(
            Finding(
                WARNS, "order", facts.worked.design.finished.where,
                f"{part_words(fit.part)} is sealed into {part_words(fit.pocket)} for ever",
                "leave the last fold unglued, or say with `known:` that it is meant so",
            )
        )  # fmt: skip
    return found


# --- ribbons ----------------------------------------------------------------------------------------------------------


def holes_reached(assembly: AssemblyRun, run: StepRun) -> list[Finding]:
    """A ribbon's hole that another panel covers for good."""
    if not isinstance(run.written.action, design.Tie) or not run.written.action.path:
        return []
    for part, (x, y) in run.after.closures[-1].path:
        cover = covered_hole(run.before, part, (x, y))
        if cover is None:
            continue
        panel, over = cover
        by = closed_since(assembly, run, panel, panel, over)
        if by is not None:
            what = f"step {run.number} threads a hole of {part_words(part)} that {called(over)} covers since step {by.number}"
            return [earlier(assembly, run, by, what)]
    return []


def covered_hole(state: State, part: str, spot: tuple[float, float]) -> tuple[PanelKey, PanelKey] | None:
    """The hole's panel, and a panel without a hole there that lies over it for good."""
    blank, body = state.blanks[part], state.body_of(part)
    own = next(((part, p.name) for p in blank.panels if holds(p.polygon, *spot)), None)
    if own is None:
        return None
    at = rotate(body.view, apply(state.placed[own], (*spot, 0.0)))
    for key in stack_of(body, own).order:
        if key == own or not holds(polygon_in_view(state, body, key), at[0], at[1]) or has_hole(state, key, at):
            continue
        if not opens(state, body, key, own):
            return own, key
    return None


def has_hole(state: State, key: PanelKey, at: tuple[float, float, float]) -> bool:
    body = state.body_of(key[0])
    for hole in state.blanks[key[0]].holes:
        seen = rotate(body.view, apply(state.placed[key], (float(hole.centre.x), float(hole.centre.y), 0.0)))
        if (seen[0] - at[0]) ** 2 + (seen[1] - at[1]) ** 2 < float(hole.across) ** 2:
            return True
    return False


# --- what is easier before --------------------------------------------------------------------------------------------


def decorated_flat(assembly: AssemblyRun, run: StepRun) -> list[Finding]:
    """Decoration stuck on what stands already, or on what another panel is folded over, though it lay flat and open before."""
    action = run.written.action
    fresh = run.after.glue[len(run.before.glue) :]
    if not isinstance(action, design.Join) or action.verb != "stick on" or not fresh:
        return []
    area = fresh[0]
    onto = area.onto
    if onto not in run.before.placed:
        return []
    if not lies_flat(run.before, onto):
        stood = next((each for each in assembly.runs if onto in each.after.placed and not lies_flat(each.after, onto)), run)
        what = f"step {run.number} decorates {called(onto)} when it stands already; it is easier while it lies flat"
        return [earlier(assembly, run, stood, what, NOTES)]
    for over in lying_over(run.after, area):
        since = next((each for each in assembly.runs[: run.number - 1] if is_over(each.after, over, onto)), None)
        if since is not None and opens(run.before, run.before.body_of(onto[0]), over, onto):
            what = f"step {run.number} decorates {called(onto)} when {called(over)} lies over it; it is easier while it lies open"
            return [earlier(assembly, run, since, what, NOTES)]
    return []


def lies_flat(state: State, panel: PanelKey) -> bool:
    """Whether most of its work does, and the panel too."""
    body = state.body_of(panel[0])
    return is_flat(state, body) and abs(rotate(body.view, stack_of(body, panel).normal)[2]) > FLAT


def lying_over(state: State, area: GlueArea) -> list[PanelKey]:
    """Panels over a decoration that has been stuck on, its nearest first; those of what it decorates lie on its other side."""
    body = state.body_of(area.panel[0])
    order = stack_of(body, area.panel).order
    if area.onto not in order:
        return []
    here, there = order.index(area.panel), order.index(area.onto)
    beyond = order[here + 1 :] if here > there else order[:here][::-1]
    seen = facing(state, body, area.panel)
    shape = polygon_in_view(state, seen, area.panel)
    return [key for key in beyond if overlap_area(polygon_in_view(state, seen, key), shape) > COVERS]


def is_over(state: State, over: PanelKey, panel: PanelKey) -> bool:
    """Whether one panel lies on another somewhere."""
    if over not in state.placed or panel not in state.placed:
        return False
    body = state.body_of(panel[0])
    if over[0] not in body.parts or over not in stack_of(body, panel).order:
        return False
    seen = facing(state, body, panel)
    return overlap_area(polygon_in_view(state, seen, over), polygon_in_view(state, seen, panel)) > COVERS
