"""Furniture where the look of the pages puts it (letter: binding 20, outer 14 mm)."""

import pytest

from booklet.square_ruler import SquareRuler
from creasewright.booklet.drawing import Mark, Shape, Tagged, Words
from creasewright.booklet.typeset import line_width, one_line
from creasewright.pages.furniture import Furnisher, fitted, shortened
from creasewright.reading.page_layout import PageLayout, TypeStyle

RULER = SquareRuler()


@pytest.fixture
def furnisher(pack_layout: PageLayout) -> Furnisher:
    return Furnisher(pack_layout, pack_layout.page("letter"), RULER, "Seed-swap folio", 9)


def test_the_running_head_stands_14_mm_from_the_head(furnisher: Furnisher) -> None:
    head = furnisher.running_head("Materials")
    assert isinstance(head, Mark)
    left, right = head.items
    assert isinstance(left, Words) and isinstance(right, Words)
    assert (left.x, left.y, left.runs[0].face) == (20, 14, "Bold")
    # 215.9 - 14 = 201.9
    assert (right.x, right.y, right.anchor, right.runs[0].face) == (pytest.approx(201.9), 14, "end", "Regular")


def test_the_strip_is_folded_at_45_degrees(furnisher: Furnisher) -> None:
    strip, title, scope = furnisher.section_head("Cut list", "pieces A, B")
    assert isinstance(strip, Mark) and isinstance(title, Tagged) and isinstance(scope, Tagged)
    front, back = strip.items
    assert isinstance(front, Shape) and isinstance(back, Shape)
    assert (front.fill, back.fill) == ("ACC", "ACC2")
    # down 6.6 from 17.5; the fold runs from (24.6, 24.1) to (20, 28.7): as far across as down
    corners = [pytest.approx(c) for c in [(20, 17.5), (24.6, 17.5), (24.6, 24.1), (20, 28.7)]]
    assert [command[1:] for command in front.path[:-1]] == corners
    assert max(command[1] for command in back.path[:-1]) == pytest.approx(24.6 + 5.5)


def test_the_section_head_is_indented_on_its_baseline(furnisher: Furnisher) -> None:
    (words,) = furnisher.section_head("Cut list", "")[1].items
    assert (words.x, words.y) == (34, 29)


def test_one_foot_dash_for_each_section_and_one_in_the_accent(furnisher: Furnisher) -> None:
    foot = furnisher.foot([1], "2")
    assert isinstance(foot, Mark)
    dashes = [item for item in foot.items if isinstance(item, Shape)]
    assert [dash.pen.colour for dash in dashes] == ["RULE", "ACC", *["RULE"] * 7]
    assert all(command[2] == pytest.approx(279.4 - 11.2) for dash in dashes for command in dash.path)
    # nine dashes with gaps of 1.4 fill the measure less 18 mm: 181.9 - 18 = 163.9
    assert dashes[0].path[0][1] == 20
    assert dashes[-1].path[1][1] == pytest.approx(20 + 163.9)
    assert dashes[1].path[0][1] - dashes[0].path[1][1] == pytest.approx(1.4)
    number = foot.items[-1]
    assert isinstance(number, Words)
    assert (number.x, number.anchor) == (pytest.approx(201.9), "end")


def test_a_page_of_two_sections_has_both_dashes_in_the_accent(furnisher: Furnisher) -> None:
    dashes = [item for item in furnisher.foot([2, 3], "4").items if isinstance(item, Shape)]
    assert [dash.pen.colour for dash in dashes] == ["RULE", "RULE", "ACC", "ACC", *["RULE"] * 5]


def test_what_goes_on_is_named_again_as_furniture(furnisher: Furnisher) -> None:
    strip, words = furnisher.page_head("Front block", "continued")
    assert isinstance(strip, Mark) and isinstance(words, Mark)
    assert [one.role for one in words.items] == ["section head", "section scope"]
    _, begun = furnisher.page_head("Back block", kind="H2")
    assert isinstance(begun, Tagged) and begun.kind == "H2"


def test_nothing_is_nearer_than_7_2_mm_to_an_edge(furnisher: Furnisher) -> None:
    (words, *_), foot = furnisher.running_head("x").items, furnisher.foot([0], "1")
    assert words.y - RULER.ascent("Bold", 9) > 7.2
    assert 279.4 - max(item.y for item in foot.items if isinstance(item, Words)) > 7.2


def test_a_long_head_shrinks_and_then_is_cut_short() -> None:
    style = TypeStyle("Black", 20)
    assert fitted("x" * 10, style, 20, RULER)[0].size == 20
    assert fitted("x" * 10, style, 15, RULER)[0].size == 15
    (run,) = fitted("x" * 100, style, 12, RULER)
    # at 12 pt each letter is 1.2 mm: ten letters
    assert (run.size, run.text) == (12, "x" * 9 + "…")


def test_shortening_goes_on_into_earlier_runs() -> None:
    runs = one_line("abc **def**", TypeStyle("Regular", 10))
    short = shortened(runs, 3, RULER)
    assert "".join(run.text for run in short) == "ab…"
    assert line_width(short, RULER) <= 3
