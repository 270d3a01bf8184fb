"""Corners of all panels with their thickness, as seen in the body's view: for outside sizes and girths."""

from creasewright.folding.heights import heights
from creasewright.folding.state import Body, State
from creasewright.geometry.rigid_transform import Matrix, Rigid, Vector, rotate, times

Slab = tuple[tuple[Vector, ...], tuple[Vector, ...]]
"""The lower and the upper face of a panel, corner by corner."""


def slabs(state: State, body: Body) -> list[Slab]:
    """Every panel as two faces, in the view: x right, y to the maker, z down."""
    found = []
    for stack in body.stacks:
        normal = rotate(body.view, stack.normal)
        for key, (low, high) in heights(state, body, stack).items():
            (a, b, _, c, d, _, e, f, _), (x0, y0, z0) = seen_move(body.view, state.placed[key])
            polygon = state.blanks[key[0]].panel(key[1]).polygon
            corners = [(a * x + b * y + x0, c * x + d * y + y0, e * x + f * y + z0) for x, y in polygon]
            found.append((tuple(raised(c, normal, low) for c in corners), tuple(raised(c, normal, high) for c in corners)))
    return found


def seen_move(view: Matrix, placed: Rigid) -> Rigid:
    """From the blank's flat frame to the view."""
    return Rigid(times(view, placed.turn), rotate(view, placed.shift))


def raised(point: Vector, normal: Vector, by: float) -> Vector:
    return (point[0] + normal[0] * by, point[1] + normal[1] * by, point[2] + normal[2] * by)


def extents(state: State, body: Body) -> tuple[Vector, Vector]:
    """The least and the greatest x, y, z."""
    points = [point for slab in slabs(state, body) for face in slab for point in face]
    return (
        (min(p[0] for p in points), min(p[1] for p in points), min(p[2] for p in points)),
        (max(p[0] for p in points), max(p[1] for p in points), max(p[2] for p in points)),
    )
