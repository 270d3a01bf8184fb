import pytest
from msgspec.structs import replace

from creasewright.booklet.section import Section
from creasewright.booklet.sections import fit_table
from creasewright.folding.state import InsertFit
from section_cases import TRADE_WORDS, context_of, said, shipped


def fits(design: str, system: str = "in", page: str = "letter") -> Section | None:
    return fit_table.build(context_of(shipped(design, system), "fit table", page))


def fit(spare_width: float, spare_height: float) -> InsertFit:
    return InsertFit("card", "pocket", 100, 80, 0.3, 100 + spare_width, 80 + spare_height, spare_width, spare_height, 0, 1, 1)


def test_equal_rows_are_one_row_with_a_count() -> None:
    text = said(fits("seed-swap-folio"))
    assert "4 × seed card E" in text
    assert text.count("× 5 1/8 in") == 6  # the room of the inserts' one row, and of the five rows of pockets


def test_spaces_are_named_in_plain_words() -> None:
    text = said(fits("seed-swap-folio"))
    assert "front pocket of the front block" in text
    assert "front block/" not in text


def test_room_is_said_to_the_mark_below_and_the_insert_to_the_mark_above() -> None:
    # room 4 1/8 x (5 1/2 - 1/16 setback - 5/16 glue = 5 1/8); card 3 7/8 x 5; spare 1/4 and 1/8 in
    text = said(fits("seed-swap-folio"))
    assert "3 7/8 × 5 in" in text
    assert "width 1/4 in" in text
    assert "height 1/8 in" in text


def test_openings_follow_the_hand_of_the_block() -> None:
    text = said(fits("seed-swap-folio"))
    assert "front pocket of the front block top and right" in text
    assert "front pocket of the back block top and left" in text


def test_an_empty_pocket_says_what_it_is_for() -> None:
    assert "middle pocket of the front block, middle pocket of the back block" in said(fits("seed-swap-folio"))
    assert "nothing yet: for something of yours" in said(fits("seed-swap-folio"))


@pytest.mark.parametrize(
    ("spare", "words"),
    # hands err by sqrt(0.8² + 0.5² + 0.8²) = 1.24 mm in 95 of 100 cases (common practice, no source)
    [(-0.1, "none"), (1.2, "tight"), (1.3, "fair"), (2.4, "fair"), (2.5, "easy")],
)
def test_how_forgiving_a_fit_is_follows_from_how_hands_err(spare: float, words: str) -> None:
    assert fit_table.forgiving(fit(spare, 10)) == words
    assert fit_table.forgiving(fit(10, spare)) == words


def test_the_envelope_holds_its_packet_in_either_system() -> None:
    assert "seed packet" in said(fits("seed-packet-envelope"))
    assert "125 × 100 mm" in said(fits("seed-packet-envelope", "mm", "a4"))


@pytest.mark.parametrize("design", ["plant-diary", "swap-day-card"])
def test_where_nothing_is_put_in_there_is_no_table(design: str) -> None:
    assert fits(design) is None


def test_a_thing_that_stands_out_is_told() -> None:
    worked = shipped("seed-packet-envelope")
    assert worked.finished is not None
    state = worked.finished.state
    out = replace(state, fits=tuple(replace(each, out_of=12.7) for each in state.fits))
    changed = replace(worked, finished=replace(worked.finished, state=out))
    assert "Stands 1/2 in out of the opening." in said(fit_table.build(context_of(changed, "fit table")))


@pytest.mark.parametrize("page", ["letter", "a4", "half letter", "a5"])
def test_only_the_readers_words(page: str) -> None:
    text = said(fits("seed-swap-folio", "mm", page)).lower()
    assert [word for word in TRADE_WORDS if word in text] == []
