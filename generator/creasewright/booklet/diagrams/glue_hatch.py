"""Where adhesive goes: 45-degree lines inside an outline, in the accent."""

from collections.abc import Sequence
from math import hypot, sqrt

from creasewright.booklet.diagrams.boxes import polyline
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.drawing import Command, Item, Pen, Shape

APART, LEAST_APART = 1.7, 0.95
"""mm between hatch lines, square to them: usual, and in the narrowest bands."""
GLUE = 0.6
"""pt"""


def glue_area(rings: Sequence[Polygon2], style: PictureStyle, role: str = "glue") -> list[Item]:
    """Hatch and outline of one area on the page; further rings are its holes."""
    pen = Pen("ACC", GLUE * style.weight)
    lines = hatch_lines(rings, hatch_spacing(rings[0]))
    outline = tuple(command for ring in rings for command in polyline(ring, closed=True))
    hatch: tuple[Command, ...] = tuple(c for a, b in lines for c in (("M", *a), ("L", *b)))
    items: list[Item] = [Shape(hatch, pen, role=f"{role} hatch")] if hatch else []
    return [*items, Shape(outline, pen, role=f"{role} outline")]


def hatch_spacing(ring: Polygon2) -> float:
    """Narrow bands are hatched more closely: 0.6 of the band's width, which is about 2 area / girth for a long one."""
    area = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2
    girth = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    width = 2 * area / girth if girth else 0.0
    return min(APART, max(LEAST_APART, 0.6 * width))


def hatch_lines(rings: Sequence[Polygon2], apart: float) -> list[tuple[Spot, Spot]]:
    """The parts inside the rings (even-odd) of parallel lines at 45 degrees: rising to the right, or falling where a band rises itself."""
    if rises(rings[0]):
        flipped = hatch_lines([tuple((-x, y) for x, y in ring) for ring in rings], apart)
        return [((-a[0], a[1]), (-b[0], b[1])) for a, b in flipped]
    step = apart * sqrt(2)
    sums = [x + y for x, y in rings[0]]
    lines: list[tuple[Spot, Spot]] = []
    k = int(min(sums) // step) + 1
    while k * step < max(sums):
        hits = sorted(_hits(rings, k * step))
        lines.extend((a, b) for a, b in zip(hits[::2], hits[1::2], strict=False) if b[0] - a[0] > 0.15)
        k += 1
    return lines


def rises(ring: Polygon2) -> bool:
    """Whether the longest edge runs within 20 degrees of the hatch's own direction, which it would swallow."""
    (ax, ay), (bx, by) = max(zip(ring, (*ring[1:], ring[0]), strict=True), key=lambda e: hypot(e[1][0] - e[0][0], e[1][1] - e[0][1]))
    dx, dy = bx - ax, by - ay
    return abs(dx + dy) < 0.36 * hypot(dx, dy)


def _hits(rings: Sequence[Polygon2], level: float) -> list[Spot]:
    found = []
    for ring in rings:
        px, py = ring[-1]
        for qx, qy in ring:
            before, after = px + py - level, qx + qy - level
            if (before > 0) != (after > 0):
                t = before / (before - after)
                found.append((px + t * (qx - px), py + t * (qy - py)))
            px, py = qx, qy
    return found
