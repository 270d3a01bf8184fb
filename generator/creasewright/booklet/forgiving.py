"""How forgiving a fit is, in one word for the fit table, from its clearances and what hands err by."""

from collections.abc import Iterable

from creasewright.booklet.context import PackContext
from creasewright.hands.clearance import Clearance
from creasewright.hands.outcome import room_wanted

JUST = 0.995
"""A room that rounds to what is wanted is enough."""


def how_forgiving(context: PackContext, rooms: Iterable[Clearance]) -> str:
    """`none`: it does not go in; `tight`: it fails more than 1 maker in 100; `fair`: up to twice the room that takes; `easy`: more."""
    own = list(rooms)
    if any(one.room.value < 0 for one in own):
        return "none"
    least = min((one.room.value / room_wanted(one.error(context.errors)) for one in own if one.error(context.errors)), default=2.0)
    return "tight" if least < JUST else "fair" if least < 2 else "easy"
