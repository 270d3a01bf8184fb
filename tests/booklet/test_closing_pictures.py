"""Operations on flat pieces: how much a rounded corner loses."""

import pytest

from creasewright.booklet.closing_pictures import RADIUS
from creasewright.booklet.diagrams.scene import Dimension
from creasewright.booklet.pictured_steps import pictured_steps
from small_designs import with_steps, worked_of


def rounded(corners: str) -> tuple[Dimension, ...]:
    card = f"card: {{width: 60 mm, height: 40 mm, corners: {corners}}}"
    (steps,) = pictured_steps(worked_of(with_steps(card, "{round: card}")))
    plan = steps.pictures[0].plan
    assert plan is not None
    return plan.dimensions


@pytest.mark.parametrize(
    ("corners", "x", "y"),
    # from the corner, where the edges would meet, to where the curve ends on the level edge
    [("{all: {round: 6 mm}}", (54, 60), 40), ("{tail-left: {round: 6 mm}}", (0, 6), 40), ("{head-left: {round: 6 mm}}", (0, 6), 0)],
)
def test_a_radius_is_measured_along_the_level_edge_of_a_corner(corners: str, x: tuple[float, float], y: float) -> None:
    (dim,) = rounded(corners)
    assert (dim.text, dim.of) == ("6 mm", RADIUS)
    assert sorted((dim.start[0], dim.end[0])) == pytest.approx(x, abs=0.02)
    assert dim.start[1] == dim.end[1] == pytest.approx(y, abs=0.02)


def test_each_radius_of_a_piece_is_shown_once() -> None:
    found = rounded("{head-left: {round: 12 mm}, tail-left: {round: 6 mm}, tail-right: {round: 6 mm}}")
    assert sorted(dim.text for dim in found) == ["12 mm", "6 mm"]
