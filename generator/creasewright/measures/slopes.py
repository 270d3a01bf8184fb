"""How a formula's value changes with the qualities that it asks for: its first derivatives, by forward automatic differentiation.

Leaf    a quality as it is asked for, `room width of front pocket`: what a maker can measure on the real thing
Sloped  a value with its derivative by every leaf

Measures are followed to what they are made of; lengths and numbers stand still. At `min`, `max` and `if` there are several branches: where
hands could tip one into another (they differ by less than TIPS) the one with the greatest slopes is taken, the worse, and that is said.
A rounding stands still between two marks and jumps at them: it is taken to move with what it rounds, which is the worse.
"""

from collections.abc import Callable
from fractions import Fraction
from math import cos, pi, radians, sin, sqrt, tan

from msgspec import Struct, field

from creasewright.measures.evaluate import Lookup, evaluate, evaluate_comparison
from creasewright.measures.formula import (
    Binary,
    Call,
    Choice,
    Formula,
    LengthLiteral,
    Name,
    Negate,
    NumberLiteral,
    Pair,
    Quality,
)
from creasewright.units.ruler import Ruler

TIPS = 2.0
"""mm: more than hands err by at any one clearance."""
DEGREE = pi / 180


class Leaf(Struct, frozen=True, order=True):
    word: str
    of: str


class Sloped(Struct, frozen=True):
    value: float
    slopes: dict[Leaf, float] = field(default_factory=dict)
    worse: tuple[str, ...] = ()
    """Which branches were taken, in words, where there was a choice."""


class Differentiator(Struct, frozen=True):
    """One setting of measures, in one system of units."""

    system: str
    lookup: Lookup
    ruler: Ruler
    formula_of: Callable[[str], Formula | None]
    """The formula of a measure; None for what is not one formula."""

    def of(self, formula: Formula) -> Sloped:
        if isinstance(formula, NumberLiteral | LengthLiteral):
            return Sloped(self.value(formula))
        if isinstance(formula, Name):
            inner = self.formula_of(formula.name)
            return self.of(inner) if inner is not None else Sloped(self.value(formula))
        if isinstance(formula, Pair):
            return self.of(formula.inches if self.system == "in" else formula.millimetres)
        if isinstance(formula, Negate):
            return scaled(self.of(formula.inner), -1.0)
        if isinstance(formula, Binary):
            return self.combined(formula)
        if isinstance(formula, Choice):
            return self.chosen(formula)
        if isinstance(formula, Call):
            return self.called(formula)
        assert isinstance(formula, Quality)
        return Sloped(self.value(formula), {Leaf(formula.word, formula.of): 1.0})

    def value(self, formula: Formula) -> float:
        return float(evaluate(formula, self.system, self.lookup, self.ruler).value)

    def combined(self, formula: Binary) -> Sloped:
        a, b = self.of(formula.left), self.of(formula.right)
        value = self.value(formula)
        if formula.operator == "*":
            return joined(value, (a, b.value), (b, a.value))
        if formula.operator == "/":
            return joined(value, (a, 1 / b.value), (b, -a.value / b.value**2))
        return joined(value, (a, 1.0), (b, 1.0 if formula.operator == "+" else -1.0))

    def chosen(self, formula: Choice) -> Sloped:
        holds, left, right = evaluate_comparison(formula.condition, self.system, self.lookup, self.ruler)
        taken, other = (formula.if_so, formula.if_not) if holds else (formula.if_not, formula.if_so)
        if abs(left.value - right.value) >= Fraction(TIPS):
            return self.of(taken)
        return worse(self.value(formula), (self.of(taken), taken.text), (self.of(other), other.text))

    def called(self, formula: Call) -> Sloped:
        inner = [self.of(argument) for argument in formula.arguments]
        value, first = self.value(formula), inner[0]
        if formula.function in ("min", "max"):
            near = [(one, text.text) for one, text in zip(inner, formula.arguments, strict=True) if abs(one.value - value) < TIPS]
            return worse(value, *near)
        if formula.function in ("up", "down", "near"):
            said = (*first.worse, f"`{formula.text}` taken to move with what it rounds") if first.slopes else ()
            return Sloped(value, first.slopes, said)
        return joined(value, (first, derivative(formula.function, first.value)))


def derivative(function: str, x: float) -> float:
    """Of a function of one number; angles in degrees."""
    if function == "abs":
        return 1.0 if x >= 0 else -1.0
    if function == "sqrt":
        return 0.5 / sqrt(x) if x > 0 else 0.0
    if function in ("asin", "acos"):
        rest = sqrt(max(1e-12, 1 - x * x))
        return (1 if function == "asin" else -1) / rest / DEGREE
    of = {"sin": lambda: cos(radians(x)), "cos": lambda: -sin(radians(x)), "tan": lambda: 1 + tan(radians(x)) ** 2}
    return of[function]() * DEGREE if function in of else 1 / (1 + x * x) / DEGREE


def joined(value: float, *terms: tuple[Sloped, float]) -> Sloped:
    """The chain rule: each inner derivative times its outer one."""
    slopes: dict[Leaf, float] = {}
    for inner, factor in terms:
        for leaf, slope in inner.slopes.items():
            slopes[leaf] = slopes.get(leaf, 0.0) + factor * slope
    said = tuple(dict.fromkeys(words for inner, _ in terms for words in inner.worse))
    return Sloped(value, {leaf: slope for leaf, slope in slopes.items() if abs(slope) > 1e-12}, said)


def scaled(inner: Sloped, factor: float) -> Sloped:
    return joined(inner.value * factor, (inner, factor))


def worse(value: float, *branches: tuple[Sloped, str]) -> Sloped:
    """The branch that changes most; where others change otherwise that it was taken is said."""
    most, text = max(branches, key=lambda branch: sum(abs(slope) for slope in branch[0].slopes.values()))
    differ = any(branch.slopes != most.slopes for branch, _ in branches)
    return Sloped(value, most.slopes, (*most.worse, f"the worse branch `{text}`") if differ else most.worse)
