"""Grooves every 1/8 in (3.175 mm) over 12 in, worked by hand in inches."""

from collections.abc import Sequence
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from creasewright.scoring.score_board import Board, Choice, Matching, SetUp, every_set_up, fewest_set_ups, groove_at, nearest_place

INCH = Fraction(127, 5)
EIGHTHS = Board(INCH / 8, 12 * INCH)
MM = Board(Fraction(5), Fraction(300))


def inches(*words: str) -> list[Fraction]:
    return [sum((Fraction(part) for part in word.split()), Fraction(0)) * INCH for word in words]


def one(word: str) -> Fraction:
    return inches(word)[0]


def told(choice: Choice) -> list[tuple[bool, float, list[float]]]:
    """Turned, spacer and grooves of every set-up, in inches."""
    return [(r.set_up.turned, float(r.set_up.spacer / INCH), [float(g / INCH) for _, g in r.settings]) for r in choice.reached]


def test_scores_on_grooves_take_one_set_up_from_the_first_edge():
    choice = fewest_set_ups(inches("2 1/4", "6 3/8"), one("8"), EIGHTHS)
    assert told(choice) == [(False, 0.0, [2.25, 6.375])] and choice.off == ()


def test_a_place_on_no_groove_from_the_first_edge_is_one_from_the_other():
    # 4 1/16 of 6 3/16: 4 1/16 is no eighth; 6 3/16 - 4 1/16 = 2 1/8 is
    choice = fewest_set_ups(inches("4 1/16"), one("6 3/16"), EIGHTHS)
    assert told(choice) == [(True, 0.0, [2.125])]
    # with 1 1/2 beside it both edges are needed
    choice = fewest_set_ups(inches("1 1/2", "4 1/16"), one("6 3/16"), EIGHTHS)
    assert told(choice) == [(False, 0.0, [1.5]), (True, 0.0, [2.125])]


def test_a_spacer_brings_sixteenths_over_eighths():
    # of 6: 1 1/16 + 1/16 = 1 1/8; from the other edge 6 - 1 1/16 = 4 15/16 is no eighth either
    board = Board(INCH / 8, 12 * INCH, (INCH / 16,))
    assert fewest_set_ups(inches("1 1/16"), one("6"), EIGHTHS).off == tuple(inches("1 1/16"))
    assert told(fewest_set_ups(inches("1 1/16"), one("6"), board)) == [(False, 0.0625, [1.125])]


def test_a_spacer_is_used_before_the_other_edge_as_scores_are_truer_from_one():
    # of 6 3/16 at 1 1/2 and 4 1/16: the first from the stop, the second by 4 1/16 + 1/16 = 4 1/8, both from one edge
    board = Board(INCH / 8, 12 * INCH, (INCH / 16,))
    assert told(fewest_set_ups(inches("1 1/2", "4 1/16"), one("6 3/16"), board)) == [(False, 0.0, [1.5]), (False, 0.0625, [4.125])]


def test_what_no_setting_reaches_is_left_over_with_the_nearest_that_one_would():
    # of 283 mm: 127 is 156 from the other edge; 125 is 2 mm off, 283 - 155 = 128 is 1 mm off
    choice = fewest_set_ups([Fraction(105), Fraction(127)], Fraction(283), MM)
    assert told(choice)[0][:2] == (False, 0.0) and choice.off == (127,)
    assert nearest_place(Fraction(127), Fraction(283), MM) == 128
    assert nearest_place(Fraction(127), Fraction(283), MM, (True, False)) == 125
    assert nearest_place(Fraction(127), Fraction(283), MM, (False, False)) is None


def test_a_place_within_a_tenth_of_a_mm_is_on_its_groove():
    assert groove_at(Fraction("100.1"), Fraction(200), MM, SetUp()) == 100
    assert groove_at(Fraction("100.11"), Fraction(200), MM, SetUp()) is None


def test_beyond_the_last_groove_a_piece_is_turned():
    # 310 of 400 lies past 300; from the other edge it is 90
    assert [r.set_up.turned for r in fewest_set_ups([Fraction(310)], Fraction(400), MM).reached] == [True]
    assert fewest_set_ups([Fraction(310)], Fraction(620), MM).off == (310,)


def test_the_stop_itself_is_no_groove():
    assert groove_at(Fraction(0), Fraction(200), MM, SetUp()) is None


def test_an_edge_that_cannot_lie_against_the_stop_is_left_out():
    assert fewest_set_ups([Fraction(100)], Fraction(203), MM, (False, True)).off == (100,)
    assert fewest_set_ups([Fraction(100)], Fraction(203), MM, (False, False)) == Choice((), (100,))


@given(
    st.lists(st.integers(1, 279), min_size=1, max_size=6, unique=True), st.integers(280, 320),
    st.lists(st.integers(1, 9), max_size=2, unique=True),
)  # fmt: skip
def test_every_place_is_told_once_on_its_groove_and_nothing_reachable_is_left(places: Sequence[int], length: int, spacers: list[int]):
    board = Board(5, 300, tuple(spacers))
    choice = fewest_set_ups(places, length, board)
    told_places = [place for reached in choice.reached for place, _ in reached.settings]
    assert sorted([*told_places, *choice.off]) == sorted(places)
    for reached in choice.reached:
        for place, groove in reached.settings:
            from_edge = length - place if reached.set_up.turned else place
            assert from_edge + reached.set_up.spacer == groove and groove % 5 == 0 and 0 < groove <= 300
    for place in choice.off:
        assert all(groove_at(place, length, board, set_up) is None for set_up in every_set_up(board, (True, True)))


def test_of_set_ups_that_are_no_more_work_those_are_taken_that_make_alike_what_must_match():
    # of 123 mm with spacers of 3 and 4: 20 from the first edge, 83 is 40 from the other; 12 is 15 with the spacer of 3, and from the other
    # edge 111 + 4 = 115: without a wish from the first edge, with 83 from its own
    board = Board(Fraction(5), Fraction(300), (Fraction(3), Fraction(4)))
    places = [Fraction(12), Fraction(20), Fraction(83)]

    def edges(matching: Matching) -> dict[int, bool]:
        choice = fewest_set_ups(places, Fraction(123), board, matching=matching)
        assert choice.off == () and len(choice.reached) == 3
        return {int(place): reached.set_up.turned for reached in choice.reached for place, _ in reached.settings}

    assert edges(Matching()) == {12: False, 20: False, 83: True}
    assert edges(Matching(together=((places[0], places[2]),))) == {12: True, 20: False, 83: True}
    assert edges(Matching(turned={places[0]: True})) == {12: True, 20: False, 83: True}


def test_what_must_match_costs_no_further_edge():
    # both over grooves from either edge of 100: 20 is wished from the other edge, and so both are set from it, in one set-up
    choice = fewest_set_ups([Fraction(20), Fraction(40)], Fraction(100), MM, matching=Matching(turned={Fraction(20): True}))
    assert [(one.set_up.turned, len(one.settings)) for one in choice.reached] == [(True, 2)]
    # of 103 it is 83 from the other edge, which is no groove: the wish cannot be had
    choice = fewest_set_ups([Fraction(20)], Fraction(103), MM, matching=Matching(turned={Fraction(20): True}))
    assert [one.set_up.turned for one in choice.reached] == [False]
