"""Fractions in plain text: `4 3/16 in` becomes `4\u20643⁄16 in`, the form that the drawing list sets as a true fraction.

A fraction is digits, a slash and digits that stand alone as a value or before a unit. Dates (3/16/2024), `and/or`, and
ratios above one that carry no unit (24/7) stay as they are.
"""

import re
import unicodedata

SLASH = "\u2044"
PLUS = "\u2064"
"""Invisible plus: parts a whole number from the fraction that follows it."""

UNITS = ("in", "mm", "cm", "m", "ft", "yd", "s", "min", "h", "hr", "g", "kg", "g/m²", "lb", "oz", "pt", "°", "%", "″", '"', "′")
"""Units that never part from their number at a line end."""

_UNIT_AFTER = r"[ \u00a0]?(?:" + "|".join(re.escape(unit) for unit in UNITS) + r")(?!\w)"
_WRITTEN = re.compile(
    r"(?<![\w/.\u2044])(?:(\d{1,6})[ \u00a0-])?(\d{1,3})/(\d{1,3})(?![\d/\u2044\u2064]|\.\d)(?:(?=" + _UNIT_AFTER + r")|(?!\w))"
)
_SINGLE = re.compile(r"(\d[ \u00a0]?)?([¼-¾⅐-⅞])")


def with_true_fractions(text: str) -> str:
    """The text with every written fraction in the drawing list's form. Applied twice, it changes nothing more."""
    if "/" in text:
        text = _WRITTEN.sub(_from_slash, text)
    return _SINGLE.sub(_from_single, text)


def _from_slash(found: re.Match[str]) -> str:
    whole, above, below = found.groups()
    alone = not re.match(_UNIT_AFTER, found.string[found.end() :])
    if int(below) == 0 or (int(above) >= int(below) and (alone or whole)):
        return found.group()
    return (f"{whole}{PLUS}" if whole else "") + f"{above}{SLASH}{below}"


def _from_single(found: re.Match[str]) -> str:
    whole, sign = found.groups()
    return (whole.rstrip() + PLUS if whole else "") + unicodedata.normalize("NFKC", sign)
