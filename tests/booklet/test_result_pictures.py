"""The picture of a result: what stands bears its length, width and height where they end at its corners."""

import pytest

from booklet.square_ruler import SquareRuler
from creasewright.booklet.diagrams.axonometric import draw_space, largest_scale
from creasewright.booklet.diagrams.boxes import box_of, path_lines, words_box
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.drawing import Shape, Words
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.result_pictures import result_picture
from creasewright.booklet.step_views import StepPicture
from creasewright.fitting.worked import Worked
from section_cases import every_item, shipped
from small_designs import worked_of

RULER = SquareRuler()
BOX = """
blanks:
  tray:
    base: {width: 100 mm, height: 80 mm}
    flaps:
      wall: {at: each edge of base, depth: 30 mm}
steps:
  - {lay: tray, up: back}
  - {fold: [wall 1, wall 3, wall 2, wall 4], to: 90}
"""


def result(worked: Worked, assembly: int = -1) -> StepPicture:
    steps = pictured_steps(worked)[assembly]
    return result_picture(steps.runs[-1].after, steps.runs[-1].parts, steps.parts)


def test_a_box_bears_all_three_along_the_edges_that_are_seen() -> None:
    scene = result(worked_of(BOX)).space
    assert scene is not None
    found = {one.text.removeprefix("≈ "): one for one in scene.dimensions}
    assert set(found) == {"100 mm", "80 mm", "30 mm"}
    # towards the maker, to the left and at the right corner; x right, y towards the maker, z down
    assert [found[text].offset_axis for text in ("100 mm", "80 mm", "30 mm")] == [(0, 1, 0), (-1, 0, 0), (1, 0, 0)]
    wide, deep, tall = (found[text] for text in ("100 mm", "80 mm", "30 mm"))
    assert wide.end == pytest.approx(tall.end)
    assert wide.start == pytest.approx(deep.end)


def test_what_has_no_corners_there_bears_none_and_what_lies_flat_is_a_plan() -> None:
    pot = result(shipped("bulb-pot", "mm")).space
    assert pot is not None and pot.dimensions == ()
    assert result(shipped("swap-day-card", "mm")).plan is not None


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("assembly", [0, 1])
def test_at_the_scale_that_fits_they_are_set_over_nothing_and_stay_in_the_box(system: str, assembly: int) -> None:
    scene = result(shipped("seedling-box", system), assembly).space
    assert scene is not None and len(scene.dimensions) == 3
    name, _ = largest_scale(scene, 85, 82, ruler=RULER)
    picture = draw_space(scene, 85, 82, scale=name, ruler=RULER)
    assert overlaps(picture.items, RULER) == []
    items = list(every_item(picture.items))
    boxes = [words_box(item, RULER) for item in items if isinstance(item, Words)]
    spots = [spot for item in items if isinstance(item, Shape) for line in path_lines(item.path) for spot in line]
    spots += [spot for box in boxes for spot in ((box.x0, box.y0), (box.x1, box.y1))]
    assert box_of(spots).width <= 85
