"""A facet as it lies on the page: scaled, fanned out, its edges gathered into chains.

Chain   spots joined by straight lines, all of one kind of edge.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import hypot

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.scene import Affine, Facet, FacetEdge, Polygon2, Spot
from creasewright.geometry.clip import clockwise

Chain = tuple[Spot, ...]
COARSE = 0.02
"""mm on the page: a flattened curve may lose corners that stand out less than this."""


class PageFacet(Struct, frozen=True):
    """mm on the page, from the scene's own origin."""

    source: Facet
    polygon: Polygon2
    """Clockwise as seen, as are the holes."""
    holes: tuple[Polygon2, ...]
    chains: tuple[tuple[str, Chain], ...]
    """Kind and places of each run of edges."""
    free_chains: tuple[Chain, ...]
    """Free edges of a folded layer that get a sliver."""
    box: Box
    core: Box | None
    """A box that it covers whole, where one is easily told: most of what it hides lies in there."""
    to_page: Affine
    """View mm to page mm, with the shift of its layer."""


def moved_by(transform: Affine, spot: Spot) -> Spot:
    a, b, c, d, e, f = transform
    x, y = spot
    return a * x + c * y + e, b * x + d * y + f


def place_facet(facet: Facet, to_page: Affine, seen: set[tuple[int, ...]], free: frozenset[int]) -> PageFacet:
    """The facet carried to the page by `to_page`.

    `seen` remembers lines that a higher facet has brought; `free` numbers the edges that get a sliver.
    """
    polygon = page_ring(facet.polygon, to_page)
    holes = tuple(page_ring(hole, to_page) for hole in facet.holes)
    edges = _placed_edges(facet.edges, to_page)
    fresh = [(edge.kind, a, b) for edge, a, b in edges if _is_new(edge, a, b, seen)]
    slivers = [("free", a, b) for k, (_, a, b) in enumerate(edges) if k in free]
    free_chains = tuple(chain for _, chain in chained(slivers))
    return PageFacet(facet, polygon, holes, chained(fresh), free_chains, box_of(polygon), core_of(polygon, holes), to_page)


def _placed_edges(edges: Sequence[FacetEdge], to_page: Affine) -> list[tuple[FacetEdge, Spot, Spot]]:
    """Each edge with its ends on the page; most begin where the one before ends."""
    placed: list[tuple[FacetEdge, Spot, Spot]] = []
    for edge in edges:
        follows = placed and edge.start == placed[-1][0].end
        placed.append((edge, placed[-1][2] if follows else moved_by(to_page, edge.start), moved_by(to_page, edge.end)))
    return placed


def core_of(polygon: Polygon2, holes: Sequence[Polygon2]) -> Box | None:
    """Between the sides of a rectangle, also of one that is sheared a little: each side keeps out of the box on its own side."""
    if len(polygon) != 4 or holes:
        return None
    _, x0, x1, _ = sorted([x for x, _ in polygon])
    _, y0, y1, _ = sorted([y for _, y in polygon])
    return Box(x0, y0, x1, y1) if len({(x < (x0 + x1) / 2, y < (y0 + y1) / 2) for x, y in polygon}) == 4 else None


def page_ring(ring: Polygon2, to_page: Affine) -> Polygon2:
    """On the page, with no more corners than show, clockwise as seen."""
    return clockwise(simplified(tuple(moved_by(to_page, spot) for spot in ring), closed=True))


def _is_new(edge: FacetEdge, a: Spot, b: Spot, seen: set[tuple[int, ...]]) -> bool:
    (ax, ay), (bx, by) = (a, b) if a <= b else (b, a)
    kind = 0 if edge.kind in HEAVY else 1
    key = (round(100 * ax + OFF), round(100 * ay + OFF), round(100 * bx + OFF), round(100 * by + OFF), kind)
    if key in seen:
        return False
    seen.add(key)
    return True


FEW = 9
"""Spots: a chain of fewer is left as it is."""
OFF = 0.137
HEAVY = frozenset({"cut", "slit", "folded"})


def place_key(spot: Spot) -> tuple[int, int]:
    """Equal for places that are the same but for rounding (to 0.01 mm); shifted so that no round measure falls between two keys."""
    return round(100 * spot[0] + OFF), round(100 * spot[1] + OFF)


def chained(edges: Sequence[tuple[str, Spot, Spot]]) -> tuple[tuple[str, Chain], ...]:
    """Edges that follow one another, of one kind, as one chain; a ring of one kind closes."""
    runs: list[tuple[str, list[Spot]]] = []
    for kind, a, b in edges:
        if runs and runs[-1][0] == kind and _near(runs[-1][1][-1], a):
            runs[-1][1].append(b)
        else:
            runs.append((kind, [a, b]))
    if len(runs) > 1 and runs[0][0] == runs[-1][0] and _near(runs[-1][1][-1], runs[0][1][0]):
        kind, last = runs.pop()
        runs[0] = (kind, last + runs[0][1][1:])
    return tuple((kind, simplified(tuple(spots))) for kind, spots in runs)


def _near(a: Spot, b: Spot) -> bool:
    return abs(a[0] - b[0]) < 0.005 and abs(a[1] - b[1]) < 0.005


def simplified(spots: Chain, closed: bool = False) -> Chain:
    """Fewer spots, none of those left out farther than `COARSE` from the chain (Douglas and Peucker's rule)."""
    return _simplified(spots, closed) if len(spots) >= FEW else spots


@lru_cache(maxsize=1024)
def _simplified(spots: Chain, closed: bool) -> Chain:
    """The same piece lies so in picture after picture."""
    if closed:
        half = len(spots) // 2
        return (*_kept(spots[: half + 1])[:-1], *_kept((*spots[half:], spots[0]))[:-1])
    return _kept(spots)


def _kept(spots: Chain) -> Chain:
    if len(spots) < 3:
        return spots
    (ax, ay), (bx, by) = spots[0], spots[-1]
    dx, dy = bx - ax, by - ay
    size = hypot(dx, dy)
    if size > 1e-9:
        offs = [abs((x - ax) * dy - (y - ay) * dx) / size for x, y in spots[1:-1]]
    else:
        offs = [hypot(x - ax, y - ay) for x, y in spots[1:-1]]
    far = max(offs)
    if far <= COARSE:
        return spots[0], spots[-1]
    where = offs.index(far) + 1
    return (*_kept(spots[: where + 1])[:-1], *_kept(spots[where:]))
