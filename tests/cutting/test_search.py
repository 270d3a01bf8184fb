"""The search: its packings hold, its bounds hold, its laws hold, and it ends when it is told to."""

from itertools import count
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.cutting.demand import Effort
from creasewright.cutting.search.columns import best_mix
from creasewright.cutting.search.constructions import packings
from creasewright.cutting.search.lower_bound import fewest_sheets, least_cost
from creasewright.cutting.search.master import Column, whole_mix
from creasewright.cutting.search.rounding import rounded, trimmed
from creasewright.cutting.search.ruin import improved
from creasewright.cutting.search.search import search
from creasewright.cutting.search.task import UNLIMITED, Packing, Rules, cost_of, sheets_in
from cutting.search_cases import holds, task

SHORT = Effort(iterations=600, rounds=40, polish=0)
sizes = st.integers(min_value=1, max_value=20)
shapes = st.lists(st.tuples(sizes, sizes, st.integers(1, 4), st.booleans()), min_size=1, max_size=6)
sides, costs = st.integers(20, 30), st.integers(1, 9)
stocks = st.lists(st.tuples(sides, sides, costs, st.sampled_from([1, 2, UNLIMITED])), min_size=1, max_size=3)


def silent(sheets: int, bound: int) -> None:
    return None


def never() -> bool:
    return False


@settings(deadline=None, max_examples=60)
@given(shapes, stocks, st.sampled_from([None, Rules(2), Rules(None, 25, 2)]))
def test_every_packing_holds_whatever_sheets_there_are_and_none_beats_the_bound(wanted, kinds, rules):
    one = task(wanted, *kinds, rules=rules)
    found = search(one, SHORT, silent)
    for packing in found.packings:
        assert holds(one, packing)
        if packing.whole:
            assert cost_of(one, packing) >= found.floor >= least_cost(one) or not found.packings[0].whole
            assert sheets_in(packing) >= found.fewest


@settings(deadline=None, max_examples=30)
@given(shapes)
def test_a_blank_more_never_lowers_the_count_where_both_are_proved(wanted):
    less, more = task(wanted, (20, 20)), task([*wanted, (7, 5, 1, True)], (20, 20))
    first, second = search(less, SHORT, silent), search(more, SHORT, silent)
    proved = [sheets_in(found.packings[0]) == found.fewest for found in (first, second)]
    if all(proved):
        assert sheets_in(first.packings[0]) <= sheets_in(second.packings[0])


@settings(deadline=None, max_examples=30)
@given(shapes)
def test_leave_to_turn_never_costs_a_sheet(wanted):
    fixed, free = ([(w, h, n, turn) for w, h, n, _ in wanted] for turn in (False, True))
    counts = [sheets_in(search(task(one, (20, 20)), SHORT, silent).packings[0]) for one in (fixed, free)]
    assert counts[1] <= counts[0]


@settings(deadline=None, max_examples=30)
@given(shapes, st.integers(2, 40))
def test_n_makers_never_need_more_than_n_times_one(wanted, makers):
    one = search(task(wanted, (20, 20)), SHORT, silent)
    many = search(task([(w, h, n * makers, turn) for w, h, n, turn in wanted], (20, 20)), SHORT, silent)
    assert sheets_in(many.packings[0]) <= makers * sheets_in(one.packings[0])


@settings(deadline=None, max_examples=40)
@given(shapes, st.integers(1, 3))
def test_ruin_and_recreate_keeps_every_piece_and_only_gets_cheaper(wanted, seed):
    one = task(wanted, (20, 20))
    start = packings(one, 1)[0]
    costs = [cost_of(one, start)]
    for packing, _ in improved(one, start, fewest_sheets(one), 300, Random(seed), never):
        assert holds(one, packing)
        costs.append(cost_of(one, packing))
    assert costs == sorted(costs, reverse=True)


def test_ruin_and_recreate_finds_a_sheet_less_than_any_construction():
    # Made by cutting three sheets of 20 x 20 up and forgetting how; the area is that of three sheets, so three is the least.
    written = "13 9, 7 9, 6 11, 14 11, 11 20, 9 8, 9 12, 20 5, 12 15, 8 6, 8 9"
    one = task([(*map(int, line.split()), 1, True) for line in written.split(",")], (20, 20))
    *_, (best, _) = improved(one, packings(one, 3)[0], 3, 20_000, Random(1), never)
    assert (best.whole, sheets_in(best)) == (True, 3)


# Demand on a sheet; sheets of the published optimum (not turning). Cintra, Miyazawa, Wakabayashi & Xavier, Eur. J. Oper. Res. 191
# (2008) 61-85, gcut1d and gcut5d.
GCUT1D = "167 184 90, 114 118 75, 167 152 71, 83 140 13, 70 86 39, 143 166 79, 120 160 63, 66 148 93, 87 141 61, 69 165 85"
GCUT5D = "198 205 91, 179 155 71, 364 236 94, 272 147 74, 352 145 32, 343 245 63, 132 174 60, 164 250 27, 282 356 58, 342 151 75"


@pytest.mark.parametrize(("written", "side", "optimum"), [(GCUT1D, 250, 294), (GCUT5D, 500, 197)])
def test_published_cutting_stock_is_solved_and_proved(written, side, optimum):
    wanted = [(*map(int, line.split()), False) for line in written.split(",")]
    found = search(task(wanted, (side, side)), Effort(), silent)
    assert (sheets_in(found.packings[0]), found.fewest) == (optimum, optimum)


# Bin packing with the pieces of Beasley 1985 (gcut1, gcut2) and Christofides & Whitlock 1977 (cgcut3), with the lower bounds that are
# handed down with these texts (github fontanf/packingsolver, MIT), and the sheets that this program needs.
GCUT1 = "167 184 1, 114 118 1, 167 152 1, 83 140 1, 70 86 1, 143 166 1, 120 160 1, 66 148 1, 87 141 1, 69 165 1"
GCUT2 = (
    "120 133 1, 135 186 1, 86 75 1, 103 73 1, 66 85 1, 135 97 1, 91 175 1, 131 176 1, 71 176 1, 153 72 1, 87 148 1, 168 107 1, 118 90 1,"
    "140 109 1, 132 159 1, 152 93 1, 135 68 1, 121 158 1, 68 94 1, 155 76 1"
)
CGCUT3 = (
    "31 43 4, 30 41 2, 29 39 4, 28 38 4, 27 37 3, 26 36 4, 25 35 3, 24 34 4, 33 23 4, 22 32 3, 31 21 3, 29 18 3, 17 27 2, 15 24 3,"
    "16 25 4, 23 14 4, 21 12 3, 19 11 4, 9 17 1"
)


@pytest.mark.parametrize(
    ("written", "sheet", "turn", "bound", "most"),
    [
        (GCUT1, (250, 250), True, 4, 4),
        (GCUT1, (250, 250), False, 4, 5),
        (GCUT2, (250, 250), False, 6, 6),
        (CGCUT3, (40, 70), False, 23, 23),
        (CGCUT3, (40, 70), True, 17, 19),
    ],
)
def test_published_demands_as_bin_packing(written, sheet, turn, bound, most):
    wanted = [(*map(int, line.split()), turn) for line in written.split(",")]
    found = search(task(wanted, sheet), Effort(), silent)
    assert bound <= sheets_in(found.packings[0]) <= most
    assert found.fewest <= sheets_in(found.packings[0])


@settings(deadline=None, max_examples=30)
@given(shapes)
def test_the_bound_by_columns_is_never_above_a_packing(wanted):
    one = task(wanted, (20, 20))
    packing = packings(one, 1)[0]
    start = [Column(use.kind, use.pattern) for use in packing.uses]
    assert best_mix(one, start, 1 << 60, 100, never).bound <= cost_of(one, packing)


def test_shapes_wanted_once_may_not_fill_a_sheet_together_with_themselves():
    # Two of 5 x 10 fill 10 x 10; of three unlike shapes that are all wanted once and of which none goes with another, the mix of
    # patterns that takes each twice on half a sheet would do with 3 x 1/2 sheets, so a bound of 2; each needs its own sheet.
    one = task([(5, 10, 1, False), (10, 5, 1, False), (6, 6, 1, False)], (10, 10))
    start = [Column(use.kind, use.pattern) for use in packings(one, 1)[0].uses]
    assert best_mix(one, start, 3, 200, never).bound == 3


def test_a_class_is_rounded_to_within_a_sheet_of_its_bound():
    # Kit of five shapes on 192 x 192, for 300: the demand of a class in 1/16 in.
    one = task([(24, 96, 300, True), (40, 41, 600, True), (17, 180, 300, True), (67, 61, 1200, True), (99, 90, 300, True)], (192, 192))
    found = search(one, Effort(), silent)
    assert sheets_in(found.packings[0]) - found.fewest <= 1
    assert holds(one, found.packings[0])


def test_the_work_for_a_class_does_not_grow_with_the_makers():
    kit = [(24, 96, 1, True), (40, 41, 2, True), (17, 180, 1, True), (67, 61, 4, True), (99, 90, 1, True)]
    rounds = []
    for makers in (300, 30_000):
        one = task([(w, h, n * makers, turn) for w, h, n, turn in kit], (192, 192))
        rounds.append(best_mix(one, [], 1 << 60, 1000, never).rounds)
    assert rounds[1] <= 2 * rounds[0]


def test_sheets_that_cover_too_much_are_trimmed_to_the_demand():
    one = task([(5, 5, 5, False)], (10, 10))
    (full,) = {use.pattern for use in packings(task([(5, 5, 4, False)], (10, 10)), 1)[0].uses}
    columns = [Column(0, full)]
    assert whole_mix(one, columns, 10) == [2]
    packing = trimmed(one, columns, [2])
    assert (holds(one, packing), packing.whole, sheets_in(packing)) == (True, True, 2)


def test_rounding_leaves_nothing_missing():
    one = task([(6, 4, 100, True), (3, 7, 170, True), (9, 9, 40, False)], (20, 20))
    mix = best_mix(one, [], 1 << 60, 200, never)
    for packing in rounded(one, mix, mix.bound, 500, Random(1), never):
        assert packing.whole and holds(one, packing)


def test_cheaper_sheets_are_taken_as_far_as_they_go():
    # Ten squares of 10: a sheet of 20 x 20 holds four for 3, one of 20 x 10 two for 1, of which there are two.
    found = search(task([(10, 10, 10, False)], (20, 20, 3), (20, 10, 1, 2)), SHORT, silent)
    packing = found.packings[0]
    # One of 20 x 10 holds two, two of 20 x 20 hold eight: 1 + 2 x 3.
    assert (packing.whole, cost_of(task([(10, 10, 10, False)], (20, 20, 3), (20, 10, 1, 2)), packing)) == (True, 7)


def test_pieces_for_which_there_are_no_sheets_are_missing():
    one = task([(10, 10, 9, False)], (20, 20, 1, 2))
    assert search(one, SHORT, silent).packings[0].missing == (1,)


def test_the_same_seed_and_effort_give_the_same_packings():
    kit = [(w, h, 1, True) for w, h in ((13, 9), (7, 8), (6, 11), (14, 10), (11, 19), (9, 8), (9, 12), (20, 5), (12, 14), (8, 6))]
    first, second = (search(task(kit, (20, 20)), SHORT, silent) for _ in range(2))
    assert first == second


def test_when_time_is_over_the_best_so_far_is_given_and_so_it_is_when_someone_stops_it(monkeypatch):
    kit = [(w, h, 1, False) for w, h in ((13, 11), (13, 10), (12, 13), (14, 11), (11, 13), (9, 12), (12, 11), (11, 11))]
    full = search(task(kit, (20, 20)), SHORT, silent)
    hasty = search(task(kit, (20, 20)), Effort(seconds=0.0), silent)
    assert (full.stopped, hasty.stopped) == (False, True)
    assert hasty.packings[0].whole

    told = count()

    def interrupt(sheets: int, bound: int) -> None:
        if next(told) == 0:
            raise KeyboardInterrupt

    stopped = search(task(kit, (20, 20)), SHORT, interrupt)
    assert stopped.stopped and isinstance(stopped.packings[0], Packing) and stopped.packings[0].whole
