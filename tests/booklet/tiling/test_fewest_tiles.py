"""The grid of tiles: as few as can be, none blank, joins away from detail."""

from math import ceil, cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from creasewright.booklet.tiling.bands import spans_in_band
from creasewright.booklet.tiling.grid import printed_cells, tile_over_pages
from creasewright.booklet.tiling.page_map import as_text, page_map
from creasewright.booklet.tiling.spots import moved_polygon
from creasewright.booklet.tiling.template import TemplateScore
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.geometry.point import Point
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
