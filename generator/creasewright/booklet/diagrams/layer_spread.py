"""Fanning out: flaps folded flat are sheared sideways a little so that the edges of every layer read.

Sheet    facets of one piece that hang together without a flat fold between them; they move together.
Hinge    the folded edge where a sheet hangs on another.
Shift    where a place of a sheet goes: nothing at its hinge, `FAN` mm on the page at its far edge, along the hinge.
         A sheet hanging on a shifted one follows it at the hinge: shift(p) = parent's shift(foot of p on the hinge) + its own.

Only what needs it is fanned: a flap whose free edge lies on another edge of the work. A flap that would stick out over another
piece stays true, as it would seem to cover what it does not.
"""

from collections import defaultdict
from collections.abc import Sequence
from math import hypot

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_of, united
from creasewright.booklet.diagrams.page_facet import PageFacet, core_of, moved_by, place_facet, place_key
from creasewright.booklet.diagrams.scene import Affine, Facet, FacetEdge, Spot
from creasewright.geometry.clip import clockwise, difference, intersection, total_area

FAN = 1.0
MOST = 3.0
"""mm on the page: shift of one more layer, and of all together."""
STEEPEST = 0.12
"""Shift at most this share of the flap's depth."""
SHALLOW = 2.0
"""mm on the page: a flap that reaches less far from its hinge stays true; no edge of it could be read."""
COINCIDENT = 0.5
"""mm on the page: edges closer than this do not read apart."""
OFF_HINGE = 0.05
"""A free edge gets a sliver where both ends are farther from the hinge than this share of the flap's depth."""
OVERHANG = 0.5
"""mm² of the view: less than this over another piece is no overlap that anyone sees."""

Sheets = list[list[int]]


class _Lying(Struct, frozen=True):
    """All that lies in the picture, with what is asked of it again and again."""

    facets: Sequence[Facet]
    boxes: tuple[Box, ...]
    """Of the facets, in the view."""
    scale: float

    def box_of(self, sheet: Sequence[int]) -> Box:
        return united([self.boxes[k] for k in sheet])


def spread(facets: Sequence[Facet], scale: float, fan: bool = True) -> tuple[PageFacet, ...]:
    """The facets on the page, in their order; `scale` is page mm for a view mm. Without `fan` every place stays true."""
    seen: set[tuple[int, ...]] = set()
    lying = _Lying(facets, tuple(box_of(facet.polygon) for facet in facets), scale)
    shifts = {k: (IDENTITY, frozenset[int]()) for k in range(len(facets))}
    by_part: dict[str, list[int]] = defaultdict(list)
    for k, facet in enumerate(facets):
        by_part[facet.part].append(k)
    for members in by_part.values():
        if fan and any(edge.kind == "folded" for k in members for edge in facets[k].edges):
            shifts.update(_shifts_of_part(lying, members))
    placed = []
    for k in reversed(range(len(facets))):
        shift, free = shifts[k]
        placed.append(place_facet(facets[k], _scaled(shift, scale), seen, free))
    return tuple(reversed(placed))


IDENTITY: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def _scaled(shift: Affine, scale: float) -> Affine:
    a, b, c, d, e, f = shift
    return a * scale, b * scale, c * scale, d * scale, e * scale, f * scale


def _shifts_of_part(lying: _Lying, members: list[int]) -> dict[int, tuple[Affine, frozenset[int]]]:
    facets = lying.facets
    sheets = sheets_of(facets, members)
    sheet_of = {k: n for n, sheet in enumerate(sheets) for k in sheet}
    hinges = _hinges(facets, members, sheet_of)
    sizes = [sum(_area(facets[k].polygon) for k in sheet) for sheet in sheets]
    root = max(range(len(sheets)), key=lambda n: (round(sizes[n], 2), -min(sheets[n])))
    found: dict[int, tuple[Affine, frozenset[int]]] = {k: (IDENTITY, frozenset()) for k in sheets[root]}
    amounts: dict[int, float] = {root: 0.0}
    waiting = [root]
    while waiting:
        parent = waiting.pop(0)
        for child in sorted({n for pair in hinges for n in pair if parent in pair} - set(amounts)):
            hinge = hinges[min(parent, child), max(parent, child)]
            above = min(sheets[child]) > min(sheets[parent])
            amount, shift, free = _fanned(lying, sheets, child, hinge, found[sheets[parent][0]][0], amounts)
            amounts[child] = amount
            found.update({k: (shift, free[k] if above else frozenset()) for k in sheets[child]})
            waiting.append(child)
    return found


def sheets_of(facets: Sequence[Facet], members: Sequence[int]) -> Sheets:
    """Which facets hang together without a flat fold between them."""
    owner = {k: k for k in members}

    def top(k: int) -> int:
        while owner[k] != k:
            k = owner[k]
        return k

    first: dict[tuple[int, ...], int] = {}
    for k in members:
        for edge in facets[k].edges:
            if edge.kind in ("valley", "mountain", "score", "crease"):
                owner[top(k)] = top(first.setdefault(_edge_key(edge), k))
    groups: dict[int, list[int]] = defaultdict(list)
    for k in members:
        groups[top(k)].append(k)
    return sorted(groups.values(), key=min)


def _edge_key(edge: FacetEdge) -> tuple[int, ...]:
    return (*place_key(min(edge.start, edge.end)), *place_key(max(edge.start, edge.end)))


def _hinges(
    facets: Sequence[Facet], members: Sequence[int], sheet_of: dict[int, int]
) -> dict[tuple[int, int], tuple[Spot, Spot]]:
    first: dict[tuple[int, ...], int] = {}
    found: dict[tuple[int, int], tuple[Spot, Spot]] = {}
    for k in members:
        for edge in facets[k].edges:
            if edge.kind == "folded":
                other = sheet_of[first.setdefault(_edge_key(edge), k)]
                mine = sheet_of[k]
                if other != mine:
                    found.setdefault((min(other, mine), max(other, mine)), (edge.start, edge.end))
    return found


def _fanned(
    lying: _Lying, sheets: Sheets, child: int, hinge: tuple[Spot, Spot], parent: Affine, amounts: dict[int, float]
) -> tuple[float, Affine, dict[int, frozenset[int]]]:
    """How far the sheet fans out (page mm), its shift as an affine map of view mm, and which of its edges get a sliver."""
    facets, scale = lying.facets, lying.scale
    (hx, hy), along = hinge[0], _reading_direction(*hinge)
    normal = (-along[1], along[0])
    depths = {k: [(x - hx) * normal[0] + (y - hy) * normal[1] for x, y in facets[k].polygon] for k in sheets[child]}
    far = max((depth for row in depths.values() for depth in row), key=abs)
    free = {k: frozenset(_off_hinge(facets[k], (hx, hy), normal, far)) for k in sheets[child]}
    amount = 0.0
    if abs(far) * scale > SHALLOW and _needs_fan(facets, sheets[child], scale):
        amount = min(FAN, STEEPEST * abs(far) * scale) + _under(lying, sheets, child, amounts)
        amount = min(amount, MOST)
    shift = _sheared(hinge[0], along, normal, parent, amount / (far or 1.0) / scale)
    if amount and _covers_another(lying, sheets, child, shift):
        return 0.0, _sheared(hinge[0], along, normal, parent, 0.0), free
    return amount, shift, free


def _covers_another(lying: _Lying, sheets: Sheets, child: int, shift: Affine) -> bool:
    """Fanned out, the sheet would lie on a piece on which its own piece does not lie there. Most pieces lie whole on or under one
    panel of it, which tells without a closer look.
    """
    facets = lying.facets
    part = facets[sheets[child][0]].part
    moved = [clockwise(tuple(moved_by(shift, spot) for spot in facets[k].polygon)) for k in sheets[child]]
    reach = united([box_of(polygon) for polygon in moved])
    near = [k for k, facet in enumerate(facets) if facet.part != part and lying.boxes[k].overlaps(reach)]
    own = [core for sheet in sheets for k in sheet if (core := core_of(facets[k].polygon, ())) is not None]
    others = [facets[k].polygon for k in near if not any(core.holds(lying.boxes[k]) for core in own)]
    if not others:
        return False
    mine = [clockwise(facets[k].polygon) for sheet in sheets for k in sheet]
    over = difference(moved, mine)
    return total_area(intersection(over, map(clockwise, others))) > OVERHANG


def _sheared(at: Spot, along: Spot, normal: Spot, parent: Affine, rate: float) -> Affine:
    """p + (parent(foot) - foot) + rate * depth(p) * along, as one affine map in view mm."""

    def image(p: Spot) -> Spot:
        depth = (p[0] - at[0]) * normal[0] + (p[1] - at[1]) * normal[1]
        foot = p[0] - depth * normal[0], p[1] - depth * normal[1]
        carried = moved_by(parent, foot)
        return (
            p[0] + carried[0] - foot[0] + rate * depth * along[0],
            p[1] + carried[1] - foot[1] + rate * depth * along[1],
        )

    origin, x_end, y_end = image((0.0, 0.0)), image((1.0, 0.0)), image((0.0, 1.0))
    return (
        x_end[0] - origin[0], x_end[1] - origin[1],
        y_end[0] - origin[0], y_end[1] - origin[1],
        origin[0], origin[1],
    )  # fmt: skip


def _reading_direction(a: Spot, b: Spot) -> Spot:
    """Unit vector along the hinge, to the right; straight down for an upright one."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    size = hypot(dx, dy) or 1.0
    sign = 1.0 if dx + 0.5 * dy > 0 else -1.0
    return sign * dx / size, sign * dy / size


def _off_hinge(facet: Facet, at: Spot, normal: Spot, far: float) -> list[int]:
    def share(spot: Spot) -> float:
        return ((spot[0] - at[0]) * normal[0] + (spot[1] - at[1]) * normal[1]) / (far or 1.0)

    return [k for k, edge in enumerate(facet.edges) if edge.kind == "cut" and min(share(edge.start), share(edge.end)) > OFF_HINGE]


def _needs_fan(facets: Sequence[Facet], sheet: Sequence[int], scale: float) -> bool:
    """A free edge of the sheet lies on an edge of another layer, so closely that the two would read as one."""
    mine = set(sheet)
    others = [(edge, *_sides(edge)) for k, facet in enumerate(facets) if k not in mine for edge in facet.edges if edge.kind != "folded"]
    near = COINCIDENT / scale
    for edge in [edge for k in sheet for edge in facets[k].edges if edge.kind == "cut"]:
        left, right, head, tail = _sides(edge)
        left, right, head, tail = left - near, right + near, head - near, tail + near
        for other, x0, x1, y0, y1 in others:
            # one that lies on the other reaches into its box
            if x0 < right and x1 > left and y0 < tail and y1 > head and _lies_on(edge, other, near):
                return True
    return False


def _sides(edge: FacetEdge) -> tuple[float, float, float, float]:
    """Left, right, head, tail."""
    (ax, ay), (bx, by) = edge.start, edge.end
    return (ax, bx, ay, by) if ax < bx and ay < by else (min(ax, bx), max(ax, bx), min(ay, by), max(ay, by))


def _lies_on(edge: FacetEdge, other: FacetEdge, near: float) -> bool:
    middle = (edge.start[0] + edge.end[0]) / 2, (edge.start[1] + edge.end[1]) / 2
    dx, dy = other.end[0] - other.start[0], other.end[1] - other.start[1]
    size = hypot(dx, dy)
    if size < near:
        return False

    def off(spot: Spot) -> float:
        return abs((spot[0] - other.start[0]) * dy - (spot[1] - other.start[1]) * dx) / size

    along = ((middle[0] - other.start[0]) * dx + (middle[1] - other.start[1]) * dy) / size
    return 0 <= along <= size and off(edge.start) < near and off(edge.end) < near


def _under(lying: _Lying, sheets: Sheets, child: int, amounts: dict[int, float]) -> float:
    """The greatest shift among fanned sheets that this one lies over or under."""
    box = lying.box_of(sheets[child])
    return max((amount for n, amount in amounts.items() if lying.box_of(sheets[n]).overlaps(box)), default=0.0)


def _area(polygon: Sequence[Spot]) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True))) / 2
