"""The paper itself: each facet's visible part, filled with its tone, and the slivers that show where a layer ends.

Visible part   the facet's polygon less its holes, less all higher facets (through whose holes it shows).
Sliver         a grey band along the free edge of a folded layer, or to the right and tail of a piece held above the work.
"""

import itertools
from collections.abc import Sequence
from math import hypot

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.scene import Polygon2
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.drawing import Command, Path, Shape
from creasewright.geometry.clip import difference, intersection, union

SLIVER, LIFTED = 0.65, 1.1
"""mm: width along a free edge; how far right and down under a lifted piece."""


class Visible(Struct, frozen=True):
    """What shows of a facet: rings in page mm; holes run the other way round."""

    facet: PageFacet
    rings: tuple[Polygon2, ...]
    path: Path
    """Round the rings."""


def visible_parts(facets: Sequence[PageFacet]) -> tuple[Visible, ...]:
    """In the order of the facets, lowest first."""
    shown = []
    for k, facet in enumerate(facets):
        covers = [higher for higher in facets[k + 1 :] if higher.box.overlaps(facet.box)]
        hidden = any(higher.core is not None and higher.core.holds(facet.box) for higher in covers)
        rings = () if hidden else tuple(left_of((facet.polygon,), facet.holes, covers))
        shown.append(Visible(facet, rings, rings_path(rings)))
    return tuple(shown)


def left_of(polygons: Sequence[Polygon2], holes: Sequence[Polygon2], covers: Sequence[PageFacet]) -> list[Polygon2]:
    """The polygons less their holes, less the covers; through a hole of a cover they show."""
    if not covers and not holes:
        return list(polygons)
    plain = [cover.polygon for cover in covers if not cover.holes]
    pierced = [ring for cover in covers if cover.holes for ring in difference((cover.polygon,), cover.holes)]
    if not pierced:
        return difference(polygons, (*holes, *plain))
    left = difference(polygons, (*holes, *plain))
    for cover in covers:
        if cover.holes and left:
            outside = difference(left, (cover.polygon,))
            left = [*outside, *intersection(left, cover.holes)]
    return left


def rings_path(rings: Sequence[Polygon2]) -> Path:
    commands: list[Command] = []
    for ring in rings:
        commands.extend(polyline(ring, closed=True))
    return tuple(commands)


def fill_shape(visible: Visible) -> Shape | None:
    """The visible part in its tone; None if nothing shows."""
    if not visible.rings:
        return None
    source = visible.facet.source
    role = f"paper {source.part}/{source.panel}"
    return Shape(visible.path, None, source.fill, even_odd=True, role=role)


def layer_slivers(facets: Sequence[PageFacet]) -> list[list[Polygon2]]:
    """One list of rings for each sliver that shows; each lies on lower facets only."""
    found = []
    for k, facet in enumerate(facets):
        if not facet.free_chains:
            continue
        under = [lower.polygon for lower in facets[:k] if lower.box.overlaps(facet.box.grown(SLIVER))]
        above = [higher for higher in facets[k:] if higher.box.overlaps(facet.box.grown(SLIVER))]
        for chain in facet.free_chains:
            band = intersection((outward_band(chain, facet.polygon, SLIVER),), union(under)) if under else []
            left = left_of(band, (), above) if band else []
            if left:
                found.append(left)
    return found


def lifted_slivers(facets: Sequence[PageFacet]) -> list[list[Polygon2]]:
    """The same for pieces held above the work: each part's outline moved right and down, less itself."""
    found = []
    for part in dict.fromkeys(facet.source.part for facet in facets if facet.source.lifted):
        mine = [k for k, facet in enumerate(facets) if facet.source.part == part and facet.source.lifted]
        whole = union([facets[k].polygon for k in mine])
        moved = [tuple((x + LIFTED, y + LIFTED) for x, y in ring) for ring in whole]
        left = left_of(moved, (), [facets[k] for k in range(min(mine), len(facets))])
        if left:
            found.append(left)
    return found


def sliver_shape(rings: Sequence[Polygon2]) -> Shape:
    return Shape(rings_path(rings), None, "SLIVER", even_odd=True, role="sliver")


def outward_band(chain: Chain, polygon: Polygon2, width: float) -> Polygon2:
    """The band `width` wide along the chain, on the side away from the polygon's inside."""
    # the polygon runs clockwise with y down: where the chain runs with it the inside is at (-dy, dx), outward is (dy, -dx)
    sign = 1.0 if _runs_with(chain, polygon) else -1.0
    normals = []
    for a, b in itertools.pairwise(chain):
        dx, dy = b[0] - a[0], b[1] - a[1]
        size = hypot(dx, dy) or 1.0
        normals.append((sign * dy / size, -sign * dx / size))
    offset = []
    for k, spot in enumerate(chain):
        n0, n1 = normals[max(0, k - 1)], normals[min(k, len(normals) - 1)]
        mx, my = n0[0] + n1[0], n0[1] + n1[1]
        size = max(0.7, hypot(mx, my))
        offset.append((spot[0] + width * mx / size, spot[1] + width * my / size))
    return (*chain, *reversed(offset))


def _runs_with(chain: Chain, polygon: Polygon2) -> bool:
    """Whether the chain goes round the polygon the polygon's own way: the inside lies to the right of its longest piece."""
    a, b = max(itertools.pairwise(chain), key=lambda ab: hypot(ab[1][0] - ab[0][0], ab[1][1] - ab[0][1]))
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = hypot(dx, dy) or 1.0
    return within(((a[0] + b[0]) / 2 - 0.03 * dy / size, (a[1] + b[1]) / 2 + 0.03 * dx / size), polygon)
