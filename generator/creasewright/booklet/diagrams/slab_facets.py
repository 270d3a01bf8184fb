"""A thick thing (a page block, a tin) in space: the faces between its upper and its lower one."""

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet3, Spot3
from creasewright.geometry.rigid_transform import cross, minus, norm

LEAST = 2.0
"""mm: a thing that is thinner is drawn as a sheet."""


def slab_facets(upper: Facet3, lower: Facet3) -> tuple[Facet3, ...]:
    """Both faces and the sides between them; the two have corners in the same order."""
    rings = list(zip(upper.polygon, lower.polygon, strict=True))
    sides = []
    for (a, c), (b, d) in zip(rings, (*rings[1:], rings[0]), strict=True):
        along, down = minus(b, a), minus(c, a)
        out = cross(along, down)
        if norm(out) < 1e-9:
            continue
        normal = unit(away(out, a, upper.polygon))
        side = replace(
            upper, polygon=(a, b, d, c), normal=normal, motif=None, back_motif=None, axis_x=unit(along), axis_y=unit(down), letter=""
        )
        sides.append(side)
    return (upper, lower, *sides)


def away(normal: Spot3, spot: Spot3, ring: tuple[Spot3, ...]) -> Spot3:
    """The normal turned away from the middle of a ring."""
    middle = tuple(sum(p[axis] for p in ring) / len(ring) for axis in range(3))
    towards = sum(n * (m - s) for n, m, s in zip(normal, middle, spot, strict=True))
    return (-normal[0], -normal[1], -normal[2]) if towards > 0 else normal


def unit(v: Spot3) -> Spot3:
    size = norm(v)
    return (v[0] / size, v[1] / size, v[2] / size)
