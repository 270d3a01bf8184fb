"""Rows of the fit table for lids and sleeves: the room inside, the outside of what they go over, and what is left."""

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.forgiving import how_forgiving
from creasewright.booklet.length_words import fine_ruler, said_room
from creasewright.booklet.part_words import part_words
from creasewright.booklet.section_text import section_text
from creasewright.booklet.table import Cell, grid_columns, table
from creasewright.booklet.typeset import literal
from creasewright.folding.state import CoverFit, State
from creasewright.hands.every_clearance import every_clearance
from creasewright.units.ruler import DOWN, UP, Ruler, mark_in_words, pair_in_words


def covering_blocks(context: PackContext, state: State) -> tuple[Block, ...]:
    """One row for each; none where nothing goes over anything."""
    if not state.coverings:
        return ()
    heads = [line.strip() for line in section_text(context, "covering heads").split("\n")]
    places = ((0, 1), (1, 2), (3, 1), (4, 2)) if context.page.columns >= 6 else ((0, 1), (1, 1), (2, 1), (3, 1))
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, places, strict=True)])
    return table(
        "coverings", (replace(columns[0], names_row=True), *columns[1:]), [_row(context, fit) for fit in state.coverings],
        context.layout, context.text, context.page.measure, section_text(context, "coverings"),
    )  # fmt: skip


def forgiving(context: PackContext, fit: CoverFit) -> str:
    """From the clearances of the same cover."""
    own = fit.cover[0].split("/")[-1]
    rooms = every_clearance(context.worked, context.errors)
    return how_forgiving(context, (one for one in rooms if one.kind == "cover" and one.part.split("/")[-1] == own))


def _row(context: PackContext, fit: CoverFit) -> list[Cell]:
    ruler = fine_ruler(context.system)
    across, down = fit.spare_width, fit.spare_height
    sides = [(fit.room_width, fit.width), (fit.room_height, fit.height)]
    values: dict[str, object] = {
        "name": _name(context, fit.cover),
        "thing": _name(context, fit.around),
        "room": _sizes([room for room, _ in sides if room is not None], ruler, DOWN),
        "size": _sizes([size for _, size in sides], ruler, UP),
        "across": said_room(context.system, ruler, across) if across is not None else "",
        "down": said_room(context.system, ruler, down) if down is not None else "",
        "forgiving": forgiving(context, fit),
        "out": "",
    }
    return [section_text(context, name, **values) for name in ("cover", "over", "cover spare", "how forgiving")]


def _sizes(sizes: list[float], ruler: Ruler, rounding: str) -> str:
    if len(sizes) == 2:
        return pair_in_words(sizes[0], sizes[1], ruler, rounding)
    return mark_in_words(sizes[0], ruler, rounding).text if sizes else ""


def _name(context: PackContext, parts: tuple[str, ...]) -> str:
    """`Lid box`: what was made before by its own name, a piece by its title."""
    names = dict.fromkeys(part.split("/")[0] if "/" in part else part_words(context.worked, part) for part in parts)
    text = literal(", ".join(names))
    return text[:1].upper() + text[1:]
