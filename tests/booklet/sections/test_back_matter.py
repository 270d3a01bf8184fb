from creasewright.booklet.sections import back_matter
from creasewright.problems import BLOCKS, NOTES, NOWHERE, WARNS, Finding
from section_cases import context_of, said, shipped
from small_designs import worked_of


def test_measures_that_may_change_are_listed_with_their_range() -> None:
    text = said(back_matter.build(context_of(shipped("seed-swap-folio"), "back matter")))
    assert "page width, one page of a block 4 1/8 in 3 5/8 in to 4 3/8 in" in text
    assert "page height 5 1/2 in 5 in to 5 5/8 in" in text
    assert "hinge tab" not in text  # it has no range


def test_a_metric_pack_says_them_in_millimetres() -> None:
    text = said(back_matter.build(context_of(shipped("seed-swap-folio", "mm"), "back matter", "a4")))
    assert "page width, one page of a block 105 mm 92 mm to 110 mm" in text
    assert "A4 paper in millimetres" in text


def test_a_reader_is_not_told_of_options_of_the_program() -> None:
    text = said(back_matter.build(context_of(shipped("seed-swap-folio"), "back matter")))
    assert "--set" not in text


def test_a_range_with_one_end_is_said_with_one_end() -> None:
    worked = worked_of(
        "measures: {wide: {is: 80 mm, to: 90 mm}, high: {is: 50 mm, from: 45 mm}}\nblanks: {card: {width: wide, height: high}}"
    )
    text = said(back_matter.build(context_of(worked, "back matter")))
    assert "wide 80 mm up to 90 mm" in text
    assert "high 50 mm 45 mm or more" in text


def test_terms_version_and_maker_are_there() -> None:
    text = said(back_matter.build(context_of(shipped("plant-diary"), "back matter")))
    assert "Plant diary is published by Maple Lane Garden Club." in text
    assert "version 1.0" in text


def test_what_warns_is_said_before_you_begin_and_nothing_else() -> None:
    findings = (
        Finding(WARNS, "bulk", NOWHERE, "the open edge is 2 mm thicker than `spine of folio`", "widen it"),
        Finding(NOTES, "caliper", NOWHERE, "a note", ""),
        Finding(BLOCKS, "sheet", NOWHERE, "a fault", ""),
    )
    text = said(back_matter.build(context_of(shipped("plant-diary"), "back matter", findings=findings)))
    assert "Before you begin" in text
    assert "The open edge is 2 mm thicker than spine of folio." in text
    assert "note" not in text.split("Terms of use")[0].replace("notes", "")
    assert "a fault" not in text
