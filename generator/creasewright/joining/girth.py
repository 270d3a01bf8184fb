"""How long the way round a thing is: the convex outline of a section, as a ribbon lies."""

from math import hypot

from creasewright.folding.solid_points import slabs
from creasewright.folding.state import Body, State
from creasewright.joining.bulk_map import bulk_map, from_the_table, level

Spot = tuple[float, float]


def section(state: State, body: Body, across: str, at: float) -> list[Spot]:
    """Points (along, z) where the plane at `at` (view y for `width`, view x for `height`) meets the panels.

    Where the layers between two planes are thicker than what stands at the spine holds open, they bulge it out.
    """
    spans = spans_at(state, body, across, at)
    return [end for span in spans for end in span] + bulges(state, body, spans, across, at)


def spans_at(state: State, body: Body, across: str, at: float) -> list[tuple[Spot, Spot]]:
    """The ends of what the plane cuts of each face of each panel, as the points where it meets the face's edges."""
    cut, keep = (1, 0) if across == "width" else (0, 1)
    spans = []
    for slab in slabs(state, body):
        for face in slab:
            points = []
            for a, b in zip(face, (*face[1:], face[0]), strict=True):
                if (a[cut] - at) * (b[cut] - at) <= 0 and a[cut] != b[cut]:
                    t = (at - a[cut]) / (b[cut] - a[cut])
                    points.append((a[keep] + t * (b[keep] - a[keep]), a[2] + t * (b[2] - a[2])))
            if points:
                spans.append((min(points), max(points)))
    return spans


def bulges(state: State, body: Body, spans: list[tuple[Spot, Spot]], across: str, at: float) -> list[Spot]:
    """Where all layers together are thicker than their places in space: their outer faces, as far on both sides."""
    if len({round(level(state, body, stack), 3) for stack in from_the_table(state, body)}) < 2:
        return []
    found = bulk_map(state, body)
    points = []
    for cell in found.cells:
        for low, high in cell.stretches(across, at):
            here = [z for (a, za), (b, zb) in spans if a < high and low < b for z in (za, zb)]
            half, middle = found.thick(cell) / 2, (min(here) + max(here)) / 2 if here else 0.0
            if here and 2 * half > max(here) - min(here):
                points += [(along, middle + z) for along in (low, high) for z in (-half, half)]
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
