"""The shadow of a thing on the ground it stands on: each facet carried along the light onto floor and wall. Sharp edges, mm of
the model.

The ground is one crease: a floor (z = `floor`) and behind it a wall (y = `wall`), as seen in one view.
"""

from collections.abc import Iterable

from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.scene import Facet3, Spot3
from creasewright.booklet.diagrams.shade import LIGHT
from creasewright.booklet.diagrams.space_view import SpaceView, along, seen_at, unit
from creasewright.geometry.clip import area, clockwise, intersection, union
from creasewright.geometry.offset import inset
from creasewright.geometry.outline import Polygon

LOW_LIGHT: Spot3 = unit((-0.95, 0.3, -0.8))
"""For low things: from LIGHT their shadow would all but hide behind them, and what shows would look like a stain."""
CLOSED = 1.0
"""mm of the model: light does not shine between layers that lie on each other."""


def floor_shadow(facets: Iterable[Facet3], floor: float, view: SpaceView, ground: Region, light: Spot3 = LIGHT) -> Region:
    """On the page; what falls outside `ground` is cut off. `light` points from the scene to the light."""
    return _shadow([(facet, tuple(_on_floor(spot, floor, light) for spot in facet.polygon)) for facet in facets], view, ground)


def wall_shadow(facets: Iterable[Facet3], wall: float, view: SpaceView, ground: Region, light: Spot3 = LIGHT) -> Region:
    return _shadow([(facet, tuple(_on_wall(spot, wall, light) for spot in facet.polygon)) for facet in facets], view, ground)


def _on_floor(spot: Spot3, floor: float, light: Spot3) -> Spot3:
    return along(spot, light, (floor - spot[2]) / light[2])


def _on_wall(spot: Spot3, wall: float, light: Spot3) -> Spot3:
    return along(spot, light, (wall - spot[1]) / light[1])


def _shadow(cast: list[tuple[Facet3, tuple[Spot3, ...]]], view: SpaceView, ground: Region) -> Region:
    """The strips of a bent sheet are put together first: grown one by one, the narrow ones would throw spikes."""
    if not ground:
        return []
    seen: dict[bool, list[Polygon]] = {False: [], True: []}
    for facet, polygon in cast:
        seen["bend" in facet.edge_kinds].append(tuple(seen_at(view, spot) for spot in polygon))
    whole = [ring for ring in union(map(clockwise, seen[True])) if area(ring) > 0]
    grown = union(piece for ring in (*seen[False], *whole) for piece in inset(clockwise(ring), -CLOSED))
    return intersection((piece for ring in grown for piece in _shrunk(ring)), ground)


def _shrunk(ring: Polygon) -> Region:
    """A ring of the grown shadow moved back; a hole in it (it runs the other way) grows again."""
    return inset(ring, CLOSED) if area(ring) > 0 else [hole[::-1] for hole in inset(ring[::-1], -CLOSED)]
