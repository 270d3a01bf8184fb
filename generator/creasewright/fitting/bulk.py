"""Bulk: how thick the closed thing is, at its thickest, at its spine and at its fore edge, read off its bulk map."""

from msgspec import Struct

from creasewright.fitting.pieces import bare
from creasewright.fitting.spine_side import OPPOSITE, spine_side
from creasewright.folding.bent_solid import is_bent
from creasewright.folding.refused import called
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, PanelKey, State
from creasewright.joining.bulk_map import FOAM, BulkMap, bulk_map
from creasewright.joining.compass import Box

EDGE_ZONE = 6.0
"""The spine's and the fore edge's thickness: the greatest within this many mm of that side."""


class Thick(Struct, frozen=True):
    """A cell of the map: its thickness in mm, and what lies there from the table up."""

    mm: float = 0.0
    layers: tuple[PanelKey, ...] = ()


class Bulk(Struct, frozen=True):
    spine: str | None
    """The side it is hinged at (head, tail, left, right as seen), None where it has none: then all three are the greatest."""
    greatest: Thick
    at_spine: Thick
    at_fore_edge: Thick


def bulk(state: State, body: Body, front: PanelKey | None, empty: bool = False) -> Bulk:
    """`empty`: without what was inserted. Of a thing whose panels stand bent: its thickness over all, for it cannot be pressed flatter,
    and no spine.
    """
    if is_bent(state, body):
        low, high = extents(state, body)
        over_all = Thick(high[2] - low[2])
        return Bulk(None, over_all, over_all, over_all)
    found = bulk_map(state, body, empty)
    return bulk_of_map(found, spine_side(state, body, found.whole, front) if found.cells else None)


def bulk_of_map(found: BulkMap, spine: str | None) -> Bulk:
    greatest = thick_in(found, None)
    if spine is None:
        return Bulk(None, greatest, greatest, greatest)
    at_spine, at_edge = (thick_in(found, zone_at(found.whole, side)) for side in (spine, OPPOSITE[spine]))
    return Bulk(spine, greatest, at_spine, at_edge)


def layer_called(layer: PanelKey) -> str:
    """A layer in words: `page of left strip`, `seed card 2 of front block`, `foam under cover mat`."""
    part, panel = layer
    whole = " of ".join(reversed(part.split("/")))
    if panel == FOAM:
        return f"foam under {whole}"
    own = part.split("/")[-1]
    return whole if panel in (own, bare(own)) else called(layer)


def thick_in(found: BulkMap, zone: Box | None) -> Thick:
    cell = found.thickest(zone)
    return Thick(found.thick(cell), found.layers_at(cell)) if cell is not None else Thick()


def zone_at(whole: Box, side: str) -> Box:
    x0, y0, x1, y1 = whole
    return {
        "left": (x0, y0, min(x1, x0 + EDGE_ZONE), y1),
        "right": (max(x0, x1 - EDGE_ZONE), y0, x1, y1),
        "head": (x0, y0, x1, min(y1, y0 + EDGE_ZONE)),
        "tail": (x0, max(y0, y1 - EDGE_ZONE), x1, y1),
    }[side]
