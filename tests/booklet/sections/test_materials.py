import re
from decimal import Decimal
from fractions import Fraction

import pytest

from booklet.sections.kit_cases import PACKS, kit, worked_for
from creasewright.booklet.amounts import (
    bought_area,
    bought_length,
    material_uses,
    packs_to_buy,
    price_of_packs,
    things_inside,
    tie_length,
)
from creasewright.booklet.sections import materials, score_guide, steps
from section_cases import TRADE_WORDS, context_of, said
from small_designs import with_steps, worked_of


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_sheets_and_packs_to_buy_are_the_plan_s(design: str, system: str, page: str, makers: int) -> None:
    context = kit(design, "materials", system, page, makers)
    text = said(materials.build(context))
    for plan in context.plans:
        paper = context.worked.papers[plan.paper]
        assert f"{plan.sheet_count} sheet{'s' if plan.sheet_count != 1 else ''}" in text
        packs = packs_to_buy(paper, plan.sheet_count)
        assert packs is not None and packs * paper.pack >= plan.sheet_count > (packs - 1) * paper.pack
        assert f"{packs} pack{'s' if packs != 1 else ''} of {paper.pack}" in text
        assert str(Decimal(paper.price.split()[0]) * packs) in text


@pytest.mark.parametrize(("design", "system", "page", "makers"), PACKS)
def test_only_the_reader_s_words_and_units_are_used(design: str, system: str, page: str, makers: int) -> None:
    text = said(materials.build(kit(design, "materials", system, page, makers))).lower()
    assert not [word for word in TRADE_WORDS if word in text]
    assert not set(re.findall(r"[a-z]+", text)) & {"head", "tail"}
    if system == "mm":
        assert not re.search(r"\d (in|ft|lb|sq)\b", text)


def test_what_a_pack_leaves_over_is_told_on_a_line_of_its_own() -> None:
    # 26 sheets of packs of 20: two packs, 14 sheets over; or as many as the plan needs
    context = kit("seed-swap-folio", "materials", "mm", "a4", 30)
    (kraft,) = (plan.sheet_count for plan in context.plans if plan.paper == "kraft")
    packs = -(-kraft // 20)
    assert f"{packs} packs of 20 {packs * 20 - kraft} to spare" in said(materials.build(context))


def test_the_folio_s_glue_is_its_strips_and_a_tenth_more() -> None:
    # four pocket strips of 50.8 mm along the lower edge, two middle pockets of 352.4 mm: 908 mm, a tenth more is 998.8 mm = 39.3 in
    (glue, _, ribbon) = material_uses(worked_for("seed-swap-folio", "in", 1))
    assert glue.strips == pytest.approx(4 * 50.8 + 2 * 352.425, abs=0.1)
    text = said(materials.build(kit("seed-swap-folio", "materials")))
    assert "40 in of strips" in text
    # for thirty: 29964 mm = 1179.7 in, up to 1180 in = 98.3 ft, up to a whole foot
    assert "99 ft of strips" in said(materials.build(kit("seed-swap-folio", "materials", makers=30)))
    ((length, count),) = ribbon.ties
    assert count == 1 and f"1 of {length / Fraction('25.4')} in" in text


def test_thirty_ribbons_are_counted_and_summed() -> None:
    (*_, ribbon) = material_uses(worked_for("seed-swap-folio", "mm", 1))
    # girth 222.34 mm and two ends of 200 mm: 622.34 mm, up to 630 mm; thirty are 18.9 m
    assert ribbon.ties == ((Fraction(630), 1),)
    text = said(materials.build(kit("seed-swap-folio", "materials", "mm", "a4", 30)))
    assert "30 of 630 mm" in text and "18.9 m altogether" in text


def test_foam_is_told_as_pieces_to_cut_from_its_sheet() -> None:
    # cover mat 2 5/8 x 4 3/4 in, glue stands back 1/8 in all round: 2 3/8 x 4 1/2 in
    assert "1 piece of 2 3/8 × 4 1/2 in" in said(materials.build(kit("seed-swap-folio", "materials")))
    assert "30 pieces of 2 3/8 × 4 1/2 in" in said(materials.build(kit("seed-swap-folio", "materials", makers=30)))


def test_what_goes_inside_is_listed_with_its_size() -> None:
    assert things_inside(worked_for("seed-packet-envelope", "in", 1)) == (("seed packet", 1),)
    text = said(materials.build(kit("seed-packet-envelope", "materials", makers=30)))
    assert "5 × 4 in" in text and "Seed packet" in text


def test_only_the_tools_that_the_pieces_call_for_are_listed() -> None:
    folio = said(materials.build(kit("seed-swap-folio", "materials")))
    assert "Corner rounder, 1/4 in radius" in folio and "Scissors, for the foam and the ribbon." in folio and "Pin" not in folio
    assert "Steel ruler" in folio and "Soft pencil and eraser." in folio  # the slope is cut along the ruler; E is rubbed out
    envelope = said(materials.build(kit("seed-packet-envelope", "materials")))
    assert "Scissors, for the curves." in envelope and "aslant" in envelope and "Corner rounder" not in envelope
    # the ends of its fold lines are the tips of notches; those of the bag lie within the piece
    assert "Pin" not in envelope
    assert "Pin, to prick fold lines through the template." in said(materials.build(kit("bulb-bag", "materials")))
    assert "eraser" not in envelope  # both letters hide under glue
    diary = said(materials.build(kit("plant-diary", "materials")))
    assert "trimmer" not in diary and "Craft knife" in diary  # a whole sheet, and one slit
    card = said(materials.build(kit("swap-day-card", "materials")))
    assert "Craft knife" not in card and "Paper trimmer" in card and "Steel" not in card and "Ruler with a mark" in card
    metric = said(materials.build(kit("swap-day-card", "materials", "mm", "a4")))
    assert ("Steel ruler" in metric) == ("No groove" in said(score_guide.build(kit("swap-day-card", "score guide", "mm", "a4"))))


def test_lengths_and_areas_are_rounded_up_as_one_buys_them() -> None:
    assert bought_length(Fraction("25.4") * 72, "in") == "72 in"
    assert bought_length(Fraction("25.4") * 72 + 1, "in") == "7 ft"
    assert [bought_length(mm, "mm") for mm in (991, 1000, 1001)] == ["1000 mm", "1000 mm", "1.1 m"]
    assert bought_area(645.16, "in") == "1 sq in"  # 25.4² mm²
    assert bought_area(6901, "mm") == "70 cm²"
    assert (tie_length(622.3, "mm"), tie_length(25.4 * 3, "in")) == (630, Fraction("76.2"))


def test_a_price_is_multiplied_only_where_it_is_a_price() -> None:
    assert price_of_packs("9.60 EUR", 3) == "28.80 EUR"
    assert price_of_packs("9,60 €", 3) == "28,80 €"
    assert price_of_packs("a song", 3) == "" and price_of_packs("9.60", 3) == ""


def test_tape_is_bought_in_rolls_with_a_tenth_more_also_for_what_it_covers_all_over() -> None:
    # 30 mm by 100 mm less 3 mm at every edge: 24 x 94 = 2256 mm², in strips of 6 mm 376 mm; 24 makers: 9024 mm, a tenth more 9926 mm:
    # one roll of 10 m; 25 makers: 9400 mm, 10,340 mm: two
    tape = "materials: {tape: {kind: tape, width: 6 mm}}\n"
    strip = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm]}"
    body = tape + with_steps(strip, "{fold: flap}", "{glue: flap, onto: page}")
    for makers, rolls in ((24, "1 roll of 10 m"), (25, "2 rolls of 10 m")):
        text = said(materials.build(context_of(worked_of(body, makers=makers), "materials")))
        assert rolls in text and "tape with a tenth to spare" in text


def test_a_score_board_is_asked_for_only_where_a_line_is_in_one_of_its_grooves() -> None:
    # the envelope's four lines run aslant; its liner's one line is at 4 1/4 in, on a groove, or at 109 mm, between two
    inches, metric = (said(materials.build(kit("seed-packet-envelope", "materials", system))) for system in ("in", "mm"))
    assert "Scoring board with a groove every 1/8 in" in inches
    assert "Scoring board" not in metric and "Scoring tool, run along the ruler." in metric
    assert "Steel ruler" in metric and "Bone folder" in metric
    inches, metric = (said(score_guide.build(kit("seed-packet-envelope", "score guide", system))) for system in ("in", "mm"))
    assert "the stop of the scoring board" in inches and "No groove of the board runs like these lines" in inches
    assert not [word for word in ("stop", "board", "No groove") if word in metric]
    assert "lay the ruler from mark to mark" in metric
    assert "The numbers of a drawing are distances from the edge that is named under it." in metric


def test_why_this_adhesive_where_another_would_do_is_said_with_it_and_not_at_each_step() -> None:
    # paper of 0.15 mm, strips 3 mm from the edges
    for name in ("bulb-bag", "seedling-box"):
        assert "rather than tape: it can be shifted" in said(materials.build(kit(name, "materials")))
        text = said(steps.build(context_of(worked_for(name, "in", 1), "steps")))
        assert "see What it takes" in text
        assert "would do" not in text.split("Glue and waiting")[1]
    # boards take nothing else
    assert "rather than" not in said(materials.build(kit("garden-journal", "materials")))
