"""Corners of all panels with their thickness, as seen in the body's view: for outside sizes and girths."""

from creasewright.folding.bent_solid import BentStrip, bent_strips
from creasewright.folding.heights import heights, thickness
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, apply, rotate

Slab = tuple[tuple[Vector, ...], tuple[Vector, ...]]
"""The lower and the upper face of a panel, corner by corner."""


def slabs(state: State, body: Body) -> list[Slab]:
    """Every panel as two faces, in the view: x right, y to the maker, z down."""
    found = []
    for stack in body.stacks:
        normal = rotate(body.view, stack.normal)
        for key, (low, high) in heights(state, body, stack).items():
            if key in state.curved:
                found += bent_slabs(state, body, key)
                continue
            placed = state.placed[key]
            corners = [rotate(body.view, apply(placed, (x, y, 0.0))) for x, y in state.blanks[key[0]].panel(key[1]).polygon]
            found.append((tuple(raised(c, normal, low) for c in corners), tuple(raised(c, normal, high) for c in corners)))
    return found


def bent_slabs(state: State, body: Body, key: PanelKey) -> list[Slab]:
    """The strips of a bent panel, half its thickness to each side of its middle."""
    half, under = thickness(state, key) / 2, state.curved[key].under

    def face(strip: BentStrip, by: float) -> tuple[Vector, ...]:
        return tuple(rotate(body.view, raised(c, n, by - under)) for c, n in zip(strip.corners, strip.normals, strict=True))

    return [(face(strip, -half), face(strip, half)) for strip in bent_strips(state, key)]


def raised(point: Vector, normal: Vector, by: float) -> Vector:
    return (point[0] + normal[0] * by, point[1] + normal[1] * by, point[2] + normal[2] * by)


def extents(state: State, body: Body) -> tuple[Vector, Vector]:
    """The least and the greatest x, y, z."""
    points = [point for slab in slabs(state, body) for face in slab for point in face]
    return (
        (min(p[0] for p in points), min(p[1] for p in points), min(p[2] for p in points)),
        (max(p[0] for p in points), max(p[1] for p in points), max(p[2] for p in points)),
    )
