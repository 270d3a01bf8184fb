"""Panels that pass through one another, told by figures worked out by hand."""

import pytest

from creasewright.folding.collisions import crossing_length, sheet
from creasewright.folding.state import State
from small_designs import last_run, made, with_steps

FLAPS = "blank: {height: 50 mm, across: [left flap: 80 mm, base: 60 mm, right flap: 80 mm]}"


def sheets(state: State):
    return [sheet(state, ("blank", name), state.placed[("blank", name)]) for name in ("left flap", "right flap")]


def test_flaps_that_lean_into_each_other_cross_along_their_whole_height():
    run = last_run(with_steps(FLAPS, "{fold: {left flap: 115, right flap: 115}, stays: base, seen from: front}"))
    # at 115 degrees each leans in by 80 sin 25 = 33.8 mm of the 30 mm to the middle
    assert run.refused is not None
    assert run.refused[0] in (
        "left flap of blank would have to pass through right flap of blank",
        "left flap of blank would end inside right flap of blank: they cross along 50.0 mm",
    )


def test_flaps_that_lean_in_less_than_half_way_stay_apart():
    state = made(with_steps(FLAPS, "{fold: {left flap: 110, right flap: 110}, stays: base, seen from: front}"))
    # 80 sin 20 = 27.4 mm of 30
    assert crossing_length(*sheets(state)) == 0.0


@pytest.mark.parametrize(("width", "crosses"), [(20, True), (40, True)])
def test_a_fin_through_a_floor_is_found_by_name(width, crosses):
    # the shelf runs back over the floor 20 mm above it; a fin of 20 mm just touches the floor, one of 40 mm goes through
    blank = f"blank: {{height: 50 mm, across: [floor: 100 mm, wall: 20 mm, shelf: 60 mm, fin: {width} mm]}}"
    over = "{fold: {floor/wall: 90, wall/shelf: 90}, stays: floor, seen from: front}"
    run = last_run(with_steps(blank, over, "{fold: shelf/fin, to: 90, stays: floor, seen from: front}"))
    assert (run.refused is not None) == (width > 20)
