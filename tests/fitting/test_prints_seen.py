"""Which side of a panel shows, and which way its print stands there."""

import pytest

from creasewright.fitting.worked import Worked
from small_designs import with_steps, worked_of

SHEET = "sheet: [300 mm, 300 mm], caliper: 0.2 mm"


def paper(front: str, back: str = "plain", more: str = "") -> str:
    return f"papers: {{card: {{{SHEET}, front: {front}, back: {back}{more}}}}}"


def turns(worked: Worked, stage: str = "closed") -> dict[tuple[str, str], int | None]:
    """(panel, side) to the turn of the print that shows."""
    facts = next(facts for facts in worked.stages if facts.name == stage)
    return {(face.panel[1], face.side): face.turn for face in facts.faces}


LETTER = "card: {height: 100 mm, across: [inner: 68 mm, middle: 70 mm, cover: 70 mm]}"
LETTER_STEPS = ["{lay: card, up: back}", "{fold: inner}", "{fold: cover}"]


def test_on_a_letter_fold_the_fronts_show_outside_all_upright():
    shown = turns(worked_of(with_steps(LETTER, *LETTER_STEPS), paper("one-way")))
    # folded about upright lines only, every print keeps its up; cover and middle show their fronts, the inner panel nothing
    assert shown == {("cover", "front"): 0, ("middle", "front"): 0}


def test_folded_over_the_head_a_one_way_print_stands_on_its_head():
    # the upper panel comes down over the lower one: its back shows, and the print there is upside down
    body = with_steps("card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}", "{fold: upper/lower}")
    shown = turns(worked_of(body, paper("plain", "one-way")))
    assert shown[("upper", "back")] == 180
    assert shown[("lower", "back")] == 0


def test_backs_printed_head_to_tail_stand_upright_there():
    body = with_steps("card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}", "{fold: upper/lower}")
    shown = turns(worked_of(body, paper("plain", "one-way", ", back agrees: head-to-tail")))
    assert (shown[("upper", "back")], shown[("lower", "back")]) == (0, 180)


def test_a_two_way_print_does_not_mind_half_a_turn():
    body = with_steps("card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}", "{fold: upper/lower}")
    assert turns(worked_of(body, paper("plain", "two-way")))[("upper", "back")] == 0


def test_plain_and_all_over_papers_stand_any_way():
    body = with_steps("card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}", "{fold: upper/lower}")
    assert set(turns(worked_of(body, paper("plain", "all-over"))).values()) == {None}


def test_laid_sideways_the_print_stands_sideways():
    for head, turn in (("right", 90), ("near", 180), ("left", 270)):
        worked = worked_of(with_steps("card: {width: 80 mm, height: 60 mm}", f"{{lay: card, head: {head}}}"), paper("one-way"))
        assert turns(worked)[("card", "front")] == turn


def test_a_wish_turns_the_blank_on_its_sheet():
    # laid with its head to the right, the print must run to the left on the flat blank: a quarter turn on the sheet
    body = with_steps("card: {width: 80 mm, height: 60 mm}", "{lay: card, head: right}") + "finished: {upright: [card]}\n"
    worked = worked_of(body, paper("one-way"))
    (wish,) = worked.wishes
    assert (wish.upright, wish.turn, wish.side) == (True, 0, "front")
    assert worked.lies["card"].turn == 90
    assert turns(worked)[("card", "front")] == 0


def test_of_two_wishes_that_cannot_both_be_the_first_is_kept():
    blanks = "card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}"
    for first, second in (("upper", "lower"), ("lower", "upper")):
        steps = ["{fold: upper/lower, stage: folded}", "{turn over: card, stage: over}"]
        wishes = {"upper": "upper in folded", "lower": "lower in over"}
        body = with_steps(blanks, *steps) + f"finished: {{upright: [{wishes[first]}, {wishes[second]}]}}\n"
        kept, lost = worked_of(body, paper("plain", "one-way")).wishes
        assert (kept.wish.panel[1], kept.upright) == (first, True)
        assert (lost.wish.panel[1], lost.upright, lost.turn, lost.can_be) == (second, False, 180, True)


def test_grain_can_forbid_the_turn_that_a_wish_needs():
    blank = "card: {width: 80 mm, height: 60 mm, grain: height}"
    body = with_steps(blank, "{lay: card, head: right}") + "finished: {upright: [card]}\n"
    (wish,) = worked_of(body, paper("one-way", more=", grain: height")).wishes
    # only 0 and 180 keep the grain; the print then stands a quarter turned
    assert (wish.upright, wish.can_be) == (False, True)
    assert wish.turn in (90, 270)


def test_a_face_that_does_not_show_has_no_side():
    body = with_steps(LETTER, *LETTER_STEPS) + "finished: {upright: [inner]}\n"
    (wish,) = worked_of(body, paper("one-way")).wishes
    assert wish.side is None


@pytest.mark.parametrize("runs", ["height", "width"])
def test_a_print_that_runs_across_the_sheet_has_its_up_at_the_left(runs: str):
    body = with_steps("card: {width: 80 mm, height: 60 mm}", "{turn: card, by: 0}")
    worked = worked_of(body, paper("one-way", more=f", runs: {runs}"))
    assert turns(worked)[("card", "front")] == {"height": 0, "width": 270}[runs]


def test_a_mat_hides_what_it_covers_and_leaves_the_frame_round_it():
    blanks = "page: {width: 100 mm, height: 80 mm}\nmat: {width: 60 mm, height: 40 mm}"
    body = "materials: {glue: {kind: glue}}\n" + with_steps(blanks, "{join: mat, onto: page, meet: centre}")
    faces = {(face.panel[1], face.side): face.area for face in worked_of(body, paper("one-way")).stages[-1].faces}
    # the page's front shows 100 x 80 less 60 x 40; its back shows whole, the mat's back not at all
    assert faces == pytest.approx({("page", "front"): 8000 - 2400, ("mat", "front"): 2400, ("page", "back"): 8000})
