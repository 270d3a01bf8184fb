"""Leaders: where they run when the straightest way is across a dimension."""

from math import dist

import pytest

from creasewright.booklet.diagrams.boxes import Box
from creasewright.booklet.diagrams.label_places import DEEP, DOTS_APART, Setting, dot_places, leader_to, led_label, widest
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2

PIECE = Box(0.0, 0.0, 30.0, 40.0)
STRIP = ((27.0, 15.0), (30.0, 15.0), (30.0, 25.0), (27.0, 25.0))
LABEL = Setting((("E", 4.0),), 4.0, 4.0)


def room_with_dimension(*, width: float = 100.0, height: float = 100.0) -> Room:
    """A dimension all along the right of the piece, 3 mm off it."""
    room = Room(width, height)
    for spots in (((0, 0), (30, 0), (30, 40), (0, 40), (0, 0)), STRIP):
        room.take_line([(float(x), float(y)) for x, y in spots])
    room.take_line([(33.0, -1.0), (33.0, 41.0)], bars=True)
    return room


def test_a_leader_goes_round_a_dimension_and_never_over_it() -> None:
    room = room_with_dimension()
    led = led_label([LABEL], [STRIP], PIECE, room)
    assert not room.barred(led.dot, led.near) and led.near[1] < 0
    assert room.crowded == 0


def test_without_the_dimension_it_is_the_shortest_one() -> None:
    room = Room(100.0, 100.0)
    led = led_label([LABEL], [STRIP], PIECE, room)
    assert led.near[0] > 30


def test_where_only_ways_across_a_dimension_are_left_the_picture_counts_as_crowded() -> None:
    # as high as the piece with its dimension, and no room on the left
    room = room_with_dimension(width=40.0, height=42.0)
    led = led_label([LABEL], [STRIP], PIECE, room)
    assert room.barred(led.dot, led.near) and room.crowded == 1


def test_leaders_bar_one_another() -> None:
    room = Room(100.0, 100.0)
    room.take_line([(0.0, 0.0), (10.0, 10.0)], bars=True)
    room.take_line([(20.0, 0.0), (20.0, 10.0)])
    assert room.barred((0.0, 10.0), (10.0, 0.0))
    assert room.crossed((15.0, 5.0), (25.0, 5.0)) == 1 and not room.barred((15.0, 5.0), (25.0, 5.0))


def test_leaders_of_two_labels_end_at_dots_that_are_told_apart() -> None:
    room = Room(100.0, 100.0)
    first = led_label([LABEL], [STRIP], PIECE, room)
    leader_to(first, room, NORMAL)
    room.take_box(first.box)
    second = led_label([LABEL], [STRIP], PIECE, room)
    assert dist(first.dot, second.dot) >= DOTS_APART


def test_a_dot_lies_deep_in_its_part_not_at_the_rim() -> None:
    # 20 mm wide and high: 2 mm from every side is deep enough; of a strip 3 mm wide, half of that
    square = ((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0))
    for x, y in dot_places([square], Room(100.0, 100.0)):
        assert min(x, 20 - x, y, 20 - y) >= DEEP
    assert {x for x, _ in dot_places([STRIP], Room(100.0, 100.0))} == {28.5}


def test_of_leaders_about_as_long_the_one_that_leaves_the_picture_as_high_as_it_is() -> None:
    # a square with its dot 4 mm from the head, 5 from the left: a label above makes it 8 mm higher, one beside it no higher
    square, part = Box(0.0, 0.0, 40.0, 40.0), ((3.0, 2.0), (7.0, 2.0), (7.0, 6.0), (3.0, 6.0))
    room = Room(100.0, 100.0)
    room.ink(square)
    led = led_label([LABEL], [part], square, room)
    assert room.grows_higher(led.box) == 0 and led.near[0] < 0


@pytest.mark.parametrize(("rings", "wide"), [([STRIP], 3.0), ([((0.0, 0.0), (9.0, 0.0), (0.0, 9.0))], 4.5)])
def test_how_wide_a_part_is_where_it_is_widest(rings: list[Polygon2], wide: float) -> None:
    # the triangle is 4.5 mm wide and high halfway down; across and along only is looked
    assert widest(rings) == pytest.approx(wide)
