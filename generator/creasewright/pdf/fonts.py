"""The text family, Lato, from the installed package `fontpkg-lato`; answers how wide a text will be.

A face is loaded when it is first used. Widths in the family's own units of 1/1000 of the size; what leaves this file is in
mm (`text_width`, `FontRuler`) or pt (`composed`).

A fraction (`3⁄16`, U+2044) is composed: its digits stand in a heavier face at a part of the size, the numerator raised to
the height of the capitals, a full-size fraction slash between them, drawn together by a small kern. All fractions of a
pack are made so, and ½ looks like 7⁄16.
"""

import re
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from msgspec import Struct
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from creasewright.pdf.face_file import QuickFont
from creasewright.problems import NOWHERE, Problem, ProblemsFound

MM_PER_PT = 25.4 / 72
FAMILY = "fontpkg_lato"
FACES = ("Regular", "Italic", "Bold", "BoldItalic", "Black", "SemiBold")
FRACTION_FACE = {
    "Regular": "SemiBold",
    "Italic": "SemiBold",
    "SemiBold": "Bold",
    "Bold": "Black",
    "BoldItalic": "Black",
    "Black": "Black",
}
"""Digits set small look light; the next heavier face matches the weight of the text."""

BOLD = frozenset({"Bold", "BoldItalic", "Black"})
BOLD_KERN = 0.3
"""Of the usual kern: heavy digits would run into the slash, and a measure has to be read at arm's length."""

SMALL_TYPE = 16.0
"""pt; below it, fraction digits are larger, to be read in a sentence."""
WHOLE_GAP = 0.04
"""Between a whole number and its fraction, in parts of the size. A space is set there, for who copies the text, and drawn together."""

_FRACTION = re.compile(r"(?:(\d+)\u2064)?(\d+)\u2044(\d+)")


class Piece(Struct, frozen=True):
    """Text of one face and size; pt."""

    text: str
    face: str
    size: float
    rise: float = 0.0
    kern_after: float = 0.0
    """Added to the advance after the last letter."""


class Composed(Struct, frozen=True):
    """A stretch of a run: plain text, or a fraction with what a screen reader says in its place."""

    pieces: tuple[Piece, ...]
    width: float
    """pt"""
    actual: str = ""


@lru_cache(maxsize=1)
def font_folder() -> Path:
    """Where the installed family lies. The package itself is not imported."""
    found = find_spec(FAMILY)
    if found is None or found.origin is None:
        what = "the text family Lato (package fontpkg-lato) is not installed"
        raise ProblemsFound([Problem(NOWHERE, what, "install it with: pip install fontpkg-lato")])
    return Path(found.origin).parent / "files"


def font_name(face: str) -> str:
    """The face's name in a file."""
    return f"Lato-{face}"


@lru_cache(maxsize=len(FACES))
def font(face: str) -> TTFont:
    """The face, loaded and registered. KeyError for a face that the family is not used in."""
    if face not in FACES:
        raise KeyError(f"no face {face!r}; faces are {', '.join(FACES)}")
    loaded = QuickFont(font_name(face), str(font_folder() / f"Lato-{face}.ttf"))
    pdfmetrics.registerFont(loaded)
    return loaded


def missing_characters(text: str, face: str) -> tuple[str, ...]:
    """Characters of the text that the face cannot print, each once, in order."""
    known = font(face).face.charToGlyph
    spaced = text.replace("\u00a0", " ")
    return tuple(dict.fromkeys(sign for sign in spaced if ord(sign) not in known or not sign.isprintable()))


@lru_cache(maxsize=16384)
def composed(text: str, face: str, size: float) -> tuple[Composed, ...]:
    """The text as it will be set. ProblemsFound if a character cannot be printed."""
    parts: list[Composed] = []
    at = 0
    for found in _FRACTION.finditer(text):
        if found.start() > at:
            parts.append(_plain(text[at : found.start()], face, size))
        parts.append(_fraction(found[1], found[2], found[3], face, size))
        at = found.end()
    if at < len(text):
        parts.append(_plain(text[at:], face, size))
    return tuple(parts)


@lru_cache(maxsize=16384)
def text_width(text: str, face: str, size: float) -> float:
    """Advance of the text set on one line, mm; `size` in pt."""
    return sum(part.width for part in composed(text, face, size)) * MM_PER_PT


class FontRuler:
    """Answers `booklet.text_ruler.TextRuler` for the family."""

    width = staticmethod(text_width)

    def ascent(self, face: str, size: float) -> float:
        return _metric(face, "ascent") * size * MM_PER_PT

    def descent(self, face: str, size: float) -> float:
        return -_metric(face, "descent") * size * MM_PER_PT

    def cap_height(self, face: str, size: float) -> float:
        return _metric(face, "capHeight") * size * MM_PER_PT


def _metric(face: str, name: str) -> float:
    return float(getattr(font(face).face, name)) / 1000


def _plain(text: str, face: str, size: float) -> Composed:
    return Composed((Piece(text, face, size),), _advance(text, face) * size)


def _fraction(whole: str | None, above: str, below: str, face: str, size: float) -> Composed:
    part, kern = (0.60, -0.035) if size >= SMALL_TYPE else (0.66, -0.05)
    if face in BOLD:
        kern *= BOLD_KERN
    digits, small = FRACTION_FACE[face], size * part
    rise = _metric(face, "capHeight") * (size - small)
    together = (WHOLE_GAP - _advance(" ", face)) * size
    pieces = [Piece(whole, face, size), Piece(" ", face, size, kern_after=together)] if whole else []
    pieces += [
        Piece(above, digits, small, rise, kern_after=kern * size),
        Piece("\u2044", face, size, kern_after=kern * size),
        Piece(below, digits, small),
    ]
    width = sum(_advance(piece.text, piece.face) * piece.size + piece.kern_after for piece in pieces)
    return Composed(tuple(pieces), width, (f"{whole} " if whole else "") + f"{above}\u2044{below}")


@lru_cache(maxsize=16384)
def _advance(text: str, face: str) -> float:
    """In parts of the size. A kept space is as wide as a space."""
    try:
        return float(sum(map(_widths(face).__getitem__, text))) / 1000
    except KeyError:
        raise _cannot_print(text, missing_characters(text, face)) from None


class _Widths(dict[str, float]):
    """Of a face's characters, 1/1000 of the size, each looked up when it is first set. KeyError for what cannot be printed."""

    def __init__(self, face: str) -> None:
        super().__init__()
        self._face = face

    def __missing__(self, sign: str) -> float:
        if missing_characters(sign, self._face):
            raise KeyError(sign)
        width = self[sign] = float(font(self._face).face.getCharWidth(ord(sign)))
        return width


@lru_cache(maxsize=len(FACES))
def _widths(face: str) -> _Widths:
    return _Widths(face)


def _cannot_print(text: str, missing: tuple[str, ...]) -> ProblemsFound:
    signs = ", ".join(f"{sign} (U+{ord(sign):04X})" if sign.isprintable() else f"U+{ord(sign):04X}" for sign in missing)
    shown = text if len(text) <= 60 else text[:57] + "…"
    what = f"“{shown}” cannot be printed: the text family Lato does not have {signs}"
    return ProblemsFound([Problem(NOWHERE, what, "write it with other characters")])
