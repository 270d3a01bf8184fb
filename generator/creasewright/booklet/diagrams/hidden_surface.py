"""Which part of each face is seen: exact, face against face.

Where two faces overlap on the page their depths are compared there. Each depth is linear, so of three cases one holds: one
face is nearer all over; the planes cross, and the line where they do parts the overlap; or both lie in one plane, and the
layers decide. What is left of a face after every nearer one is taken from it is what the reader sees. No order of all faces
is needed, so rings of faces that each lie over the next are no special case: they are cut where they cross.
"""

from creasewright.booklet.diagrams.face_view import DEPTH_SAME, Face, above_when_flat, boxes_apart, depth_at
from creasewright.booklet.diagrams.scene import Spot
from creasewright.geometry.clip import difference, intersection
from creasewright.geometry.outline import Polygon

PARALLEL = 1e-9
"""Slopes of two depths closer than this are one."""
Region = list[Polygon]
"""Rings; a hole runs the other way round than what it is a hole in."""


def visible_regions(faces: tuple[Face, ...]) -> tuple[Region, ...]:
    """Of each face, in the order given, what no other face hides."""
    covers: list[Region] = [[] for _ in faces]
    for i, a in enumerate(faces):
        for j in range(i + 1, len(faces)):
            b = faces[j]
            if not a.outline or not b.outline or boxes_apart(a.box, b.box):
                continue
            over_a, over_b = _covering(a, b)
            covers[i] += over_a
            covers[j] += over_b
    return tuple(_left_over(face, cover) for face, cover in zip(faces, covers, strict=True))


def _left_over(face: Face, cover: Region) -> Region:
    if not face.outline:
        return []
    return difference([face.outline], cover) if cover else [face.outline]


def _covering(a: Face, b: Face) -> tuple[Region, Region]:
    """What of `b` lies over `a`, and what of `a` lies over `b` (it may reach beyond the other)."""
    slope = (a.depth[0] - b.depth[0], a.depth[1] - b.depth[1], a.depth[2] - b.depth[2])
    if abs(slope[0]) < PARALLEL and abs(slope[1]) < PARALLEL:
        overlap: Region = []
        ahead = [depth_at(a, a.outline[0]) - depth_at(b, a.outline[0])]
    else:
        overlap = intersection([a.outline], [b.outline])
        if not overlap:
            return [], []
        ahead = [depth_at(a, place) - depth_at(b, place) for ring in overlap for place in ring]
    if max(ahead) <= DEPTH_SAME and min(ahead) >= -DEPTH_SAME:
        return ([], [a.outline]) if above_when_flat(a, b) else ([b.outline], [])
    if min(ahead) >= -DEPTH_SAME:
        return [], [a.outline]
    if max(ahead) <= DEPTH_SAME:
        return [b.outline], []
    before = intersection(overlap, [_half(slope, a.box)])
    behind = intersection(overlap, [_half((-slope[0], -slope[1], -slope[2]), a.box)])
    return behind, before


def _half(slope: tuple[float, float, float], box: tuple[float, float, float, float]) -> Polygon:
    """The part of the box where a x + b y + c is positive."""
    a, b, c = slope
    x0, y0, x1, y1 = box
    corners: list[Spot] = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    kept: list[Spot] = []
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        at_here, at_there = a * here[0] + b * here[1] + c, a * there[0] + b * there[1] + c
        if at_here >= 0:
            kept.append(here)
        if (at_here >= 0) != (at_there >= 0):
            t = at_here / (at_here - at_there)
            kept.append((here[0] + t * (there[0] - here[0]), here[1] + t * (there[1] - here[1])))
    return tuple(kept)
