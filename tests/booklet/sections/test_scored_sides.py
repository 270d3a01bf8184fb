"""Which side of a piece lies up, how it lies, and which pieces of a letter are scored apart.

Groove outside the fold, ridge inside: common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.booklet.scoring.score_drawing import inner_ends, line_kind
from creasewright.booklet.sections.score_guide import build
from creasewright.geometry.point import Point
from creasewright.scoring.lies import lie_of
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.scored_lines import outer_side
from section_cases import DESIGNS, context_of, said, shipped
from small_designs import with_steps, worked_of

STRIP = "strip: {height: 100 mm, across: [a: 30 mm, b: 40 mm, c: 50 mm]}"


def members_of(*steps: str, blanks: str = STRIP) -> tuple[Member, ...]:
    return scored_members(worked_of(with_steps(blanks, *steps)))


def places(member: Member, number: int = 0) -> list[float]:
    return [float(x) for x in member.passes[number].positions]


def test_a_fold_that_brings_the_fronts_together_has_the_back_outside() -> None:
    # 180: the fronts touch, so the back is seen all round the closed fold: it lies up
    assert outer_side([180.0]) == "back"
    assert outer_side([-180.0]) == "front"
    assert outer_side([-90.0, -180.0]) == "front"
    assert outer_side([180.0, -180.0]) == "either"
    assert outer_side([]) == ""


def test_a_letter_fold_made_with_the_back_up_is_scored_with_the_front_up() -> None:
    # worked by hand: the maker sees the back and folds both thirds toward himself; the backs meet inside, the front is outside.
    # front up, from the left edge: 30, then 30 + 40 = 70 of 120
    (member,) = members_of("{lay: strip, up: back}", "{fold: a}", "{fold: c}")
    (each,) = member.passes
    assert (each.lie.up, each.lie.quarter) == ("front", 0)
    assert places(member) == [30, 70]


def test_with_the_back_up_positions_are_counted_from_the_edge_that_then_lies_at_the_left() -> None:
    # front up, folded toward the maker: fronts meet, back up. Turned over like a page the right edge lies at the left:
    # 120 - 70 = 50, 120 - 30 = 90
    (member,) = members_of("{fold: a}", "{fold: c}")
    (each,) = member.passes
    assert (each.lie.up, each.lie.quarter) == ("back", 0)
    assert places(member) == [50, 90]


def test_a_line_looks_like_a_mountain_from_the_side_it_is_pressed_on() -> None:
    # hand-worked strip, back up: the fold brings the fronts together under it, so both panels go down from the line
    (member,) = members_of("{fold: a}")
    pressed = {line_kind(line) for line in member.passes[0].lines if line.folds == "one way"}
    assert pressed == {"mountain"}


def test_folds_both_ways_take_two_passes_that_keep_every_position() -> None:
    # a toward the maker (back outside), c away from him (front outside): one line each. More lines none: the front goes first.
    # front up, left edge: c's line at 70. Turned over like a pad the left edge stays: a's line at 30.
    (member,) = members_of("{fold: a}", "{mountain: c}")
    first, second = member.passes
    assert [(each.lie.up, each.number, each.of) for each in (first, second)] == [("front", 1, 2), ("back", 2, 2)]
    assert (places(member, 0), places(member, 1)) == ([70], [30])
    assert (first.lie.quarter, second.lie.quarter) == (0, 2)  # the top points away, then toward the maker
    assert [line_kind(line) for line in first.lines] == ["mountain", "valley"]


@given(st.integers(1, 119), st.integers(0, 100), st.sampled_from(["left", "right", "head", "tail"]))
def test_turning_over_like_a_pad_keeps_what_is_left(x: int, y: int, datum: str) -> None:
    worked = worked_of("blanks:\n  strip: {width: 120 mm, height: 100 mm}\n")
    front, back = (lie_of(worked.blanks[0], up, datum) for up in ("front", "back"))
    seen, turned = front.to_lie.point(Point(x, y)), back.to_lie.point(Point(x, y))
    assert seen.x == turned.x
    assert seen.y + turned.y == front.height
    assert back.quarter == (2 - front.quarter) % 4


def test_a_line_creased_one_way_and_folded_the_other_costs_no_second_pass() -> None:
    (member,) = members_of("{crease: [a/b, b/c]}", "{fold: a}", "{mountain: c}")
    (each,) = member.passes
    assert each.lie.up == "back"
    assert sorted(line.folds for line in each.lines) == ["both ways", "one way"]


def test_a_line_that_no_step_folds_says_so() -> None:
    (member,) = members_of("{fold: a}")
    folds = {float(line.start.x): line.folds for line in member.passes[0].lines}
    assert folds == {50.0: "never", 90.0: "one way"}  # from the right edge of the front: 120 - 70 and 120 - 30


def test_lines_in_two_directions_are_two_drawings_each_from_its_own_edge() -> None:
    blanks = "sheet: {across: [a: 30 mm, b: 70 mm], down: [c: 20 mm, d: 60 mm]}"
    (member,) = scored_members(worked_of(f"blanks:\n  {blanks}\n"))
    runs = [(each.run, float(each.lie.width), float(each.lie.height)) for each in member.passes]
    assert runs == [("down", 100, 80), ("across", 80, 100)]
    assert (places(member, 0), places(member, 1)) == ([30], [20])
    assert member.passes[1].lie.quarter == 3  # the top edge lies at the left


def test_the_edge_that_is_straight_for_longer_is_measured_from() -> None:
    blanks = "strip: {height: 100 mm, across: [a: 30 mm, b: 90 mm], corners: {head-left: {cut: [20 mm, 60 mm]}}}"
    (member,) = members_of("{mountain: a}", blanks=blanks)
    # front up; of the left edge 100 - 60 = 40 is left, so the right one: 120 - 30 = 90 from it, the top toward the maker
    assert places(member) == [90]
    assert member.passes[0].lie.quarter == 2


def test_a_partial_line_knows_which_end_lies_inside() -> None:
    # the middle line is slit over b, so its score runs from the left edge to 30; with the top at the left that end is the far one
    blank = "sheet: {across: [a: 30 mm, b: 70 mm], down: [c: 20 mm, d: 60 mm], slits: {s: {on: c/d, over: [b]}}}"
    (member,) = scored_members(worked_of(f"blanks:\n  {blank}\n"))
    (across,) = [each for each in member.passes if each.run == "across"]
    assert [line.ends_inside for line in across.lines] == [(True, False)]
    assert [float(y) for y in inner_ends(across)] == [70]  # 100 - 30 from the far edge, which was the right one


def test_the_folio_strips_by_hand() -> None:
    # left strip of the front block: both folds bring its fronts together: back up. Right strip: both mountain: front up.
    # The back block is the mirror image, its folds go the same way; its strips have the shape of the other letter.
    # All four are measured from the end without the slanted corner: 10 1/2 - 2 1/4 - 4 1/8 = 4 1/8, and 8 1/4.
    members = scored_members(shipped("seed-swap-folio"))
    told = [(member.mark, member.parts, member.passes[0].lie.up, member.passes[0].lie.quarter) for member in members]
    assert told == [
        ("A1", ("front block/left strip",), "back", 0),
        ("A2", ("back block/right strip",), "front", 2),
        ("B1", ("front block/right strip",), "front", 0),
        ("B2", ("back block/left strip",), "back", 2),
        ("C", ("connector",), "front", 0),
    ]
    for strip in members[:4]:
        assert places(strip) == pytest.approx([4.125 * 25.4, 8.25 * 25.4])
    assert places(members[4]) == pytest.approx([0.75 * 25.4, 25.4])


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("system", ["in", "mm"])
def test_every_score_of_every_part_is_drawn_where_the_blank_has_it(design: str, system: str) -> None:
    worked = shipped(design, system)
    assert worked.finished is not None
    seen: set[str] = set()
    for member in scored_members(worked):
        seen |= set(member.parts)
        own = [line for each in member.passes for line in each.lines if line.own]
        back = [each.lie.to_lie.inverse() for each in member.passes for line in each.lines if line.own]
        length = sum(_long(move.point(line.start), move.point(line.end)) for line, move in zip(own, back, strict=True))
        assert length == pytest.approx(sum(_long(piece.start, piece.end) for piece in member.blank.pieces))
        ends = {_key(move.point(p)) for line, move in zip(own, back, strict=True) for p in (line.start, line.end)}
        assert ends <= {_key(p) for piece in member.blank.pieces for p in (piece.start, piece.end)}
    # a cover that is wrapped round boards folds over their edges and is not scored
    assert seen == {part for part, blank in worked.finished.state.blanks.items() if blank.pieces and blank.wrap is None}


def _long(a: Point, b: Point) -> float:
    return float(((float(a.x) - float(b.x)) ** 2 + (float(a.y) - float(b.y)) ** 2) ** 0.5)


def _key(point: Point) -> tuple[float, float]:
    return round(float(point.x), 3) + 0.0, round(float(point.y), 3) + 0.0


def test_a_line_that_begins_inside_a_piece_is_told_to_be_pressed_only_where_it_is_drawn() -> None:
    # the pop-up's strip folds lie between its two slits; the folio's flaps run out to their edges
    assert "tells where it begins and ends" in said(build(context_of(shipped("welcome-card"), "score guide")))
    assert "tells where it begins and ends" not in said(build(context_of(shipped("seed-packet-envelope"), "score guide")))
