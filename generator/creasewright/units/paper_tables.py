"""Standard sheets, grammage and caliper: what the trade's names and numbers are in mm and g/m².

Standard sheet  stands upright: its width is the shorter side
Grammage        mass of a square metre, g/m²
Basis weight    mass in pounds of a ream (500 sheets) of the basic size, which depends on the kind of paper
Caliper         thickness of one sheet
"""

import re
from fractions import Fraction

from creasewright.nearest_name import did_you_mean
from creasewright.units.misread import Misread
from creasewright.units.quantity import MM_PER_INCH, Quantity
from creasewright.units.read_length import read_length
from creasewright.units.spellings import PLAIN, count_of

# ISO 216 and ISO 269, as tabulated in PWG 5101.1. By table, not by the halving rule: the rule's roundings are part of it.
_MM_SHEETS = """
A0 841 1189 A1 594 841 A2 420 594 A3 297 420 A4 210 297 A5 148 210 A6 105 148 A7 74 105 A8 52 74 A9 37 52 A10 26 37
B0 1000 1414 B1 707 1000 B2 500 707 B3 353 500 B4 250 353 B5 176 250 B6 125 176 B7 88 125 B8 62 88 B9 44 62 B10 31 44
C0 917 1297 C1 648 917 C2 458 648 C3 324 458 C4 229 324 C5 162 229 C6 114 162 C7 81 114 C8 57 81 C9 40 57 C10 28 40
"""
_HALF_INCH_SHEETS = "letter 17 22 legal 17 28 ledger 22 34"
_OTHER_NAMES = {"tabloid": "ledger", "us letter": "letter", "us legal": "legal"}


def _rows(table: str, unit_mm: Fraction) -> dict[str, tuple[Fraction, Fraction]]:
    words = table.split()
    return {words[i]: (int(words[i + 1]) * unit_mm, int(words[i + 2]) * unit_mm) for i in range(0, len(words), 3)}


_INCH_SHEETS = _rows(_HALF_INCH_SHEETS, MM_PER_INCH / 2)
STANDARD_SHEETS = _INCH_SHEETS | _rows(_MM_SHEETS, Fraction(1))
"""Name to (width, height) in mm, upright."""

_SHEET_NAMES = {name.casefold(): name for name in STANDARD_SHEETS}

GRAM_PER_POUND = Fraction("453.59237")
"""International avoirdupois pound, 1959; exact."""
SHEETS_PER_REAM = 500

_BASIC_SIZES = {
    "bond": (Fraction(17), Fraction(22)),
    "writing": (Fraction(17), Fraction(22)),
    "text": (Fraction(25), Fraction(38)),
    "book": (Fraction(25), Fraction(38)),
    "cover": (Fraction(20), Fraction(26)),
    "index": (Fraction(51, 2), Fraction(61, 2)),
    "bristol": (Fraction(45, 2), Fraction(57, 2)),
    "tag": (Fraction(24), Fraction(36)),
}
"""Kind of paper to its basic size in inches."""

_HEAVIEST = 5000
"""g/m²; the thickest board sold in sheets stays well under it."""

DENSITY_OF_CARD = (Fraction("0.87"), Fraction("0.80"))
"""g/cm³: index card by the US Government Printing Office's standard K10 (0.868 to 0.879), and the rough default of GNU Units."""

MM_PER_POINT = MM_PER_INCH / 1000
"""A point of caliper is a thousandth of an inch."""


class PaperFault(Misread):
    """A sheet, grammage or caliper that cannot be read."""


def is_standard_sheet(name: str) -> bool:
    return _table_name(name) is not None


def standard_sheet(name: str) -> tuple[Fraction, Fraction]:
    """Width and height in mm, upright, of `letter`, `A4` …; capitals do not matter. Raises PaperFault."""
    known = _table_name(name)
    if known is None:
        hint = did_you_mean(name, [*STANDARD_SHEETS, *_OTHER_NAMES])
        hint = hint if hint.startswith("did") else "write letter, A4, or [width, height]"
        raise PaperFault(f"`{name}` is not a standard sheet", hint)
    return STANDARD_SHEETS[known]


def sheet_system(name: str) -> str:
    """`in` or `mm`: the system a standard sheet belongs to. Raises PaperFault."""
    standard_sheet(name)
    return "in" if _table_name(name) in _INCH_SHEETS else "mm"


def _table_name(name: str) -> str | None:
    plain = " ".join(name.casefold().split())
    return _SHEET_NAMES.get(_OTHER_NAMES.get(plain, plain))


def grammage_of(text: str) -> Fraction:
    """g/m² of `216`, `216 gsm`, `216 g/m²` or `80 lb cover`. Raises PaperFault."""
    written = " ".join(text.split())
    found = PLAIN.match(written) if len(written) <= 40 else None
    if found is None:
        raise PaperFault(f"`{written[:40]}` is not a grammage", "write it as 216 (g/m²) or 80 lb cover")
    try:
        count = count_of(found)
    except Misread as fault:
        raise PaperFault(fault.what, fault.hint) from None
    unit = written[found.end() :].strip().casefold()
    if unit in ("", "gsm", "g/m2", "g/m²", "g", "g/qm"):
        grammage = count
    else:
        grammage = count * _grammage_of_a_pound(written, unit)
    if not 0 < grammage <= _HEAVIEST:
        hint = "write the g/m² on the pack: copy paper has 80, heavy card 300"
        raise PaperFault(f"{written} is not the grammage of a paper", hint)
    return grammage


def _grammage_of_a_pound(written: str, unit: str) -> Fraction:
    """g/m² of a basis weight of one pound.

    gsm = lb × 453.59237 / (500 × area in in² × 0.0254²): a ream of the basic size weighs so many pounds.
    """
    pounds = re.fullmatch(r"(?:lbs?\.?|#|pounds?) ?(.*)", unit)
    if pounds is None:
        raise PaperFault(f"`{written}` is not a grammage", "write it as 216 (g/m²) or 80 lb cover")
    kind = pounds[1]
    if not kind:
        hint = f"write {written} cover or {written} text, or the g/m² of the pack"
        raise PaperFault(f"{written} does not say of which kind of paper", hint)
    if kind not in _BASIC_SIZES:
        hint = did_you_mean(kind, _BASIC_SIZES)
        raise PaperFault(f"`{kind}` is not a kind of paper with a basis weight", hint)
    width, height = _BASIC_SIZES[kind]
    return GRAM_PER_POUND / (SHEETS_PER_REAM * width * height * (MM_PER_INCH / 1000) ** 2)


def caliper_bracket(grammage: Fraction) -> tuple[Fraction, Fraction]:
    """The two calipers in mm between which uncoated card of this grammage is likely to lie; for a message that asks for it.

    caliper = grammage / (1000 × density), mm from g/m² and g/cm³.
    """
    dense, loose = DENSITY_OF_CARD
    return grammage / (1000 * dense), grammage / (1000 * loose)


def read_caliper(text: str) -> Quantity:
    """A caliper: any length, or `12 pt` (thousandths of an inch), or `270 µm`. Raises LengthFault or PaperFault."""
    small = _SMALL_UNITS.fullmatch(" ".join(text.split()))
    if small is None or len(text) > 40:
        return read_length(text)
    count = Fraction(small[1])
    return Quantity(count * MM_PER_POINT if small[2] is not None else count / 1000, 1)


def is_small_unit(text: str) -> bool:
    """Whether a caliper is written in points or micrometres, which no formula knows."""
    return len(text) <= 40 and _SMALL_UNITS.fullmatch(" ".join(text.split())) is not None


_SMALL_UNITS = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(?:(pt|points?|mils?)|(?:µm|μm|um|microns?))")
