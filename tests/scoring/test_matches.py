"""Scores that must match: found in space, and set alike where that costs nothing."""

from pathlib import Path

from creasewright.reading.read_design import read_design
from creasewright.scoring.meeting_scores import meeting_scores
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.on_board import passes_on_board
from creasewright.scoring.score_board import Board
from creasewright.scoring.stop_edges import edge_at_stop
from creasewright.work_out import work_out
from small_designs import with_steps, worked_of

MM = Board(5, 300)
GLUE = "materials: {glue: {kind: glue}}\n"
DESIGNS = Path(__file__).parents[2] / "designs"
COVER = "cover: {height: 100 mm, across: [a: 30 mm, b: 40 mm]}"
LINED = "{join: lining, onto: b of cover, by: d of lining, meet: {c/d: a/b, head: head}}"


def met(body: str) -> list[tuple[str, str, bool]]:
    return [(" ".join(each.first), " ".join(each.second), each.joined) for each in meeting_scores(worked_of(body))]


def settings(members: tuple[Member, ...], mark: str) -> list[tuple[str, list[float]]]:
    """Edge at the stop and grooves of each set-up."""
    (member,) = [each for each in members if each.mark == mark]
    return [(edge_at_stop(each), [float(one.groove) for one in each.settings if one.groove]) for each in passes_on_board(member, MM)]


def test_scores_of_two_pieces_that_are_joined_along_them_meet():
    lining = "lining: {height: 100 mm, across: [c: 50 mm, d: 30 mm]}"
    assert met(GLUE + with_steps(f"{COVER}\n{lining}", LINED)) == [("cover a/b", "lining c/d", True)]
    beside = LINED.replace("a/b", "{from: a/b, by: 1 mm}")
    assert met(GLUE + with_steps(f"{COVER}\n{lining}", beside)) == []


def test_a_piece_that_meets_another_s_score_is_set_from_the_edge_that_is_as_far():
    # the lining's score is 50 from its left and 30 from its right; the cover's is 30 from its left: both at 30, from these edges
    lining = "lining: {height: 100 mm, across: [c: 50 mm, d: 30 mm]}"
    body = GLUE + with_steps(f"{COVER}\n{lining}", LINED)
    members = scored_members(worked_of(body))
    assert settings(members, "A") == [("left", [30])]
    assert settings(members, "B") == [("right", [30])]
    # by itself the lining is set from the left
    alone = scored_members(worked_of(with_steps(lining, "{mountain: c}")))
    assert settings(alone, "A") == [("left", [50])]


def test_no_edge_is_asked_for_where_none_is_as_far():
    # 45 and 35 of 80 are neither 30 nor 40
    lining = "lining: {height: 100 mm, across: [c: 45 mm, d: 35 mm]}"
    cover, liner = scored_members(worked_of(GLUE + with_steps(f"{COVER}\n{lining}", LINED)))
    assert [(match.own.place, match.other.place, match.turned) for match in cover.matches] == [(30, 45, None)]
    assert [(match.own.place, match.other.place, match.turned) for match in liner.matches] == [(45, 30, None)]


def test_scores_that_are_folded_onto_one_another_meet():
    # a strip of 4 equal panels, folded in half and half again: the outer two scores come to lie on one another
    strip = "strip: {height: 100 mm, across: [a: 40 mm, b: 40 mm, c: 40 mm, d: 40 mm]}"
    assert met(with_steps(strip, "{fold: b/c}")) == [("strip a/b", "strip c/d", False)]
    uneven = "strip: {height: 100 mm, across: [a: 40 mm, b: 40 mm, c: 41 mm, d: 39 mm]}"
    assert met(with_steps(uneven, "{fold: b/c}")) == []


def test_the_folio_s_hinge_must_match_the_scores_of_the_blocks_that_it_joins():
    members = scored_members(work_out(read_design(DESIGNS / "seed-swap-folio.yaml"), "mm"))
    (hinge,) = [each for each in members if each.letter == "C"]
    # 46 wide, folded 20 from either end; the blocks' strips are folded 105 from their straight end
    assert [(float(one.own.place), one.other.mark) for one in hinge.matches if one.joined] == [(26, "B1"), (20, "A2")]
