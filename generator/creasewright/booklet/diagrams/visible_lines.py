"""Hidden lines removed exactly: what of a chain shows when higher facets lie on it.

A place of a line is hidden when the paper on both its sides is covered; on the rim of a higher facet it still shows
(the rim's own line is drawn there), but not under the seam of two higher facets.
"""

import itertools
from collections.abc import Sequence
from math import hypot

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.scene import Polygon2, Spot

BESIDE = 0.02
"""mm from a line to the places that are asked for cover."""


APART = 1e-6
"""mm: a line this far inside a facet lies in it in spite of rounding."""


def visible_chains(chain: Chain, higher: Sequence[PageFacet]) -> list[Chain]:
    """The parts of the chain that show, each as a chain of its own, in order."""
    box = box_of(chain).grown(BESIDE)
    covers = [facet for facet in higher if facet.box.overlaps(box)]
    if not covers:
        return [chain]
    shown: list[list[Spot]] = []
    for a, b in itertools.pairwise(chain):
        for low, high in _shown_of(a, b, covers):
            start, end = _at(a, b, low), _at(a, b, high)
            if shown and shown[-1][-1] == start:
                shown[-1].append(end)
            else:
                shown.append([start, end])
    if len(shown) > 1 and chain[0] == chain[-1] and shown[0][0] == shown[-1][-1]:
        shown[0] = shown.pop() + shown[0][1:]
    return [tuple(spots) for spots in shown]


def _at(a: Spot, b: Spot, t: float) -> Spot:
    if t <= 0:
        return a
    return b if t >= 1 else (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))


def _shown_of(a: Spot, b: Spot, covers: Sequence[PageFacet]) -> list[tuple[float, float]]:
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = hypot(dx, dy)
    if size < 1e-9:
        return []
    box = Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(BESIDE)
    near = [facet for facet in covers if facet.box.overlaps(box)]
    if not near:
        return [(0.0, 1.0)]
    if any(facet.core is not None and facet.core.holds(box, -APART) for facet in near):
        return []
    nx, ny = -dy / size * BESIDE, dx / size * BESIDE
    stops = {0.0, 1.0}
    for facet in near:
        for ring in (facet.polygon, *facet.holes):
            stops.update(crossings(a, b, ring))
    ordered = sorted(stops)
    shown: list[tuple[float, float]] = []
    for low, high in itertools.pairwise(ordered):
        if (high - low) * size < 1e-4:
            continue
        x, y = _at(a, b, (low + high) / 2)
        if not (_covered((x + nx, y + ny), near) and _covered((x - nx, y - ny), near)):
            if shown and shown[-1][1] >= low - 1e-9:
                shown[-1] = (shown[-1][0], high)
            else:
                shown.append((low, high))
    return shown


def crossings(a: Spot, b: Spot, ring: Polygon2) -> list[float]:
    """Where on a-b (0 to 1) the ring is crossed or begins to run along it."""
    ax, ay = a
    dx, dy = b[0] - ax, b[1] - ay
    size = dx * dx + dy * dy
    near = 1e-6 * size
    found: list[float] = []
    px, py = ring[-1]
    side_p = (px - ax) * dy - (py - ay) * dx
    for qx, qy in ring:
        side_q = (qx - ax) * dy - (qy - ay) * dx
        if (side_p > 0) != (side_q > 0):
            share = side_p / (side_p - side_q)
            x, y = px + share * (qx - px), py + share * (qy - py)
            found.append(((x - ax) * dx + (y - ay) * dy) / size)
        if -near < side_q < near:
            found.append(((qx - ax) * dx + (qy - ay) * dy) / size)
        px, py, side_p = qx, qy, side_q
    return [t for t in found if 0 < t < 1] if found else found


def _covered(spot: Spot, covers: Sequence[PageFacet]) -> bool:
    x, y = spot
    for facet in covers:
        x0, y0, x1, y1 = facet.box
        inside = x0 <= x <= x1 and y0 <= y <= y1 and within(spot, facet.polygon)
        if inside and not any(within(spot, hole) for hole in facet.holes):
            return True
    return False


def within(spot: Spot, ring: Sequence[Spot]) -> bool:
    """Inside by the even-odd rule."""
    x, y = spot
    inside = False
    px, py = ring[-1]
    for qx, qy in ring:
        if (py > y) != (qy > y) and x < px + (y - py) / (qy - py) * (qx - px):
            inside = not inside
        px, py = qx, qy
    return inside


def level_hits(rings: Sequence[Sequence[Spot]], y: float) -> list[float]:
    """Where the level line at `y` meets the rings, left to right: a place on it is inside (even-odd) with an odd count on its right."""
    hits = []
    for ring in rings:
        px, py = ring[-1]
        for qx, qy in ring:
            if (py > y) != (qy > y):
                hits.append(px + (y - py) / (qy - py) * (qx - px))
            px, py = qx, qy
    hits.sort()
    return hits


def spans(rings: Sequence[Sequence[Spot]], y: float) -> list[tuple[float, float]]:
    """The insides of the rings (even-odd) along the level line at `y`, left to right."""
    hits = level_hits(rings, y)
    return list(zip(hits[::2], hits[1::2], strict=False))
