import re
from fractions import Fraction

import pytest

from booklet.sections.kit_cases import PACKS, kit
from creasewright.booklet.diagrams.boxes import path_lines
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.marks_used import ACTIONS, LINES, READING, marks_used
from creasewright.booklet.sections import print_it_true
from creasewright.booklet.sections.print_it_true import scale_to_type
from creasewright.booklet.template_pages import template_page_count
from creasewright.booklet.true_rulers import true_ruler
from creasewright.pdf.fonts import FontRuler
from section_cases import TRADE_WORDS, said, shapes


@pytest.mark.parametrize(("upright", "place", "axis"), [(False, "across", 0), (True, "down", 1)])
def test_rulers_are_true_along_both_axes(upright: bool, place: str, axis: int) -> None:
    drawn = true_ruler(FontRuler(), 150, 6, upright)
    ticks = {item.role: [chain[0][axis] for chain in path_lines(item.path)] for item in drawn if hasattr(item, "path")}
    assert ticks[f"ruler mm {place}"] == pytest.approx(list(range(151)))
    # 1 in = 25.4 mm exactly (international yard and pound agreement, 1959): 96 sixteenths of 1.5875 mm, 152.4 mm in all
    assert ticks[f"ruler in {place}"] == pytest.approx([1.5875 * k for k in range(97)])
    assert ticks[f"ruler in {place}"][-1] == pytest.approx(152.4)


@pytest.mark.parametrize("page", ["letter", "a4", "half letter", "a5"])
def test_rulers_stay_within_the_margins(page: str) -> None:
    context = kit("swap-day-card", "print it true", "in", page)
    long = {"letter": 6, "a4": 6, "half letter": 3, "a5": 3}[page]
    (ticks,) = shapes(print_it_true.build(context), "ruler in across")
    assert max(command[1] for command in ticks.path) == pytest.approx(long * 25.4)
    assert print_it_true.CORNER + long * 25.4 <= context.page.measure


def test_figures_on_the_rulers_meet_no_tick() -> None:
    for upright in (False, True):
        assert overlaps(true_ruler(FontRuler(), 150, 6, upright), FontRuler()) == []


def test_the_scale_to_type_undoes_the_printer_s() -> None:
    # 15000 / 145 = 103.448, 15000 / 155 = 96.774, 9600 / 92 = 104.347…
    assert [scale_to_type(150, reading) for reading in (145, 150, 155)] == ["103.4", "100.0", "96.8"]
    assert scale_to_type(96, 92) == "104.3"
    for reading in range(145, 156):
        typed = Fraction(scale_to_type(150, reading)) / 100
        assert abs(typed * reading - 150) < Fraction(1, 10)  # mm left over, no more than a tenth in 150


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_all_eleven_readings_are_there(design: str, system: str, page: str, makers: int) -> None:
    text = said(print_it_true.build(kit(design, "print it true", system, page, makers)))
    for reading in range(145, 156):
        assert f"{reading} mm {scale_to_type(150, reading)} %" in text
    assert ("6 in reads" in text) == (system == "in")


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_template_pages_are_named_from_first_to_last(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "print it true", system, page, makers)
    count, text = template_page_count(context), said(print_it_true.build(context))
    assert ("T-1" in text) == bool(count)
    if count > 1:
        assert f"T-1 to T-{count}" in text


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_words_are_the_reader_s(design: str, system: str, page: str, makers: int) -> None:
    section = print_it_true.build(kit(design, "print it true", system, page, makers))
    text = said(section)
    assert not [word for word in TRADE_WORDS if word in text.lower()]
    assert not set(re.findall(r"[a-z]+", text)) & {"tail", "guillotine", "score"}
    if system == "mm":
        assert not re.search(r"\d in\b", text)


def test_cautions_are_only_those_that_the_pack_calls_for() -> None:
    folio = said(print_it_true.build(kit("seed-swap-folio", "print it true")))
    assert "Ribbon and cord" in folio and "trimmer" in folio and "label of the glue" in folio
    assert "Magnets" not in folio and "Hot glue" not in folio and "needles" not in folio
    card = said(print_it_true.build(kit("swap-day-card", "print it true")))
    assert "trimmer" in card and "glue" not in card and "knife" not in card
    for text in (folio, card):
        assert "The rules of each tool’s maker, and of the place you work in, come before what is said here." in text


def test_the_key_holds_the_marks_of_the_pack_and_no_others() -> None:
    diary = marks_used(kit("plant-diary", "print it true"))
    assert {"fold and open", "edge", "tag", "fold line"} <= diary
    assert not diary & {"glue", "slide", "sheet cut", "cut number", "tuck"}  # no glue, no insert, no sheet to cut
    folio = marks_used(kit("seed-swap-folio", "print it true"))
    assert {"glue", "slide", "front", "behind", "sheet cut", "measure"} <= folio
    assert "fold and open" not in folio
    assert folio | diary <= {*LINES, *ACTIONS, *READING}


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_every_mark_used_is_drawn_and_said(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "print it true", system, page, makers)
    section, text = print_it_true.build(context), said(print_it_true.build(context))
    said_for = {"valley": "fold toward you", "glue": "glue here", "slide": "slide or lay in", "sheet cut": "sheet cut, in order"}
    for mark, words in said_for.items():
        assert (words in text) == (mark in marks_used(context))
    papers = [context.worked.papers[name] for name in {piece.blank.paper for piece in context.worked.pieces}]
    assert len(shapes(section, "paper rim")) == sum(1 if paper.sides_alike else 2 for paper in papers)
