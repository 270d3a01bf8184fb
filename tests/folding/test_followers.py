"""Scores that follow others: the four-bar of a pop-up step, whose angles are known."""

import pytest

from creasewright.folding.closing_error import closing
from small_designs import last_run, made, with_steps

# a step card: the strip between two slits stands out by 30 mm from both leaves of a fold; wall and front are equal, top and floor too
CARD = """
card:
  across: [side a: 30 mm, strip: 40 mm, side b: 30 mm]
  down: [wall: 60 mm, top: 30 mm, front: 30 mm, floor: 60 mm]
  scores:
    side a/strip: none
    strip/side b: none
    wall/top: {over: [strip]}
    top/front: {over: [strip]}
    front/floor: {over: [strip]}
    card fold: {from: head, at: 90 mm, over: [side a, side b]}
  slits: {slit: {on: [side a/strip, strip/side b], over: [top, front]}}
  panels: {wall: mid head, floor: mid tail, top: centre of top strip, front: centre of front strip}
"""
OPEN = "{fold: {card fold: 90, wall/top: 90, front/floor: 90}, mountain: {top/front: 90}}"
FOLLOW = "follow: [wall/top, top/front, front/floor]"


@pytest.mark.parametrize("angle", [170, 150, 120, 60, 30, 10])
def test_a_parallelogram_follows_with_equal_angles(angle):
    state = made(with_steps(CARD, OPEN, f"{{fold: {{card fold: {angle}}}, {FOLLOW}}}"))
    # opposite sides of a parallelogram stay parallel: wall/top and front/floor turn as the card does, top/front against it
    assert {name: abs(found) for (_, name), found in state.angles.items()} == pytest.approx(
        {"card fold 1": angle, "card fold 2": angle, "wall/top": angle, "front/floor": angle, "top/front": angle}, abs=1e-6
    )
    assert state.angles[("card", "top/front")] * state.angles[("card", "wall/top")] < 0
    assert closing(state).mm < 1e-6


def test_the_card_shuts_with_the_step_folded_between_its_leaves():
    state = made(with_steps(CARD, OPEN, f"{{fold: card fold, {FOLLOW}}}"))
    assert {abs(found) for found in state.angles.values()} == {180.0}
    order = [name for _, name in state.body_of("card").stacks[0].order]
    assert len(state.body_of("card").stacks) == 1
    assert set(order[1:3]) == {"top", "front"}


def test_followers_of_a_loop_that_is_1_mm_out_are_refused():
    # the step is then 29 mm deep where it should be 30, and stands at 30 where it should at 29: 1 mm both ways, sqrt 2 together
    lame = CARD.replace("front: 30 mm", "front: 29 mm")
    run = last_run(with_steps(lame, OPEN))
    assert run.refused is not None
    assert "do not meet when this is folded: 1.41 mm" in run.refused[0]
