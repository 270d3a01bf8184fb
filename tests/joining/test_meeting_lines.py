"""Where a free part lands: lines that meet, offsets, centres, reveals, and what is refused."""

import pytest

from small_designs import Seen, from_the_table, last_run, made, seen_at, with_steps

GLUE = "materials: {glue: {kind: glue}}\n"
BLANKS = """
page: {height: 100 mm, across: [tab: 20 mm, body: 120 mm]}
mat: {width: 40 mm, height: 30 mm}
"""
MAT = ("mat", "mat")


def placed_mat(meet: str, *before: str, onto: str = "body") -> Seen:
    return seen_at(made(GLUE + with_steps(BLANKS, *before, f"{{join: mat, onto: {onto}, {meet}}}")), MAT)


@pytest.mark.parametrize(
    ("meet", "at"),
    [
        # body reaches from 20 to 140 and from 0 to 100; the mat is 40 x 30
        ("meet: {left: left, head: head}", Seen(20, 0, 60, 30)),
        ("meet: {right: right, tail: tail}", Seen(100, 70, 140, 100)),
        ("meet: {left: tab/body, head: head}", Seen(20, 0, 60, 30)),
        ("meet: {right: tab/body, tail: tail}", None),
        # an edge moved inwards: 5 mm from the right edge is at 135, 8 mm from the tail at 92
        ("meet: {right: {from: right, by: 5 mm}, tail: {from: tail, by: 8 mm}}", Seen(95, 62, 135, 92)),
        # inwards from a score is towards the panel landed on: 20 + 5
        ("meet: {left: {from: tab/body, by: 5 mm}, head: {from: head, by: 8 mm}}", Seen(25, 8, 65, 38)),
        ("meet: {left: right of tab, head: head}", Seen(20, 0, 60, 30)),
        # centre of body: (80, 50)
        ("meet: centre", Seen(60, 35, 100, 65)),
        # turned a quarter, the mat is 30 wide and 40 high
        ("meet: {left: left, head: head}, turned: 90", Seen(20, 0, 50, 40)),
    ],
)
def test_lines_that_meet_fix_the_place(meet: str, at: Seen | None):
    if at is None:
        run = last_run(GLUE + with_steps(BLANKS, f"{{join: mat, onto: body, {meet}}}"))
        assert run.refused is not None and run.refused[0] == "mat misses body of page altogether"
    else:
        assert placed_mat(meet) == at


def test_lines_are_those_of_the_work_as_it_lies():
    # seen from the back, body reaches from -140 to -20 and the tab lies at its right
    state = made(GLUE + with_steps(BLANKS, "{lay: page, up: back}", "{join: mat, onto: body, meet: {right: right, head: head}}"))
    assert seen_at(state, MAT) == Seen(-60, 0, -20, 30)
    assert from_the_table(state, "page")[-1] == MAT


def test_equal_outlines_need_no_place():
    blanks = "page: {width: 80 mm, height: 60 mm}\nlining: {width: 80 mm, height: 60 mm}"
    state = made(GLUE + with_steps(blanks, "{join: lining, onto: page}"))
    assert seen_at(state, ("lining", "lining")) == Seen(0, 0, 80, 60)


def test_a_right_reveal_centres_and_a_wrong_one_is_told_in_figures():
    blanks = "page: {width: 80 mm, height: 60 mm}\nmat: {width: 74 mm, height: 54 mm}"
    state = made(GLUE + with_steps(blanks, "{join: mat, onto: page, reveal: 3 mm}"))
    assert seen_at(state, MAT) == Seen(3, 3, 77, 57)
    run = last_run(GLUE + with_steps(blanks, "{join: mat, onto: page, reveal: 5 mm}"))
    assert run.refused == (
        "mat leaves 3.00 mm at the sides and 3.00 mm at head and tail of page, not 5.00 mm all round",
        "change its size, or the reveal",
    )


REFUSED = [
    ("meet: {left: left}", "`meet` leaves the place open head to tail", "add a pair of lines in that direction"),
    ("meet: {head: head}", "`meet` leaves the place open left to right", "add a pair of lines in that direction"),
    ("meet: {left: left, right: right}", "`meet` fixes the left-right place twice", "give one pair in each direction"),
    ("meet: {left: head, head: head}", "`left` and `head` run in different directions", "pair lines that run alike"),
    (
        "with: glue",
        "mat and body of page differ in size, so their place is open",
        "add `meet:` with one pair of lines in each direction, or `meet: centre`",
    ),
]


@pytest.mark.parametrize(("meet", "what", "hint"), REFUSED)
def test_a_place_that_is_open_or_fixed_twice_is_refused(meet: str, what: str, hint: str):
    run = last_run(GLUE + with_steps(BLANKS, f"{{join: mat, onto: body, {meet}}}"))
    assert run.refused == (what, hint)


def test_a_slanted_score_is_no_line_to_meet():
    scores = "scores: {slant: {across: head-left, at: 50 mm}}, panels: {body: centre}"
    blanks = f"page: {{width: 100 mm, height: 100 mm, {scores}}}\nmat: {{width: 20 mm, height: 20 mm}}"
    run = last_run(GLUE + with_steps(blanks, "{join: mat, onto: body, meet: {left: slant, head: head}}"))
    assert run.refused == ("the score `slant` runs aslant here", "meet an edge or a score that runs straight up or across")


# --- layers -----------------------------------------------------------------------------------------------------------

TWO = "page: {width: 100 mm, height: 80 mm}\nmat: {width: 60 mm, height: 40 mm}\nslip: {width: 30 mm, height: 20 mm}"


def order(*steps: str) -> list[str]:
    return [part for part, _ in from_the_table(made(GLUE + with_steps(TWO, *steps)), "page")]


def test_onto_lies_on_top_and_under_beneath():
    assert order("{join: mat, onto: page, meet: centre}") == ["page", "mat"]
    assert order("{join: mat, under: page, meet: centre}") == ["mat", "page"]
    assert order("{lay: page, up: back}", "{join: mat, onto: page, meet: centre}") == ["page", "mat"]


def test_onto_a_covered_panel_slides_in_directly_on_it():
    # the slip goes onto the page where the mat covers it: between the two
    assert order("{join: mat, onto: page, meet: centre}", "{join: slip, onto: page, meet: centre}") == ["page", "slip", "mat"]
    assert order("{join: mat, onto: page, meet: centre}", "{join: slip, onto: mat, meet: centre}") == ["page", "mat", "slip"]


def test_between_lies_between_whichever_is_named_first():
    first = "{join: mat, onto: page, meet: centre}"
    for names, side in (("[page, mat]", "back"), ("[mat, page]", "front")):
        state = made(GLUE + with_steps(TWO, first, f"{{join: slip, between: {names}, meet: centre}}"))
        assert [part for part, _ in from_the_table(state, "page")] == ["page", "slip", "mat"]
        # the adhesive is on the side that meets the panel named first: its back on the page, its front under the mat
        assert [area.side for area in state.glue if area.panel[0] == "slip"] == [side]


def test_a_liner_made_like_panels_needs_no_place_on_them():
    blanks = """
    cover: {height: 90 mm, across: [flap: 30 mm, body: 70 mm]}
    liner: {like: [flap of cover, body of cover], inset: 4 mm, seen from: back}
    """
    steps = ["{lay: cover, up: back}", "{join: liner, onto: [flap of cover, body of cover]}"]
    state = made(GLUE + with_steps(blanks, *steps))
    boxes = [seen_at(state, key) for key in state.placed if key[0] == "liner"]
    # the cover, seen from the back, reaches from -100 to 0 and from 0 to 90; 4 mm inside it all round
    assert (min(b.left for b in boxes), max(b.right for b in boxes)) == pytest.approx((-96, -4))
    assert (min(b.head for b in boxes), max(b.tail for b in boxes)) == pytest.approx((4, 86))
    # it has the score too, and folds with the cover
    run = last_run(GLUE + with_steps(blanks, *steps, "{fold: flap/body of cover}"))
    assert run.refused is None
    assert {part for part, _ in run.targets} == {"cover", "liner"}
