"""The sewn booklet and the gate-fold card at the ends of their ranges, and what makes each of them what it is."""

from fractions import Fraction
from functools import lru_cache
from itertools import product
from math import pi
from pathlib import Path

import pytest

from creasewright.checks.every_check import every_finding
from creasewright.checks.facts import Facts
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.fitting.worked import Worked
from creasewright.folding.transforms import held_at
from creasewright.geometry.rigid_transform import compose
from creasewright.joining.nested_leaves import nests
from creasewright.problems import NOTES
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out

DESIGNS = Path(__file__).parents[2] / "designs"
# a personal trimmer as a guild member has it: 12 in of cut; common practice, no source
TRIMMERS = {
    "in": Trimmer(Fraction(1524, 5), Fraction(127, 10), Fraction(127, 40)),
    "mm": Trimmer(Fraction(310), Fraction(12), Fraction(3)),
}


def ends_of(name: str) -> list[dict[str, str]]:
    """Every way to set each measure that has a range to one of its ends."""
    ranged = [m for m in read_design(DESIGNS / f"{name}.yaml").measures if m.lowest is not None and m.highest is not None]
    return [
        {m.name: str(end) for m, end in zip(ranged, ends, strict=True)}
        for ends in product(*((m.lowest, m.highest) for m in ranged))
    ]


CASES = [(name, system, ends) for name in ("recipe-booklet", "open-day-card") for system in ("in", "mm") for ends in ends_of(name)]


@lru_cache(maxsize=4)
def usual(name: str, system: str) -> Worked:
    return work_out(read_design(DESIGNS / f"{name}.yaml"), system)


@pytest.mark.parametrize(("name", "system", "ends"), CASES, ids=[f"{n}-{s}-{' '.join(e.values())}" for n, s, e in CASES])
def test_at_every_end_of_its_ranges_it_can_be_built_and_nothing_warns(name: str, system: str, ends: dict[str, str]):
    design = read_design(DESIGNS / f"{name}.yaml")
    worked = work_out(design, system, settings=ends)
    facts = Facts(worked, plans_of(worked, TRIMMERS[system]), TRIMMERS[system])
    assert [str(finding) for finding in every_finding(facts) if finding.severity != NOTES] == []


@pytest.mark.parametrize("system", ["in", "mm"])
def test_the_booklet_closes_on_its_sewn_line(system: str):
    worked = usual("recipe-booklet", system)
    assert worked.finished is not None
    state = worked.finished.state
    hinges = [bond for bond in state.bonds if bond.hinge is not None]
    assert len(hinges) == 2
    for bond in hinges:
        there, here = state.placed[bond.second], compose(state.placed[bond.first], held_at(state, bond, state.angles))
        assert there.turn == pytest.approx(here.turn, abs=1e-9)
        assert there.shift == pytest.approx(here.shift, abs=1e-6)
    (leaves,) = nests(state)
    assert [leaf.part.split("/")[-1] for leaf in leaves] == [f"leaf {k}" for k in range(1, 6)]


def test_the_thread_of_the_booklet_is_as_long_as_its_way_and_two_ends():
    (sewing,) = usual("recipe-booklet", "mm").finished.state.sewings
    # holes at 25, 70, 115: 45 + 90 + 45; four times through five leaves of 0.11 and a cover of 0.27; 100 at either end
    assert sewing.length == pytest.approx(180 + 4 * (5 * 0.11 + 0.27) + 200)


def test_the_trim_takes_off_what_the_creep_pushed_out():
    (trim,) = usual("recipe-booklet", "mm").finished.state.trims
    # creep (sheets - 1) t of the innermost of five: two imposition manuals
    assert max(off for _, off in trim.leaves) == pytest.approx(4 * 0.11)


@pytest.mark.parametrize("system", ["in", "mm"])
def test_the_band_goes_round_the_card_with_its_lap_and_a_little_ease(system: str):
    worked = usual("open-day-card", system)
    (closure,) = worked.finished.state.closures
    width, _, thick = worked.finished.size
    # the band's own three layers (it laps) are in the thickness over all, but not under the band
    assert closure.girth == pytest.approx(2 * (width + thick - 3 * closure.thick), abs=0.01)
    # Steiner: the middle line of a band of caliper t is pi t longer than what it goes round
    spare = closure.has - closure.girth - pi * closure.thick - closure.extra
    assert 0 <= spare <= 3.5
