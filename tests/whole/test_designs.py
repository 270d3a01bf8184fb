"""The designs that come with the program, worked out whole, in both systems."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from creasewright.checks.every_check import every_finding
from creasewright.checks.facts import Facts
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import demand, plans_of
from creasewright.cutting.verify import faults_of
from creasewright.fitting.worked import Worked
from creasewright.folding.state import State
from creasewright.folding.transforms import held_at
from creasewright.geometry.clip import area
from creasewright.geometry.rigid_transform import compose
from creasewright.measures import evaluate
from creasewright.problems import NOTES
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
BOTH = [(path, system) for path in DESIGNS for system in ("in", "mm")]
# a personal trimmer as a guild member has it: 12 in of cut; common practice, no source
TRIMMERS = {
    "in": Trimmer(Fraction(1524, 5), Fraction(127, 10), Fraction(127, 40)),
    "mm": Trimmer(Fraction(310), Fraction(12), Fraction(3)),
}


def worked(path: Path, system: str) -> Worked:
    return work_out(read_design(path), system)


def named(pair: tuple[Path, str]) -> str:
    return f"{pair[0].stem}-{pair[1]}"


def test_every_design_that_comes_with_the_program_is_named_here():
    assert [path.stem for path in DESIGNS] == [
        "bulb-bag",
        "bulb-pillow",
        "bulb-pot",
        "garden-journal",
        "open-day-card",
        "plant-diary",
        "recipe-booklet",
        "season-album",
        "seed-packet-envelope",
        "seed-swap-folio",
        "seedling-box",
        "swap-day-card",
        "welcome-card",
    ]


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_a_design_of_ours_works_out_with_nothing_that_blocks_or_warns(pair: tuple[Path, str]):
    found = worked(*pair)
    facts = Facts(found, plans_of(found, TRIMMERS[pair[1]]), TRIMMERS[pair[1]])
    assert [str(finding) for finding in every_finding(facts) if finding.severity != NOTES] == []
    assert all(run.refused is None for assembly in found.assemblies for run in assembly.runs)
    assert len(found.pieces) >= 1


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_working_out_twice_gives_one_and_the_same_record(pair: tuple[Path, str]):
    design = read_design(pair[0])
    first, second = work_out(design, pair[1]), work_out(design, pair[1])
    assert first.pieces == second.pieces
    assert first.measures == second.measures
    assert first.lies == second.lies
    assert first.notes == second.notes
    assert [stage.state for stage in first.stages] == [stage.state for stage in second.stages]
    assert [stage.faces for stage in first.stages] == [stage.faces for stage in second.stages]
    assert first.finished == second.finished
    # and so does reading the file again, but for nothing
    third = work_out(read_design(pair[0]), pair[1])
    assert third.pieces == first.pieces
    assert [stage.state for stage in third.stages] == [stage.state for stage in first.stages]


def states(found: Worked) -> Iterator[State]:
    for assembly in found.assemblies:
        for run in assembly.runs:
            yield run.after


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_panels_add_up_to_their_blanks_and_every_layer_is_listed_once(pair: tuple[Path, str]):
    found = worked(*pair)
    for blank in found.blanks:
        assert sum(panel.area for panel in blank.panels) <= float(blank.width * blank.height) + 1e-6
        for panel in blank.panels:
            assert abs(area(panel.polygon)) == pytest.approx(panel.area, rel=2e-3)
    for state in states(found):
        listed = [key for body in state.bodies for stack in body.stacks for key in stack.order]
        assert sorted(listed) == sorted(state.placed)


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_what_is_bonded_moves_as_one(pair: tuple[Path, str]):
    for state in states(worked(*pair)):
        for bond in state.bonds:
            there, here = state.placed[bond.second], compose(state.placed[bond.first], held_at(state, bond, state.angles))
            assert there.turn == pytest.approx(here.turn, abs=1e-9)
            assert there.shift == pytest.approx(here.shift, abs=1e-6)


def test_a_formula_reaches_nothing_but_numbers_and_names():
    # a formula is parsed by us: nothing of Python is called by name or by text
    source = Path(evaluate.__file__).read_text(encoding="utf-8")
    for word in ("eval(", "exec(", "getattr(", "__import__", "compile("):
        assert word not in source


def test_the_folio_is_cut_as_four_strips_of_two_hands_and_four_cards():
    found = worked(next(path for path in DESIGNS if path.stem == "seed-swap-folio"), "mm")
    # two blocks, the second mirrored, each with a strip of either hand and two cards; in the order of the design
    assert [(piece.names[0], piece.count) for piece in found.pieces] == [
        ("left strip", 2), ("right strip", 2), ("connector", 1), ("cover mat", 1), ("seed card", 4)
    ]  # fmt: skip
    assert [piece.mirror for piece in found.pieces] == ["B", "A", None, None, None]


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_the_sheet_plans_of_every_design_hold_against_an_independent_check(pair: tuple[Path, str]):
    found = worked(*pair)
    plans = plans_of(found, TRIMMERS[pair[1]])
    assert [plan.paper for plan in plans] == [name for name in found.papers if demand(found, found.papers[name])]
    for plan in plans:
        assert faults_of(plan, demand(found, found.papers[plan.paper])) == []
