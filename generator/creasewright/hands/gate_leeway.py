"""How far what a gate measures may be off by good hands alone: its error, carried through cuts, scores and placements.

The measured place is the straight edge or fold that bounds the measure; over all, where several lie there, the pair that errs most.
"""

from fractions import Fraction
from functools import lru_cache
from itertools import product

from creasewright.fitting.gate_measures import LAID, READS, Measure
from creasewright.fitting.gates import Gate, gates_of
from creasewright.fitting.worked import Worked
from creasewright.folding.state import PanelKey
from creasewright.hands.carried import added, root_sum_square
from creasewright.hands.clearance import making_of
from creasewright.hands.error_table import HandErrors
from creasewright.hands.made_places import Places, along, shifts_from
from creasewright.hands.seen_lines import SeenLine, in_world, seen_lines
from creasewright.units.ruler import nearest_multiple

NEAR = 1.0
"""mm: thickness may part the rim of what stands from the edge that bounds it."""
AXIS = {"width": 0, "height": 1}


def leeway_mark(worked: Worked, gate: Gate, errors: HandErrors) -> Fraction | None:
    """The nearest mark of the maker's ruler, one at least, mm; None where a mistake that the ruler tells is not farther off."""
    leeway = gate_leeway(worked, gate, errors)
    if leeway is None:
        return None
    step = worked.ruler.step_mm
    mark = max(step, nearest_multiple(Fraction(leeway), step))
    off = [abs(one.mm - gate.measure.mm) for one in gate.symptoms if one.mm is not None]
    return mark if all(mark < each for each in off if each >= READS) else None


def gate_leeway(worked: Worked, gate: Gate, errors: HandErrors) -> float | None:
    """mm, 95 %, as all hand errors; None up from the table, and where no straight lines bound the measure."""
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
    axis = AXIS.get(gate.measure.way)
    if axis is None:
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
    """The lines nearest to the end of the measure; those of the measured panel itself before all others."""
    every = [line for panel in _panels(gate) for line in seen_lines(gate.state, gate.body, panel, axis)]
    near = [line for line in every if abs(line.at - value) < NEAR]
    own = [line for line in near if _is_measured(gate.measure, line.panel)] or near
    least = min((abs(line.at - value) for line in own), default=0.0)
    return [line for line in own if abs(line.at - value) < least + 0.05]


def _panels(gate: Gate) -> list[PanelKey]:
    return [(part, panel.name) for part in sorted(gate.body.parts) for panel in gate.state.blanks[part].panels]


def _is_measured(measure: Measure, panel: PanelKey) -> bool:
    """Of a border: at its inner end the part that was laid, at the outer one nothing of it."""
    if measure.sides:
        return panel[0] == measure.part
    return measure.part != LAID and (measure.part, measure.panel) == panel
