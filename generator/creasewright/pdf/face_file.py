"""A face of the text family read from its file, whole tables at once: reportlab's own way, number by number, is slow.

Tables as the OpenType specification gives them: `cmap` (format 4), `hhea`, `hmtx`, `loca`, `head`.
"""

import sys
from array import array
from collections.abc import Sequence
from struct import unpack_from
from weakref import WeakKeyDictionary

from reportlab.pdfbase.ttfonts import TTEncoding, TTFont, TTFontFace

SEGMENTS = 4
"""The format of a `cmap` in segments of neighbouring characters."""
WINDOWS, UNICODE = 3, 1
SPACE, KEPT_SPACE = 0x20, 0xA0


class QuickFace(TTFontFace):  # type: ignore[misc]  # reportlab is not typed
    """Knows of its characters what reportlab's own face knows, except the way back from glyphs to characters."""

    def extractInfo(self, charInfo: int = 1) -> None:
        super().extractInfo(0)
        segments = self._segments()
        if segments is None:
            super().extractInfo(charInfo)
            return
        self.charToGlyph = glyphs = self._glyphs(segments)
        self.hmetrics = self._metrics()
        self.glyphPos = self._positions()
        self.defaultWidth = self._pdfScale(self.hmetrics[0][0])
        for held, lent in ((KEPT_SPACE, SPACE), (SPACE, KEPT_SPACE)):
            if lent in glyphs:
                glyphs[held] = glyphs[lent]
                break

    def getCharWidth(self, code: int) -> float:
        """In 1/1000 of the size. Worked out for the few characters that are asked for; reportlab's face does it for all."""
        glyph = self.charToGlyph.get(code)
        return float(self.defaultWidth if glyph is None else self._pdfScale(self.hmetrics[glyph][0]))

    def _numbers(self, kind: str, table: str, at: int, count: int) -> tuple[int, ...]:
        return unpack_from(f">{count}{kind}", self._ttf_data, self.get_table_pos(table)[0] + at)

    def _column(self, kind: str, table: str, at: int, count: int) -> "array[int]":
        """Many numbers as they lie in the file, none made a thing of its own before it is asked for: `H` of 2 bytes, `I` of 4."""
        start = self.get_table_pos(table)[0] + at
        numbers = array(kind)
        numbers.frombytes(self._ttf_data[start : start + count * numbers.itemsize])
        if sys.byteorder == "little":
            numbers.byteswap()
        return numbers

    def _segments(self) -> int | None:
        """Where in `cmap` the segments of Unicode characters begin; None if they are written in another format."""
        (count,) = self._numbers("H", "cmap", 2, 1)
        for k in range(count):
            record = self._numbers("H", "cmap", 4 + 8 * k, 4)
            at = record[2] << 16 | record[3]
            if record[:2] == (WINDOWS, UNICODE) and self._numbers("H", "cmap", at, 1) == (SEGMENTS,):
                return at
        return None

    def _glyphs(self, at: int) -> dict[int, int]:
        """Character to glyph."""
        _, length, _, twice = self._numbers("H", "cmap", at, 4)
        count = twice // 2
        words = self._column("H", "cmap", at, length // 2)
        ends, starts = words[7 : 7 + count], words[8 + count : 8 + 2 * count]
        deltas, offsets = words[8 + 2 * count : 8 + 3 * count], words[8 + 3 * count : 8 + 4 * count]
        found: dict[int, int] = {}
        for k, (first, last, delta, offset) in enumerate(zip(starts, ends, deltas, offsets, strict=True)):
            if not offset:
                begin = (first + delta) & 0xFFFF
                found.update(zip(range(first, last + 1), range(begin, begin + last + 1 - first), strict=True))
                continue
            place = 8 + 3 * count + k + offset // 2
            for char, glyph in zip(range(first, last + 1), words[place : place + last + 1 - first], strict=False):
                found[char] = (glyph + delta) & 0xFFFF if glyph else 0
        return found

    def _metrics(self) -> "GlyphMetrics":
        (count,) = self._numbers("H", "hhea", 34, 1)
        return GlyphMetrics(self._column("H", "hmtx", 0, 2 * count + self.numGlyphs - count), count)

    def _positions(self) -> Sequence[int]:
        """Where each glyph's outline begins, and where the last one ends."""
        (long,) = self._numbers("H", "head", 50, 1)
        if long:
            return self._column("I", "loca", 0, self.numGlyphs + 1)
        return [2 * half for half in self._column("H", "loca", 0, self.numGlyphs + 1)]


class GlyphMetrics:
    """Advance and left side bearing of each glyph, in the file's units; those past the last advance share it."""

    def __init__(self, numbers: Sequence[int], count: int) -> None:
        self._numbers, self._count = numbers, count

    def __getitem__(self, glyph: int) -> tuple[int, int]:
        if glyph < self._count:
            return self._numbers[2 * glyph], self._numbers[2 * glyph + 1]
        return self._numbers[2 * self._count - 2], self._numbers[self._count + glyph]


class QuickFont(TTFont):  # type: ignore[misc]  # reportlab is not typed
    """A font whose face is read quickly; its letters are numbered in the order of their use."""

    def __init__(self, name: str, file: str) -> None:
        self.fontName = name
        self.face = QuickFace(file)
        self.encoding = TTEncoding()
        self.state: WeakKeyDictionary[object, object] = WeakKeyDictionary()
        self._asciiReadable = 0
        self.shapable = False
