"""Sizes of covers turned in round boards: the boards' outline and the cover's caliper, as a ruler finds them, worked out by hand."""

import pytest

from creasewright.fitting.finished_size import size_of
from creasewright.fitting.gate_measures import measures
from creasewright.fitting.gates import gates_of
from creasewright.fitting.looks import Looking, shown_panels
from creasewright.folding.mirrored import mirrored_state
from creasewright.folding.overlaps import seen_polygon
from creasewright.folding.solid_points import extents
from creasewright.folding.state import State
from creasewright.joining.compass import box
from creasewright.joining.girth import girth
from section_cases import shipped
from small_designs import made, with_steps

PAPERS = """
papers:
  cloth: {{sheet: [600 mm, 600 mm], caliper: {cloth} mm}}
  board: {{sheet: [600 mm, 600 mm], caliper: {board} mm}}
materials: {{glue: {{kind: glue}}}}
"""
BLANKS = """
front board: {paper: board, width: 130 mm, height: 196 mm}
back board: {same as: front board}
spine board: {paper: board, width: 18 mm, height: 196 mm}
case: {paper: cloth, wrap: [back board, spine board, front board], gaps: 7 mm, turn-in: 15 mm}
"""
LAID = ("{lay: case, up: back}", "{join: [front board, spine board, back board], onto: case}")
TURNED = (*LAID, "{turn in: case}")
CLOSED = (*TURNED, "{fold: [joint 1/spine board, spine board/joint 2], to: 90}")


def after(steps: tuple[str, ...], cloth: float = 0.35, board: float = 2.0) -> State:
    return made(with_steps(BLANKS, *steps), PAPERS.format(cloth=cloth, board=board))


def outside(state: State) -> tuple[float, float]:
    return size_of(state, state.body_of("case"))[:2]


def test_a_flat_cover_is_as_large_as_its_cloth():
    # 15 + 130 + 7 + 18 + 7 + 130 + 15; 15 + 196 + 15
    assert outside(after(LAID)) == pytest.approx((322, 226))


@pytest.mark.parametrize(("cloth", "board"), [(0.35, 2.0), (0.25, 3.0), (1.2, 2.0)])
def test_turned_in_it_is_as_large_as_its_boards_and_twice_its_cloth(cloth: float, board: float):
    # the third is thicker than half the board: there the fold of the flat cover lies inside of what a ruler finds
    state = after(TURNED, cloth, board)
    assert outside(state) == pytest.approx((292 + 2 * cloth, 196 + 2 * cloth))
    over_all = [one.mm for one in measures(state, state.body_of("case"), Looking({}, {})) if one.over_all]
    assert over_all == pytest.approx(outside(state))


def test_its_mirror_image_is_as_large():
    assert outside(mirrored_state(after(CLOSED))) == pytest.approx(outside(after(CLOSED)))


def test_flaps_folded_over_without_boards_keep_their_folds():
    folds = ("{lay: case, up: back}", *(f"{{fold: {side} turn-in}}" for side in ("head", "tail", "left", "right")))
    assert outside(after(folds)) == pytest.approx((294, 198))


def test_what_shows_of_it_ends_where_it_is_measured():
    state = after(TURNED)
    body = state.body_of("case")
    shown = box([piece for one in shown_panels(state, body, Looking({}, {})) for piece in one.pieces])
    (left, head, _), (right, tail, _) = extents(state, body)
    assert shown == pytest.approx((left, head, right, tail), abs=0.001)


def test_closed_only_its_fore_edge_goes_round_a_board():
    # from the outside of the spine's cloth to the joint's line 0.35 / 2, then 7 + 130, and the cloth at the fore edge
    assert outside(after(CLOSED)) == pytest.approx((0.35 / 2 + 7 + 130 + 0.35, 196.7))


def test_the_way_round_it_is_that_of_its_boards():
    # flat: twice 292.7, and down both sides from the outermost face to the innermost
    state = after(TURNED)
    body = state.body_of("case")
    thick = size_of(state, body)[2]
    low, high = extents(state, body)
    middle = (low[1] + high[1]) / 2
    assert girth(state, body, "width", middle) == pytest.approx(2 * (292.7 + thick), abs=0.8)


def test_folding_leaves_the_folds_where_the_flat_cover_has_them():
    # half a board's thickness outside the boards' edges: 292 + 2, 196 + 2
    state = after(TURNED)
    body = state.body_of("case")
    left, head, right, tail = box([seen_polygon(state, key, body.view) for stack in body.stacks for key in stack.order])
    assert (right - left, tail - head) == pytest.approx((294, 198))


@pytest.mark.parametrize(
    ("system", "spread", "closed"),
    [
        # mm: boards up(130 + 3 + 2 + 0.5 + 0.14 - 7) = 129 x (190 + 6), spine up(12 + 4 + 1.25 + 0.28 + 1) = 19, joints of 7: 291 x 196
        # and 0.25 of cloth all round; closed 0.125 + 7 + 129 + 0.25
        ("mm", (291.5, 196.5), (136.375, 196.5)),
        # in: boards up(127 + 3.175 + 2 + 0.5 + 0.14 - 6.35) = 127 x (190.5 + 6.35), spine up(12.7 + 5.53 + 1.5875) = 20.6375
        ("in", (287.3375 + 0.5, 197.35), (0.125 + 6.35 + 127 + 0.25, 197.35)),
    ],
)
def test_the_journal_s_case_measures_what_its_boards_do_and_its_cloth(system, spread, closed):
    worked = shipped("garden-journal", system)
    assert worked.finished is not None
    assert worked.finished.size[:2] == pytest.approx(closed)
    flat = next(stage for stage in worked.stages if stage.name == "flat")
    assert flat.size[:2] == pytest.approx(spread)
    gates = {gate.number: gate for gate in gates_of(worked)[""]}
    lined, last = ({one.way: one.mm for one in measures(gates[number].state, gates[number].body, Looking({}, {}))[:2]} for number in (4, 7))
    assert lined["width"] == pytest.approx(spread[0])
    assert last["height"] == pytest.approx(closed[1])


@pytest.mark.parametrize(("system", "board"), [("mm", (113.0, 156.0)), ("in", (111.125, 152.4))])
def test_the_album_s_cover_is_its_board_and_its_paper(system, board):
    # page + square, page height + 2 squares; paper of 0.15 mm
    worked = shipped("season-album", system)
    run = next(one for one in worked.assemblies if one.assembly == "cover").runs[-1]
    body = run.after.body_of(run.parts[0])
    assert size_of(run.after, body)[:2] == pytest.approx((board[0] + 0.3, board[1] + 0.3))
    assert worked.finished is not None
    assert worked.finished.size[1] == pytest.approx(board[1] + 0.3)
