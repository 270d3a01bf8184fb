"""Running text in lines. The ruler makes every character 1 mm wide."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.square_ruler import SquareRuler
from creasewright.booklet.drawing import Run
from creasewright.booklet.typeset import line_width, literal, one_line, paragraph, paragraphs, plain, set_lines
from creasewright.reading.page_layout import TypeStyle

RULER = SquareRuler()
STYLE = TypeStyle("Regular", 10, 14, "INK")


def lines(text: str, width: float, style: TypeStyle = STYLE) -> list[str]:
    return ["".join(run.text for run in line) for line in set_lines(text, width, RULER, style)]


def faces(text: str, style: TypeStyle = STYLE) -> list[tuple[str, str]]:
    return [(run.text, run.face) for run in one_line(text, style)]


def test_lines_end_between_words_where_the_next_would_not_fit() -> None:
    # "fold the" is 8 wide, "fold the flap" 13
    assert lines("fold the flap over", 12) == ["fold the", "flap over"]
    assert lines("fold the flap over", 13) == ["fold the flap", "over"]


def test_no_line_ends_between_a_value_and_its_unit() -> None:
    assert lines("wait for 30 s", 11) == ["wait for", "30 s"]
    assert lines("wait for **30** s", 11) == ["wait for", "30 s"]
    assert lines("cut to 12.5 mm", 11) == ["cut to", "12.5 mm"]
    assert lines("cut 4 3/16 in off", 9) == ["cut", "4\u20643⁄16 in", "off"]


def test_a_word_that_only_begins_like_a_unit_may_part() -> None:
    assert lines("cut 12 inserts", 6) == ["cut 12", "insert", "s"]


def test_width_by_height_stays_whole_where_it_fits() -> None:
    assert lines("a card 5 × 7 in", 10) == ["a card", "5 × 7 in"]


def test_width_by_height_breaks_after_the_sign_where_it_must() -> None:
    # "5⁺1⁄4 × 7⁺1⁄2 in" takes 5 + 3 + 5 + 3 = 16
    assert lines("5 1/4 × 7 1/2 in", 10) == ["5\u20641⁄4 ×", "7\u20641⁄2 in"]


def test_a_word_wider_than_the_line_is_cut_as_a_last_resort() -> None:
    assert lines("abcdefghij", 4) == ["abcd", "efgh", "ij"]


def test_bold_and_italic_are_the_only_markup() -> None:
    assert faces("cut **A** to *head* ***x***") == [
        ("cut ", "Regular"),
        ("A ", "Bold"),
        ("to ", "Regular"),
        ("head ", "Italic"),
        ("x", "BoldItalic"),
    ]
    assert faces("<b>x</b> _y_ `z`") == [("<b>x</b> _y_ `z`", "Regular")]


def test_emphasis_within_bold_and_within_a_bold_style() -> None:
    assert faces("**a *b* c**") == [("a ", "Bold"), ("b ", "BoldItalic"), ("c", "Bold")]
    assert faces("a *b*", TypeStyle("Bold")) == [("a ", "Bold"), ("b", "BoldItalic")]


def test_large_print_has_no_italics() -> None:
    assert faces("the *head*", TypeStyle("Regular", italic="Regular")) == [("the head", "Regular")]


@pytest.mark.parametrize("text", ["5 * 3", "a ** b", "**open", "it*s", "*", "****", "a*"])
def test_an_asterisk_without_a_partner_is_an_asterisk(text: str) -> None:
    assert plain(text) == text


def test_a_literal_text_keeps_its_asterisks() -> None:
    assert plain(literal("**Sale** *now*")) == "**Sale** *now*"


def test_plain_text_has_no_marks_and_ordinary_spaces() -> None:
    assert plain("Cut **A** to 5 × 7 in") == "Cut A to 5 × 7 in"


def test_unseen_characters_and_stray_white_space_go() -> None:
    assert plain("so\u00adft \n\t cut\u200b") == "soft cut"


def test_a_letter_and_its_accent_become_one() -> None:
    assert plain("cafe\u0301") == "café"


def test_a_paragraph_hangs_from_its_top() -> None:
    items, height = paragraph("fold the flap over", 20, 50, 12, RULER, STYLE)
    leading = 14 * 25.4 / 72  # 4.939 mm
    assert height == pytest.approx(2 * leading)
    # letters are 0.8 above and 0.2 below the baseline; what the leading has more is halved: (4.939 - 1) / 2 + 0.8
    assert [words.y for words in items] == [pytest.approx(50 + 2.769, abs=0.001), pytest.approx(50 + 2.769 + leading, abs=0.001)]
    assert {words.x for words in items} == {20}


def test_a_paragraph_may_be_flush_right_or_centred() -> None:
    for anchor, x in (("end", 32), ("middle", 26)):
        (words,), _ = paragraph("fold", 20, 50, 12, RULER, STYLE, anchor)
        assert (words.x, words.anchor) == (x, anchor)


def test_empty_text_takes_no_room() -> None:
    assert paragraph("  ", 0, 0, 10, RULER, STYLE) == ((), 0)


def test_empty_lines_part_paragraphs() -> None:
    assert paragraphs("one\ntwo\n\n \n three ") == ("one\ntwo", " three")


TEXTS = st.text(alphabet="ab 12/×*½in\u20443", max_size=60)


@given(TEXTS, st.integers(8, 40))
def test_no_line_is_too_wide_and_no_letter_is_lost(text: str, width: int) -> None:
    set_text = set_lines(text, width, RULER, STYLE)
    for line in set_text:
        # a fraction is never cut, even one wider than the line
        assert line_width(line, RULER) <= width + 1e-9 or "\u2044" in "".join(run.text for run in line)
    shown = "".join(run.text for line in set_text for run in line)
    assert shown.replace(" ", "") == plain(text).replace(" ", "")


@given(TEXTS)
def test_runs_of_one_line_are_joined_where_they_are_alike(text: str) -> None:
    runs = one_line(text, STYLE)
    assert all(a.face != b.face for a, b in pairwise(runs))
    assert all(isinstance(run, Run) and run.text for run in runs)
