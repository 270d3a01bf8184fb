"""Shapes laid over one another, parted into cells: what covers each place, exactly.

Shape    one or more polygons, in mm (y down); what an odd number of them covers is the shape's, so a hole is a polygon of its own
Cell     a connected region that one set of shapes covers, made of upright slices: trapezoids with two upright sides
Slice    what lies between two neighbouring upright lines and two neighbouring edges

A sweep from left to right: between two neighbouring corners no edge begins or ends, so the edges there have one order from head to tail,
and what covers a place follows from the edges above it. Edges on one line are kept as one, so a strip of n panels of one height takes
n log n; edges aslant may cross between two corners, and the sweep stops there too.
Coordinates nearer than SNAP to one another are one.
"""

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from itertools import pairwise
from operator import itemgetter

from msgspec import Struct

from creasewright.geometry.clip import union
from creasewright.geometry.outline import Polygon

SNAP = 1e-3
"""mm: a tenth of what the folds' loops may be off."""

Spot = tuple[float, float]
Edge = tuple[float, float, float, float]
"""x0, y0, x1, y1 with x0 < x1"""


class Slice(Struct, frozen=True):
    """From x0 to x1; its upper side runs from head0 to head1, its lower from tail0 to tail1."""

    x0: float
    x1: float
    head0: float
    head1: float
    tail0: float
    tail1: float

    @property
    def area(self) -> float:
        return (self.x1 - self.x0) * (self.tail0 - self.head0 + self.tail1 - self.head1) / 2

    @property
    def polygon(self) -> Polygon:
        return ((self.x0, self.head0), (self.x1, self.head1), (self.x1, self.tail1), (self.x0, self.tail0))


class Cell(Struct, frozen=True):
    covers: int
    """Bit k is set where shape k covers it."""
    weight: int
    """The weights of the shapes that cover it, added."""
    slices: tuple[Slice, ...]

    @property
    def area(self) -> float:
        return sum(one.area for one in self.slices)

    def numbers(self) -> list[int]:
        """The shapes that cover it, by their place in the list."""
        return [k for k, bit in enumerate(reversed(bin(self.covers)[2:])) if bit == "1"]

    def stretches(self, across: str, at: float) -> list[Spot]:
        """What a line cuts of it, slice by slice: from, to. `width`: the level line at y = `at`; `height`: the upright one at x = `at`."""
        found = []
        for one in self.slices:
            if across == "height":
                if one.x0 <= at <= one.x1:
                    part = (at - one.x0) / (one.x1 - one.x0)
                    found.append((one.head0 + part * (one.head1 - one.head0), one.tail0 + part * (one.tail1 - one.tail0)))
            elif min(one.head0, one.head1) <= at <= max(one.tail0, one.tail1):
                xs = [x for (x, y), (x2, y2) in sides(one.polygon) for x in meeting(x, y, x2, y2, at)]
                if xs:
                    found.append((min(xs), max(xs)))
        return found

    def polygons(self) -> list[Polygon]:
        """Its rim, clockwise as seen, and its holes, the other way."""
        if len(self.slices) == 1:
            return [self.slices[0].polygon]
        return union(one.polygon for one in self.slices)


class Mark(Struct):
    """What changes, going down, across one edge or several on one line."""

    covers: int = 0
    weight: int = 0
    edges: int = 0


def sides(polygon: Polygon) -> Iterator[tuple[Spot, Spot]]:
    return pairwise([*polygon, polygon[0]])


def meeting(x0: float, y0: float, x1: float, y1: float, at: float) -> tuple[float, ...]:
    """Where a line from one point to another meets the level line at y = `at`; both ends where it lies in it."""
    if y0 == y1:
        return (x0, x1) if y0 == at else ()
    return (x0 + (at - y0) / (y1 - y0) * (x1 - x0),) if (y0 - at) * (y1 - at) <= 0 else ()


def overlay(shapes: Sequence[Sequence[Polygon]], weights: Sequence[int]) -> list[Cell]:
    """Every cell that something covers, in no order that means anything."""
    cells = Gathered()
    for x0, x1, lines in slabs(shapes, weights):
        cells.next_slab(list(slices_of(x0, x1, lines)))
    return cells.all()


def snapped(values: list[float]) -> dict[float, float]:
    """Each value to the first of those that lie nearer than SNAP to their neighbour below."""
    found: dict[float, float] = {}
    first = last = float("-inf")
    for value in sorted(values):
        if value - last > SNAP:
            first = value
        found[value] = first
        last = value
    return found


def edges_of(shapes: Sequence[Sequence[Polygon]]) -> Iterator[tuple[Edge, int, int]]:
    """Every edge that is not upright, with its shape's number and 1 where the shape lies below it, -1 where above."""
    corners = [corner for shape in shapes for polygon in shape for corner in polygon]
    xs, ys = (snapped([corner[axis] for corner in corners]) for axis in (0, 1))
    for number, shape in enumerate(shapes):
        for polygon in shape:
            spots = [(xs[x], ys[y]) for x, y in polygon]
            for (ax, ay), (bx, by) in pairwise([*spots, spots[0]]):
                if ax < bx:
                    yield (ax, ay, bx, by), number, 1
                elif bx < ax:
                    yield (bx, by, ax, ay), number, -1


def slabs(shapes: Sequence[Sequence[Polygon]], weights: Sequence[int]) -> Iterator[tuple[float, float, list[tuple[Edge, Mark]]]]:
    """Between each two neighbouring corners from left to right, the edges that run through, level ones first."""
    begins: dict[float, list[tuple[Edge, int, int]]] = {}
    ends: dict[float, list[tuple[Edge, int, int]]] = {}
    for entry in edges_of(shapes):
        begins.setdefault(entry[0][0], []).append(entry)
        ends.setdefault(entry[0][2], []).append(entry)
    level: dict[float, Mark] = {}
    order: list[float] = []
    slanted: dict[Edge, Mark] = {}
    for x0, x1 in pairwise(sorted(begins.keys() | ends.keys())):
        for edge, number, sign in ends.get(x0, ()):
            change(level, order, slanted, edge, (1 << number, -sign * weights[number], -1))
        for edge, number, sign in begins.get(x0, ()):
            change(level, order, slanted, edge, (1 << number, sign * weights[number], 1))
        flat = [((x0, y, x1, y), level[y]) for y in order]
        yield x0, x1, [*flat, *slanted.items()]


def change(
    level: dict[float, Mark], order: list[float], slanted: dict[Edge, Mark], edge: Edge, by: tuple[int, int, int]
) -> None:
    """Adds an edge to those that run through, or takes one away."""
    is_level = edge[1] == edge[3]
    mark = level.get(edge[1]) if is_level else slanted.get(edge)
    if mark is None:
        mark = Mark()
        if is_level:
            level[edge[1]] = mark
            insort(order, edge[1])
        else:
            slanted[edge] = mark
    mark.covers ^= by[0]
    mark.weight += by[1]
    mark.edges += by[2]
    if mark.edges == 0:
        if is_level:
            del level[edge[1]]
            del order[bisect_left(order, edge[1])]
        else:
            del slanted[edge]


def height_at(edge: Edge, x: float) -> float:
    x0, y0, x1, y1 = edge
    return y0 if y0 == y1 else y0 + (x - x0) / (x1 - x0) * (y1 - y0)


def slices_of(x0: float, x1: float, lines: list[tuple[Edge, Mark]]) -> Iterator[tuple[Slice, int, int]]:
    """The slices between two upright lines from left to right, with what covers them and their weight."""
    if not lines:
        return
    stops = [x0, *crossings(x0, x1, [edge for edge, _ in lines]), x1]
    for left, right in pairwise(stops):
        runs = sorted(((height_at(edge, left), height_at(edge, right), mark) for edge, mark in lines), key=lambda run: run[0] + run[1])
        covers = weight = 0
        for (a0, a1, mark), (b0, b1, _) in pairwise(runs):
            covers ^= mark.covers
            weight += mark.weight
            if covers and b0 - a0 + b1 - a1 > SNAP:
                yield Slice(left, right, a0, a1, b0, b1), covers, weight


def crossings(x0: float, x1: float, edges: list[Edge]) -> list[float]:
    """Where between two upright lines edges cross one another."""
    found = []
    for number, edge in enumerate(edges):
        if edge[1] == edge[3]:
            continue
        a0, a1 = height_at(edge, x0), height_at(edge, x1)
        for other in edges[:number]:
            gap0, gap1 = height_at(other, x0) - a0, height_at(other, x1) - a1
            if gap0 * gap1 < 0 and min(abs(gap0), abs(gap1)) > SNAP:
                found.append(x0 + gap0 / (gap0 - gap1) * (x1 - x0))
    places = snapped(found)
    return sorted({at for at in places.values() if x0 + SNAP < at < x1 - SNAP})


class Gathered:
    """Slices put together to cells: those that touch and are covered alike."""

    def __init__(self) -> None:
        self.slices: list[Slice] = []
        self.covers: list[int] = []
        self.weights: list[int] = []
        self.home: list[int] = []
        """For each slice another of its cell, nearer to the cell's first; the first names itself."""
        self.at_front: list[int] = []
        """The slices whose right sides lie where the sweep stands, from head to tail."""
        self.front = 0.0

    def next_slab(self, found: list[tuple[Slice, int, int]]) -> None:
        if not found:
            return
        for _, group in grouped(found):
            mine: list[int] = []
            for one, covers, weight in group:
                number = len(self.slices)
                self.slices.append(one)
                self.covers.append(covers)
                self.weights.append(weight)
                self.home.append(number)
                if mine and covers == self.covers[mine[-1]] and touch(self.slices[mine[-1]].tail0, self.slices[mine[-1]].tail1, one):
                    self.unite(mine[-1], number)
                mine.append(number)
            if self.at_front and abs(self.slices[mine[0]].x0 - self.front) < SNAP:
                self.meet(self.at_front, mine)
            self.at_front, self.front = mine, self.slices[mine[0]].x1

    def meet(self, left: list[int], right: list[int]) -> None:
        """Unites slices on both sides of the front that share some of it and are covered alike; both run from head to tail."""
        start = 0
        for number in right:
            one = self.slices[number]
            while start < len(left) and self.slices[left[start]].tail1 <= one.head0 + SNAP:
                start += 1
            k = start
            while k < len(left) and self.slices[left[k]].head1 < one.tail0 - SNAP:
                if self.covers[left[k]] == self.covers[number]:
                    self.unite(left[k], number)
                k += 1

    def first(self, number: int) -> int:
        while self.home[number] != number:
            self.home[number] = self.home[self.home[number]]
            number = self.home[number]
        return number

    def unite(self, a: int, b: int) -> None:
        a, b = self.first(a), self.first(b)
        self.home[max(a, b)] = min(a, b)

    def all(self) -> list[Cell]:
        cells: dict[int, list[Slice]] = {}
        for number, one in enumerate(self.slices):
            cells.setdefault(self.first(number), []).append(one)
        return [Cell(self.covers[first], self.weights[first], tuple(slices)) for first, slices in cells.items()]


def grouped(found: list[tuple[Slice, int, int]]) -> list[tuple[float, list[tuple[Slice, int, int]]]]:
    """Slices by where they begin."""
    groups: dict[float, list[tuple[Slice, int, int]]] = {}
    for entry in found:
        groups.setdefault(entry[0].x0, []).append(entry)
    return sorted(groups.items(), key=itemgetter(0))


def touch(tail0: float, tail1: float, below: Slice) -> bool:
    return abs(tail0 - below.head0) < SNAP and abs(tail1 - below.head1) < SNAP
