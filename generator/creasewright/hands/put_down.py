"""Every part that a step put down: by which lines it was laid to others, and so how it errs against the panel that holds it."""

from creasewright.fitting.worked import Worked
from creasewright.folding.references import RefFault
from creasewright.folding.state import Body, Bond, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, rotate, transposed
from creasewright.hands.carried import Cause, Slopes, added
from creasewright.hands.error_table import PLACED
from creasewright.hands.made_places import Held, Places, along, shifts_from
from creasewright.hands.seen_lines import in_world, lines_at
from creasewright.joining.board_places import wrap_of
from creasewright.joining.compass import box, facing, polygon_in_view
from creasewright.joining.placing import LineWish, line_value, middle_value
from creasewright.joining.refused import JoinRefused
from creasewright.joining.run_step import StepRun
from creasewright.reading import design


def places_of(worked: Worked) -> Places:
    """Of all assemblies, by the names that each of them uses. Mirror images are left out: there the eye alone counts."""
    found: Places = {}
    for assembly in worked.assemblies:
        if assembly.mirrored:
            continue
        for run in assembly.runs:
            for bond in new_bonds(run):
                found[(bond.first, bond.second)] = held(run, bond, found)
    return found


def new_bonds(run: StepRun) -> list[Bond]:
    """The first bond of each part that this step brought to another."""
    if run.refused is not None:
        return []
    seen: set[frozenset[str]] = set()
    found = []
    for bond in run.new_bonds:
        parts = frozenset((bond.first[0], bond.second[0]))
        before = run.before
        if parts in seen or any(part not in before.blanks for part in parts):
            continue
        if before.body_of(bond.first[0]).parts == before.body_of(bond.second[0]).parts:
            continue
        seen.add(parts)
        found.append(bond)
    return found


def held(run: StepRun, bond: Bond, places: Places) -> Held:
    state = run.after
    seen = facing(state, state.body_of(bond.first[0]), bond.first)
    own = wrap_of(state, bond.first[0]) is not None and not meets(run)
    ways: list[tuple[Vector, Slopes]] = []
    for axis, letter in ((0, "x"), (1, "y")):
        slopes: Slopes = {Cause(PLACED, bond.second[0], letter): 1.0}
        if not own:
            theirs, mine = met(run, bond, seen, axis, letter, places)
            slopes = added(added(slopes, theirs), mine, -1.0)
        into = transposed(state.placed[bond.first].turn)
        ways.append((rotate(into, in_world(seen, axis)), slopes))
    return Held(tuple(ways))


def meets(run: StepRun) -> tuple[tuple[design.MeetLine, design.MeetLine], ...]:
    action = run.written.action
    return action.meet.pairs if isinstance(action, design.Join) and action.meet is not None else ()


def met(run: StepRun, bond: Bond, seen: Body, axis: int, letter: str, places: Places) -> tuple[Slopes, Slopes]:
    """How the line that is met errs against the panel below, and the line that meets it against the part's own panel."""
    state = run.after
    mine = [b.second for b in run.new_bonds if b.second[0] == bond.second[0]]
    theirs = [b.first for b in run.new_bonds if b.second[0] == bond.second[0]]
    target, thing = (run.before.body_of(key[0]) for key in (bond.first, bond.second))
    for own, other in meets(run):
        try:
            way, value = line_value(state, seen, mine, LineWish(str(own.line), 0.0))
            if way == letter:
                found = middle_value(state, seen, theirs, LineWish(str(other.line), 0.0), letter)
                if found is not None:
                    return middle(state, seen, theirs, axis, target, bond.first, places), {}
                _, to = line_value(state, seen, theirs, LineWish(str(other.line), 0.0))
                return (
                    at(state, seen, target, axis, to, theirs, bond.first, places),
                    at(state, seen, thing, axis, value, mine, bond.second, places),
                )
        except (RefFault, JoinRefused, StopIteration):
            continue
    return (
        middle(state, seen, theirs, axis, target, bond.first, places),
        middle(state, seen, mine, axis, thing, bond.second, places),
    )


def at(
    state: State, seen: Body, body: Body, axis: int, value: float, panels: list[PanelKey], root: PanelKey, places: Places
) -> Slopes:
    """How the line at a place errs against the root; nothing where no straight line is found there."""
    every = [(part, panel.name) for part in sorted(body.parts) for panel in state.blanks[part].panels]
    line = next((line for panel in dict.fromkeys([*panels, *every]) for line in lines_at(state, seen, [panel], axis, value)), None)
    if line is None:
        return {}
    shift = shifts_from(state, body.parts, places, root).get(line.panel, {})
    return added(along(shift, in_world(seen, axis)), line.slopes)


def middle(
    state: State, seen: Body, panels: list[PanelKey], axis: int, body: Body, root: PanelKey, places: Places
) -> Slopes:
    """Half-way between the two sides of these panels."""
    sides = box([polygon_in_view(state, seen, panel) for panel in panels])
    low, high = (at(state, seen, body, axis, sides[k], panels, root, places) for k in (axis, axis + 2))
    return added(added({}, low, 0.5), high, 0.5)
