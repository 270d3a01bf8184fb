"""Lengths that carry errors: what is shared cancels, what is independent adds as squares."""

from math import hypot, sqrt

import pytest

from creasewright.hands.carried import Carried, Cause, root_sum_square
from creasewright.hands.error_table import HandErrors, hand_errors

ERRORS = HandErrors()


def one(operation: str, line: str = "a", slope: float = 1.0) -> Carried:
    return Carried(100.0, {Cause(operation, "card", line): slope})


def test_independent_errors_of_a_sum_and_of_a_difference_add_as_squares() -> None:
    # H. H. Ku, Notes on the Use of Propagation of Error Formulas, J. Res. Nat. Bur. Stand. 70C (1966): for a x + b y with x and y
    # independent the variance is a² s_x² + b² s_y²; here a trimmed edge (0.8) and a score (0.5), common practice, no source
    for length in (one("trimmed") + one("scored"), one("trimmed") - one("scored")):
        assert root_sum_square(length.slopes, ERRORS) == pytest.approx(sqrt(0.8**2 + 0.5**2))
    assert root_sum_square((one("trimmed").times(2) - one("scored").times(3)).slopes, ERRORS) == pytest.approx(hypot(1.6, 1.5))


def test_a_line_that_both_sides_share_cancels() -> None:
    shared = one("scored")
    assert (shared - shared).slopes == {}
    assert root_sum_square((shared + one("trimmed") - shared).slopes, ERRORS) == pytest.approx(0.8)


def test_one_line_met_twice_counts_twice_not_as_two() -> None:
    # a panel folded over ends twice as far off as its score: 2 x 0.5, not sqrt(2) x 0.5
    assert root_sum_square((one("scored") + one("scored")).slopes, ERRORS) == pytest.approx(1.0)


def test_the_makers_own_errors_stand_before_the_usual_ones() -> None:
    own = hand_errors({"trimmed": 0.3})
    assert own.of("trimmed") == 0.3
    assert own.of("scored") == 0.5
