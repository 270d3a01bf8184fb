"""The grid of tiles: as few as can be, none blank, joins away from detail."""

from math import ceil, cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from creasewright.booklet.tiling.bands import spans_in_band
from creasewright.booklet.tiling.bound import hull, least_at, least_pages
from creasewright.booklet.tiling.grid import printed_cells, tile_over_pages
from creasewright.booklet.tiling.page_map import as_text, page_map
from creasewright.booklet.tiling.spots import moved_polygon
from creasewright.booklet.tiling.template import TemplateScore
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.geometry.point import Point
from creasewright.problems import ProblemsFound
from template_cases import l_shaped, outline_of, rectangle, template_of, tray, wheel

LETTER = window_of(PageSize(215.9, 279.4))
A4 = window_of(PageSize(210.0, 297.0))


def around(radii, across, down):
    """A polygon with one corner in each direction, stretched."""
    count = len(radii)
    return [(across * r * cos(2 * pi * k / count), down * r * sin(2 * pi * k / count)) for k, r in enumerate(radii)]


polygons = st.builds(around, st.lists(st.floats(0.3, 1.0), min_size=5, max_size=14), st.floats(60, 330), st.floats(60, 330))


@given(polygons, st.sampled_from([LETTER, A4]))
def test_the_tiles_put_together_are_the_whole_piece_and_none_is_blank(corners, window):
    layout = tile_over_pages(template_of("piece", outline_of(corners)), window)
    placed = layout.placed[0]
    piece = Polygon(moved_polygon(placed.to_grid, placed.template.polygon))
    parts = [
        piece.intersection(box(c * window.width, r * window.height, (c + 1) * window.width, (r + 1) * window.height))
        for r, c in layout.printed
    ]
    assert sum(part.area for part in parts) == pytest.approx(piece.area, abs=0.05 * piece.length)
    assert all(part.area > 0 for part in parts)
    assert len(set(layout.printed)) == len(layout.printed)


@given(polygons, st.sampled_from([LETTER, A4]))
def test_the_count_is_never_worse_than_the_plain_grid(corners, window):
    template = template_of("piece", outline_of(corners))
    left, head = min(x for x, _ in corners), min(y for _, y in corners)
    plain = printed_cells(tuple((x - left, y - head) for x, y in template.polygon), window)
    assert len(tile_over_pages(template, window).printed) <= len(plain)


@given(polygons)
def test_the_same_template_is_tiled_the_same_way_each_time(corners):
    template = template_of("piece", outline_of(corners))
    assert tile_over_pages(template, LETTER) == tile_over_pages(template, LETTER)


@given(polygons, st.floats(-300, 300), st.floats(1, 300))
def test_the_reach_of_a_polygon_in_a_band_is_what_cutting_it_gives(corners, head, depth):
    band = Polygon(corners).intersection(box(-1000, head, 1000, head + depth))
    spans = spans_in_band(tuple(corners), head, head + depth)
    if band.area < 1e-6:
        return
    assert (spans[0][0], spans[-1][1]) == pytest.approx((band.bounds[0], band.bounds[2]), abs=1e-6)


def test_blank_tiles_are_not_printed():
    assert as_text(page_map(tile_over_pages(l_shaped(), LETTER))) == "#.\n#.\n##"


def test_a_piece_as_large_as_two_windows_takes_two_pages():
    layout = tile_over_pages(rectangle("banner", 2 * LETTER.width, LETTER.height), LETTER)
    assert as_text(page_map(layout)) == "##"


def test_a_piece_is_turned_where_that_saves_pages():
    # 210 x 180: across 187.9 it takes two letter pages, turned it is 180 x 210 and fits 187.9 x 218.4
    layout = tile_over_pages(rectangle("lid", 210, 180), LETTER)
    assert (layout.placed[0].turn, len(layout.printed)) == (90, 1)


def test_joins_keep_15_mm_from_the_scores_and_edges_that_run_along_them():
    layout = tile_over_pages(tray(), LETTER)
    placed = layout.placed[0]
    assert layout.near_joins == ()
    assert placed.turn == 0
    joins = [k * LETTER.width - placed.left for k in range(1, layout.columns)]
    walls = [0, 50.8, 50.8 + 139.7, 2 * 50.8 + 139.7]
    assert min(abs(join - wall) for join in joins for wall in walls) >= 15 - 1e-6


def test_a_join_that_cannot_keep_its_distance_is_told():
    scores = tuple(TemplateScore(f"pleat {k}", Point(12.0 * k, 0.0), Point(12.0 * k, 100.0), "valley") for k in range(1, 25))
    layout = tile_over_pages(rectangle("concertina", 300, 100, scores=scores), LETTER)
    # pleats 12 mm apart: the best join runs half way between two, 6 mm from each; turned it does so as well
    assert [(near.template, round(near.clearance, 3)) for near in layout.near_joins] == [("concertina", 6.0)]


def test_a_round_piece_is_joined_across_its_middle_not_along_its_rim():
    layout = tile_over_pages(wheel("wheel", 130), LETTER)
    assert layout.near_joins == ()
    assert len(layout.printed) == ceil(260 / LETTER.width) * ceil(260 / LETTER.height)


def test_a_long_strip_is_laid_slantwise_where_that_saves_a_page():
    # 250 x 20 is longer than the window's 218.4, but its diagonal is 288.1: turned by about 50 degrees
    # it is 250 cos 50 + 20 sin 50 = 176.0 wide and 250 sin 50 + 20 cos 50 = 204.4 high
    layout = tile_over_pages(rectangle("band", 250, 20), LETTER)
    assert len(layout.printed) == 1
    assert 0 < layout.placed[0].turn % 90 < 90
    assert layout.least == 1


def test_nothing_is_slanted_where_straight_is_as_few():
    assert tile_over_pages(rectangle("banner", 2 * LETTER.width, LETTER.height), LETTER).placed[0].turn == 0
    assert tile_over_pages(tray(), LETTER).placed[0].turn == 0


@given(polygons, st.sampled_from([LETTER, A4]))
def test_no_count_is_under_the_bound(corners, window):
    layout = tile_over_pages(template_of("piece", outline_of(corners)), window)
    assert layout.least <= len(layout.printed)


@given(polygons, st.floats(0, 180))
def test_the_bound_holds_at_every_turn(corners, turn):
    whole = least_pages(tuple(corners), LETTER)
    assert whole <= least_at(hull(tuple(corners)), Polygon(corners).area, turn, LETTER)


@given(polygons)
def test_the_hull_is_that_of_another_library(corners):
    assert Polygon(hull(tuple(corners))).area == pytest.approx(Polygon(corners).convex_hull.area)


@pytest.mark.parametrize(
    ("width", "height", "least"),
    [
        (187, 218, 1),
        (300, 300, 3),  # two columns and two rows at any turn, in one piece: at least three windows; by area 90,000 / 41,037: 3
        (1000, 10, 5),  # straight down 4.58 windows; slanted never fewer than columns and rows less one
        (560, 650, 9),  # by area 364,000 / 41,037: 8.87
    ],
)
def test_the_bound_of_plain_shapes(width, height, least):
    assert least_pages(((0, 0), (width, 0), (width, height), (0, height)), LETTER) == least


def test_a_template_of_more_than_200_pages_gets_one_clear_line():
    sail = rectangle("sail", 4000, 3000)
    with pytest.raises(ProblemsFound) as caught:
        tile_over_pages(sail, LETTER)
    (problem,) = caught.value.problems
    # 4000 x 3000 / (187.9 x 218.4) = 292.4
    assert problem.what == "the template of `sail` would take 293 pages"
    assert problem.hint == "make the piece smaller, or mark it out with a ruler: templates go up to 200 pages"
