"""All clearances of a design, in the order in which they are told."""

from collections.abc import Callable, Iterator
from functools import lru_cache
from itertools import chain
from re import compile as pattern

from msgspec.structs import replace

from creasewright.fitting.worked import Worked
from creasewright.hands.band_rooms import band_rooms
from creasewright.hands.board_gaps import board_gaps
from creasewright.hands.clearance import Clearance, Making, making_of
from creasewright.hands.cover_rooms import cover_rooms
from creasewright.hands.error_table import HandErrors
from creasewright.hands.flap_rooms import flap_rooms
from creasewright.hands.fold_rooms import gate_rooms, inner_panel_rooms, wrap_rooms
from creasewright.hands.insert_rooms import insert_rooms
from creasewright.hands.inset_rooms import inset_rooms

SOURCES: tuple[Callable[[Making], Iterator[Clearance]], ...] = (
    insert_rooms, cover_rooms, inner_panel_rooms, flap_rooms, gate_rooms, wrap_rooms, band_rooms, inset_rooms, board_gaps,
)  # fmt: skip

NUMBER = pattern(r" \d+")


@lru_cache(maxsize=8)
def every_clearance(worked: Worked, errors: HandErrors) -> tuple[Clearance, ...]:
    """Those that are alike but for a number are one with a count, the least room of them."""
    making = making_of(worked, errors)
    found: dict[tuple[object, ...], Clearance] = {}
    for one in chain.from_iterable(source(making) for source in SOURCES):
        key = (one.kind, NUMBER.sub("", one.what), one.way, one.where, round(one.error(errors), 2))
        before = found.get(key)
        if before is None:
            found[key] = one
        else:
            least = min(before, one, key=lambda each: each.room.value)
            found[key] = replace(least, times=before.times + 1)
    return tuple(found.values())
