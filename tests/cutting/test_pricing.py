"""The worthiest pattern: against a plain recursion, and against published optima of unconstrained cutting."""

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.cutting.search.pricing import Prices
from creasewright.cutting.search.task import Rules, counts_in
from cutting.search_cases import lies_well, task

sizes = st.integers(min_value=1, max_value=9)
shapes = st.lists(st.tuples(sizes, sizes, st.integers(1, 3), st.booleans()), min_size=1, max_size=4)


def plainly(ways: list[tuple[int, int, int]], width: int, height: int, stages: int | None = None) -> int:
    """The same by recursion over every whole cut; `ways` are (width, height, worth)."""
    @cache
    def best(x: int, y: int, left: int, cut: str) -> int:
        found = max((worth for w, h, worth in ways if w <= x and h <= y), default=0)
        for direction, length in (("down", x), ("across", y)):
            after = left if direction == cut or stages is None else left - 1
            if after >= 0:
                for at in range(1, length):
                    pair = ((at, y), (x - at, y)) if direction == "down" else ((x, at), (x, y - at))
                    found = max(found, sum(best(*part, after, direction) for part in pair))
        return found

    return best(width, height, stages or 0, "")


@settings(deadline=None, max_examples=60)
@given(shapes, st.lists(st.integers(0, 20), min_size=4, max_size=4), st.sampled_from([None, 1, 2, 3]))
def test_the_tables_say_what_a_plain_recursion_says(wanted, worths, stages):
    # Every count is at least as high as a sheet of 9 x 8 could hold, so that positions are not cut short by it.
    plenty = [(w, h, 72, turn) for w, h, _, turn in wanted]
    one = task(plenty, (9, 8), rules=None if stages is None else Rules(stages))
    tables = Prices(one, "pattern")
    tables.set_worths(worths)
    ways = [(w, h, worths[which]) for which, group in enumerate(one.ways[0]) for w, h, _ in group]
    assert tables.value_of(0) == plainly(ways, 9, 8, stages)
    pattern = tables.pattern_of(0)
    assert sum(worths[piece.which] for piece in pattern) == tables.value_of(0)
    assert lies_well(one, 0, pattern)


@settings(deadline=None, max_examples=40)
@given(shapes, st.lists(st.integers(1, 20), min_size=4, max_size=4))
def test_a_shape_held_to_one_a_sheet_lies_there_once_and_the_rest_is_never_worth_more(wanted, worths):
    one = task([(w, h, 50, turn) for w, h, _, turn in wanted], (9, 9))
    tables = Prices(one, "pattern")
    tables.set_worths(worths)
    free = tables.value_of(0)
    tables.set_worths(worths, once=(0,))
    pattern = tables.pattern_of(0)
    assert counts_in(pattern).get(0, 0) <= 1
    assert sum(worths[piece.which] for piece in pattern) == tables.value_of(0) <= free


# Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", J. Oper. Res. Soc. 36 (1985) 297-306: problem gcut1
# (10 pieces on 250 x 250; the sizes from the OR-Library), each piece worth its area, taken as often as wished, not turned. The optimum
# 56460 is from memory.
GCUT1 = "167 184, 114 118, 167 152, 83 140, 70 86, 143 166, 120 160, 66 148, 87 141, 69 165"


def test_a_published_unconstrained_problem_has_its_published_worth():
    pairs = [tuple(map(int, line.split())) for line in GCUT1.split(",")]
    one = task([(w, h, 9, False) for w, h in pairs], (250, 250))
    tables = Prices(one, "pattern")
    tables.set_worths([w * h for w, h in pairs])
    assert tables.value_of(0) == 56460


def test_on_a_coarse_grid_a_bound_is_never_too_low_and_a_pattern_can_be_cut():
    # Sizes in thousandths: too many positions for exact tables.
    wide = [(1237, 2113, 9, True), (871, 1999, 9, True), (503, 1301, 9, True), (2311, 997, 9, True), (613, 769, 9, True)]
    one = task(wide, (7919, 7873))
    worths = [w * h for w, h, _, _ in wide]
    bound, pattern = Prices(one, "bound"), Prices(one, "pattern")
    bound.set_worths(worths)
    pattern.set_worths(worths)
    assert pattern.grid > 1
    assert pattern.value_of(0) <= bound.value_of(0)
    assert lies_well(one, 0, pattern.pattern_of(0))


@pytest.mark.parametrize("smaller", [(5, 9), (9, 5), (4, 4)])
def test_one_table_serves_smaller_sheets_too(smaller):
    wanted = [(3, 2, 20, True), (4, 3, 20, False)]
    both, alone = task(wanted, (9, 9), smaller), task(wanted, smaller)
    tables, own = Prices(both, "pattern"), Prices(alone, "pattern")
    for prices in (tables, own):
        prices.set_worths([7, 13])
    assert tables.value_of(1) == own.value_of(0)
