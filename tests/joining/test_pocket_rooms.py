"""Pockets: which sides are closed, and how much room is left inside, worked out by hand."""

import pytest

from creasewright.fitting.looks import turned
from creasewright.folding.state import Pocket
from creasewright.joining.pockets import flap_underneath, open_in_view
from small_designs import made, with_steps

GLUE = "materials: {glue: {kind: glue}}\n"
FLAP = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}"


def pocket(along: str, blanks: str = FLAP, *before: str) -> Pocket:
    steps = [*before, "{fold: flap}", f"{{glue: flap, onto: page{along}, makes: slot}}"]
    return made(GLUE + with_steps(blanks, *steps)).pockets["slot"]


def test_a_folded_flap_glued_at_the_tail_is_open_at_the_head_and_at_its_free_side():
    slot = pocket(", along: tail")
    assert (slot.front, slot.back) == (("strip", "flap"), ("strip", "page"))
    # folded at the left, glued at the tail
    assert (set(slot.closed), set(slot.open)) == ({"left", "tail"}, {"right", "head"})
    # to the right the room goes on over the page: 80 wide; at the tail glue takes 3 + 6 of 100
    assert (slot.room_width, slot.room_height) == pytest.approx((80, 91))


def test_glue_on_three_sides_leaves_one_mouth():
    slot = pocket(", along: [right, tail]")
    assert (set(slot.closed), set(slot.open)) == ({"left", "right", "tail"}, {"head"})
    # 50 from the fold, less 3 + 6 at the right; 100 less 9 at the tail
    assert (slot.room_width, slot.room_height) == pytest.approx((41, 91))


def test_a_wider_strip_and_setback_take_more_of_the_room():
    slot = pocket(", along: [right, tail], width: 10 mm, setback: 5 mm")
    assert (slot.room_width, slot.room_height) == pytest.approx((50 - 15, 100 - 15))


def test_free_edges_close_all_sides():
    slot = pocket(", along: free edges")
    assert slot.open == ()
    assert (slot.room_width, slot.room_height) == pytest.approx((41, 100 - 9 - 9))


def test_on_the_back_left_and_right_are_those_seen_then():
    slot = pocket(", along: tail", FLAP, "{lay: strip, up: back}")
    # turned over like a page, the fold lies at the right
    assert (set(slot.closed), set(slot.open)) == ({"right", "tail"}, {"left", "head"})
    assert (slot.room_width, slot.room_height) == pytest.approx((80, 91))


def test_two_panels_joined_by_three_sides_make_a_pocket_too():
    blanks = "page: {width: 80 mm, height: 100 mm}\npatch: {width: 60 mm, height: 70 mm}"
    meet = "meet: {left: {from: left, by: 10 mm}, tail: tail}"
    step = f"{{join: patch, onto: page, {meet}, along: [left, tail, right], makes: slot}}"
    slot = made(GLUE + with_steps(blanks, step)).pockets["slot"]
    assert (set(slot.closed), set(slot.open)) == ({"left", "tail", "right"}, {"head"})
    # 60 - 2 * 9 wide; from the head of the page (100) to 9 above the tail
    assert (slot.room_width, slot.room_height) == pytest.approx((42, 91))


def test_three_flaps_over_a_base_make_an_envelope():
    # the two side flaps lap in the middle, the tail flap is glued to both: the room is the base itself
    blanks = """
    cover: {base: {name: base, width: 100 mm, height: 80 mm},
            flaps: {left flap: {at: left of base, depth: 55 mm}, right flap: {at: right of base, depth: 55 mm},
                    tail flap: {at: tail of base, depth: 45 mm}}}
    """
    steps = [
        "{lay: cover, up: back}", "{fold: [left flap, right flap]}",
        "{fold: tail flap}",
        "{glue: tail flap, onto: [left flap, right flap], along: free edges, makes: inside}",
    ]
    inside = made(GLUE + with_steps(blanks, *steps)).pockets["inside"]
    assert inside.back == ("cover", "base")
    assert (set(inside.closed), set(inside.open)) == ({"left", "right", "tail"}, {"head"})
    assert (inside.room_width, inside.room_height) == pytest.approx((100, 80))


@pytest.mark.parametrize(
    ("degrees", "over", "opens"),
    [
        (0, False, {"right", "head"}),
        # turned on the table: clockwise, right comes to the tail, head to the right
        (90, False, {"tail", "right"}),
        (180, False, {"left", "tail"}),
        # over like a page: the flap lies behind, left for right
        (0, True, {"left", "head"}),
        (180, True, {"right", "tail"}),
    ],
)
def test_the_open_sides_go_along_with_the_work_as_it_is_turned(degrees: float, over: bool, opens: set[str]):
    state = made(GLUE + with_steps(FLAP, "{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}"))
    body = turned(state.bodies[0], degrees, over)
    assert set(open_in_view(state, body, state.pockets["slot"])) == opens
    assert flap_underneath(state, body, state.pockets["slot"]) == over
