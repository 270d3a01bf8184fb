"""What a pack is told of curved scores: how far they are worked out, and which stay flat."""

from creasewright.checks.bent_panels import curved_scores_told
from creasewright.problems import NOTES
from small_designs import found_by, with_steps

CARD = "card: {width: 80 mm, height: 60 mm, scores: {s: {line: [[80 mm, 20 mm], [0 mm, 20 mm]], rise: 8 mm}}}"
STRAIGHT = "card: {width: 80 mm, height: 60 mm, scores: {s: {from: head, at: 20 mm}}}"


def test_a_design_without_curved_scores_has_nothing_to_be_told():
    assert found_by(curved_scores_told, with_steps(STRAIGHT, "{fold: s}")) == []


def test_a_bent_card_is_told_with_its_width_height_and_folds():
    # chord 80, rise 8: radius 104, sin f = 40/104, 2 · 104 E(f | 2) = 77.77 (Carlson's forms); slope 40/96 = 0.41667, acos(0.1736) = 80°
    assert found_by(curved_scores_told, with_steps(CARD, "{lay: card, up: back}", "{fold: s, to: 90, bending: yes}")) == [
        (
            NOTES,
            "the curved scores of card are worked out as bending its panels to cylinders, 77.77 mm wide and 8 mm high, "
            "with folds of 90° at the middle of each score and 80° at its ends; the way there is not",
            "make one of paper before you make many",
        )
    ]  # fmt: skip


def test_a_curved_score_that_no_step_folds_is_told_to_stay_flat():
    for steps in (("{lay: card, up: back}",), ("{crease: s}",)):
        assert found_by(curved_scores_told, with_steps(CARD, *steps)) == [
            (
                NOTES, "`s` of card is a curved score that no step folds: it is scored, and pictures show it flat",
                "fold it in a step with `bending: yes`, if it hangs an ear on a panel",
            )
        ]  # fmt: skip
