"""The text of a length to an exact length."""

import re

from creasewright.units.misread import Misread
from creasewright.units.quantity import Quantity
from creasewright.units.spellings import LENGTH, PLAIN, mm_of

LONGEST = 40
"""Characters; a longer text is not a length."""

_OTHER_UNITS = {
    "m": "write it in mm or cm: 1 m is 100 cm",
    "metre": "write it in mm or cm: 1 m is 100 cm",
    "metres": "write it in mm or cm: 1 m is 100 cm",
    "ft": "write it in inches: 1 ft is 12 in",
    "foot": "write it in inches: 1 ft is 12 in",
    "feet": "write it in inches: 1 ft is 12 in",
    "'": "write it in inches: 1 ft is 12 in",
    "′": "write it in inches: 1 ft is 12 in",
    "yd": "write it in inches: 1 yd is 36 in",
    "pt": "points are for the caliper of a paper; write it in mm or in",
}


class LengthFault(Misread):
    """A text that is no length."""


def read_length(text: str) -> Quantity:
    """`4 3/4 in`, `4-3/4"`, `4¾ in`, `3/8"`, `120 mm`, `12.5 cm` as an exact length, never negative. Raises LengthFault."""
    written = " ".join(text.split())
    if len(written) > LONGEST:
        raise LengthFault(f"`{written[:20]}…` is too long for a length", "write a number and a unit, such as 4 3/4 in or 120 mm")
    found = LENGTH.fullmatch(written)
    if found is None:
        raise _why_not(written)
    try:
        return Quantity(mm_of(found), 1)
    except Misread as fault:
        raise LengthFault(fault.what, fault.hint) from None


def _why_not(written: str) -> LengthFault:
    """The likeliest slip in a text that is no length."""
    if not written:
        return LengthFault("nothing is written where a length should be", "write a length such as 4 3/4 in or 120 mm")
    if written[0] in "-−–" and LENGTH.fullmatch(written[1:].lstrip()):
        return LengthFault(f"{written} is less than nothing", f"write {written[1:].lstrip()}")
    if PLAIN.fullmatch(written) or re.fullmatch("[0-9]+[/⁄][0-9]+", written):
        return LengthFault(f"{written} has no unit", f"write {written} mm or {written} in")
    with_point = re.sub("(?<=[0-9]),(?=[0-9])", ".", written)
    if with_point != written and LENGTH.fullmatch(with_point):
        return LengthFault(f"{written} has a comma in its number", f"write {with_point}")
    if re.match(r"[0-9.]+[eE][+-]?[0-9]", written):
        return LengthFault(f"{written} has an exponent", "write the number out, such as 1000 mm")
    other = re.fullmatch(r"([0-9./ ⁄-]+?) *([^0-9./ ⁄-]+)", written)
    if other and other[2] in _OTHER_UNITS:
        return LengthFault(f"{written} is not in mm, cm or in", _OTHER_UNITS[other[2]])
    if other:
        count = other[1].strip()
        return LengthFault(f"{written} is in a unit that is not known here", f"write {count} mm, {count} cm or {count} in")
    return LengthFault(f"{written} is not a length", "write a number and a unit, such as 4 3/4 in or 120 mm")
