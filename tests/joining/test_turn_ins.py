"""Boards on their cover, turn-ins over their boards, a lining over both, and a block in the closed case."""

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from creasewright.checks.inserts_fit import inserts_fit
from creasewright.folding.overlaps import seen_polygon
from creasewright.folding.state import State
from creasewright.geometry.clip import area
from small_designs import Seen, found_by, from_the_table, last_run, made, seen_at, with_steps

PAPERS = """
papers:
  cloth: {sheet: [600 mm, 600 mm], caliper: 0.35 mm}
  board: {sheet: [600 mm, 600 mm], caliper: 2 mm}
  end: {sheet: [600 mm, 600 mm], caliper: 0.14 mm}
materials: {glue: {kind: glue}}
"""
BLANKS = """
front board: {paper: board, width: 130 mm, height: 196 mm}
back board: {same as: front board}
spine board: {paper: board, width: 18 mm, height: 196 mm}
case: {paper: cloth, wrap: [back board, spine board, front board], gaps: 7 mm, turn-in: 15 mm}
lining: {paper: end, like: [back board of case, joint 1, spine board, joint 2, front board], seen from: back, inset: 3 mm}
"""
LAID = "{lay: case, up: back}"
BOARDS = "{join: [front board, spine board, back board], onto: case}"
LINED = "{join: lining, onto: [front board, spine board, back board]}"
CLOSED = "{fold: [joint 1/spine board, spine board/joint 2], to: 90}"


def state_after(*steps: str) -> State:
    return made(with_steps(BLANKS, *steps), PAPERS)


def test_boards_find_their_own_panels():
    # the case lies back up, so its front board is at the left: 15 .. 145, then 7, the spine 152 .. 170, then 7
    state = state_after(LAID, BOARDS)
    x = seen_at(state, ("case", "front board")).left - 14  # the sheet's left edge as it lies
    seen = {part: seen_at(state, (part, part)) for part in ("front board", "spine board", "back board")}
    assert seen == {
        "front board": Seen(x + 15, 15, x + 145, 211),
        "spine board": Seen(x + 152, 15, x + 170, 211),
        "back board": Seen(x + 177, 15, x + 307, 211),
    }


def test_boards_are_glued_all_over():
    state = state_after(LAID, BOARDS)
    assert sum(abs(area(one.polygon)) for one in state.glue) == pytest.approx(2 * 130 * 196 + 18 * 196)


def test_a_board_goes_on_the_back_and_lies_as_its_place_does():
    assert last_run(with_steps(BLANKS, BOARDS), PAPERS).refused == (
        "case lies front up, and boards go on its back", "lay it over first: `lay: case`, `up: back`"
    )  # fmt: skip
    turned = last_run(with_steps(BLANKS, LAID, "{lay: front board, head: left}", "{join: front board, onto: case}"), PAPERS)
    assert turned.refused == ("front board lies turned to its place on case", "turn it, or lay it head away")


def test_a_cover_takes_no_more_boards_than_it_is_made_for():
    two = with_steps(BLANKS, LAID, BOARDS, "{join: extra, onto: case}").replace(
        "steps:", "parts: {case: 1, front board: 1, back board: 1, spine board: 1, extra: front board, lining: 1}\nsteps:"
    )
    assert last_run(two, PAPERS).refused == ("case has no place left for extra: it takes 1 of them", "leave this board out")


def test_turn_ins_lie_over_the_boards_head_and_tail_first():
    state = state_after(LAID, BOARDS, "{turn in: case}")
    order = from_the_table(state, "case")
    height = {key: number for number, key in enumerate(order)}
    board, head, corner, side = (
        height[key]
        for key in (("back board", "back board"), ("case", "head turn-in 1"), ("case", "head-left corner"), ("case", "left turn-in"))
    )
    assert height[("case", "back board")] < board < head < corner < side


def test_turn_ins_leave_no_board_bare_at_the_corners():
    # they reach 15 - 2 = 13 mm over each edge, and the mitres overlap: together they cover the whole rim
    state = state_after(LAID, BOARDS, "{turn in: case}")
    view = state.body_of("case").view
    flaps = [key for key in state.placed if key[0] == "case" and "turn-in" in key[1]]
    covered = unary_union([Polygon(seen_polygon(state, key, view)) for key in flaps])
    for part in ("front board", "back board"):
        b = seen_at(state, (part, part))
        left, right = (13, 0) if part == "front board" else (0, 13)
        rim = box(b.left, b.head, b.right, b.tail).difference(box(b.left + left, b.head + 13, b.right - right, b.tail - 13))
        assert rim.difference(covered).area < 1e-6
        inner = box(b.left + left, b.head + 13, b.right - right, b.tail - 13)
        assert inner.intersection(covered).area < 1e-6


def test_turn_ins_are_glued_to_boards_joints_and_one_another():
    state = state_after(LAID, BOARDS, "{turn in: case}")
    held = {(one.panel[1], one.onto) for one in state.glue if one.panel[0] == "case"}
    assert {("head turn-in 1", ("back board", "back board")), ("head turn-in 2", ("case", "joint 1"))} < held
    assert {onto for panel, onto in held if panel == "left turn-in"} == {
        ("back board", "back board"), ("case", "head turn-in 1"), ("case", "tail turn-in 1")
    }  # fmt: skip


@pytest.mark.parametrize(
    ("steps", "what", "hint"),
    [
        (
            (LAID, "{join: [spine board, back board], onto: case}", "{turn in: case}"),
            "2 of the 3 boards of case lie on it; missing: front board", "join front board onto case first",
        ),
        ((LAID, BOARDS, "{turn in: case}", "{turn in: case}"), "case is turned in already", "leave this step out"),
        ((LAID, BOARDS, "{turn in: lining}"), "lining has no turn-ins", "make it with `wrap:`, or fold and glue its flaps one by one"),
        (
            (LAID, BOARDS, "{lay: case, up: front}", "{turn in: case}"),
            "case lies front up, and it is turned in over its back", "lay it over first: `lay: case`, `up: back`",
        ),
    ],
)  # fmt: skip
def test_turning_in_is_refused_with_what_is_missing(steps, what, hint):
    assert last_run(with_steps(BLANKS, *steps), PAPERS).refused == (what, hint)


@pytest.mark.parametrize(
    ("width", "height", "what", "hint"),
    [
        # 40 - 2 = 38 reach
        (
            "30 mm", "196 mm", "the turn-ins of case reach 38.00 mm over end board, which is 30.00 mm wide",
            "make `turn-in:` at most 32.00 mm",
        ),
        (
            "130 mm", "74 mm", "the turn-ins of case reach 38.00 mm from both sides over end board, which is 74.00 mm high",
            "make `turn-in:` at most 39.00 mm",
        ),
    ],
)  # fmt: skip
def test_a_turn_in_wider_than_its_board_is_refused_with_the_figures(width, height, what, hint):
    blanks = f"""
    end board: {{paper: board, width: {width}, height: {height}}}
    other board: {{paper: board, width: 130 mm, height: {height}}}
    case: {{paper: cloth, wrap: [end board, other board], gaps: 7 mm, turn-in: 40 mm}}
    """
    run = last_run(with_steps(blanks, LAID, "{join: [end board, other board], onto: case}", "{turn in: case}"), PAPERS)
    assert run.refused == (what, hint)


def test_a_lining_like_the_cover_s_panels_lies_on_the_boards_and_over_the_turn_ins():
    state = state_after(LAID, BOARDS, "{turn in: case}", LINED)
    order = from_the_table(state, "case")
    assert {key[0] for key in order[-5:]} == {"lining"}
    # 3 mm inside the folds, which lie 1 mm outside the boards
    board, lining = seen_at(state, ("front board", "front board")), seen_at(state, ("lining", "front board"))
    assert (lining.left - board.left, lining.head - board.head, board.tail - lining.tail) == pytest.approx((2, 2, 2))


def test_the_lining_folds_with_its_case():
    state = state_after(LAID, BOARDS, "{turn in: case}", LINED, CLOSED)
    assert sorted(round(abs(angle)) for (part, _), angle in state.angles.items() if part == "lining" and angle) == [90, 90]


def with_block(thick: str, *more: str) -> str:
    things = f"things: {{block: {{width: 130 mm, height: 190 mm, thick: {thick}}}}}\n"
    return things + with_steps(BLANKS, LAID, BOARDS, "{turn in: case}", LINED, CLOSED, *more)


def test_a_block_in_its_case_has_the_room_that_the_layers_leave():
    # 18 between the two cloths, less half a cloth each (0.35), two boards (4), two linings (0.28) and, where the mitres overlap,
    # two turn-ins on either side (1.4): 11.97
    (fit,) = made(with_block("10 mm", "{insert: block, between: [front board, back board]}"), PAPERS).fits
    assert fit.room_depth == pytest.approx(18 - 0.35 - 4 - 0.28 - 1.4)
    assert fit.spare_depth == pytest.approx(11.97 - 10)
    # high as the boards; wide from the spine's inner face (half a cloth, board, turn-in, lining: 2.665) to their open edge (7 + 130)
    assert (fit.room_height, fit.room_width) == pytest.approx((196, 7 + 130 - 2.665))


def test_the_block_lies_against_the_spine_and_in_the_middle_of_the_height():
    state = made(with_block("10 mm", "{insert: block, between: [front board, back board]}"), PAPERS)
    block, spine, board = (seen_at(state, key) for key in (("block", "block"), ("case", "spine board"), ("front board", "front board")))
    assert min(abs(spine.left - block.right), abs(block.left - spine.left)) == pytest.approx(2.665)
    assert block.head - board.head == pytest.approx(3) == board.tail - block.tail


def test_a_block_thicker_than_its_room_is_told_in_figures():
    body = with_block("12 mm", "{insert: block, between: [front board, back board]}")
    assert found_by(inserts_fit, body, PAPERS) == [
        ("blocks", "block is 12 mm thick, but its place has 11.97 mm", "make block at least 2 mm less thick, or its place that much larger")
    ]
    assert found_by(inserts_fit, with_block("10 mm", "{insert: block, between: [front board, back board]}"), PAPERS) == []


def test_faces_that_do_not_lie_over_each_other_take_nothing_between():
    body = "things: {block: {width: 50 mm, height: 50 mm, thick: 1 mm}}\n" + with_steps(
        BLANKS, LAID, BOARDS, "{fold: joint 1/spine board, to: 90}", "{insert: block, between: [front board, back board]}"
    )
    refused = last_run(body, PAPERS).refused
    assert refused is not None and "do not face each other, lying flat before you" in refused[0]
