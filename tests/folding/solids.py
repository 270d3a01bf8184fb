"""Folded blanks as meshes, for an independent judge."""

from math import atan2

import trimesh

from creasewright.folding.state import PanelKey, State
from creasewright.geometry.rigid_transform import apply

Spot = tuple[float, float, float]


def corners(state: State, panel: PanelKey) -> list[Spot]:
    return [apply(state.placed[panel], (x, y, 0.0)) for x, y in state.blanks[panel[0]].panel(panel[1]).polygon]


def mesh(faces: list[list[Spot]]) -> trimesh.Trimesh:
    """Convex faces as fans of triangles, corners within 1e-6 mm of each other made one, turned to look outwards."""
    points: list[Spot] = []
    triangles = []
    for face in faces:
        start = len(points)
        points += face
        triangles += [(start, start + k, start + k + 1) for k in range(1, len(face) - 1)]
    solid = trimesh.Trimesh(points, triangles, process=False)
    solid.merge_vertices(digits_vertex=6)
    trimesh.repair.fix_normals(solid)
    return solid


def closed_box(state: State, part: str, base: str, walls: list[str]) -> trimesh.Trimesh:
    """Base and walls, and a flat top over the corners that lie farthest from the base."""
    ground = corners(state, (part, base))
    rim = [p for wall in walls for p in corners(state, (part, wall)) if min(abs_distance(p, q) for q in ground) > 1e-6]
    ring = round_of(rim)
    return mesh([ground, *(corners(state, (part, wall)) for wall in walls), ring])


def abs_distance(p: Spot, q: Spot) -> float:
    return max(abs(a - b) for a, b in zip(p, q, strict=True))


def round_of(points: list[Spot]) -> list[Spot]:
    """Distinct corners of a convex flat outline, in order round their middle (seen along z)."""
    distinct: list[Spot] = []
    for p in points:
        if all(abs_distance(p, q) > 1e-5 for q in distinct):
            distinct.append(p)
    mx, my = (sum(p[k] for p in distinct) / len(distinct) for k in (0, 1))
    return sorted(distinct, key=lambda p: atan2(p[1] - my, p[0] - mx))
