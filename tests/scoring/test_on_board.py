"""Pieces of small designs as they come to the stop of a board with a groove every 5 mm."""

import pytest

from creasewright.scoring.lies import Pass
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import passes_on_board, scores_off_grooves
from creasewright.scoring.score_board import Board
from creasewright.scoring.stop_edges import edge_at_stop
from small_designs import with_steps, worked_of

MM = Board(5, 300)


def passes(across: str, *steps: str, board: Board = MM, extra: str = "") -> list[Pass]:
    worked = worked_of(with_steps(f"strip: {{height: 100 mm, across: [{across}]{extra}}}", *steps))
    (member,) = scored_members(worked)
    return list(passes_on_board(member, board))


def seen(each: Pass) -> tuple[str, list[tuple[float, float | None]]]:
    """The edge at the stop; of every setting how far it is from that edge, and its groove."""
    return edge_at_stop(each), [
        (float(each.from_stop(one.place)), None if one.groove is None else float(one.groove)) for one in each.settings
    ]


def test_a_connector_of_20_6_20_is_turned_end_for_end():
    # 20 is a groove; 26 is none, but 46 - 26 = 20 is
    first, second = passes("a: 20 mm, b: 6 mm, c: 20 mm", "{mountain: [a, c]}")
    assert seen(first) == ("left", [(20, 20)]) and seen(second) == ("right", [(20, 20)])
    assert not first.turned and second.turned and (second.set_up, second.set_ups) == (2, 2)
    assert first.lie.up == second.lie.up and (second.lie.quarter - first.lie.quarter) % 4 == 2
    assert [line.start.x for line in second.own] == pytest.approx([20])  # drawn where it lies


def test_a_board_with_its_stop_at_the_right_has_the_same_edge_there():
    (only,) = passes("a: 30 mm, b: 43 mm", "{mountain: a}", board=Board(5, 300, (), "right"))
    assert seen(only) == ("left", [(30, 30)])
    assert [float(line.start.x) for line in only.own] == [43] and only.stop == "right"


def test_a_spacer_is_used_from_the_same_edge():
    first, second = passes("a: 20 mm, b: 6 mm, c: 20 mm", "{mountain: [a, c]}", board=Board(5, 300, (4,)))
    assert seen(first) == ("left", [(20, 20)]) and seen(second) == ("left", [(26, 30)])
    assert second.spacer == 4 and not second.turned


def test_what_no_setting_reaches_stays_in_the_first_set_up_without_a_groove():
    worked = worked_of(with_steps("strip: {height: 100 mm, across: [a: 20 mm, b: 12 mm, c: 22 mm]}", "{mountain: [a, c]}"))
    (member,) = scored_members(worked)
    (only,) = passes_on_board(member, MM)
    assert seen(only) == ("left", [(20, 20), (32, None)])
    # of 54: 32 is 22 from the other edge; nearest 30, and 54 - 20 = 34; the nearer edge's comes first
    (off,) = scores_off_grooves(member, MM)
    assert (off.place, off.nearest) == (32, 30)


def test_both_passes_lie_at_the_same_edge():
    # 33 and 53 of 73 are no grooves from the left, 40 and 20 from the right are
    front, back = passes("a: 33 mm, b: 20 mm, c: 20 mm", "{mountain: a}", "{fold: c}")
    assert (front.lie.up, back.lie.up) == ("front", "back")
    assert edge_at_stop(front) == edge_at_stop(back) == "right" and not back.turned
    assert sorted(seen(front)[1] + seen(back)[1]) == [(20, 20), (40, 40)]


def test_a_pointed_edge_does_not_lie_against_the_stop():
    # the right side has 100 - 40 - 40 = 20 of 100 left, less than a third; 48 from the left is no groove, 103 - 48 = 55 is one
    cut = ", corners: {head-right: {cut: [30 mm, 40 mm]}, tail-right: {cut: [30 mm, 40 mm]}}"
    (only,) = passes("a: 48 mm, b: 55 mm", "{mountain: a}", extra=cut)
    assert seen(only) == ("left", [(48, None)])
    (whole,) = passes("a: 48 mm, b: 55 mm", "{mountain: a}")
    assert seen(whole) == ("right", [(55, 55)])


def test_lines_aslant_are_left_as_they_are():
    square = "page: {width: 100 mm, height: 100 mm, scores: {s: {across: head-right, at: 40 mm}}}"
    (member,) = scored_members(worked_of(with_steps(square, "{fold: s}")))
    assert [each.run for each in member.passes] == ["aslant"]
    assert passes_on_board(member, MM) == member.passes and scores_off_grooves(member, MM) == []
