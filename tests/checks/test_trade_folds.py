"""Folds of the print trade against the guides' own figures: what they print is silent, what they warn of is told."""

import pytest

from creasewright.checks.gates_meet import gates_meet
from creasewright.checks.inner_panels import inner_panels
from creasewright.hands.fold_allowances import bight, least_short
from small_designs import found_by, with_steps

TEXT = "papers: {card: {sheet: [20 in, 30 in], caliper: 0.004 in, grammage: 120}}"
COVER = "papers: {card: {sheet: [20 in, 30 in], caliper: 0.011 in, grammage: 216}}"


def strip(*widths: str) -> str:
    bands = ", ".join(f"p{k}: {width}" for k, width in enumerate(widths, start=1))
    return f"card: {{height: 8 1/2 in, across: [{bands}]}}"


def letter(*widths: str) -> str:
    return with_steps(strip(*widths), "{lay: card, up: back}", "{fold: p1/p2}", "{fold: p2/p3}")


def told(body: str, papers: str) -> list[str]:
    return [what for _, what, _ in found_by(inner_panels, body, papers, "in")]


def test_the_letter_fold_of_an_11_in_sheet_as_three_trade_guides_print_it():
    # 3 5/8, 3 11/16, 3 11/16, together 11 in exactly (three trade guides); thirds of 3 2/3 are the fault they warn of
    assert told(letter("3 5/8 in", "3 11/16 in", "3 11/16 in"), TEXT) == []
    assert len(told(letter("3 2/3 in", "3 2/3 in", "3 2/3 in"), TEXT)) == 1


def test_cover_weight_asks_for_an_eighth():
    # seven trade guides: 1/16 at least, two of them 1/8 in, one of these for cover weight
    assert told(letter("3 5/8 in", "3 3/4 in", "3 3/4 in"), COVER) == []
    assert len(told(letter("3 11/16 in", "3 3/4 in", "3 3/4 in"), COVER)) == 1


def test_panels_of_an_accordion_are_all_equal():
    # three trade guides
    body = with_steps(strip("3 in", "3 in", "3 in"), "{lay: card, up: back}", "{fold: p1/p2}", "{turn over: card}", "{fold: p2/p3}")
    assert told(body, TEXT) == []


def test_each_further_panel_of_a_roll_fold_is_smaller_by_a_sixteenth():
    # 1/16 to 3/32 in a step (two trade guides)
    steps = ["{lay: card, up: back}", "{fold: p1/p2}", "{fold: p2/p3}", "{fold: p3/p4}"]
    sound = strip("3 13/16 in", "3 7/8 in", "3 15/16 in", "4 in")
    assert told(with_steps(sound, *steps), TEXT) == []
    equal = strip("3 13/16 in", "3 15/16 in", "3 15/16 in", "4 in")
    assert [what.split(" ends ")[0] for what in told(with_steps(equal, *steps), TEXT)] == ["p2 of card"]


def test_a_closed_gate_of_17_in_as_two_trade_guides_print_it():
    # wide W / 4 + 1/32 = 4.281 25 in, narrow W / 4 - 1/32 = 4.218 75 in
    steps = ["{lay: card, up: back}", "{fold: [p1/p2, p3/p4]}", "{fold: p2/p3}"]
    sound = strip("4 7/32 in", "4 9/32 in", "4 9/32 in", "4 7/32 in")
    assert told(with_steps(sound, *steps), TEXT) == []
    assert len(told(with_steps(strip("4 1/4 in", "4 1/4 in", "4 1/4 in", "4 1/4 in"), *steps), TEXT)) == 2


def test_an_open_gate_leaves_an_eighth_where_the_doors_meet():
    # one trade guide: 1/16 from each door
    for gate, faults in (("2 7/16 in", 0), ("2 1/2 in", 1)):
        body = with_steps(strip(gate, "5 in", gate), "{lay: card, up: back}", "{fold: [p1/p2, p2/p3]}")
        assert len(found_by(gates_meet, body, COVER, "in")) == faults


def test_a_sharp_fold_takes_its_bend_allowance_of_sheet():
    # BA = pi / 180 A (R + K T): A = 180, R = 0, K = 0.5, T = 0.30 gives 0.471 239 mm (engineering tables of sheet bending); half a side
    assert 2 * bight(0, 0.30) == pytest.approx(0.471239, abs=1e-6)


def test_thick_stock_asks_for_what_its_caliper_takes():
    # two layers of 1 mm inside: pi * 3 / 4 = 2.356, and 0.8 for the hands, more than the trade's 1.5
    assert least_short(2, 1.0, False, "mm") == pytest.approx(2.35619 + 0.8, abs=1e-4)
    assert least_short(1, 0.1, False, "mm") == 1.5
