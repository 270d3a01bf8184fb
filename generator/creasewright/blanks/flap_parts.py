"""A base or a flap as it stands: its corners, which of its edges a word means, and the flap that grows from an edge."""

from collections.abc import Callable
from fractions import Fraction
from math import cos, pi, radians, sin, tan

from msgspec import Struct, field

from creasewright.blanks.compass import DIRECTIONS, SIDES
from creasewright.geometry.edges import arc_with_rise, reverse
from creasewright.geometry.outline import Edge, Line
from creasewright.geometry.point import Number, Point
from creasewright.geometry.vector import length, minus, moved, outward, unit

FAR = 1
"""Edges of a flap, clockwise: its first end, its far edge, its last end, its seam."""

SEAM = 3


class Part(Struct):
    """One region of the net. Corners run clockwise; edge i goes from corner i to the next."""

    name: str
    corners: tuple[Point, ...]
    flap: bool
    far_rise: Number = Fraction(0)
    seam_rise: Number = Fraction(0)
    """Of the arcs between the far corners and along the seam, away from the base; 0 for a straight line."""
    grown: list[tuple[int, Number, Number, "Part"]] = field(default_factory=list)
    """Flaps on its edges: the edge, the stretch of it from its start in mm, the flap."""

    def edge(self, index: int) -> Line:
        return Line(self.corners[index], self.corners[(index + 1) % len(self.corners)])

    def edges_meant(self, words: str) -> list[int]:
        """Edges that `head`, `each edge`, `ends`, `first end`, `last end` or `far edge` mean; empty where none is."""
        if words == "each edge" and not self.flap:
            return list(range(len(self.corners)))
        if self.flap:
            ends = {"ends": [0, 2], "first end": [0], "last end": [2], "far edge": [FAR]}
            if words in ends:
                return ends[words]
        elif words == "ends":
            return [*self.edges_meant("left"), *self.edges_meant("right")]
        return self._edge_towards(words) if words in SIDES else []

    def _edge_towards(self, word: str) -> list[int]:
        x, y = DIRECTIONS[word]
        best, found = 0.71, -1
        for index in range(len(self.corners)):
            if self.flap and index == SEAM:
                continue
            edge = self.edge(index)
            along = minus(edge.end, edge.start)
            if along == (0, 0):
                continue
            away = outward(unit(along))
            if float(away.x) * x + float(away.y) * y > best:
                best, found = float(away.x) * x + float(away.y) * y, index
        return [] if found < 0 else [found]

    @property
    def seam(self) -> Edge:
        """From its first end to its last, as the edge it grows from runs."""
        return arc_with_rise(self.corners[0], self.corners[SEAM], self.seam_rise)

    def rim(self) -> list[Edge]:
        """Its outline with the outlines of its flaps in place of their seams; a flap's own seam left out."""
        return self._round(lambda part: part.rim())

    def own_rim(self) -> tuple[Edge, ...]:
        """Its outline by itself: the seams of its flaps, and its own, as they run."""
        edges = self._round(lambda part: [part.seam])
        return (*edges, reverse(self.seam)) if self.flap else tuple(edges)

    def _round(self, past: Callable[["Part"], list[Edge]]) -> list[Edge]:
        """Its edges from corner to corner but for its seam; `past` gives the way past a flap that grows from one."""
        edges: list[Edge] = []
        for index in range(SEAM if self.flap else len(self.corners)):
            edge = self.edge(index)
            if self.flap and index == FAR and self.far_rise:
                edges.append(arc_with_rise(edge.start, edge.end, self.far_rise))
                continue
            at = edge.start
            for _, _, _, part in sorted((one for one in self.grown if one[0] == index), key=lambda one: float(one[1])):
                edges.append(Line(at, part.corners[0]))
                edges += past(part)
                at = part.corners[SEAM]
            edges.append(Line(at, edge.end))
        return [edge for edge in edges if edge.start != edge.end]


def rectangle_base(name: str, width: Number, height: Number) -> Part:
    zero = Fraction(0)
    return Part(name, (Point(zero, zero), Point(width, zero), Point(width, height), Point(zero, height)), False)


def polygon_base(name: str, sides: int, side: Number) -> Part:
    """A regular polygon, its first edge at the tail, clockwise. Circumradius side / (2 sin(180°/n))."""
    radius = float(side) / (2 * sin(pi / sides))
    angles = [pi / 2 - pi / sides + 2 * pi * k / sides for k in range(sides)]
    return Part(name, tuple(Point(radius * cos(angle), radius * sin(angle)) for angle in angles), False)


def cotangent(degrees: Fraction) -> Number:
    """How much an end at this angle leans in for each mm of depth; exact at 45, 90 and 135."""
    exact = {Fraction(45): Fraction(1), Fraction(90): Fraction(0), Fraction(135): Fraction(-1)}
    return exact[degrees] if degrees in exact else 1 / tan(radians(float(degrees)))


def flap_on(edge: Line, start: Number, end: Number, depth: Number, lean: Number) -> tuple[Point, ...] | None:
    """Corners of a flap on the stretch of an edge from `start` to `end` mm: seam start, far start, far end, seam end.

    None where its ends would meet before the depth is reached.
    """
    along = unit(minus(edge.end, edge.start))
    away = outward(along)
    p, q = moved(edge.start, along, start), moved(edge.start, along, end)
    if end - start - 2 * lean * depth < 0:
        return None
    far_p = moved(moved(p, away, depth), along, lean * depth)
    far_q = moved(moved(q, away, depth), along, -lean * depth)
    return (p, far_p, far_q, edge.end if end == length(minus(edge.end, edge.start)) else q)
