"""Sums with points as vectors; exact as long as the numbers that go in are."""

from fractions import Fraction
from math import isqrt, sqrt

from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME


def root(value: Number) -> Number:
    """The square root: a Fraction where the value is the square of one, else a float."""
    if isinstance(value, Fraction):
        top, bottom = isqrt(value.numerator), isqrt(value.denominator)
        if top * top == value.numerator and bottom * bottom == value.denominator:
            return Fraction(top, bottom)
    return sqrt(float(value))


def magnitude(value: Number) -> Number:
    """The number without its sign."""
    return value if value >= 0 else -value


def minus(a: Point, b: Point) -> Point:
    return Point(a.x - b.x, a.y - b.y)


def moved(p: Point, along: Point, by: Number) -> Point:
    """The point `by` times the vector `along` away from `p`."""
    return Point(p.x + along.x * by, p.y + along.y * by)


def cross(a: Point, b: Point) -> Number:
    """Positive where `b` is clockwise of `a` as seen (y down)."""
    return a.x * b.y - a.y * b.x


def dot(a: Point, b: Point) -> Number:
    return a.x * b.x + a.y * b.y


def length(a: Point) -> Number:
    if a.x == 0:
        return magnitude(a.y)
    if a.y == 0:
        return magnitude(a.x)
    return root(dot(a, a))


def unit(a: Point) -> Point:
    size = length(a)
    return Point(a.x / size, a.y / size)


def middle(a: Point, b: Point) -> Point:
    return Point((a.x + b.x) / 2, (a.y + b.y) / 2)


def outward(along: Point) -> Point:
    """A quarter turn to the left: away from the inside of an outline that runs clockwise."""
    return Point(along.y, -along.x)


def one_place(a: Point, b: Point) -> bool:
    """Whether two points are the same place within the tolerance, mm."""
    return abs(float(a.x) - float(b.x)) <= SAME and abs(float(a.y) - float(b.y)) <= SAME
