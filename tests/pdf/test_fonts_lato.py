"""The text family: installed, static, whole; what it cannot print is told."""

import struct

import pytest

from creasewright.pdf.fonts import FACES, FontRuler, composed, font, font_folder, missing_characters, text_width
from creasewright.problems import ProblemsFound

USED = "ABCXYZabcxyz0123456789 .,:;!?()[]–—-+±×÷=%&/\u2044'\"′″‘’“”°·•…½¼¾⅛⅜⅝⅞←→↑↓äöüßéèñçœ€£©™²³"
"""Every kind of character that a pack's own texts may hold."""


def tables_of(face: str) -> set[bytes]:
    data = (font_folder() / f"Lato-{face}.ttf").read_bytes()
    count = struct.unpack(">H", data[4:6])[0]
    return {data[12 + 16 * k : 16 + 16 * k] for k in range(count)}


@pytest.mark.parametrize("face", FACES)
def test_each_face_is_installed_static_and_has_true_type_outlines(face: str) -> None:
    # OpenType specification, table tags: fvar makes a font variable, glyf holds TrueType outlines
    assert b"glyf" in tables_of(face)
    assert b"fvar" not in tables_of(face)


@pytest.mark.parametrize("face", FACES)
def test_each_face_has_every_character_that_packs_use(face: str) -> None:
    assert missing_characters(USED, face) == ()


def test_a_letter_is_as_wide_as_its_advance() -> None:
    # the face's own table hmtx, in 1/1000 of the size: 12 pt = 12 x 25.4 / 72 mm
    assert text_width("n", "Regular", 12) == pytest.approx(font("Regular").face.getCharWidth(ord("n")) / 1000 * 12 * 25.4 / 72)


def test_digits_of_the_upright_faces_are_equally_wide() -> None:
    for face in ("Regular", "Bold", "Black", "SemiBold"):
        assert len({text_width(digit, face, 10) for digit in "0123456789"}) == 1


def test_widths_add_up_and_grow_with_the_size() -> None:
    assert text_width("ab", "Bold", 10) == pytest.approx(text_width("a", "Bold", 10) + text_width("b", "Bold", 10))
    assert text_width("ab", "Bold", 30) == pytest.approx(3 * text_width("ab", "Bold", 10))


def test_a_fraction_has_small_digits_above_and_below_a_full_slash() -> None:
    (part,) = composed("4\u20643⁄16", "Regular", 10.5)
    whole, _, above, slash, below = part.pieces
    assert (whole.text, above.text, slash.text, below.text) == ("4", "3", "\u2044", "16")
    # below 16 pt the digits are 0.66 of the size: 0.66 x 10.5 = 6.93
    assert above.size == below.size == pytest.approx(6.93)
    assert slash.size == 10.5
    # capitals of Lato are 0.7165 high: 0.7165 x (10.5 - 6.93) = 2.558
    assert above.rise == pytest.approx(2.558, abs=0.001)
    assert part.actual == "4 3⁄16"


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("size", [9.0, 10.5, 44.0])
def test_a_whole_number_stands_close_to_its_fraction_with_a_space_between_for_readers(face: str, size: float) -> None:
    (part,) = composed("4\u20641⁄8", face, size)
    (alone,) = composed("1⁄8", face, size)
    whole, space, *_ = part.pieces
    assert (whole.text, space.text) == ("4", " ")
    gap = part.width - alone.width - font(face).face.getCharWidth(ord("4")) / 1000 * size
    assert 0.02 * size <= gap <= 0.05 * size
    assert part.actual == "4 1⁄8"


def test_from_16_pt_on_the_digits_are_0_60_of_the_size() -> None:
    assert composed("1⁄2", "Regular", 16)[0].pieces[0].size == pytest.approx(9.6)
    assert composed("1⁄2", "Regular", 15.9)[0].pieces[0].size == pytest.approx(0.66 * 15.9)


def test_the_ruler_measures_what_is_painted() -> None:
    text = "11 × 7\u20641⁄2 in"
    painted = sum(part.width for part in composed(text, "Bold", 12)) * 25.4 / 72
    assert FontRuler().width(text, "Bold", 12) == pytest.approx(painted)


def test_capitals_ascenders_and_descenders_are_in_order() -> None:
    ruler = FontRuler()
    assert 0 < ruler.cap_height("Regular", 10) < ruler.ascent("Regular", 10) < 10 * 25.4 / 72 * 1.1
    assert 0 < ruler.descent("Regular", 10) < ruler.cap_height("Regular", 10)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("日本 card", "“日本 card” cannot be printed: the text family Lato does not have 日 (U+65E5), 本 (U+672C)"),
        ("cut ✂", "“cut ✂” cannot be printed: the text family Lato does not have ✂ (U+2702)"),
        ("a\x07", "“a\x07” cannot be printed: the text family Lato does not have U+0007"),
    ],
)
def test_a_character_that_is_not_there_is_named(text: str, what: str) -> None:
    with pytest.raises(ProblemsFound) as caught:
        text_width(text, "Regular", 10)
    assert [(p.what, p.hint) for p in caught.value.problems] == [(what, "write it with other characters")]
