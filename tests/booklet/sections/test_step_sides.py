"""Which side and which piece of the work the steps name: worked by hand from the folio's design, as it is made on the table."""

import re

import pytest

from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.sections import cut_list
from creasewright.booklet.sections.steps import build
from creasewright.reading.design import Make
from section_cases import DESIGNS, alternatives, context_of, said, shipped
from small_designs import with_steps, worked_of


def test_a_strip_laid_on_another_shows_its_print_in_the_block_and_in_its_mirror() -> None:
    # both strips are worked print up; the flaps that were folded show the other side, and do not name the strip's
    text = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    found = re.findall(r"Lay [^.,]*?([AB]\d), (\w+ side) up", text)
    assert found == [("B1", "sprig side"), ("A2", "sprig side")]


def test_of_pages_that_lie_on_one_another_the_topmost_names_the_side() -> None:
    # the folio closed, the page under the cover mat up: its print shows
    alts = alternatives(build(context_of(shipped("seed-swap-folio"), "steps")))
    assert [alt for alt in alts if "Stick cover mat" in alt and "sprig side up" in alt], [alt for alt in alts if "cover mat" in alt]


def test_what_a_sheet_of_foam_is_cut_to_stands_in_the_step_that_sticks_it() -> None:
    # cover mat 2 5/8 x 4 3/4 in, 1/8 in of it free all round: 2 3/8 x 4 1/2 in
    text = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    assert "Cut double-sided foam sheet to 2 3/8 × 4 1/2 in and stick it under cover mat D, 1/8 in from its edges." in text
    assert "Stick cover mat D onto the page of B1 of the front block: its right edge 3/8 in from the right edge" in text


def test_the_step_that_trims_says_which_corner_and_on_which_piece_the_template_is_turned() -> None:
    text = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    lay, cut, along = "Lay the slope template on", "turned over for right strip", "along its edge."
    assert f"{lay} left strip A1 and right strip B1, {cut} B1. Cut the top left corner of A1 and the top right corner of B1 {along}" in text
    assert f"{lay} right strip B2 and left strip A2, {cut} B2. Cut the top right corner of B2 and the top left corner of A2 {along}" in text


def test_what_a_step_cuts_off_is_dotted_in_its_picture() -> None:
    # of each block the slope of the strip that is drawn, and the four corners of the card
    pictures = pictured_steps(shipped("seed-swap-folio"))
    cut = [len(each.plan.landing) for steps in pictures for run, each in zip(steps.runs, steps.pictures, strict=True)
           if each.plan and isinstance(run.written.action, Make)]  # fmt: skip
    assert cut == [1, 4, 1, 4]


@pytest.mark.parametrize("name", DESIGNS)
def test_what_the_cut_list_has_pencilled_in_sight_is_rubbed_out_and_nothing_else(name: str) -> None:
    worked = shipped(name)
    context = context_of(worked, "cut list")
    pencilled = sorted(mark for mark, way in cut_list.letter_ways(context).items() if not way)
    assert ("ightly" in said(cut_list.build(context))) == bool(pencilled)
    rubbed = re.findall(r"Rub out the pencilled letters? (\w+(?:, \w+)*)\.", said(build(context_of(worked, "steps"))))
    assert sorted({mark for marks in rubbed for mark in marks.split(", ")}) == pencilled
    assert bool(pencilled) == (name in ("open-day-card", "plant-diary", "recipe-booklet", "seed-swap-folio", "swap-day-card"))


def test_a_letter_in_sight_is_rubbed_out_before_its_piece_goes_in_or_is_tied_up_and_else_at_the_end() -> None:
    folio = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    # each block takes two cards
    assert folio.count("Rub out the pencilled letter E. Slide seed card E into the ") == folio.count("Rub out") == 4
    # the band goes round the card
    assert "Rub out the pencilled letter A. Wrap belly B round it" in said(build(context_of(shipped("open-day-card"), "steps")))
    # a booklet can be opened to the end
    booklet = said(build(context_of(shipped("recipe-booklet"), "steps")))
    assert re.search(r"In all: [^.]+ in\. Rub out the pencilled letters A, B\.", booklet)


@pytest.mark.parametrize(
    ("size", "front", "told"),
    [
        ("width: 44 mm, height: 47 mm", "plain", "slip B (44 mm wide, 47 mm high)"),
        ("width: 47 mm, height: 44 mm", "all-over", "slip B (47 mm wide, 44 mm high)"),
        ("width: 44 mm, height: 45 mm", "plain", ""),  # a millimetre is not seen
        ("width: 44 mm, height: 55 mm", "plain", ""),  # a quarter longer is
        ("width: 44 mm, height: 47 mm", "one-way", ""),  # the print tells
    ],
)
def test_a_nearly_square_piece_is_told_with_its_sides_as_it_is_laid(size: str, front: str, told: str) -> None:
    papers = f"papers: {{card: {{sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120, front: {front}}}}}"

    def slip_in(*before: str) -> list[str]:
        joined = "{join: slip, onto: card, meet: {left: {from: left, by: 5 mm}, head: {from: head, by: 5 mm}}}"
        body = with_steps(f"card: {{width: 150 mm, height: 100 mm}}\nslip: {{{size}}}", "{lay: card}", *before, joined)
        text = said(build(context_of(worked_of("materials: {glue: {kind: glue}}\n" + body, papers), "steps")))
        assert "Lay slip B" in text
        return re.findall(r"slip B \([^)]*\)", text)

    assert slip_in() == ([told] if told else [])
    if told:
        wide, high = re.findall(r"\d+", told)
        assert slip_in("{lay: slip, turned: 90}") == [f"slip B ({high} mm wide, {wide} mm high)"]


@pytest.mark.parametrize(
    ("name", "named"), [("seed-packet-envelope", {"back side"}), ("bulb-bag", {"plain side"}), ("swap-day-card", {"plain side"})]
)
def test_work_that_is_never_turned_over_has_one_name_for_its_lie(name: str, named: set[str]) -> None:
    # flaps, pages and a liner come over the side that lies up: in the state lines and in the gates it gets no second name
    section = build(context_of(shipped(name), "steps"))
    lies = [match for alt in alternatives(section) for match in re.findall(r"^Step \d+, plan, (\w+ side) up:", alt)]
    gates = re.findall(r"(?:as in the picture|without its glue), (\w+ side) up", said(section))
    assert {*lies, *gates} == named
    assert lies
    assert gates or name == "swap-day-card"


@pytest.mark.parametrize(("flap", "up"), [(35, ("", "")), (15, ("strip", "back"))])
def test_where_most_of_a_piece_shows_its_other_side_no_side_is_named(flap: int, up: tuple[str, str]) -> None:
    # folded over a rest of 50 mm beside an end of 10: 35 mm of print against 25 of the back, or 15 against 45
    strip = f"strip: {{height: 50 mm, across: [flap: {flap} mm, rest: 50 mm, end: 10 mm]}}"
    steps = with_steps(strip, "{lay: strip, up: back}", "{fold: flap}", "{fold: end}")
    worked = worked_of(steps, "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way}}")
    assert [picture.up for picture in pictured_steps(worked)[0].pictures] == [("strip", "back"), ("strip", "back"), up]


def test_the_envelope_s_flaps_are_told_apart_by_what_is_seen() -> None:
    # the one that closes it is cut with the large round corner; the one opposite comes to a point
    text = said(build(context_of(shipped("seed-packet-envelope", "mm"), "steps")))
    assert "its score grooves down, the round flap of A away from you." in text
    assert "Fold the round flap of A over toward you" in text
    assert "top flap" not in text


@pytest.mark.parametrize("system", ["in", "mm"])
def test_a_piece_alike_on_both_sides_is_laid_by_its_letter(system: str) -> None:
    # the connector's letter is on its back, under the glue of its tabs, and its front is scored: with the back up, grooves down
    text = said(build(context_of(shipped("seed-swap-folio", system), "steps")))
    assert "Lay connector C as the picture shows, letter up, its score grooves down." in text
    # what has a side to name, or glue on it already, is not told by its letter
    for design in ("bulb-pot", "season-album"):
        assert not re.search(r"Lay [^.]*letter (up|down)", said(build(context_of(shipped(design, system), "steps"))))


def test_a_letter_on_the_front_is_up_as_the_front_is() -> None:
    for up, told in (("front", "letter up"), ("back", "letter underneath")):
        blanks = "base: {width: 80 mm, height: 60 mm}\nlid: {width: 70 mm, height: 50 mm}"
        over = [] if up == "front" else ["{turn over: base, like: page}"]
        join = "{join: lid, onto: base, by: lid, meet: {left: left, head: head}}"
        body = with_steps(blanks, f"{{lay: base, up: {up}}}", *over, join)
        text = said(build(context_of(worked_of("materials: {glue: {kind: glue}}\n" + body), "steps")))
        assert f"Lay base A as the picture shows, {told}." in text
