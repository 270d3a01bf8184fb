"""What the pages say of cut to fit and of double scores."""

import pytest

from creasewright.booklet.sections import cut_list, score_guide, steps
from section_cases import context_of, said, shipped
from small_designs import with_steps, worked_of

CARD = "card: {height: 100 mm, across: [page: 80 mm, cover: 80 mm]}"


def padded(thick: str) -> str:
    things = f"things: {{slip: {{width: 60 mm, height: 80 mm, thick: {thick}}}}}\n"
    meet = "meet: {left: {from: left, by: 2 mm}, head: {from: head, by: 10 mm}}"
    steps = ["{lay: card, up: back}", f"{{join: slip, onto: page, {meet}}}", "{fold: cover}"]
    return "materials: {glue: {kind: glue}}\n" + things + with_steps(CARD, *steps)


def test_the_score_guide_asks_for_two_lines_where_one_cannot_go_round() -> None:
    # 0.9 mm of slip and one thickness of 0.3: 1.2, to the next mark 2 mm
    text = said(score_guide.build(context_of(worked_of(padded("0.9 mm")), "score guide")))
    assert "goes round 0.9 mm of layers, more than one line can. Press two lines there, 2 mm apart" in text
    assert "two lines there" not in said(score_guide.build(context_of(worked_of(padded("0.6 mm")), "score guide")))


@pytest.mark.parametrize(("system", "words"), [("in", "and 7/8 in more, about 10 15/16 in"), ("mm", "and 23 mm more, about 284 mm")])
def test_a_piece_cut_to_fit_says_which_dimension_to_take_from_the_real_thing(system: str, words: str) -> None:
    worked = shipped("open-day-card", system)
    assert f"cut to fit: its width is the way round the gate card as you made it {words}" in said(
        cut_list.build(context_of(worked, "cut list"))
    )
    assert f"First cut B to fit: its width is the way round the gate card as you made it {words}" in said(
        steps.build(context_of(worked, "steps"))
    )
