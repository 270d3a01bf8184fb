"""Lengths with the errors that they carry: a value, and how much it changes with each thing that hands do.

Cause    one operation on one part: a score pressed, an edge cut, a part put down; its error is independent of all others
Carried  a length as a function of such errors: its value and its first derivatives, exact (forward automatic differentiation)

A sum or a difference adds or subtracts derivatives, so a line that both sides of a clearance share cancels. Everything that is made
here is made of lengths by sums, differences and fixed factors, so that a first derivative is the whole truth but for the turn of a part
that is put down askew, which is left out.
"""

from math import sqrt

from msgspec import Struct, field

from creasewright.hands.error_table import HandErrors


class Cause(Struct, frozen=True, order=True):
    operation: str
    """One of the operations of `error_table`."""
    part: str
    """Path of the part that it is done to."""
    line: str
    """What is made: a score, a side, a place from left to right (`x`) or from head to tail (`y`)."""


Slopes = dict[Cause, float]
"""Change of a length with the error of each cause, mm per mm."""


class Carried(Struct, frozen=True):
    value: float
    """mm"""
    slopes: Slopes = field(default_factory=dict)

    def __add__(self, other: "Carried") -> "Carried":
        return Carried(self.value + other.value, added(self.slopes, other.slopes))

    def __sub__(self, other: "Carried") -> "Carried":
        return self + other.times(-1.0)

    def times(self, factor: float) -> "Carried":
        return Carried(self.value * factor, {cause: slope * factor for cause, slope in self.slopes.items()})


def added(first: Slopes, second: Slopes, factor: float = 1.0) -> Slopes:
    """Both together, `second` taken so many times; causes that cancel are left out."""
    total = dict(first)
    for cause, slope in second.items():
        total[cause] = total.get(cause, 0.0) + factor * slope
    return {cause: slope for cause, slope in total.items() if abs(slope) > 1e-9}


def root_sum_square(slopes: Slopes, errors: HandErrors) -> float:
    """The error of a length whose causes err independently, at the same confidence as `errors`.

    Law of propagation of uncertainty for uncorrelated inputs: the square root of the sum of (slope x error) squared
    (JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2, equation 10).
    """
    return sqrt(sum((slope * errors.of(cause.operation)) ** 2 for cause, slope in slopes.items()))
