import pytest
from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.booklet.forgiveness_table import grouped, told
from creasewright.booklet.section import Section
from creasewright.booklet.sections import fit_table, steps
from creasewright.hands.every_clearance import every_clearance
from section_cases import DESIGNS, TRADE_WORDS, context_of, said, shipped
from small_designs import with_steps, worked_of


def fits(design: str, system: str = "in", page: str = "letter") -> Section | None:
    return fit_table.build(context_of(shipped(design, system), "fit table", page))


def packet(spare: float) -> PackContext:
    """A pocket 80 wide, and a packet that leaves so much of it."""
    things = f"materials: {{glue: {{kind: glue}}}}\nthings: {{packet: {{width: {80 - spare} mm, height: 60 mm, thick: 0.3 mm}}}}\n"
    made = ["{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}", "{insert: packet, into: slot}"]
    return context_of(worked_of(things + with_steps("strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}", *made)), "fit table")


def test_equal_rows_are_one_row_with_a_count() -> None:
    text = said(fits("seed-swap-folio"))
    assert "4 × seed card E" in text
    assert text.count("× 5 1/8 in") == 6  # the room of the inserts' one row, and of the five rows of pockets


def test_a_pocket_whose_name_does_not_say_so_is_told_to_be_one() -> None:
    # a pocket called `slot` in the table and in the steps; the folio's `front pocket` needs no more
    context = packet(5.0)
    assert "pocket slot" in said(fit_table.build(context))
    text = said(steps.build(context_of(context.worked, "steps")))
    assert "That is the pocket slot, open at" in text
    assert "into the pocket slot" in text
    folio = said(fits("seed-swap-folio")) + said(steps.build(context_of(shipped("seed-swap-folio"), "steps")))
    assert "That is the front pocket, open at" in folio
    assert "pocket front pocket" not in folio


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
    # a score, a trimmed edge and a packet that was measured err by sqrt(0.5² + 0.8² + 0.5²) = 1.07 mm together (common practice, no
    # source); 2.326 / 1.96 of that, 1.27 mm, leave 1 maker in 100 without
    [(1.2, "tight"), (1.3, "fair"), (2.5, "fair"), (2.6, "easy")],
)
def test_how_forgiving_a_fit_is_follows_from_how_hands_err(spare: float, words: str) -> None:
    context = packet(spare)
    assert context.worked.finished is not None
    assert fit_table.forgiving(context, context.worked.finished.state.fits[0]) == words


def test_what_is_larger_than_its_room_does_not_go_in() -> None:
    context = packet(2.6)
    assert context.worked.finished is not None
    fit = context.worked.finished.state.fits[0]
    assert fit_table.forgiving(context, replace(fit, spare_width=-0.1)) == "none"
    assert fit_table.forgiving(context, replace(fit, spare_height=-0.1)) == "none"
    assert fit_table.forgiving(context, replace(fit, spare_depth=-0.1)) == "none"


def test_rooms_of_one_kind_with_the_same_numbers_share_a_row() -> None:
    text = said(fits("season-album"))
    front = "board of the front cover inside the edge of front tab: right"
    back = "board of the back cover inside the edge of back tab: left"
    assert f"{front} {back} 1/16 in 0.03 in none of 30 would fail" in text


@pytest.mark.parametrize("design", DESIGNS)
def test_every_clearance_has_its_place_in_one_row_of_its_numbers(design: str) -> None:
    context = context_of(shipped(design), "fit table")
    found = every_clearance(context.worked, context.errors)
    rows = grouped(context, found)
    assert sorted(map(id, found)) == sorted(id(one) for places in rows for alike in places for one in alike)
    told_of = [
        {(one.kind, "" if one.kind == "inset" else one.way, told(context, one)) for alike in places for one in alike} for places in rows
    ]
    assert all(len(each) == 1 for each in told_of)
    assert len(set.union(set(), *told_of)) == len(rows)


def test_every_room_is_told_with_what_hands_err_by_and_how_many_would_fail() -> None:
    # Phi(-0.5 / (1.07 / 1.96)) = 0.179, 5.4 in 30; 1.27 - 0.5 = 0.77, to the next mark 1 mm
    text = said(fit_table.build(packet(0.5)))
    assert "packet in slot, in width 0.5 mm 1.1 mm about 5 of 30 would fail: give it 1 mm more, or cut it to fit" in text
    assert "packet in slot, in height" in text


def test_rooms_that_read_alike_are_one_row() -> None:
    text = said(fits("season-album"))
    assert "6 × gap of the hinge strip round what lies inside" in text
    assert text.count("cover lining inside the edge of board") == 1


def test_the_envelope_holds_its_packet_in_either_system() -> None:
    assert "seed packet" in said(fits("seed-packet-envelope"))
    assert "125 × 100 mm" in said(fits("seed-packet-envelope", "mm", "a4"))


def test_where_no_room_is_left_anywhere_there_is_no_table() -> None:
    assert fits("plant-diary") is None


def test_where_nothing_is_put_in_the_rooms_alone_are_told() -> None:
    text = said(fits("swap-day-card"))
    assert "inner of the Invitation short of the fold that closes over it" in text
    assert "Inserts" not in text


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
