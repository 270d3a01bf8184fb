"""How far what a gate measures may be off by good hands alone: its error, carried through cuts, scores and placements.

The measured place is the straight edge or fold that bounds the measure, or the corner or rounding that it ends in; over all, where several
lie there, the pair that errs most.
"""

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from itertools import product

from creasewright.fitting.gate_measures import LAID, Measure
from creasewright.fitting.gates import Gate, gates_of
from creasewright.fitting.worked import Worked
from creasewright.folding.state import Body, PanelKey, State
from creasewright.hands.carried import added, root_sum_square
from creasewright.hands.clearance import making_of
from creasewright.hands.error_table import HandErrors
from creasewright.hands.made_places import Places, along, shifts_from
from creasewright.hands.seen_lines import SeenLine, in_world, seen_lines
from creasewright.hands.seen_tips import seen_tips
from creasewright.units.ruler import nearest_multiple

NEAR = 1.0
"""mm: thickness may part the rim of what stands from the edge that bounds it."""
AXIS = {"width": 0, "height": 1, "depth": 2}


def leeway_mark(worked: Worked, gate: Gate, errors: HandErrors) -> Fraction | None:
    """The nearest mark of the maker's ruler, one at least, mm; None where a mistake that the ruler tells is not farther off."""
    leeway = gate_leeway(worked, gate, errors)
    if leeway is None:
        return None
    step = worked.ruler.step_mm
    mark = max(step, nearest_multiple(Fraction(leeway), step))
    return mark if all(mark < off for one in gate.symptoms if (off := gate.off(one))) else None


def gate_leeway(worked: Worked, gate: Gate, errors: HandErrors) -> float | None:
    """mm, 95 %, as all hand errors; None where no line and no tip bounds the measure (bent panels), and up from the table where something
    only rests on the rest (a lid set over a box): on what it comes to rest is not followed."""
    return _leeways(worked, errors)[_key(gate)]


@lru_cache(maxsize=8)
def _leeways(worked: Worked, errors: HandErrors) -> dict[tuple[str, int, str], float | None]:
    """Of every gate; those of a mirrored assembly are its original's."""
    places = making_of(worked, errors).places
    gates = {_key(gate): gate for of_one in gates_of(worked).values() for gate in of_one}
    return {key: _worst(gate, places, errors) for key, gate in gates.items()}


def _key(gate: Gate) -> tuple[str, int, str]:
    return gate.assembly, gate.number, gate.kind


def _worst(gate: Gate, places: Places, errors: HandErrors) -> float | None:
    axis = AXIS[gate.measure.way]
    if gate.measure.way == "depth" and any(bond.kind == "place" and bond.first[0] in gate.body.parts for bond in gate.state.bonds):
        return None
    lows, highs = (_bounding(gate, axis, end[axis]) for end in (gate.measure.start, gate.measure.end))
    if not lows or not highs:
        return None
    shifts = shifts_from(gate.state, gate.body.parts, places, lows[0].panel)
    way = in_world(gate.body, axis)
    low_ends, high_ends = (
        [added(along(shifts[line.panel], way), line.slopes) for line in lines if line.panel in shifts] for lines in (lows, highs)
    )
    sizes = (root_sum_square(added(high, low, -1.0), errors) for low, high in product(low_ends, high_ends))
    return max(sizes, default=None)


def _bounding(gate: Gate, axis: int, value: float) -> list[SeenLine]:
    """The lines nearest to the end of the measure; those of the measured panel itself before all others. Where none ends it a tip does."""
    near = _near(gate, seen_lines, axis, value) or _near(gate, seen_tips, axis, value)
    own = [line for line in near if _is_measured(gate.measure, line.panel)] or near
    least = min((abs(line.at - value) for line in own), default=0.0)
    return [line for line in own if abs(line.at - value) < least + 0.05]


def _near(gate: Gate, seen: Callable[[State, Body, PanelKey, int], list[SeenLine]], axis: int, value: float) -> list[SeenLine]:
    every = [line for panel in _panels(gate) for line in seen(gate.state, gate.body, panel, axis)]
    return [line for line in every if abs(line.at - value) < NEAR]


def _panels(gate: Gate) -> list[PanelKey]:
    return [(part, panel.name) for part in sorted(gate.body.parts) for panel in gate.state.blanks[part].panels]


def _is_measured(measure: Measure, panel: PanelKey) -> bool:
    """Of a border: at its inner end the part that was laid, at the outer one nothing of it."""
    if measure.sides:
        return panel[0] == measure.part
    return measure.part != LAID and (measure.part, measure.panel) == panel
