"""How long the way round a thing is: the convex outline of a section, as a ribbon lies."""

from math import hypot

from creasewright.folding.solid_points import slabs
from creasewright.folding.state import Body, State

Spot = tuple[float, float]


def section(state: State, body: Body, across: str, at: float) -> list[Spot]:
    """Points (along, z) where the plane at `at` (view y for `width`, view x for `height`) meets the panels."""
    cut = 1 if across == "width" else 0
    keep = 0 if across == "width" else 1
    points = []
    for slab in slabs(state, body):
        for face in slab:
            for a, b in zip(face, (*face[1:], face[0]), strict=True):
                if (a[cut] - at) * (b[cut] - at) <= 0 and a[cut] != b[cut]:
                    t = (at - a[cut]) / (b[cut] - a[cut])
                    points.append((a[keep] + t * (b[keep] - a[keep]), a[2] + t * (b[2] - a[2])))
    return points


def hull(points: list[Spot]) -> list[Spot]:
    """Convex outline, by A. M. Andrew's monotone chain (1979)."""
    ordered = sorted(set(points))
    if len(ordered) < 3:
        return ordered

    def half(run: list[Spot]) -> list[Spot]:
        chain: list[Spot] = []
        for p in run:
            while len(chain) > 1 and turn(chain[-2], chain[-1], p) <= 0:
                chain.pop()
            chain.append(p)
        return chain[:-1]

    return half(ordered) + half(ordered[::-1])


def turn(a: Spot, b: Spot, c: Spot) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def girth(state: State, body: Body, across: str, at: float) -> float:
    """mm round the body at that section; 0 where the section misses it."""
    outline = hull(section(state, body, across, at))
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(outline, [*outline[1:], *outline[:1]], strict=True))
