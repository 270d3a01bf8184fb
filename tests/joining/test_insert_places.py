"""Inserts: where they come to lie, what they leave of the room, how far they stand out."""

import pytest

from creasewright.folding.state import InsertFit, State
from small_designs import Seen, last_run, made, seen_at, with_steps

GLUE = "materials: {glue: {kind: glue}}\n"
FLAP = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}"


def with_card(along: str, wide: str, high: str, thick: str = "0.5 mm", insert: str = "", *after: str) -> State:
    things = f"things: {{card: {{width: {wide}, height: {high}, thick: {thick}}}}}\n"
    steps = ["{fold: flap}", f"{{glue: flap, onto: page, along: {along}, makes: slot}}", f"{{insert: card, into: slot{insert}}}"]
    return made(GLUE + things + with_steps(FLAP, *steps, *after))


def fit(state: State) -> InsertFit:
    (only,) = state.fits
    return only


def test_an_insert_lies_in_the_closed_corner():
    # the flap is folded at x = 50 and lies over the page (50 to 130); glue takes 9 mm at the tail
    state = with_card("tail", "60 mm", "70 mm")
    assert seen_at(state, ("card", "card")) == Seen(50, 21, 110, 91)


def test_an_insert_closed_in_on_one_side_takes_its_width_alone():
    spare = fit(with_card("tail", "60 mm", "70 mm"))
    assert (spare.room_width, spare.room_height) == pytest.approx((80, 91))
    assert (spare.spare_width, spare.spare_height) == pytest.approx((80 - 60, 91 - 70))


def test_an_insert_closed_in_on_two_sides_takes_its_width_and_its_thickness():
    # left is the fold, right is glued: 50 - 9 = 41 wide; both faces bow round a card of 2 mm
    spare = fit(with_card("[right, tail]", "35 mm", "70 mm", "2 mm"))
    assert spare.spare_width == pytest.approx(41 - 35 - 2)
    assert spare.spare_height == pytest.approx(91 - 70)


def test_half_an_inch_narrower_leaves_a_quarter_of_an_inch_a_side():
    # common practice, no source: an insert 1/2 in narrower and 1/2 in shorter than its pocket has 1/4 in to spare a side
    blanks = "page: {width: 5 in, height: 7 in}\npatch: {width: 5 in, height: 7 in}\ncard: {width: 4 in, height: 6 in}"
    steps = [
        "{join: patch, onto: page, along: [left, right, tail], setback: 0 in, width: 1/4 in, makes: slot}",
        "{insert: card, into: slot}",
    ]
    state = made(GLUE + with_steps(blanks, *steps), "papers: {card: {sheet: letter, caliper: 0.0 mm}}", "in")
    spare = fit(state)
    # the room is 5 - 2 * 1/4 = 4 1/2 in wide: half an inch more than the card, a quarter at each side
    assert spare.spare_width == pytest.approx(25.4 / 2)
    card, page = seen_at(state, ("card", "card")), seen_at(state, ("page", "page"))
    assert card.left - (page.left + 25.4 / 4) == pytest.approx(25.4 / 4)
    assert (page.right - 25.4 / 4) - card.right == pytest.approx(25.4 / 4)
    # 7 - 1/4 = 6 3/4 in high, with a card of 6 in
    assert spare.spare_height == pytest.approx(0.75 * 25.4)


def test_an_insert_goes_along_when_its_pocket_is_turned_or_folded():
    still = with_card("tail", "60 mm", "70 mm")
    turned = with_card("tail", "60 mm", "70 mm", "0.5 mm", "", "{turn over: strip}")
    # like a page: x is mirrored
    assert seen_at(turned, ("card", "card")) == Seen(-110, 21, -50, 91)
    assert seen_at(still, ("card", "card")) == Seen(50, 21, 110, 91)


def test_a_pocket_on_a_turned_over_piece_keeps_its_closed_corner():
    # made and filled from the back: the closed corner is at the right and the tail as seen
    things = "things: {card: {width: 60 mm, height: 70 mm, thick: 0.5 mm}}\n"
    glued = "{glue: flap, onto: page, along: tail, makes: slot}"
    steps = ["{lay: strip, up: back}", "{fold: flap}", glued, "{insert: card, into: slot}"]
    state = made(GLUE + things + with_steps(FLAP, *steps))
    assert seen_at(state, ("card", "card")) == Seen(-110, 21, -50, 91)


@pytest.mark.parametrize(
    ("along", "shows", "at"),
    [
        # open at the head: 20 mm of the 95 stand out over the head edge at 0, so 75 are inside, 16 above the glue at 91
        ("tail", "20 mm", Seen(50, -20, 110, 75)),
        # glued at head and tail, open at the right: 95 long across, 25 out over the right edge at 130
        ("[head, tail]", "25 mm", Seen(60, 20, 155, 80)),
    ],
)
def test_an_insert_that_shows_stands_out_of_the_open_side(along: str, shows: str, at: Seen):
    wide, high = ("60 mm", "95 mm") if along == "tail" else ("95 mm", "60 mm")
    state = with_card(along, wide, high, "0.2 mm", f", shows: {shows}")
    assert seen_at(state, ("card", "card")) == at
    assert fit(state).out_of == pytest.approx(float(shows.split()[0]))
    assert min(fit(state).spare_width, fit(state).spare_height) >= 0


def test_an_insert_longer_than_an_open_room_stands_out_by_the_difference():
    spare = fit(with_card("tail", "60 mm", "97 mm"))
    assert spare.out_of == pytest.approx(97 - 91)


def test_an_insert_between_two_leaves_is_centred_on_the_first():
    things = "things: {card: {width: 40 mm, height: 60 mm, thick: 0.5 mm}}\n"
    leaf = "leaf: {height: 100 mm, across: [a: 70 mm, b: 60 mm]}"
    state = made(things + with_steps(leaf, "{fold: a/b}", "{insert: card, between: [a, b]}"))
    assert seen_at(state, ("card", "card")) == Seen(15, 20, 55, 80)
    spare = fit(state)
    assert (spare.room_width, spare.room_height) == (70, 100)


def test_what_does_not_lie_together_takes_nothing_between():
    things = "things: {card: {width: 40 mm, height: 60 mm, thick: 0.5 mm}}\n"
    leaf = "leaf: {height: 100 mm, across: [a: 70 mm, b: 60 mm]}"
    run = last_run(things + with_steps(leaf, "{fold: a/b, to: 90}", "{insert: card, between: [a, b]}"))
    assert run.refused == (
        "a of leaf and b of leaf do not face each other, lying flat before you",
        "fold them until they are parallel, and lay one of them flat: `lay: a of leaf`",
    )


def test_a_piece_with_folds_is_no_insert():
    blanks = FLAP + "\nbooklet: {height: 60 mm, across: [x: 30 mm, y: 30 mm]}"
    steps = ["{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}", "{insert: booklet, into: slot}"]
    run = last_run(GLUE + with_steps(blanks, *steps))
    assert run.refused == ("booklet has more than one panel", "insert a flat piece, or place it with `place:`")
