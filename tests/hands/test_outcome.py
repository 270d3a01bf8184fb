"""From room and error to how many fail: normal, one-sided, the error being 1.96 standard deviations."""

from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.hands.outcome import failing_share, in_words, of_makers, room_wanted, too_many


def test_half_a_millimetre_against_one_fails_about_five_in_thirty() -> None:
    # 0.5 / (1.0 / 1.96) = 0.98 standard deviations; any table of the normal distribution: 1 - Phi(0.98) = 0.1635; 4.9 in 30
    assert failing_share(0.5, 1.0) == pytest.approx(0.1635, abs=5e-5)
    assert in_words(failing_share(0.5, 1.0), 1) == "about 5 in 30"
    assert in_words(failing_share(0.5, 1.0), 120) == "about 20 in 120"


@given(st.floats(-3, 6), st.floats(0.1, 3))
def test_the_share_is_the_tail_of_the_normal_distribution(room: float, error: float) -> None:
    # the standard library's own distribution as judge
    assert failing_share(room, error) == pytest.approx(NormalDist(0, error / 1.96).cdf(-room), abs=1e-9)


def test_no_room_at_all_fails_half() -> None:
    assert failing_share(0.0, 1.0) == 0.5


def test_without_error_all_or_none() -> None:
    assert failing_share(0.1, 0.0) == 0.0
    assert failing_share(-0.1, 0.0) == 1.0


@given(st.floats(0.1, 3))
def test_the_room_wanted_leaves_one_in_a_hundred(error: float) -> None:
    assert failing_share(room_wanted(error), error) == pytest.approx(0.01, abs=1e-5)
    assert not too_many(room_wanted(error), error)
    assert too_many(room_wanted(error) - 0.02, error)


@pytest.mark.parametrize(("share", "makers", "words"), [(0.0, 1, "none in 30"), (0.01, 1, "under 1 in 30"), (0.01, 300, "about 3 in 300")])
def test_how_many_is_said_in_whole_makers(share: float, makers: int, words: str) -> None:
    assert in_words(share, makers) == words
    assert of_makers(share, makers)[1] == (30 if makers == 1 else makers)
