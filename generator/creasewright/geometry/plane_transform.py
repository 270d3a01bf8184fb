"""Moves in the plane: turns, reflections, shifts, one after another and back.

y runs down, so positive angles turn clockwise as seen.
"""

from fractions import Fraction
from math import cos, radians, sin

from msgspec import Struct

from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Number, Point

ONE, NONE = Fraction(1), Fraction(0)

QUARTERS = {0: (ONE, NONE), 90: (NONE, ONE), 180: (-ONE, NONE), 270: (NONE, -ONE)}
"""Cosine and sine of the quarter turns, exact."""


class Affine(Struct, frozen=True):
    """x' = a x + c y + e, y' = b x + d y + f, in mm."""

    a: Number = ONE
    b: Number = NONE
    c: Number = NONE
    d: Number = ONE
    e: Number = NONE
    f: Number = NONE

    def point(self, p: Point) -> Point:
        return Point(_sum(self.a, p.x, self.c, p.y, self.e), _sum(self.b, p.x, self.d, p.y, self.f))

    def then(self, other: "Affine") -> "Affine":
        """First this, then the other."""
        return Affine(
            other.a * self.a + other.c * self.b,
            other.b * self.a + other.d * self.b,
            other.a * self.c + other.c * self.d,
            other.b * self.c + other.d * self.d,
            other.a * self.e + other.c * self.f + other.e,
            other.b * self.e + other.d * self.f + other.f,
        )

    @property
    def determinant(self) -> Number:
        """Negative where the move turns left into right."""
        return self.a * self.d - self.b * self.c

    def inverse(self) -> "Affine":
        """The move back."""
        size = self.determinant
        a, b, c, d = self.d / size, -self.b / size, -self.c / size, self.a / size
        return Affine(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))

    def edge(self, edge: Edge) -> Edge:
        """An edge moved; a reflection turns the way its arcs bend. For moves without stretching."""
        if isinstance(edge, Line):
            return Line(self.point(edge.start), self.point(edge.end))
        bend = edge.clockwise == (self.determinant > 0)
        return Arc(self.point(edge.start), self.point(edge.end), self.point(edge.centre), bend)

    def loop(self, edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
        """A clockwise loop moved, still clockwise: after a reflection it is travelled the other way."""
        new = tuple(self.edge(edge) for edge in edges)
        if self.determinant > 0:
            return new
        return tuple(_back(edge) for edge in reversed(new))

    def floats(self) -> tuple[float, float, float, float, float, float]:
        return (float(self.a), float(self.b), float(self.c), float(self.d), float(self.e), float(self.f))


def _sum(a: Number, x: Number, b: Number, y: Number, c: Number) -> Number:
    """a x + b y + c. Most moves are shifts and quarter turns, and exact numbers are slow: what adds nothing is left out."""
    if not b:
        total = x if a == 1 else a * x
    elif not a:
        total = y if b == 1 else b * y
    else:
        total = a * x + b * y
    return total + c if c else total


def _back(edge: Edge) -> Edge:
    if isinstance(edge, Line):
        return Line(edge.end, edge.start)
    return Arc(edge.end, edge.start, edge.centre, not edge.clockwise)


def shift(x: Number, y: Number) -> Affine:
    """By x to the right and y down, mm."""
    return Affine(e=x, f=y)


def rotation(degrees: Number) -> Affine:
    """About the origin, clockwise as seen; quarter turns are exact."""
    turn = degrees % 360
    if turn in QUARTERS:
        c, s = QUARTERS[int(turn)]
        return Affine(c, s, -s, c)
    cosine, sine = cos(radians(float(turn))), sin(radians(float(turn)))
    return Affine(cosine, sine, -sine, cosine)


def left_for_right(width: Number) -> Affine:
    """The mirror image of something `width` mm wide about its own middle: x becomes width - x."""
    return Affine(a=-ONE, e=width)
