"""The shadow of a thing on the ground it stands on: each facet carried along the light onto floor and wall. Sharp edges, mm of
the model.

The ground is one crease: a floor (z = `floor`) and behind it a wall (y = `wall`), as seen in one view.
"""

from collections.abc import Iterable

from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.plain_outline import without_teeth
from creasewright.booklet.diagrams.scene import Facet3, Spot3
from creasewright.booklet.diagrams.shade import LIGHT
from creasewright.booklet.diagrams.space_view import SpaceView, along, seen_at, unit
from creasewright.geometry.clip import area, clockwise, difference, intersection, union
from creasewright.geometry.offset import inset
from creasewright.geometry.outline import Polygon

LOW_LIGHT: Spot3 = unit((-0.95, 0.3, -0.8))
"""For low things: from LIGHT their shadow would all but hide behind them, and what shows would look like a stain."""
CLOSED = 1.0
"""mm of the model: light does not shine between layers that lie on each other."""


def floor_shadow(
    facets: Iterable[Facet3], floor: float, view: SpaceView, ground: Region, light: Spot3 = LIGHT, fine: float = 0.0
) -> Region:
    """On the page; what falls outside `ground` is cut off. `light` points from the scene to the light; see `_shadow` for `fine`."""
    return _shadow([(facet, tuple(_on_floor(spot, floor, light) for spot in facet.polygon)) for facet in facets], view, ground, fine)


def wall_shadow(
    facets: Iterable[Facet3], wall: float, view: SpaceView, ground: Region, light: Spot3 = LIGHT, fine: float = 0.0
) -> Region:
    return _shadow([(facet, tuple(_on_wall(spot, wall, light) for spot in facet.polygon)) for facet in facets], view, ground, fine)


def without_crumbs(shadow: Region, thing: Region, least: float) -> Region:
    """Without the pieces beside the `thing` that are nowhere `least` mm wide: they would look like stains."""
    crumbs = [piece for piece in difference(shadow, thing) if area(piece) > 0 and not inset(piece, least / 2)]
    return difference(shadow, crumbs) if crumbs else shadow


def _on_floor(spot: Spot3, floor: float, light: Spot3) -> Spot3:
    return along(spot, light, (floor - spot[2]) / light[2])


def _on_wall(spot: Spot3, wall: float, light: Spot3) -> Spot3:
    return along(spot, light, (wall - spot[1]) / light[1])


def _shadow(cast: list[tuple[Facet3, tuple[Spot3, ...]]], view: SpaceView, ground: Region, fine: float) -> Region:
    """One shape, in which nothing is finer than `fine` mm: no thread, no gap, no tooth.

    The strips of a bent sheet are put together first: grown one by one, the narrow ones would throw spikes.
    """
    if not ground:
        return []
    seen: dict[bool, list[Polygon]] = {False: [], True: []}
    for facet, polygon in cast:
        seen["bend" in facet.edge_kinds].append(tuple(seen_at(view, spot) for spot in polygon))
    whole = [ring for ring in union(map(clockwise, seen[True])) if area(ring) > 0]
    grown = union(piece for ring in (*seen[False], *whole) for piece in inset(clockwise(ring), -CLOSED))
    return intersection((piece for ring in grown for piece in _shrunk(ring, fine)), ground)


def _shrunk(ring: Polygon, fine: float) -> Region:
    """A ring of the grown shadow moved back; a hole in it (it runs the other way) grows again. Both lose what is too fine."""
    solid = area(ring) > 0
    back = inset(ring, CLOSED) if solid else inset(ring[::-1], -CLOSED)
    if fine:
        back = [piece for shape in back for core in inset(shape, fine / 2) for piece in inset(core, -fine / 2)]
        back = [without_teeth(piece, fine) for piece in back if area(piece) > 0]
    return back if solid else [hole[::-1] for hole in back]
