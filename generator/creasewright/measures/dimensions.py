"""Dimensions in words, and what can be said of a formula's dimension without working it out."""

from creasewright.measures.formula import (
    LENGTH_QUALITIES,
    Binary,
    Call,
    Choice,
    Formula,
    LengthLiteral,
    Negate,
    NumberLiteral,
    Pair,
    Quality,
)

_WORDS = {0: "a plain number", 1: "a length", 2: "an area", 3: "a volume", -1: "one over a length", -2: "one over an area"}


def dimension_in_words(power: int) -> str:
    """Of a power of length: `a plain number`, `a length`, `an area` …"""
    return _WORDS.get(power, f"a length to the power {power}")


def known_power(formula: Formula) -> int | None:
    """The power of length of a formula's value, None when it depends on a name. Passes over faults within."""
    if isinstance(formula, NumberLiteral):
        return 0
    if isinstance(formula, LengthLiteral):
        return 1
    if isinstance(formula, Quality):
        return 1 if formula.word in LENGTH_QUALITIES else 0
    if isinstance(formula, Negate):
        return known_power(formula.inner)
    if isinstance(formula, Pair):
        return _either(formula.inches, formula.millimetres)
    if isinstance(formula, Choice):
        return _either(formula.if_so, formula.if_not)
    if isinstance(formula, Call):
        return _power_of_call(formula)
    if isinstance(formula, Binary):
        return _power_of_chain(formula)
    return None


def _either(one: Formula, other: Formula) -> int | None:
    power = known_power(one)
    return known_power(other) if power is None else power


def _power_of_call(call: Call) -> int | None:
    if call.function in ("sin", "cos", "tan", "asin", "acos", "atan"):
        return 0
    if call.function == "sqrt":
        inner = known_power(call.arguments[0])
        return None if inner is None or inner % 2 else inner // 2
    known = [power for argument in call.arguments if (power := known_power(argument)) is not None]
    return known[0] if known else None


def _power_of_chain(formula: Binary) -> int | None:
    """A chain of the same precedence leans to the left, so it is walked, not recursed into."""
    links: list[Binary] = []
    left: Formula = formula
    while isinstance(left, Binary):
        links.append(left)
        left = left.left
    power = known_power(left)
    for link in reversed(links):
        right = known_power(link.right)
        if link.operator in ("+", "-"):
            power = right if power is None else power
        elif power is None or right is None:
            power = None
        else:
            power = power + right if link.operator == "*" else power - right
    return power
