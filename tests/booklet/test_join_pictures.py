"""Measures of parts on their places: those of boards on a cover that is bigger than they are."""

import pytest

from creasewright.booklet.diagrams.scene import Dimension
from creasewright.booklet.pictured_steps import pictured_steps
from section_cases import shipped, written


def laid(design: str, system: str, step: int) -> tuple[Dimension, ...]:
    every = pictured_steps(shipped(design, system))
    steps = next(each for each in every if any(blank.wrap for blank in each.runs[0].after.blanks.values()))
    plan = steps.pictures[step - 1].plan
    assert plan is not None
    return plan.dimensions


@pytest.mark.parametrize(("system", "rim", "gap"), [("in", "5/8 in", "1/4 in"), ("mm", "15 mm", "7 mm")])
def test_boards_on_a_cover_are_measured_from_its_edge_and_from_one_another(system: str, rim: str, gap: str) -> None:
    edge, between = laid("garden-journal", system, 2)
    assert [written(dim.text) for dim in (edge, between)] == [rim, gap]
    # from the cover's left edge to the first board, from there on to the spine board, all along one level line
    assert edge.start[0] < edge.end[0] < between.start[0] < between.end[0]
    assert len({round(y, 3) for dim in (edge, between) for _, y in (dim.start, dim.end)}) == 1
    size = 25.4 * 0.625 if system == "in" else 15.0
    assert edge.end[0] - edge.start[0] == pytest.approx(size, abs=0.01)


def test_one_board_alone_has_no_gap() -> None:
    assert [dim.text for dim in laid("season-album", "mm", 2)] == ["15 mm"]
