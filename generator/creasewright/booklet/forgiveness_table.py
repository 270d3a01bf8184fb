"""How much may go wrong: every clearance with its room, what hands err by, and how many makers would be left without.

Clearances of one kind with the same numbers share a row, as those of a mirrored assembly do: each with its own place in words.
"""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.length_words import fine_ruler, said_depth, said_room
from creasewright.booklet.part_words import part_words
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, grid_columns, table
from creasewright.booklet.typeset import literal
from creasewright.hands.clearance import Clearance
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.outcome import failing_share, of_makers, room_wanted, too_many
from creasewright.units.ruler import UP, length_in_words, mark_in_words


def forgiveness_table(context: PackContext) -> tuple[Block, ...]:
    """Nothing where the design has no clearance."""
    found = every_clearance(context.worked, context.errors)
    if not found:
        return ()
    heads = [line.strip() for line in section_text(context, "room heads").split("\n")]
    places = ((0, 2), (2, 1), (3, 1), (4, 2)) if context.page.columns >= 6 else ((0, 1), (1, 1), (2, 1), (3, 1))
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, places, strict=True)])
    rows = [row(context, places) for places in grouped(context, found)]
    return table(
        "rooms", (replace(columns[0], names_row=True), *columns[1:]), rows, context.layout, context.text, context.page.measure,
        section_text(context, "rooms"), section_text(context, "rooms note"),
    )  # fmt: skip


def grouped(context: PackContext, found: tuple[Clearance, ...]) -> list[list[list[Clearance]]]:
    """By row those of one kind with the same numbers, and in it those told in the same words but for their place, together."""
    rows: dict[tuple[str, ...], dict[tuple[str, ...], list[Clearance]]] = {}
    for one in found:
        way = "" if one.kind == "inset" else one.way
        pair = one.other if one.kind in ("gate", "board gap") else ""
        places = rows.setdefault((one.kind, way, *told(context, one)), {})
        places.setdefault((thing_words(context, one.thing), pair), []).append(one)
    return [list(places.values()) for places in rows.values()]


NUMBERS = ("room has", "room error", "room fails")


def numbers(context: PackContext, one: Clearance) -> dict[str, object]:
    error = one.error(context.errors)
    count, of = of_makers(failing_share(one.room.value, error), context.worked.makers)
    short = too_many(one.room.value, error)
    ruler = fine_ruler(context.system) if one.kind == "cover" else context.worked.ruler
    return {
        "room": said_depth(one.room.value, context.system) if one.way == "thick" else said_room(context.system, ruler, one.room.value),
        "error": in_tenths(context, error),
        "count": count,
        "of": of,
        "more": mark_in_words(room_wanted(error) - one.room.value, context.worked.ruler, UP).text if short else "",
    }


def told(context: PackContext, one: Clearance) -> tuple[str, ...]:
    """Its room, what hands err by there, and how many would fail."""
    values = numbers(context, one)
    return tuple(section_text(context, name, **values) for name in NUMBERS)


def row(context: PackContext, places: list[list[Clearance]]) -> list[Cell]:
    return ["\n".join(place_words(context, alike) for alike in places), *told(context, places[0][0])]


def place_words(context: PackContext, alike: list[Clearance]) -> str:
    one = alike[0]
    values: dict[str, object] = {
        "kind": one.kind,
        "thing": thing_words(context, one.thing),
        "others": list(dict.fromkeys(thing_words(context, each.other) for each in alike if each.other)),
        "sides": list(dict.fromkeys(context.word(each.side) for each in alike if each.side)),
        "way": one.way,
        "times": one.times,
    }
    return section_text(context, "room of", **values)


def in_tenths(context: PackContext, mm: float) -> str:
    """To a tenth of a mm, or to a hundredth of an inch."""
    step = Fraction(254, 1000) if context.system == "in" else Fraction(1, 10)
    return length_in_words(round(Fraction(mm) / step) * step, context.system)


def thing_words(context: PackContext, called: str) -> str:
    """`inner of the Invitation` for `inner of card`: names of the design by their titles, in the order in which they were said."""
    path = "/".join(reversed(called.split(" of ")))
    own, *wholes = [part_words(context.worked, name) for name in reversed(path.split("/"))]
    return literal(" of the ".join([own, *wholes]))
