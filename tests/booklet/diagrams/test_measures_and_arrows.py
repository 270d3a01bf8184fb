"""Dimensions, lenses, fold arrows, glue hatch, action marks, tags: each by itself. The ruler: 10 pt is 1 mm a character."""

from itertools import pairwise
from math import hypot

import pytest
from flat_scenes import facet, rectangle
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from booklet.square_ruler import SquareRuler
from creasewright.booklet.diagrams.action_marks import action_mark
from creasewright.booklet.diagrams.boxes import Box, box_of, path_lines, words_box
from creasewright.booklet.diagrams.dimension_chains import PageDimension, chain_items, chains_of, levels, page_dimension
from creasewright.booklet.diagrams.dimension_line import DimensionLine, line_pieces, ticks, value_box, value_places
from creasewright.booklet.diagrams.fold_arrow import CLOSEST, SHORTEST, fold_arrow, fold_curve, tuck_edge, tuck_span
from creasewright.booklet.diagrams.glue_hatch import hatch_lines, hatch_spacing
from creasewright.booklet.diagrams.layer_spread import spread
from creasewright.booklet.diagrams.lens import APART, in_lenses, lens_drawing, lens_views, stands_clear
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.piece_tag import piece_tag
from creasewright.booklet.diagrams.plan_work import work_of
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Dimension, PlanScene, Spot
from creasewright.booklet.diagrams.slide_arrow import slide_span
from creasewright.booklet.drawing import Shape, Words

RULER = SquareRuler()
PLACES = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


def level_line(length: float) -> DimensionLine:
    return DimensionLine((0.0, 1.0), (length, 1.0), ((0.0, 7.0), (length, 7.0)), (0.0, 1.0), "x")


def test_a_long_line_has_its_value_in_a_gap_at_its_middle() -> None:
    place = next(value_places(level_line(40), (10.0, 3.0)))
    assert place.centre == (20.0, 7.0)
    # half the value and a millimetre on either side are left out of the line
    assert line_pieces(level_line(40), place)[:2] == [((0.0, 7.0), (14.0, 7.0)), ((26.0, 7.0), (40.0, 7.0))]


def test_a_line_too_short_for_a_gap_has_its_value_outward_on_the_same_axis() -> None:
    place = next(value_places(level_line(8), (10.0, 3.0)))
    assert place.gap == 0
    assert place.centre[0] == 4.0
    assert value_box(place, (10.0, 3.0)).y0 > 7.0 + 1.3


@given(PLACES, PLACES)
def test_a_slanting_line_leaves_the_whole_upright_value_clear(a: Spot, b: Spot) -> None:
    length = hypot(b[0] - a[0], b[1] - a[1])
    if length < 20:
        return
    outward = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
    dim = DimensionLine(a, b, (a, b), outward, "x")
    size = (9.0, 3.0)
    for place in value_places(dim, size):
        box = value_box(place, size)
        value = Polygon([(box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1)])
        pieces = line_pieces(dim, place)
        if place.gap:
            assert all(LineString(piece).distance(value) > 0.3 for piece in pieces)


def test_ticks_slant_by_45_degrees() -> None:
    for (ax, ay), (bx, by) in ticks(level_line(20)):
        assert bx - ax == pytest.approx(ay - by)


def side(low: float, high: float, text: str = "x") -> PageDimension:
    return PageDimension((low, 0.0), (high, 0.0), text, "tail")


def test_dimensions_that_follow_one_another_share_a_level_and_longer_ones_lie_outside() -> None:
    rows = levels([side(0, 50), side(0, 20), side(20, 30), side(30, 50)])
    assert [[dim.length for dim in row] for row in rows] == [[10, 20, 20], [50]]


def test_a_dimension_named_for_a_side_it_does_not_run_along_goes_to_one_it_does() -> None:
    assert page_dimension(Dimension((0, 0), (0, 30), "x", "head"), 1.0).side == "right"
    assert page_dimension(Dimension((0, 0), (30, 0), "x", "left"), 1.0).side == "tail"


def test_chains_of_one_side_stack_outward_without_meeting() -> None:
    work = work_of(PlanScene((facet(rectangle(0, 0, 60, 40)),)), 1.0, NORMAL)
    room = Room(500, 500)
    for chain in work.chains:
        room.take_line(chain)
    items = chain_items(
        [side(0, 60, "6 in"), side(0, 30, "3 in"), side(30, 60, "3 in"), side(10, 50, "4 in")], work, room, RULER, NORMAL
    )
    heights = sorted({round(item.y, 3) for item in items if isinstance(item, Words)})
    assert len(heights) == 3
    assert all(b - a > 2 for a, b in pairwise(heights))
    # the first line runs 6.5 to 8 mm off the piece (tail edge at 0 here, as the dimensions are: the piece reaches to 40)
    assert 46.5 <= heights[0] <= 48.5
    assert room.crowded == 0


def lines_below(dimensions: list[PageDimension], room: Room) -> list[float]:
    """How far down the lines of dimensions run, under a piece 60 wide and 40 high with a flap 20 wide that hangs 30 below its middle."""
    work = work_of(PlanScene((facet(rectangle(0, 0, 60, 40)), facet(rectangle(20, 40, 20, 30), panel="flap"))), 1.0, NORMAL)
    for chain in work.chains:
        room.take_line(chain)
    items = chain_items(dimensions, work, room, RULER, NORMAL)
    chains = [chain for item in items if isinstance(item, Shape) and item.role == "dimension" for chain in path_lines(item.path)]
    return sorted({a[1] for a, b in chains if a[1] == b[1]})


SHOULDERS = [PageDimension((0, 40), (15, 40), "x", "tail"), PageDimension((45, 40), (60, 40), "x", "tail")]


def test_a_measure_is_set_off_from_what_it_measures_where_nothing_hangs_lower() -> None:
    assert lines_below(SHOULDERS, Room(500, 500)) == [46.5]
    # one chain over the whole breadth clears the flap
    assert lines_below([*SHOULDERS, PageDimension((15, 40), (45, 40), "x", "tail")], Room(500, 500)) == [76.5]


def test_a_measure_with_something_in_its_way_is_set_off_from_the_whole_piece() -> None:
    room = Room(500, 500)
    room.take_line(((50.0, 41.5), (55.0, 49.0)))
    assert lines_below(SHOULDERS, room) == [46.5, 76.5]


def test_measures_close_to_one_another_are_one_chain() -> None:
    assert [len(chain) for chain in chains_of([side(30, 40), side(0, 10), side(12, 20), side(5, 25)])] == [3, 1]


def test_extension_lines_begin_off_the_edge() -> None:
    work = work_of(PlanScene((facet(rectangle(0, 0, 60, 40)),)), 1.0, NORMAL)
    items = chain_items([PageDimension((0, 40), (60, 40), "x", "tail")], work, Room(500, 500), RULER, NORMAL)
    upright = [
        chain
        for item in items
        if isinstance(item, Shape) and item.role == "dimension"
        for chain in path_lines(item.path)
        if chain[0][0] == chain[1][0]
    ]
    assert sorted(chain[0] for chain in upright) == [(0, 40.9), (60, 40.9)]
    assert all(chain[1][1] == pytest.approx(40 + 6.5 + 1.3) for chain in upright)


def test_an_extension_line_begins_where_the_score_it_continues_ends() -> None:
    left = facet(rectangle(0, 0, 30, 40), ["cut", "valley", "cut", "cut"])
    right = facet(rectangle(30, 0, 30, 40), ["cut", "cut", "cut", "valley"], panel="right")
    work = work_of(PlanScene((left, right)), 1.0, NORMAL)
    items = chain_items([PageDimension((0, 10), (30, 10), "x", "tail")], work, Room(500, 500), RULER, NORMAL)
    starts = [path_lines(item.path)[0][0] for item in items if isinstance(item, Shape) and item.role == "dimension"]
    assert (30, 40.9) in starts


def test_neighbouring_small_measures_share_a_lens_and_far_ones_do_not() -> None:
    near = [Dimension((0, 0), (4, 0), "4 mm", "inside"), Dimension((4, 0), (6, 0), "2 mm", "inside")]
    far = Dimension((200, 0), (202, 0), "2 mm", "inside")
    views = lens_views([*near, far], 0.25)
    assert [len(view.dimensions) for view in views] == [2, 1]
    # 2 mm at 2:1 is 4 mm, at 3:1 6 mm: 3:1 is the first with 5 mm or more, but both together (6 mm) then take 18 of the 16.5 mm
    assert [view.scale[0] for view in views] == ["2:1", "3:1"]


def test_a_measure_goes_into_the_lens_of_the_short_one_that_it_goes_on_from() -> None:
    # at 1:2 they print 4, 1.5 and 4 mm
    wide, back = Dimension((0, 0), (0, 8), "8 mm", "inside"), Dimension((0, 8), (0, 11), "3 mm", "inside")
    other = Dimension((40, 0), (40, 8), "8 mm", "inside")
    assert in_lenses([wide, back, other], 0.5) == [wide, back]
    # all print 2.5 mm or more at 1:1
    assert in_lenses([wide, back, other], 1.0) == []
    # a chain outside the piece keeps its place
    assert in_lenses([Dimension((0, 0), (0, 8), "8 mm", "left"), back], 0.5) == [back]


def test_six_millimetres_and_three_beside_them_share_a_lens_at_full_size() -> None:
    (view,) = lens_views([Dimension((0, 0), (0, 6), "6 mm", "inside"), Dimension((0, 6), (0, 9), "3 mm", "inside")], 0.25)
    assert view.scale[0] == "1:1"


@pytest.mark.parametrize(("gap", "clear"), [(APART - 0.2, False), (APART + 0.2, True)])
def test_the_values_of_a_lens_keep_well_off_others(gap: float, clear: bool) -> None:
    work = work_of(PlanScene((facet(rectangle(0, 0, 60, 40)),)), 1.0, NORMAL)
    (view,) = lens_views([Dimension((30, 38), (30, 40), "2 mm", "inside")], 0.25)
    drawing = lens_drawing(view, lambda scale, window: work, RULER, NORMAL)
    *_, value, _ = drawing.boxes
    room = Room(500, 500)
    room.take_box(Box(value.x1 + gap, value.y0, value.x1 + gap + 5, value.y1))
    assert stands_clear(drawing, (-40.0, 0.0), 1.3, (0.0, 0.0), room) is clear


@given(PLACES, PLACES, st.booleans())
def test_a_fold_arrow_runs_from_its_start_to_its_end_and_is_never_too_short(start: Spot, end: Spot, left: bool) -> None:
    curve = fold_curve(start, end, left)
    chord = hypot(end[0] - start[0], end[1] - start[1])
    assert chain_length(curve) > SHORTEST - 0.1
    if chord >= CLOSEST:
        assert curve[0] == pytest.approx(start)
        assert curve[-1] == pytest.approx(end)
    middle = (curve[0][0] + curve[-1][0]) / 2, (curve[0][1] + curve[-1][1]) / 2
    assert middle == pytest.approx(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))


def test_a_fold_arrow_bulges_by_a_fifth_of_its_chord() -> None:
    curve = fold_curve((0.0, 0.0), (30.0, 0.0), True)
    assert min(y for _, y in curve) == pytest.approx(-6.0)


@pytest.mark.parametrize(
    ("kind", "solid", "hollow", "dashed", "dots"),
    [
        ("front", 1, 0, 0, 1),
        ("behind", 0, 1, 1, 1),
        ("open", 0, 1, 0, 0),
        ("crease", 1, 1, 0, 0),
        ("tuck", 0, 1, 1, 0),
        ("lift", 1, 0, 0, 1),
    ],
)
def test_each_fold_has_its_own_arrow(kind: str, solid: int, hollow: int, dashed: int, dots: int) -> None:
    items = [
        item for item in fold_arrow(kind, fold_curve((0.0, 0.0), (30.0, 0.0), True), "WHITE", NORMAL) if isinstance(item, Shape)
    ]
    heads = [item.fill for item in items if item.role == "arrow head"]
    assert (heads.count("ACC"), heads.count("WHITE")) == (solid, hollow)
    assert sum(bool(item.pen and item.pen.dash) for item in items) == dashed
    assert sum(item.role == "arrow dot" for item in items) == dots


@pytest.mark.parametrize(("long", "head"), [(30.0, 3.3), (8.25, 3.3), (6.0, 2.4), (4.0, 1.6)])
def test_the_head_of_an_arrow_takes_no_more_than_two_fifths_of_it(long: float, head: float) -> None:
    straight = tuple((long * k / 10, 0.0) for k in range(11))
    (drawn,) = [item for item in fold_arrow("front", straight, "WHITE", NORMAL) if isinstance(item, Shape) and item.role == "arrow head"]
    xs = [x for x, _ in path_lines(drawn.path)[0]]
    assert max(xs) - min(xs) == pytest.approx(head)


def test_a_tucked_part_is_dashed_from_the_edge_it_goes_under() -> None:
    (card,) = spread((facet(rectangle(0, 0, 50, 50)),), 1.0)
    assert tuck_edge((25.0, 70.0), (25.0, 30.0), (card,)) == pytest.approx(0.5)
    assert tuck_edge((25.0, 60.0), (25.0, 20.0), (card,)) == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("way", "edge_at", "drawn"),
    # level, so that places are mm: 14 mm before the edge and 11 beyond it, less where the way is shorter, never under 6.5 beyond
    [(100, 0.5, (36, 61)), (20, 0.5, (0, 20)), (20, 0.9, (4, 24.5)), (4, 0.5, (-0.5, 8.5))],
)
def test_a_tucked_part_is_shown_about_the_edge_it_goes_under(way: float, edge_at: float, drawn: tuple[float, float]) -> None:
    start, end, at = tuck_span((0.0, 5.0), (float(way), 5.0), edge_at)
    assert (start[0], end[0]) == pytest.approx(drawn)
    assert start[0] + at * (end[0] - start[0]) == pytest.approx(edge_at * way)
    assert end[0] - start[0] > SHORTEST - 1e-9


@pytest.mark.parametrize(
    ("way", "leaves", "drawn"),
    # level, so that places are mm: to the very end, 9 mm of it over the piece, all in all 9 mm at the least
    [(100, 0.3, (21, 100)), (100, 0.05, (0, 100)), (4, 0.5, (-5, 4)), (20, 0.9, (9, 20))],
)
def test_a_block_arrow_leads_from_over_the_piece_to_where_it_goes(way: float, leaves: float, drawn: tuple[float, float]) -> None:
    start, end = slide_span((0.0, 0.0), (float(way), 0.0), leaves)
    assert (start[0], end[0]) == pytest.approx(drawn)


def test_hatch_lines_rise_at_45_degrees_and_stay_inside() -> None:
    ring = ((0.0, 0.0), (30.0, 4.0), (28.0, 20.0), (5.0, 15.0))
    shape = Polygon(ring)
    lines = hatch_lines((ring,), 1.7)
    assert len(lines) > 10
    for a, b in lines:
        assert b[0] - a[0] == pytest.approx(a[1] - b[1])
        assert shape.buffer(1e-6).contains(LineString((a, b)))


def test_a_narrow_band_is_hatched_more_closely_but_not_too_closely() -> None:
    # usual 1.7; a band 2 mm wide: 0.6 x 2 x 60 / (60 + 2) = 1.16; one 0.5 wide: never under 0.95
    assert hatch_spacing(rectangle(0, 0, 60, 30)) == 1.7
    assert hatch_spacing(rectangle(0, 0, 60, 2)) == pytest.approx(0.6 * 2 * 60 / 62)
    assert hatch_spacing(rectangle(0, 0, 60, 0.5)) == 0.95


@pytest.mark.parametrize("kind", ["turn over page", "turn over pad", "turn", "press", "press sideways", "repeat", "scale"])
def test_a_mark_stays_in_the_box_it_says(kind: str) -> None:
    for size in (1.0, 0.8):
        mark = action_mark(kind, "90°" if kind == "turn" else "", RULER, size=size)
        spots = [spot for item in mark.items if isinstance(item, Shape) for chain in path_lines(item.path) for spot in chain]
        box = box_of(spots)
        assert box.x0 >= -0.45 * size
        assert box.y0 >= -0.45 * size
        assert box.x1 <= mark.width + 0.45 * size
        assert box.y1 <= mark.height + 0.45 * size


def test_an_unknown_mark_is_refused() -> None:
    with pytest.raises(KeyError):
        action_mark("jump", "", RULER)


def test_a_tag_is_a_square_with_a_clipped_corner_and_its_letter_in_the_middle() -> None:
    box, letter = piece_tag("B", (10.0, 20.0), RULER, NORMAL)
    assert isinstance(box, Shape)
    assert isinstance(letter, Words)
    # 5.2 mm square less a corner of 1.5 x 1.5 / 2
    assert Polygon(path_lines(box.path)[0]).area == pytest.approx(5.2 * 5.2 - 1.5 * 1.5 / 2)
    inked = words_box(letter, RULER)
    assert (inked.x0 + inked.x1) / 2 == pytest.approx(10.0)
    assert letter.y == pytest.approx(20.0 + 0.35)
