"""A formula worked out: an exact quantity, its dimension checked at every step.

A formula is worked in the pack's system, `in` or `mm`, from that system's numbers. What a name or a quality is worth is asked of
a `Lookup`; its own faults pass through. A fault of the formula is a ProblemsFound with one problem, at the operator's place.
"""

from collections.abc import Callable
from fractions import Fraction
from typing import Protocol

from msgspec import Struct

from creasewright.measures.convert import ROUND, in_system
from creasewright.measures.dimensions import dimension_in_words, known_power
from creasewright.measures.exact_roots import arc_cosine, arc_sine, arc_tangent, cosine, sine, square_root, tangent
from creasewright.measures.formula import (
    Binary,
    Call,
    Choice,
    Comparison,
    Formula,
    LengthLiteral,
    Name,
    Negate,
    NumberLiteral,
    Pair,
)
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.units.quantity import Quantity, number
from creasewright.units.ruler import EXACT_WITHIN_MM, Ruler, multiple_at_or_above, multiple_at_or_below, nearest_multiple

MOST_BITS = 4096
"""Of a numerator or denominator; no paper needs more, and a longer one only grows from there."""

HIGHEST_POWER = 6
"""Of length, in the midst of a formula; nothing of paper has more."""

Note = Callable[[str], None] | None
"""Is told of each length that was rounded into the other system."""

_ROUNDINGS = {"up": multiple_at_or_above, "down": multiple_at_or_below, "near": nearest_multiple}
_OF_ANGLE = {"sin": sine, "cos": cosine, "tan": tangent}
_OF_RATIO = {"asin": arc_sine, "acos": arc_cosine, "atan": arc_tangent}


class Lookup(Protocol):
    """Answers what names and qualities are worth, in the pack's system. May raise ProblemsFound or Stopped."""

    def name(self, name: str, where: Where, /) -> Quantity: ...

    def quality(self, word: str, of: str, when: str | None, where: Where, /) -> Quantity: ...


def evaluate(formula: Formula, system: str, lookup: Lookup, ruler: Ruler, convert: str = ROUND, note: Note = None) -> Quantity:
    """The value of a formula. `ruler` is the maker's, for `up`, `down` and `near`; `convert`, `note`: see `convert.in_system`."""
    return _Work(system, lookup, ruler, convert, note).value(formula)


def evaluate_comparison(
    comparison: Comparison, system: str, lookup: Lookup, ruler: Ruler, convert: str = ROUND, note: Note = None
) -> tuple[bool, Quantity, Quantity]:
    """Whether it holds, and its two sides. Sides that differ by less than a millionth of a mm are equal."""
    return _Work(system, lookup, ruler, convert, note).comparison(comparison)


class _Work(Struct, frozen=True):
    system: str
    lookup: Lookup
    ruler: Ruler
    convert: str
    note: Note

    def value(self, formula: Formula) -> Quantity:
        if isinstance(formula, NumberLiteral):
            return number(formula.value)
        if isinstance(formula, LengthLiteral):
            return Quantity(in_system(formula, self.system, self.convert, self.note), 1)
        if isinstance(formula, Name):
            return self.lookup.name(formula.name, formula.where)
        if isinstance(formula, Pair):
            return self._pair(formula)
        if isinstance(formula, Negate):
            inner = self.value(formula.inner)
            return Quantity(-inner.value, inner.power)
        if isinstance(formula, Binary):
            return self._chain(formula)
        if isinstance(formula, Choice):
            return self._choice(formula)
        if isinstance(formula, Call):
            return _bounded(self._call(formula), formula)
        return self.lookup.quality(formula.word, formula.of, formula.when, formula.where)

    def comparison(self, comparison: Comparison) -> tuple[bool, Quantity, Quantity]:
        left, right = self.value(comparison.left), self.value(comparison.right)
        if left.power != right.power:
            what = f"`{comparison.text}` compares {dimension_in_words(left.power)} with {dimension_in_words(right.power)}"
            raise _fault(comparison.where, what, _same_kind_hint(comparison.left, left, comparison.right, right))
        gap = left.value - right.value
        order = 0 if abs(gap) < EXACT_WITHIN_MM else (1 if gap > 0 else -1)
        holds = {"<": order < 0, "<=": order <= 0, "=": order == 0, ">=": order >= 0, ">": order > 0}
        return holds[comparison.operator], left, right

    def _pair(self, pair: Pair) -> Quantity:
        own, other = (pair.inches, pair.millimetres) if self.system == "in" else (pair.millimetres, pair.inches)
        value, other_power = self.value(own), known_power(other)
        if other_power is not None and other_power != value.power:
            one, two = dimension_in_words(value.power), dimension_in_words(other_power)
            what = f"`{pair.text}` is {one} on one side and {two} on the other"
            raise _fault(pair.where, what, "make both sides the same kind, such as 4 in | 105 mm")
        return value

    def _choice(self, choice: Choice) -> Quantity:
        """Only the branch taken is worked out; the other's dimension is compared as far as it can be seen."""
        holds, _, _ = self.comparison(choice.condition)
        taken, other = (choice.if_so, choice.if_not) if holds else (choice.if_not, choice.if_so)
        value, other_power = self.value(taken), known_power(other)
        if other_power is not None and other_power != value.power:
            what = f"`{choice.text}` is {dimension_in_words(value.power)} or else {dimension_in_words(other_power)}"
            raise _fault(choice.where, what, "make both of its results the same kind")
        return value

    def _chain(self, formula: Binary) -> Quantity:
        """A chain of + and - (or of * and /) leans to the left; it is walked, so that its length does not count as depth."""
        links: list[Binary] = []
        left: Formula = formula
        while isinstance(left, Binary):
            links.append(left)
            left = left.left
        value = self.value(left)
        for link in reversed(links):
            value = _bounded(_combined(link, value, self.value(link.right)), link)
        return value

    def _call(self, call: Call) -> Quantity:
        values = [self.value(argument) for argument in call.arguments]
        first = values[0]
        if call.function in ("min", "max"):
            _same_kind(call, values)
            chosen = min if call.function == "min" else max
            return Quantity(chosen(value.value for value in values), first.power)
        if call.function in _ROUNDINGS:
            return self._rounded(call, values)
        if call.function == "abs":
            return Quantity(abs(first.value), first.power)
        if call.function == "sqrt":
            return _root(call, first)
        if first.power:
            what = f"`{call.text}` is asked of {dimension_in_words(first.power)}"
            kind = "an angle in degrees" if call.function in _OF_ANGLE else "a ratio, such as one length divided by another"
            raise _fault(call.where, what, f"{call.function} works on a plain number: {kind}")
        return number(_trigonometry(call, first.value))

    def _rounded(self, call: Call, values: list[Quantity]) -> Quantity:
        value, step = values[0], Quantity(self.ruler.step_mm, 1)
        if len(values) == 2:
            _same_kind(call, values)
            step = values[1]
        elif value.power != 1:
            what = f"`{call.text}` looks for a ruler mark, and is asked of {dimension_in_words(value.power)}"
            hint = f"write the step too: {call.function}({call.arguments[0].text}, 1)" if not value.power else "give it a length"
            raise _fault(call.where, what, hint)
        if step.value <= 0:
            raise _fault(call.where, f"`{call.text}` has a step of nothing or less", "give a step above 0, such as 1/8 in | 5 mm")
        return Quantity(_ROUNDINGS[call.function](value.value, step.value), value.power)


def _combined(link: Binary, left: Quantity, right: Quantity) -> Quantity:
    if link.operator == "*":
        return _with_power(link, left.value * right.value, left.power + right.power)
    if link.operator == "/":
        if right.value == 0:
            by = f"`{link.right.text}`"
            raise _fault(link.where, f"`{link.text}` divides by {by}, which is 0", f"make {by} more than 0")
        return _with_power(link, left.value / right.value, left.power - right.power)
    if left.power != right.power:
        does = "plus" if link.operator == "+" else "minus"
        what = f"`{link.text}` is {dimension_in_words(left.power)} {does} {dimension_in_words(right.power)}"
        raise _fault(link.where, what, _same_kind_hint(link.left, left, link.right, right))
    return Quantity(left.value + right.value if link.operator == "+" else left.value - right.value, left.power)


def _with_power(link: Binary, value: Fraction, power: int) -> Quantity:
    if abs(power) > HIGHEST_POWER:
        raise _fault(link.where, f"`{link.text}` is {dimension_in_words(power)}", "multiply lengths by plain numbers")
    return Quantity(value, power)


def _same_kind(call: Call, values: list[Quantity]) -> None:
    for argument, value in zip(call.arguments[1:], values[1:], strict=True):
        if value.power != values[0].power:
            what = f"`{call.text}` holds {dimension_in_words(values[0].power)} and {dimension_in_words(value.power)}"
            raise _fault(call.where, what, _same_kind_hint(call.arguments[0], values[0], argument, value))


def _same_kind_hint(left: Formula, left_value: Quantity, right: Formula, right_value: Quantity) -> str:
    """One thing to do about two sides of different dimension."""
    for side, value in ((left, left_value), (right, right_value)):
        if isinstance(side, NumberLiteral) and value.power == 0:
            return f"give {side.text} a unit: {side.text} mm or {side.text} in"
    higher = left if left_value.power > right_value.power else right
    if isinstance(higher, Binary) and higher.operator == "*":
        return f"of `{higher.left.text}` and `{higher.right.text}`, make one a plain number"
    power = min(left_value.power, right_value.power)
    return f"make `{higher.text}` {dimension_in_words(power)} too"


def _root(call: Call, value: Quantity) -> Quantity:
    if value.power % 2:
        what = f"`{call.text}` is the root of {dimension_in_words(value.power)}"
        raise _fault(call.where, what, "take it of a plain number or an area")
    if value.value < 0:
        what = f"`{call.text}` is the root of less than nothing"
        raise _fault(call.where, what, "see that what is subtracted is the smaller")
    return Quantity(square_root(value.value), value.power // 2)


def _trigonometry(call: Call, value: Fraction) -> Fraction:
    if call.function in _OF_ANGLE:
        found = _OF_ANGLE[call.function](value)
        if found is None:
            raise _fault(call.where, f"`{call.text}` is the tangent of a right angle, which has none", "use an angle below 90")
        return found
    if call.function != "atan" and abs(value) > 1:
        side = "more than 1" if value > 0 else "less than -1"
        raise _fault(call.where, f"`{call.text}` is asked of a ratio that is {side}", "divide the shorter length by the longer")
    return _OF_RATIO[call.function](value)


def _bounded(value: Quantity, formula: Formula) -> Quantity:
    if max(value.value.numerator.bit_length(), value.value.denominator.bit_length()) > MOST_BITS:
        what = f"`{formula.text[:60]}` works out to a number too long to handle"
        raise _fault(formula.where, what, "write the numbers in it with fewer digits")
    return value


def _fault(where: Where, what: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(where, what, hint)])
