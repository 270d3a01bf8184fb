"""Between the points of a file made for one printer and those of the page as it was laid out. PDF points, origin lower left, y up."""

from msgspec.structs import replace

from creasewright.booklet.tiling.spots import moved
from creasewright.booklet.tiling.tile_templates import Rectangle, Tile
from creasewright.booklet.tiling.window import PageSize
from creasewright.geometry.plane_transform import Affine
from creasewright.units.printer import Printer

POINTS = 72 / 25.4


def undo_of(printer: Printer | None, page: PageSize) -> Affine | None:
    """From a point of the file to the place, in points, where that printer puts it: the inverse of `Page.stretch`."""
    if printer is None:
        return None
    (across, along), x, y = printer.scale, page.width / 2 * POINTS, page.height / 2 * POINTS
    return Affine(across, 0.0, 0.0, along, x - x * across, y - y * along)


def tile_in_file(tile: Tile, undo: Affine | None) -> Tile:
    """The tile with its map and boxes in points of the file."""
    if undo is None:
        return tile
    back = undo.inverse()
    return replace(
        tile, to_blank=undo.then(tile.to_blank), window=_box(back, tile.window), check_square=_box(back, tile.check_square)
    )


def _box(move: Affine, box: Rectangle) -> Rectangle:
    return (*moved(move, box[:2]), *moved(move, box[2:]))
