"""Corners of all panels with their thickness, as seen in the body's view: for outside sizes and girths.

Round a board that a cover is turned in over, the corners are those of the covered board (`covered_boards.py`).
"""

from creasewright.folding.bent_solid import BentStrip, bent_strips
from creasewright.folding.covered_boards import outer_polygon
from creasewright.folding.heights import heights, thickness
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import Vector, rotate, times

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
            a, b, _, c, d, _, e, f, _ = times(body.view, state.placed[key].turn)
            x0, y0, z0 = rotate(body.view, state.placed[key].shift)
            corners = [(a * x + b * y + x0, c * x + d * y + y0, e * x + f * y + z0) for x, y in outer_polygon(state, key)]
            found.append((tuple([raised(at, normal, low) for at in corners]), tuple([raised(at, normal, high) for at in corners])))
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
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))
