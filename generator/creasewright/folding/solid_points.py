"""Corners of all panels with their thickness, as seen in the body's view: for outside sizes and girths."""

from collections.abc import Iterator

from creasewright.folding.heights import heights
from creasewright.folding.state import Body, State
from creasewright.geometry.rigid_transform import Vector, rotate, times

Slab = tuple[tuple[Vector, ...], tuple[Vector, ...]]
"""The lower and the upper face of a panel, corner by corner."""


def slabs(state: State, body: Body) -> list[Slab]:
    """Every panel as two faces, in the view: x right, y to the maker, z down."""
    return [
        (tuple([raised(c, normal, low) for c in corners]), tuple([raised(c, normal, high) for c in corners]))
        for corners, normal, low, high in middles(state, body)
    ]


def middles(state: State, body: Body) -> Iterator[tuple[list[Vector], Vector, float, float]]:
    """Of every panel the corners of its middle, the normal, how far its faces lie from there; in the view."""
    for stack in body.stacks:
        normal = rotate(body.view, stack.normal)
        for key, (low, high) in heights(state, body, stack).items():
            turn, (x0, y0, z0) = state.placed[key]
            a, b, _, c, d, _, e, f, _ = times(body.view, turn)
            x0, y0, z0 = rotate(body.view, (x0, y0, z0))
            polygon = state.blanks[key[0]].panel(key[1]).polygon
            yield [(a * x + b * y + x0, c * x + d * y + y0, e * x + f * y + z0) for x, y in polygon], normal, low, high


def raised(point: Vector, normal: Vector, by: float) -> Vector:
    return (point[0] + normal[0] * by, point[1] + normal[1] * by, point[2] + normal[2] * by)


def extents(state: State, body: Body) -> tuple[Vector, Vector]:
    """The least and the greatest x, y, z."""
    points: list[Vector] = []
    for corners, normal, low, high in middles(state, body):
        xs, ys, zs = zip(*corners, strict=True)
        for end in ((min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))):
            points += raised(end, normal, low), raised(end, normal, high)
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))
