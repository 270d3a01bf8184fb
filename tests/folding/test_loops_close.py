"""Every state of every box, bag and pop-up closes to far less than a hundredth of a millimetre and of a degree."""

from pathlib import Path

import pytest

from creasewright.folding.closing_error import closing
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import made, with_steps

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
CONSTRUCTIONS = Path(__file__).parents[1] / "reading" / "constructions"


@pytest.mark.parametrize("system", ["mm", "in"])
@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
def test_all_loops_of_every_design_close_in_every_state_and_stage(design, system):
    worked = work_out(read_design(design), system, 1)
    states = [run.after for assembly in worked.assemblies for run in assembly.runs] + [stage.state for stage in worked.stages]
    found = [closing(state) for state in states]
    assert max(one.mm for one in found) < 0.01
    assert max(one.degrees for one in found) < 0.01


@pytest.mark.parametrize("system", ["mm", "in"])
@pytest.mark.parametrize("name", ["tray-and-lid", "hexagonal-box", "gusseted-bag", "pop-up-step-card"])
def test_all_loops_of_a_construction_close_in_every_state_and_stage(name, system):
    worked = work_out(read_design(CONSTRUCTIONS / f"{name}.yaml"), system, 1)
    states = [run.after for assembly in worked.assemblies for run in assembly.runs]
    states += [stage.state for stage in worked.stages]
    assert all(run.refused is None for assembly in worked.assemblies for run in assembly.runs)
    found = [closing(state) for state in states]
    assert max(one.loops for one in found) > 0
    assert max(one.mm for one in found) < 1e-4
    assert max(one.degrees for one in found) < 1e-4


def test_loops_are_counted_as_links_beyond_a_tree():
    # four panels round one point are joined by four scores: one more than a tree of four needs
    state = made(with_steps("sheet: {across: [a: 50 mm, b: 50 mm], down: [top: 50 mm, foot: 50 mm]}", "{fold: a/b}"))
    assert closing(state).loops == 1
    strip = made(with_steps("strip: {height: 50 mm, across: [a: 50 mm, b: 50 mm, c: 50 mm]}", "{fold: a/b, to: 37}"))
    assert (closing(strip).loops, closing(strip).mm) == (0, 0.0)
