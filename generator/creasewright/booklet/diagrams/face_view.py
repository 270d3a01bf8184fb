"""Facets of a scene as one view shows them: outline on the page, depth as a plane over it, the side that faces the reader.

All in mm of the model; nothing here is scaled.
"""

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.page_facet import simplified
from creasewright.booklet.diagrams.scene import Facet3, Motif, Spot, Spot3
from creasewright.booklet.diagrams.shade import shaded
from creasewright.booklet.diagrams.space_view import SpaceView, along, loop_normal, nearness, seen_at
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import dot, minus, norm

DEPTH_SAME = 1e-3
"""Two depths closer than this, in mm, are one: far under the thinnest paper, far over the noise of rotations."""
EDGE_ON = 0.005
"""A facet whose normal makes a smaller cosine with the line of sight is seen edge on: a line, it hides nothing."""


class Face(Struct, frozen=True):
    facet: Facet3
    outline: Polygon
    """On the page, clockwise as seen; empty when seen edge on."""
    depth: tuple[float, float, float]
    """(a, b, c): nearness = a x + b y + c over the page place (x, y)."""
    box: tuple[float, float, float, float]
    """Least x, least y, greatest x, greatest y."""
    nearest: float
    """Greatest nearness of its corners."""
    outward: Spot3
    """Unit normal of the side that is seen."""
    normal_seen: bool
    """The side towards the facet's normal is the one seen."""

    @property
    def colour(self) -> str:
        return shaded(self.facet.fill if self.normal_seen else self.facet.back_fill, self.outward)

    @property
    def motif(self) -> Motif | None:
        return self.facet.motif if self.normal_seen else self.facet.back_motif


def faces_of(facets: Iterable[Facet3], view: SpaceView) -> tuple[Face, ...]:
    """In an order of their own, whatever order they came in."""
    return tuple(face_of(facet, view) for facet in sorted(facets, key=_own_order))


def face_of(facet: Facet3, view: SpaceView) -> Face:
    places = tuple(seen_at(view, corner) for corner in facet.polygon)
    normal = loop_normal(facet.polygon)
    if dot(normal, facet.normal) < 0:
        normal = (-normal[0], -normal[1], -normal[2])
    facing = dot(normal, view.eye)
    box = (min(x for x, _ in places), min(y for _, y in places), max(x for x, _ in places), max(y for _, y in places))
    if abs(facing) < EDGE_ON:
        return Face(facet, (), (0.0, 0.0, 0.0), box, 0.0, normal, True)
    a, b = -dot(normal, view.across) / facing, -dot(normal, view.down) / facing
    middle = _middle(facet.polygon)
    x, y = seen_at(view, middle)
    outward = normal if facing > 0 else (-normal[0], -normal[1], -normal[2])
    clockwise = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(places, places[1:] + places[:1], strict=True)) > 0
    outline = places if clockwise else places[::-1]
    nearest = max(nearness(view, corner) for corner in facet.polygon)
    return Face(facet, outline, (a, b, nearness(view, middle) - a * x - b * y), box, nearest, outward, facing > 0)


def depth_at(face: Face, place: Spot) -> float:
    return face.depth[0] * place[0] + face.depth[1] * place[1] + face.depth[2]


def boxes_apart(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


def above_when_flat(a: Face, b: Face) -> bool:
    """Of two faces in one plane: does `a` lie nearer to the reader? The one with the higher layer lies towards its own normal.

    In one layer (nothing says which) a fixed order of names decides, so that the picture never depends on the list's order.
    """
    if a.facet.layer != b.facet.layer:
        higher_is_nearer = a.normal_seen if a.facet.layer > b.facet.layer else b.normal_seen
        return (a.facet.layer > b.facet.layer) == higher_is_nearer
    return _own_order(a.facet) > _own_order(b.facet)


def coarsened(facet: Facet3, scale: float) -> Facet3:
    """The facet with its flattened curves as fine as they need be at that scale (page mm for a model mm)."""
    if len(facet.polygon) < 9 or facet.edge_kinds:
        return facet
    start = facet.polygon[0]
    flat = {}
    for spot in facet.polygon:
        way = minus(spot, start)
        flat[dot(facet.axis_x, way) * scale, dot(facet.axis_y, way) * scale] = spot
    kept = simplified(tuple(flat), closed=True)
    return replace(facet, polygon=tuple(flat[place] for place in kept)) if len(kept) > 2 else facet


def spread_stacks(facets: Iterable[Facet3], gap: float) -> tuple[Facet3, ...]:
    """Facets lying on each other in one plane set `gap` mm of the model apart, in the order of layers, so that edges read.

    A facet that already carries its true place, or lies on nothing, stays where it is.
    """
    given = tuple(facets)
    if gap <= 0:
        return given
    return tuple(_lifted(facet, gap * _rank(facet, given)) for facet in given)


def _rank(facet: Facet3, others: tuple[Facet3, ...]) -> int:
    """How many layers lie under the facet in its own stack."""
    return len({other.layer for other in others if other.layer < facet.layer and _in_one_stack(facet, other)})


def _lifted(facet: Facet3, amount: float) -> Facet3:
    if not amount:
        return facet
    return replace(facet, polygon=tuple(along(spot, facet.normal, amount) for spot in facet.polygon))


def _in_one_stack(a: Facet3, b: Facet3) -> bool:
    """One plane, and boxes in that plane that overlap (a cheap test: a lift too many does no harm)."""
    if norm(minus(a.normal, b.normal)) > DEPTH_SAME:
        return False
    start = a.polygon[0]
    if any(abs(dot(a.normal, minus(spot, start))) > DEPTH_SAME for spot in b.polygon):
        return False
    spans = []
    for axis in (a.axis_x, a.axis_y):
        here, there = [dot(axis, spot) for spot in a.polygon], [dot(axis, spot) for spot in b.polygon]
        spans.append(min(max(here), max(there)) - max(min(here), min(there)))
    return min(spans) > DEPTH_SAME


def _middle(corners: tuple[Spot3, ...]) -> Spot3:
    n = len(corners)
    return sum(c[0] for c in corners) / n, sum(c[1] for c in corners) / n, sum(c[2] for c in corners) / n


def _own_order(facet: Facet3) -> tuple[str, str, str, int, tuple[Spot3, ...]]:
    return facet.letter, facet.part, facet.panel, facet.layer, facet.polygon
