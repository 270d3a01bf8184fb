"""The fit table's rows for lids, against the tray and lid of the design language (§7.6), whose sizes were worked out there by hand."""

import pytest

from creasewright.booklet.covering_rows import forgiving, spare_of
from creasewright.booklet.sections import fit_table
from creasewright.folding.state import CoverFit
from section_cases import context_of, said, shipped


def over(spare_width: float | None, spare_height: float | None) -> CoverFit:
    return CoverFit(
        ("lid",), ("tray",), None if spare_width is None else 120 + spare_width, None if spare_height is None else 85 + spare_height,
        120, 85, 1,
    )  # fmt: skip


def test_a_lid_has_a_row_with_its_room_and_what_it_goes_over() -> None:
    # tray 120 x 90 with walls of 0.4 mm: 120.4 x 90.4 outside; its lid's panel up(120.4 + 1 + 1.2) = 123, up(90.4 + 1 + 0.4) = 92;
    # inside the lid, a wall and the tabs at both ends: 123 - 3 x 0.4 = 121.8, and 92 - 0.4 = 91.6 between the other walls
    section = fit_table.build(context_of(shipped("seedling-box", "mm"), "fit table", "a4"))
    text = said(section)
    assert "inside 121.5 × 91.5 mm" in text
    assert "outside 120.5 × 90.5 mm" in text
    assert "width 1 mm height 1 mm" in text
    assert section is not None and section.scope == "1 goes over another"


def test_a_design_without_lids_or_inserts_has_no_such_page() -> None:
    assert fit_table.build(context_of(shipped("bulb-pot"), "fit table")) is None


@pytest.mark.parametrize(
    ("spare", "words"),
    # hands err by sqrt(4 x 0.5²) = 1.0 mm in 95 of 100 cases (common practice, no source)
    [(0.9, "tight"), (1.1, "fair"), (1.9, "fair"), (2.1, "easy")],
)
def test_how_forgiving_a_lid_is_follows_from_its_narrower_way(spare: float, words: str) -> None:
    assert forgiving(over(spare, 10)) == words
    assert forgiving(over(10, spare)) == words


def test_a_sleeve_that_is_open_one_way_counts_only_the_other() -> None:
    assert spare_of(over(None, 1.5)) == (None, 1.5)
    assert forgiving(over(None, 1.5)) == "fair"
