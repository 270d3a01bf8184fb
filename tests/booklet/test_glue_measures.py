"""How wide adhesive is and how far it stands back, as pictures show it: between which lines."""

from math import hypot

import pytest

from creasewright.booklet.diagrams.scene import Dimension, Polygon2
from creasewright.booklet.glue_measures import SETBACK, WIDTH, glue_dimensions
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.units.ruler import MM_RULER
from section_cases import DESIGNS, shipped, written

RULER = MM_RULER
PLACE: Polygon2 = ((0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0))


def strip(x0: float, y0: float, x1: float, y1: float) -> Polygon2:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def ends(dim: Dimension) -> list[tuple[float, float]]:
    return sorted((round(x, 3), round(y, 3)) for x, y in (dim.start, dim.end))


def test_a_strip_is_measured_across_and_from_the_edge_that_it_runs_beside() -> None:
    # 6 mm wide, 3 mm from the tail edge, at its middle
    width, back = glue_dimensions(strip(3, 31, 57, 37), [PLACE], 6.0, 3.0, RULER)
    assert (width.text, ends(width)) == ("6 mm", [(30, 31), (30, 37)])
    assert (back.text, ends(back)) == ("3 mm", [(30, 37), (30, 40)])


def test_adhesive_all_over_is_measured_from_its_longest_edge_only() -> None:
    (back,) = glue_dimensions(strip(3, 3, 57, 37), [PLACE], 0.0, 3.0, RULER)
    assert back.of == SETBACK
    assert ends(back)[0][0] == ends(back)[1][0] == 30


def test_a_distance_that_no_edge_has_is_not_shown() -> None:
    assert glue_dimensions(strip(3, 31, 57, 37), [PLACE], 6.0, 5.0, RULER) == ()


def test_a_measure_stands_where_nothing_is_held_over_it() -> None:
    over = strip(10, 20, 40, 60)
    for dim in glue_dimensions(strip(3, 31, 57, 37), [PLACE], 6.0, 3.0, RULER, [over]):
        assert not 10 <= dim.start[0] <= 40
    assert glue_dimensions(strip(3, 31, 57, 37), [PLACE], 6.0, 3.0, RULER, [strip(-9, 20, 99, 60)]) == ()


def test_an_edge_aslant_is_measured_square_to_itself() -> None:
    # a square stood on its corner; the strip runs 2 mm inside its lower right side, sqrt(2) mm lower and to the left on each axis
    r = 2**0.5
    place = ((40.0, 0.0), (80.0, 40.0), (40.0, 80.0), (0.0, 40.0))
    glue = ((72.0 - 2 * r, 48.0), (48.0, 72.0 - 2 * r), (48.0 - 4 * r, 72.0 - 6 * r), (72.0 - 6 * r, 48.0 - 4 * r))
    width, back = glue_dimensions(glue, [place], 8.0, 2.0, RULER)
    for dim, size in ((width, 8.0), (back, 2.0)):
        dx, dy = dim.end[0] - dim.start[0], dim.end[1] - dim.start[1]
        assert hypot(dx, dy) == pytest.approx(size)
        assert dx == pytest.approx(dy)


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_every_measure_of_adhesive_is_as_long_as_it_says_and_stands_in_one_picture(design: str, system: str) -> None:
    worked = shipped(design, system)
    for steps in pictured_steps(worked):
        every = [dim for picture in steps.pictures if picture.plan for dim in picture.plan.dimensions if dim.of]
        assert len(every) == len({(dim.of, dim.text) for dim in every})
        for run, picture in zip(steps.runs, steps.pictures, strict=True):
            areas = run.after.glue[len(run.before.glue) :]
            for dim in picture.plan.dimensions if picture.plan else ():
                if dim.of in (WIDTH, SETBACK):
                    asked = {area.width if dim.of == WIDTH else area.setback for area in areas}
                    length = hypot(dim.end[0] - dim.start[0], dim.end[1] - dim.start[1])
                    assert any(length == pytest.approx(size, abs=0.06) for size in asked), written(dim.text)
