"""Leaders: where they run when the straightest way is across a dimension."""

from creasewright.booklet.diagrams.boxes import Box
from creasewright.booklet.diagrams.label_places import Setting, led_label
from creasewright.booklet.diagrams.room import Room

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
