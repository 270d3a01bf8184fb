"""Class sets: the price of a setting trades sheets for settings, and sheets of several sizes and prices come into one plan."""

from fractions import Fraction

from creasewright.cutting.demand import Effort, Piece, Stock, Wishes
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.cutting.verify import faults_of
from cutting.cutting_cases import TRIMMER, pieces_of, stock

KIT = [(24, 96, 30), (40, 41, 60), (17, 180, 30), (67, 61, 120), (99, 90, 30), (33, 33, 60)]


def test_a_dear_setting_never_makes_more_settings_and_the_sum_is_no_worse():
    pieces = pieces_of(KIT, may_turn=True)
    short = Effort(iterations=1_000, rounds=100)
    free = plan_rectangles(pieces, [stock(192, 192)], TRIMMER, Wishes(), short)
    dear = plan_rectangles(pieces, [stock(192, 192)], TRIMMER, Wishes(setting_price=1), short)
    assert faults_of(free, pieces) == faults_of(dear, pieces) == []
    assert free.sheet_count <= dear.sheet_count
    assert dear.sheet_count + dear.settings <= free.sheet_count + free.settings


def test_of_plans_with_equally_many_sheets_the_one_with_fewer_settings_is_taken():
    # Four squares of 50 and two strips of 100 x 50: laid in one grid, one setting does for all.
    pieces = [Piece("square", 50, 50, 4, True), Piece("strip", 100, 50, 2, True)]
    plan = plan_rectangles(pieces, [Stock("card", 100, 200)])
    assert (plan.sheet_count, plan.proved, plan.settings) == (1, True, 1)


def test_the_cheapest_mix_of_sheets_is_found_and_the_price_is_exact():
    # Ten squares of 100: sheets of 200 x 200 at 0.30 hold four, of 100 x 300 at 0.20 three. 4 + 3 + 3: 0.70; 4 + 4 + 3: 0.80.
    pieces = [Piece("square", 100, 100, 10, False)]
    stocks = [Stock("card", 200, 200, price=Fraction(3, 10)), Stock("card", 100, 300, price=Fraction(1, 5))]
    plan = plan_rectangles(pieces, stocks)
    assert faults_of(plan, pieces) == []
    assert (plan.price, plan.least_price, plan.proved) == (Fraction(7, 10), Fraction(7, 10), True)


def test_sheets_in_the_drawer_come_first_where_they_are_free():
    pieces = [Piece("square", 100, 100, 6, False)]
    plan = plan_rectangles(pieces, [Stock("card", 100, 200, price=0, limit=2), Stock("card", 200, 100, price=1)])
    assert faults_of(plan, pieces) == []
    assert {sheet.stock.price: sheet.count for sheet in plan.sheets} == {0: 2, 1: 1}


def test_nothing_needs_to_be_a_fraction_of_a_millimetre():
    plan = plan_rectangles([Piece("a", 5, 5, 4, False)], [Stock("board", 10, 10)])
    assert (plan.sheet_count, plan.sheets[0].placements[0].x) == (1, 0)


def test_sizes_with_long_decimals_are_planned_and_bounded_too():
    odd = [Piece(str(n), Fraction(314159 + 7919 * n, 10**5), Fraction(271828 - 6007 * n, 10**5), 3, True) for n in range(6)]
    plan = plan_rectangles(odd, [Stock("board", Fraction(100003, 10**4), Fraction(99991, 10**4))])
    assert faults_of(plan, odd) == []
