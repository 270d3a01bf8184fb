"""Creep: how far leaves folded in one another stand out, and what trimming takes off."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.joining.nested_leaves import fore_edge_step, nests
from small_designs import made, runs_of, with_steps

FOLD = ["{place: leaf 2 to last, onto: leaf 1}", "{fold: verso/recto of each leaf}"]
LEAF = "leaf: {height: 140 mm, across: [verso: 100 mm, recto: 100 mm]}"


def signature(leaves: int, *more: str) -> str:
    return with_steps(LEAF, *FOLD, *more) + f"parts: {{leaf: {leaves}}}\n"


def thin(caliper: str) -> str:
    return f"papers: {{card: {{sheet: [600 mm, 600 mm], caliper: {caliper} mm}}}}"


def test_the_innermost_of_four_leaves_of_a_tenth_stands_out_three_tenths():
    # 16 pages, caliper 0.1 mm: (sheets - 1) t = 0.3 mm; a second imposition manual takes pages / 4 * t = 0.4 mm: they disagree by one
    # sheet, so the value lies in that band (two imposition manuals)
    (leaves,) = nests(made(signature(4), thin("0.1")))
    assert [leaf.part for leaf in leaves] == ["leaf 1", "leaf 2", "leaf 3", "leaf 4"]
    assert [leaf.pushed for leaf in leaves] == pytest.approx([0, 0.1, 0.2, 0.3])
    assert 0.3 - 1e-9 <= fore_edge_step(leaves) <= 0.4


@given(st.integers(2, 8), st.integers(5, 30))
@settings(max_examples=12, deadline=None)
def test_creep_lies_between_folds_back_on_back_and_folds_as_round_as_a_half_circle(leaves: int, hundredths: int):
    t = hundredths / 100
    step = fore_edge_step(nests(made(signature(leaves), thin(str(t))))[0])
    # middle lines kept in length, half circles about one centre: (n - 1) pi t / 2 of each half
    assert step == pytest.approx((leaves - 1) * t)
    assert step < (leaves - 1) * t * pi / 2


def test_trimmed_leaves_lose_what_stood_out():
    state = made(signature(4, "{trim: each leaf, at: fore edge}"), thin("0.1"))
    (trim,) = state.trims
    assert dict(trim.leaves) == pytest.approx({"leaf 1": 0, "leaf 2": 0.1, "leaf 3": 0.2, "leaf 4": 0.3})


@pytest.mark.parametrize(
    ("body", "what"),
    [
        (with_steps(LEAF, "{trim: leaf, at: fore edge}"), "no leaves lie folded in one another there"),
        (
            signature(3, "{unfold: verso/recto of each leaf}", "{trim: each leaf, at: fore edge}"),
            "no leaves lie folded in one another there",
        ),
    ],
)  # fmt: skip
def test_leaves_that_are_not_nested_cannot_be_cut_even(body: str, what: str):
    refused = runs_of(body)[-1].refused
    assert refused is not None
    assert refused[0] == what


def test_pages_made_narrower_one_by_one_end_even():
    blanks = """
    outer: {height: 140 mm, across: [verso: 100 mm, recto: 100 mm]}
    inner: {height: 140 mm, across: [left page: 99.8 mm, right page: 99.8 mm]}
    """
    steps = [
        "{place: inner, by: inner, onto: [verso of outer, recto of outer], meet: {left page/right page: verso/recto of outer, head: head}}",
        "{fold: verso/recto of outer}",
    ]
    (leaves,) = nests(made(with_steps(blanks, *steps), thin("0.2")))
    assert [leaf.part for leaf in leaves] == ["outer", "inner"]
    assert fore_edge_step(leaves) == pytest.approx(0, abs=1e-9)
