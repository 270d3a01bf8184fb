"""A template with a page to itself: in the middle of its window, its long measure beside it. Letter's window is 187.9 x 218.4 mm."""

from math import hypot

import pytest

from booklet.tiling.test_tile_pages import corners, shapes
from creasewright.booklet.tiling.in_the_middle import in_the_middle
from creasewright.booklet.tiling.long_measure import OUTSIDE, measures_beside
from creasewright.booklet.tiling.placing import Layout, drawn_lines, place
from creasewright.booklet.tiling.spots import moved
from creasewright.booklet.tiling.template import TemplateScore
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.geometry.point import Point
from creasewright.pdf.fonts import FontRuler
from template_cases import outline_of, rectangle, template_of, tray

LETTER = PageSize(215.9, 279.4)
WINDOW = window_of(LETTER)


def alone(template):
    return Layout((place(template, 0.0, 6.0, 6.0),), ((0, 0),))


def middles(layout):
    """How far the middle of all that is placed lies off the window's."""
    left, head = min(one.left for one in layout.placed), min(one.head for one in layout.placed)
    right, tail = max(one.left + one.width for one in layout.placed), max(one.head + one.height for one in layout.placed)
    return abs(left + right - WINDOW.width) / 2, abs(head + tail - WINDOW.height) / 2


@pytest.mark.parametrize("size", [(60, 140), (150, 150), (10, 10)])
def test_what_is_on_one_page_stands_in_its_middle_within_half_a_millimetre(size):
    found = in_the_middle(alone(rectangle("a", *size)), WINDOW, 60.0)
    assert max(middles(found)) <= 0.5
    assert (found.placed[0].width, found.placed[0].height) == size


def test_several_on_one_page_move_together():
    two = Layout((place(rectangle("a", 50, 40), 0.0, 6.0, 6.0), place(rectangle("b", 30, 80), 90.0, 6.0, 60.0)), ((0, 0),))
    found = in_the_middle(two, WINDOW, 60.0)
    assert max(middles(found)) <= 0.5
    steps = {(after.left - before.left, after.head - before.head) for before, after in zip(two.placed, found.placed, strict=True)}
    assert len(steps) == 1


def test_the_check_square_keeps_its_place():
    # full of scores, 90 wide: in the middle 49 mm are left on either side, and the square asks for 60; moved down only it has them
    scores = tuple(TemplateScore(f"s{k}", Point(20.0 * k, 0.0), Point(20.0 * k, 200.0), "valley") for k in range(1, 5))
    found = in_the_middle(alone(rectangle("pleats", 90, 200, scores=scores)), WINDOW, 60.0)
    across, down = middles(found)
    assert found.placed[0].left == 6.0 and across > 40 and down <= 0.5


def test_a_line_beside_the_template_measures_it_and_touches_nothing_of_it():
    slope = template_of("slope", outline_of([(0, 40), (30, 0), (60, 0), (60, 140), (0, 140)]), ())
    placed = place(slope, 0.0, 60.0, 40.0)
    found = measures_beside(placed)
    assert [measure.length for measure in found] == pytest.approx([140.0, 140.0])
    assert [measure.start[0] for measure in found] == pytest.approx([120.0 + OUTSIDE, 60.0 - OUTSIDE])
    # at the head the edge begins 30 mm from the left; the line from it to the left begins 0.9 mm off that
    assert found[1].extensions[0] == pytest.approx((60.0 + 30.0 - 0.9, 40.0, 60.0 - OUTSIDE - 1.3, 40.0))
    for measure in found:
        ends = [spot for line in measure.extensions for spot in (line[:2], line[2:])]
        corners_of = [spot for line in drawn_lines((placed,)).cuts for spot in (line[:2], line[2:])]
        assert min(hypot(x - a, y - b) for x, y in ends for a, b in corners_of) == pytest.approx(0.9)


def test_a_length_within_the_template_has_no_line_beside_it():
    # upright edges lie 100 mm apart, and two corners reach 10 mm over them
    kite = template_of("kite", outline_of([(0, 50), (10, 20), (10, 0), (110, 0), (110, 20), (120, 50), (110, 80), (10, 80)]), ())
    assert measures_beside(place(kite, 0.0, 20.0, 20.0)) == []


@pytest.mark.parametrize(
    ("template", "outside"),
    # 127 mm wide it leaves 30 mm on either side: too little for the words
    [(rectangle("slip", 60, 140), True), (rectangle("low", 150, 100), True), (rectangle("board", 127, 160), False)],
    ids=("slip", "low", "board"),
)
def test_the_long_measure_stands_beside_a_template_where_there_is_room(template, outside):
    done = tile_templates((template,), LETTER, FontRuler(), TileWords())
    (page,) = done.pages
    assert len(shapes(page, "long measure extension")) == (2 if outside else 0)
    (tile,) = done.tiles
    wide, high = max(x for x, _ in template.polygon), max(y for _, y in template.polygon)
    pt = 72 / 25.4
    for shape in shapes(page, "long measure"):
        for x, y in corners(shape):
            bx, by = moved(tile.to_blank, (x * pt, (LETTER.height - y) * pt))
            within = -1e-6 <= bx <= wide + 1e-6 and -1e-6 <= by <= high + 1e-6
            assert within is not outside
    assert done.squares_over == ("nothing",)


def test_a_template_over_several_pages_keeps_its_measure_across_it():
    done = tile_templates((tray(),), LETTER, FontRuler(), TileWords())
    assert len(done.pages) > 1
    assert not any(shapes(page, "long measure extension") for page in done.pages)
