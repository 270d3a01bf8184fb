"""The fit table's rows for lids, against the tray and lid of the design language (§7.6), whose sizes were worked out there by hand."""

import pytest
from msgspec.structs import replace

from creasewright.booklet.covering_rows import forgiving
from creasewright.booklet.forgiving import how_forgiving
from creasewright.booklet.sections import fit_table
from creasewright.folding.state import CoverFit
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.outcome import room_wanted
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


@pytest.mark.parametrize(
    ("system", "page", "width", "height"),
    # mm as above: 1.4 and 1.2 mm of room, to the half millimetre below. in: 4 3/4 x 3 1/2 in are 121.05 x 89.3 mm outside; the lid's panel
    # up(121.05 + 1.5875 + 1.2) = 4 15/16 in, up(89.3 + 1.5875 + 0.4) = 3 5/8 in; inside 124.2125 x 91.675: 3.1625 and 2.375 mm of room,
    # just less than 1/8 and 3/32 in, to the thirty-second below
    [("mm", "a4", "1 mm", "1 mm"), ("in", "letter", "3/32 in", "1/16 in")],
)
def test_the_room_of_a_lid_is_one_number_wherever_it_is_told(system: str, page: str, width: str, height: str) -> None:
    context = context_of(shipped("seedling-box", system), "fit table", page)
    text = said(fit_table.build(context))
    assert f"width {width} height {height}" in text
    assert f"Lid over Tray, in width {width} " in text
    assert f"Lid over Tray, in height {height} " in text
    assert context.worked.finished is not None
    fit = context.worked.finished.state.coverings[0]
    rooms = [one.room.value for one in every_clearance(context.worked, context.errors) if one.kind == "cover"]
    assert rooms == [fit.spare_width, fit.spare_height]
    assert rooms == pytest.approx([1.4, 1.2] if system == "mm" else [3.1625, 2.375])


def test_a_design_without_lids_or_inserts_has_no_such_page() -> None:
    assert fit_table.build(context_of(shipped("bulb-pot"), "fit table")) is None


@pytest.mark.parametrize(
    ("share", "words"),
    # of the room that leaves 1 maker in 100 without: less is tight, twice as much is easy
    [(-0.1, "none"), (0.9, "tight"), (1.1, "fair"), (1.9, "fair"), (2.1, "easy")],
)
def test_how_forgiving_a_lid_is_follows_from_its_narrower_way(share: float, words: str) -> None:
    context = context_of(shipped("seedling-box", "mm"), "fit table", "a4")
    wide, high = (one for one in every_clearance(context.worked, context.errors) if one.kind == "cover")
    room = share * room_wanted(wide.error(context.errors))
    narrow = replace(wide, room=replace(wide.room, value=room))
    ample = replace(high, room=replace(high.room, value=100.0))
    assert how_forgiving(context, [narrow, ample]) == how_forgiving(context, [ample, narrow]) == words


def test_a_lid_is_judged_by_its_own_clearances() -> None:
    context = context_of(shipped("seedling-box", "mm"), "fit table", "a4")
    assert context.worked.finished is not None
    rooms = [one for one in every_clearance(context.worked, context.errors) if one.kind == "cover"]
    assert forgiving(context, context.worked.finished.state.coverings[0]) == how_forgiving(context, rooms)


def test_a_sleeve_that_is_open_one_way_counts_only_the_other() -> None:
    assert (over(None, 1.5).spare_width, over(None, 1.5).spare_height) == (None, 1.5)
