"""How numbers and lengths are spelled: the patterns, and what a match is worth.

plain number   `4`, `4.75`, `.5`, `¾`, `2 1/2` (in a formula a lone `1/2` is a division, which comes to the same)
length         a number, a fraction or both, then a unit: `4 3/4 in`, `4-3/4"`, `4¾ in`, `3/8"`, `4.75 in`, `120 mm`, `12 cm`

Fractions may have the plain slash or the fraction slash (U+2044), and the invisible plus (U+2064) before them, as in print.
"""

import re
from fractions import Fraction

from creasewright.units.misread import Misread
from creasewright.units.quantity import MM_PER_INCH

VULGAR = {
    "¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅐": (1, 7), "⅑": (1, 9), "⅒": (1, 10), "⅓": (1, 3), "⅔": (2, 3), "⅕": (1, 5),
    "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
"""The fractions that are one character."""

_VULGAR = "".join(VULGAR)
_FRACTION = "(?P<over>[0-9]+)[/\u2044](?P<under>[0-9]+)"
_SINGLE = f"(?:(?P<before>[0-9]+)(?: *|-|\u2064))?(?P<vulgar>[{_VULGAR}])"
_DECIMAL = r"(?P<decimal>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_INCH = "(?P<inch>inch(?:es)?|in\\.?|INCH(?:ES)?|IN|In|\"|\u2033|\u201d|'')"
_CM = "(?P<cm>cm|CM|centimet(?:er|re)s?)"
_MM = "(?P<mm>mm|MM|millimet(?:er|re)s?)"

LENGTH = re.compile(f"(?:(?:(?P<whole>[0-9]+)(?: +|-|\u2064))?{_FRACTION}|{_SINGLE}|{_DECIMAL}) *(?:{_INCH}|{_CM}|{_MM})(?!\\w)")
PLAIN = re.compile(f"(?P<whole>[0-9]+)(?: +|\u2064){_FRACTION}|{_SINGLE}|{_DECIMAL}")


def count_of(found: re.Match[str]) -> Fraction:
    """The number of a match of LENGTH or PLAIN, without its unit. Raises Misread for a fraction that is none."""
    parts = found.groupdict()
    if parts["decimal"] is not None:
        return Fraction(parts["decimal"])
    if parts["vulgar"] is not None:
        return int(parts["before"] or 0) + Fraction(*VULGAR[parts["vulgar"]])
    over, under = int(parts["over"]), int(parts["under"])
    fraction = f"{parts['over']}/{parts['under']}"
    if under == 0:
        raise Misread(f"{fraction} is not a fraction", "write the lower number as 2, 4, 8 or 16")
    if parts["whole"] is not None and over >= under:
        carried = mixed(int(parts["whole"]) + Fraction(over, under))
        raise Misread(f"{parts['whole']} {fraction} has a fraction of one or more", f"write {carried} if that is meant")
    return int(parts["whole"] or 0) + Fraction(over, under)


def mm_of(found: re.Match[str]) -> Fraction:
    """The length of a match of LENGTH, in mm; exact."""
    count = count_of(found)
    if found["inch"] is not None:
        return count * MM_PER_INCH
    return count * 10 if found["cm"] is not None else count


def system_of(found: re.Match[str]) -> str:
    """`in` or `mm`: the ruler that a match of LENGTH belongs to. Centimetres are on the metric one."""
    return "in" if found["inch"] is not None else "mm"


def mixed(value: Fraction) -> str:
    """`4 3/16`, `3/8`, `4`, `0`: a whole number and a fraction in lowest terms; a true minus sign before it if negative."""
    whole, rest = divmod(abs(value), 1)
    sign = "\u2212" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    fraction = f"{rest.numerator}/{rest.denominator}"
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"
