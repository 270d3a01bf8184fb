"""The quick reader of a face knows what reportlab's own reader knows."""

import pytest
from reportlab.pdfbase.ttfonts import TTFontFace

from creasewright.pdf.face_file import QuickFace
from creasewright.pdf.fonts import FACES, font_folder

KNOWN = (
    "name", "flags", "ascent", "descent", "capHeight", "bbox", "stemV", "defaultWidth",
    "charToGlyph", "numGlyphs",
)  # fmt: skip


@pytest.mark.parametrize("face", FACES)
def test_a_face_read_quickly_is_the_face_that_reportlab_reads(face: str) -> None:
    file = str(font_folder() / f"Lato-{face}.ttf")
    quick, plain = QuickFace(file), TTFontFace(file)
    assert [name for name in KNOWN if getattr(quick, name) != getattr(plain, name)] == []
    assert {code: quick.getCharWidth(code) for code in plain.charWidths} == plain.charWidths
    assert [quick.hmetrics[glyph] for glyph in range(plain.numGlyphs)] == plain.hmetrics
    assert list(quick.glyphPos) == plain.glyphPos
    assert quick.getCharWidth(0x10FFFF) == plain.getCharWidth(0x10FFFF)


def test_a_space_that_is_kept_is_as_wide_as_a_space() -> None:
    face = QuickFace(str(font_folder() / "Lato-Regular.ttf"))
    assert face.getCharWidth(0xA0) == face.getCharWidth(0x20)
