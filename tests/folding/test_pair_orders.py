"""Orders from conditions on pairs, against all permutations."""

from itertools import permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.folding.pair_orders import Alike, Nested, Outside, Wish, ordered

COUNT = 5
numbers = st.integers(0, COUNT - 1)
pairs = st.tuples(numbers, numbers).filter(lambda pair: pair[0] != pair[1])


@st.composite
def problems(draw: st.DrawFn) -> tuple[list[tuple[int, int]], list[Wish]]:
    below = draw(st.lists(pairs, max_size=3))
    wishes: list[Wish] = []
    for pair in below:
        kind = draw(st.sampled_from(["outside", "nested", "none"]))
        if kind == "outside":
            other = draw(numbers.filter(lambda n, pair=pair: n not in pair))
            wishes.append(Outside(*pair, other))
        elif kind == "nested":
            other_pair = draw(st.sampled_from(below))
            if not set(other_pair) & set(pair):
                wishes.append(Nested(pair, other_pair))
    wishes += [Alike(*draw(st.tuples(pairs, pairs))) for _ in range(draw(st.integers(0, 2)))]
    return below, wishes


def holds(order: tuple[int, ...], wish: Wish) -> bool:
    """The conditions as they read."""
    at = {thing: place for place, thing in enumerate(order)}
    if isinstance(wish, Outside):
        return not at[wish.low] < at[wish.panel] < at[wish.high]
    if isinstance(wish, Nested):
        first, second = sorted(sorted(at[n] for n in pair) for pair in (wish.a, wish.b))
        return first[1] < second[0] or second[1] < first[1]
    return (at[wish.first[0]] < at[wish.first[1]]) == (at[wish.second[0]] < at[wish.second[1]])


@given(problems())
@settings(max_examples=400, deadline=None)
def test_an_order_is_found_just_where_some_permutation_obeys(problem):
    below, wishes = problem

    def obeys(order: tuple[int, ...]) -> bool:
        return all(order.index(a) < order.index(b) for a, b in below) and all(holds(order, wish) for wish in wishes)

    found = ordered(COUNT, below, wishes)
    if found is None:
        assert not any(obeys(order) for order in permutations(range(COUNT)))
    else:
        assert sorted(found) == list(range(COUNT))
        assert obeys(found)


def test_without_conditions_things_stay_as_they_are():
    assert ordered(4, [], []) == (0, 1, 2, 3)


def test_one_that_must_go_below_goes_there_and_the_rest_stay():
    assert ordered(4, [(3, 1)], []) == (0, 2, 3, 1)
