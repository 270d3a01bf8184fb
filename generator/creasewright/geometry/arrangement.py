"""The faces that crossing lines and arcs make: a half-edge structure.

Strand   a line or arc as given, with a rank: where two lie on each other the lower rank stays
Bit      a piece of a strand between two neighbouring meeting points
Face     a region that no bit crosses; its edges run clockwise as seen (y down), so that the face is on the right of travel

Loose ends (bits that hang from one end only) bound no face: they are taken off first and reported.
"""

from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from creasewright.geometry.crossing import meetings
from creasewright.geometry.edges import curvature, edge_box, leaving_direction, part_of, reverse, way_along
from creasewright.geometry.loops import holds, loop_area
from creasewright.geometry.nodes import Nodes
from creasewright.geometry.outline import Arc, Edge, flattened
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME


class Strand(Struct, frozen=True):
    edge: Edge
    rank: int


class Bit(Struct, frozen=True):
    edge: Edge
    strand: int
    """Its place in the list of strands given."""
    start: int
    end: int
    """Numbers of the meeting points."""


class Face(Struct, frozen=True):
    edges: tuple[Edge, ...]
    sides: tuple[tuple[int, bool], ...]
    """Each edge's bit, and whether it is travelled from the bit's start to its end."""
    inner: tuple[tuple[Edge, ...], ...] = ()
    """What lies inside without touching: loops that run anticlockwise."""


class LooseEnd(Struct, frozen=True):
    strand: int
    at: Point


class Arrangement(Struct, frozen=True):
    bits: tuple[Bit, ...]
    faces: tuple[Face, ...]
    outer: tuple[tuple[Edge, ...], ...]
    """The rims of the whole, seen from outside (they run anticlockwise)."""
    loose: tuple[LooseEnd, ...]

    def faces_beside(self) -> dict[int, list[int]]:
        """For each bit the faces it bounds, the one on the right of its travel first; an outer side is left out."""
        beside: dict[int, list[tuple[bool, int]]] = {}
        for number, face in enumerate(self.faces):
            for bit, forward in face.sides:
                beside.setdefault(bit, []).append((not forward, number))
        return {bit: [number for _, number in sorted(found)] for bit, found in beside.items()}


def arrange(strands: Sequence[Strand]) -> Arrangement:
    """Split every strand where it meets another, then walk round every face."""
    nodes = Nodes()
    bits = _bits(strands, nodes)
    bits, loose = _without_loose_ends(bits, nodes)
    faces, rims = _walk(bits, nodes)
    faces, outer = _nested(faces, rims)
    return Arrangement(tuple(bits), tuple(faces), tuple(outer), tuple(loose))


def _bits(strands: Sequence[Strand], nodes: Nodes) -> list[Bit]:
    cuts: list[list[Point]] = [[strand.edge.start, strand.edge.end] for strand in strands]
    for i, j in _close(strands):
        met = meetings(strands[j].edge, strands[i].edge)
        cuts[i] += met
        cuts[j] += met
    for points in cuts:
        for point in points:
            nodes.at(point)
    kept: dict[tuple[object, ...], Bit] = {}
    for number, strand in sorted(enumerate(strands), key=lambda item: item[1].rank):
        for bit in _split(strand.edge, number, cuts[number], nodes):
            kept.setdefault(_same_way(bit), bit)
    return list(kept.values())


def _close(strands: Sequence[Strand]) -> list[tuple[int, int]]:
    """Pairs of strands whose boxes meet, the later one first, in order; found by a sweep from left to right."""
    boxes = [tuple(float(value) for value in edge_box(strand.edge)) for strand in strands]
    reached: list[int] = []
    found = []
    for i in sorted(range(len(boxes)), key=lambda number: boxes[number][0]):
        left, head, _, tail = boxes[i]
        reached = [j for j in reached if boxes[j][2] >= left - SAME]
        found += [(max(i, j), min(i, j)) for j in reached if boxes[j][1] <= tail + SAME and boxes[j][3] >= head - SAME]
        reached.append(i)
    return sorted(found)


def _split(edge: Edge, number: int, cuts: list[Point], nodes: Nodes) -> list[Bit]:
    way: dict[int, float] = {}
    for point in cuts:
        way.setdefault(nodes.at(point), way_along(edge, point))
    first, last = nodes.at(edge.start), nodes.at(edge.end)
    way[first], way[last] = -1.0, float("inf")
    order = sorted(way, key=lambda node: way[node])
    return [
        Bit(part_of(edge, nodes.points[a], nodes.points[b]), number, a, b) for a, b in pairwise(order)
    ]


def _same_way(bit: Bit) -> tuple[object, ...]:
    ends = (min(bit.start, bit.end), max(bit.start, bit.end))
    if isinstance(bit.edge, Arc):
        bend = bit.edge.clockwise == (bit.start < bit.end)
        return (*ends, bend, round(float(bit.edge.centre.x), 4), round(float(bit.edge.centre.y), 4))
    return ends


def _without_loose_ends(bits: list[Bit], nodes: Nodes) -> tuple[list[Bit], list[LooseEnd]]:
    at: dict[int, set[int]] = {}
    for number, bit in enumerate(bits):
        at.setdefault(bit.start, set()).add(number)
        at.setdefault(bit.end, set()).add(number)
    loose: list[LooseEnd] = []
    gone: set[int] = set()
    ends = [node for node, held in at.items() if len(held) == 1]
    while ends:
        node = ends.pop()
        if len(at[node]) != 1:
            continue
        number = at[node].pop()
        bit = bits[number]
        gone.add(number)
        loose.append(LooseEnd(bit.strand, nodes.points[node]))
        other = bit.end if bit.start == node else bit.start
        at[other].discard(number)
        ends.append(other)
    return [bit for number, bit in enumerate(bits) if number not in gone], loose


def _walk(bits: list[Bit], nodes: Nodes) -> tuple[list[Face], list[tuple[Edge, ...]]]:
    """Side 2k travels bit k forward, 2k + 1 backward; after a side comes the next one anticlockwise of its own way back."""
    sides: list[Edge] = []
    at: dict[int, list[tuple[float, float, int]]] = {}
    for bit in bits:
        for edge, node in ((bit.edge, bit.start), (reverse(bit.edge), bit.end)):
            angle = round(leaving_direction(edge), 9)
            at.setdefault(node, []).append((angle if angle > -3.14159265 else 3.141592654, curvature(edge), len(sides)))
            sides.append(edge)
    following: dict[int, int] = {}
    for leaving in at.values():
        leaving.sort()
        for before, after in zip(leaving, leaving[1:] + leaving[:1], strict=True):
            following[after[2] ^ 1] = before[2]
    faces: list[Face] = []
    rims: list[tuple[Edge, ...]] = []
    seen: set[int] = set()
    for first in range(len(sides)):
        if first in seen:
            continue
        loop = [first]
        while following[loop[-1]] != first:
            loop.append(following[loop[-1]])
        seen.update(loop)
        edges = tuple(sides[side] for side in loop)
        if loop_area(edges) > 0:
            faces.append(Face(edges, tuple((side >> 1, side % 2 == 0) for side in loop)))
        else:
            rims.append(edges)
    return faces, rims


def _nested(faces: list[Face], rims: list[tuple[Edge, ...]]) -> tuple[list[Face], list[tuple[Edge, ...]]]:
    """Give each rim that lies inside a face of another part to the smallest such face."""
    if len(rims) < 2:
        return faces, rims
    polygons = [flattened(face.edges) for face in faces]
    own = [{edge.start for edge in face.edges} for face in faces]
    areas = [loop_area(face.edges) for face in faces]
    inner: dict[int, list[tuple[Edge, ...]]] = {}
    outer: list[tuple[Edge, ...]] = []
    for rim in rims:
        x, y = float(rim[0].start.x), float(rim[0].start.y)
        area = -loop_area(rim)
        around = [
            number
            for number, polygon in enumerate(polygons)
            if areas[number] > area and rim[0].start not in own[number] and holds(polygon, x, y)
        ]
        if around:
            inner.setdefault(min(around, key=lambda number: areas[number]), []).append(rim)
        else:
            outer.append(rim)
    return [Face(face.edges, face.sides, tuple(inner.get(number, ()))) for number, face in enumerate(faces)], outer
