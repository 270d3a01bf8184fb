"""An assembly made a second time, the other hand."""

import pytest

from creasewright.folding.state import PanelKey, State
from creasewright.geometry.rigid_transform import apply
from creasewright.joining.mirrored_runs import mirrored_runs
from creasewright.workshop import Workshop
from small_designs import design_of, worked_of

BODY = """
materials: {glue: {kind: glue}}
things: {card: {width: 30 mm, height: 40 mm, thick: 0.2 mm}}
blanks:
  strip: {height: 100 mm, across: [flap: 40 mm, page: 80 mm], corners: {head-left: {cut: [10 mm, 30 mm]}}}
  board: {width: 300 mm, height: 120 mm}
assemblies:
  block:
    parts: {strip: 1}
    steps:
      - {fold: flap}
      - {glue: flap, onto: page, along: tail, makes: slot}
      - {insert: card, into: slot}
  pair:
    parts: {near: block, far: mirrored block, board: 1}
    steps:
      - {join: near, by: page of strip, onto: board, meet: {left: {from: left, by: 10 mm}, head: head}}
      - {join: far, by: page of strip, onto: board, meet: {right: {from: right, by: 10 mm}, head: head}}
  twin:
    parts: {one: pair, other: mirrored pair}
    steps:
      - {turn: one, by: 0}
      - {turn: other, by: 0}
"""


def state_of(assembly: str) -> State:
    return Workshop(design_of(BODY), "mm").final(assembly)


def points(state: State, key: PanelKey) -> list[tuple[float, ...]]:
    shape = state.blanks[key[0]].panel(key[1]).polygon
    found = [apply(state.placed[key], (x, y, 0.0)) for x, y in shape]
    return sorted(tuple(round(v, 6) + 0.0 for v in point) for point in found)


def flipped(found: list[tuple[float, ...]], about: float) -> list[tuple[float, ...]]:
    return sorted((round(2 * about - x, 6) + 0.0, y, z) for x, y, z in found)


def test_a_mirrored_block_lies_as_the_image_of_the_block():
    pair = state_of("pair")
    # the board is 300 wide, and the two lie 10 mm in from its sides: images of each other about x = 150
    for panel in ("flap", "page"):
        assert points(pair, ("far/strip", panel)) == flipped(points(pair, ("near/strip", panel)), 150.0)
    assert points(pair, ("far/card", "card")) == flipped(points(pair, ("near/card", "card")), 150.0)


def test_a_mirrored_block_folds_the_same_way_and_its_pocket_has_left_for_right():
    pair = state_of("pair")
    assert pair.angles[("near/strip", "flap/page")] == 180.0
    (far,) = [angle for key, angle in pair.angles.items() if key[0] == "far/strip"]
    assert far == 180.0
    near, other = pair.pockets["near/slot"], pair.pockets["far/slot"]
    swap = {"left": "right", "right": "left", "head": "head", "tail": "tail"}
    assert {swap[side] for side in near.closed} == set(other.closed)
    assert (near.room_width, near.room_height) == pytest.approx((other.room_width, other.room_height))


def test_the_mirror_image_of_a_pair_of_hands_swaps_both():
    twin = state_of("twin")
    # one/near is the strip itself, one/far its image; in the mirrored pair near is the image and far the strip again
    for panel in ("flap", "page"):
        assert points(twin, ("other/near/strip", panel)) == flipped(points(twin, ("one/near/strip", panel)), 0.0)
        assert points(twin, ("other/far/strip", panel)) == flipped(points(twin, ("one/far/strip", panel)), 0.0)
    corners = {
        path: {(round(x, 6), round(y, 6)) for x, y in blank.panel("flap").polygon}
        for path, blank in twin.blanks.items()
        if path.endswith("/strip")
    }
    assert corners["one/near/strip"] == corners["other/far/strip"]
    assert corners["one/far/strip"] == corners["other/near/strip"]
    assert corners["one/near/strip"] != corners["one/far/strip"]


def test_the_steps_of_the_other_hand_are_the_images_of_the_steps():
    runs = next(run for run in worked_of(BODY).assemblies if run.assembly == "block").runs
    images = mirrored_runs(runs)
    assert [run.number for run in images] == [run.number for run in runs]
    for run, image in zip(runs, images, strict=True):
        for key in run.after.placed:
            assert points(image.after, key) == flipped(points(run.after, key), 0.0)
        assert sorted(image.targets.values()) == sorted(run.targets.values())
    assert mirrored_runs(()) == ()
