"""How blanks lie on their sheets for their prints to read upright: small blanks by hand, and the laws of the choice."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from creasewright.fitting.lies import EVERY_LIE, Lie, allowed_lies
from creasewright.fitting.print_turns import Wish, solved_lies, stands, upright
from creasewright.fitting.print_ways import Alternatives, alternatives
from creasewright.fitting.worked import Worked
from creasewright.geometry.rigid_transform import about_vertical, times
from small_designs import with_steps, worked_of

ROOMY = "sheet: [400 mm, 400 mm], caliper: 0.2 mm"


def paper(front: str, back: str = "plain", more: str = "", sheet: str = ROOMY) -> str:
    return f"papers: {{card: {{{sheet}, front: {front}, back: {back}{more}}}}}"


def wishing(blanks: str, *steps: str, upright: str) -> str:
    return with_steps(blanks, *steps) + f"finished: {{upright: [{upright}]}}\n"


def read(worked: Worked) -> dict[str, bool]:
    return {result.wish.panel[1]: result.upright for result in worked.wishes}


# --- faces that stand

TRAY = "tray: {base: {name: base, width: 80 mm, height: 60 mm}, flaps: {wall: {at: each edge of base, depth: 30 mm}}}"
TRAY_STEPS = ["{lay: tray, up: back}", "{fold: [wall 1, wall 2, wall 3, wall 4], to: 90}"]


def walls_by_place(worked: Worked) -> dict[str, int | None]:
    """Where an outer face looks, to the turn of the print there."""
    return {face.looks: face.turn for face in worked.stages[-1].faces if face.panel[1].startswith("wall") and face.side == "front"}


def test_on_the_walls_of_a_tray_up_is_away_from_its_base():
    # the print's up points away from the base on the wall at the head, and to the base on the opposite one; on the other two it runs
    # to the head, which is on the right of one who stands at the right and looks at the tray, and on the left of one at the left
    assert walls_by_place(worked_of(with_steps(TRAY, *TRAY_STEPS), paper("one-way"))) == {"head": 0, "tail": 180, "right": 90, "left": 270}


@pytest.mark.parametrize("wall", ["wall 1", "wall 2", "wall 3", "wall 4"])
def test_a_wall_that_is_wished_upright_turns_the_blank(wall: str):
    worked = worked_of(wishing(TRAY, *TRAY_STEPS, upright=f"{wall} of tray"), paper("one-way"))
    (result,) = worked.wishes
    assert (result.upright, result.turn, result.side) == (True, 0, "front")
    assert len([turn for turn in walls_by_place(worked).values() if turn == 0]) == 1


def test_a_tray_seen_from_another_side_of_the_table_keeps_its_walls_upright():
    # up on a wall is away from the table, whichever way the tray is turned on it
    for by in (0, 90, 180, 270):
        turned = worked_of(with_steps(TRAY, *TRAY_STEPS, f"{{turn: tray, by: {by}}}"), paper("one-way"))
        assert sorted(turn for turn in walls_by_place(turned).values() if turn is not None) == [0, 90, 180, 270]


def test_the_spine_of_a_book_reads_with_the_head_up():
    case = "case: {height: 90 mm, across: [back: 60 mm, spine: 20 mm, front: 60 mm]}"
    steps = ["{lay: case, up: back}", "{fold: [back/spine, spine/front], to: 90}"]
    faces = worked_of(with_steps(case, *steps), paper("one-way")).stages[-1].faces
    assert [face.turn for face in faces if face.panel[1] == "spine" and face.side == "front"] == [0]


def test_a_riser_that_looks_at_the_maker_is_read_with_its_top_up():
    # an upright wall at the head of a floor, like a card that stands open
    blank = "card: {width: 80 mm, down: [wall: 60 mm, floor: 60 mm]}"
    worked = worked_of(wishing(blank, "{fold: wall/floor, to: 90, stays: floor}", upright="wall"), paper("one-way"))
    (result,) = worked.wishes
    assert (result.upright, result.turn) == (True, 0)
    assert worked.lies["card"] == Lie(False, 0)


# --- the side of the paper

HALVES = "card: {SIDEwidth: 80 mm, down: [upper: 60 mm, lower: 60 mm]}"
OVER = "{fold: upper/lower}"


def test_a_blank_that_may_take_either_side_takes_the_one_on_which_more_important_faces_read_upright():
    # folded over, both backs show, upside down to each other: a one-way back cannot do both; turned over, the all-over front shows
    wishes = "lower, upper"
    kept = worked_of(wishing(HALVES.replace("SIDE", ""), OVER, upright=wishes), paper("all-over", "one-way"))
    assert read(kept) == {"lower": True, "upper": False}
    free = worked_of(wishing(HALVES.replace("SIDE", "paper up: either, "), OVER, upright=wishes), paper("all-over", "one-way"))
    assert read(free) == {"lower": True, "upper": True}
    assert free.lies["card"].back_up
    assert {face.print for face in free.stages[-1].faces if face.side == "back"} == {"all-over"}


def test_the_author_may_have_the_back_of_the_paper_up():
    worked = worked_of(wishing(HALVES.replace("SIDE", "paper up: back, "), "{lay: card}", upright="upper"), paper("plain", "one-way"))
    assert worked.lies["card"] == Lie(True, 0)
    fronts = {face.panel[1]: (face.print, face.turn) for face in worked.stages[-1].faces if face.side == "front"}
    assert fronts == {"upper": ("one-way", 0), "lower": ("one-way", 0)}
    (piece,) = worked.pieces
    assert piece.back_up
    seen = worked.paper_of(piece.blank)
    assert seen is not None and (seen.front, seen.back) == ("one-way", "plain")


def test_where_either_side_does_the_front_stays_up():
    worked = worked_of(wishing(HALVES.replace("SIDE", "paper up: either, "), "{lay: card}", upright="upper"), paper("one-way", "two-way"))
    assert worked.lies["card"] == Lie(False, 0)


# --- what stands against a wish


def test_the_wishes_that_outrank_one_are_named():
    first, second = worked_of(wishing(HALVES.replace("SIDE", ""), OVER, upright="lower, upper"), paper("plain", "one-way")).wishes
    assert (first.upright, second.upright, second.turn) == (True, False, 180)
    assert second.outranked_by == (0,)
    assert {lie.turn for lie in second.ways if not lie.back_up} == {180}


@pytest.mark.parametrize(
    ("blank", "more", "sheet", "why"),
    [
        ("grain: height, ", ", grain: height", ROOMY, "grain"),
        ("turn: 0, ", "", ROOMY, "turn"),
        ("", "", "sheet: [70 mm, 100 mm], caliper: 0.2 mm", "sheet"),
    ],
)
def test_what_forbids_the_turn_that_a_wish_needs_is_told(blank: str, more: str, sheet: str, why: str):
    body = wishing(f"card: {{{blank}width: 60 mm, height: 90 mm}}", "{lay: card, head: right}", upright="card")
    # a head to the right wants its print to run to the blank's left: the blank turned by 90 on a sheet that stands upright
    (result,) = worked_of(body, paper("one-way", more=more, sheet=sheet)).wishes
    assert not result.upright
    assert {lie.turn: said for lie, said in zip(result.ways, result.forbidden, strict=True) if not lie.back_up} == {90: why}


# --- alternatives


def ways_out(body: str, papers: str, number: int) -> Alternatives:
    worked = worked_of(body, papers)
    part = worked.wishes[number].wish.panel[0]
    return alternatives(number, worked.wishes, worked.papers["card"], worked.lies[part], "mm")


def test_two_faces_that_need_opposite_turns_are_parted_at_the_score_between_them():
    found = ways_out(wishing(HALVES.replace("SIDE", ""), OVER, upright="lower, upper"), paper("plain", "one-way"), 1)
    assert found.split is not None
    assert (found.split.score, found.split.joint, found.split.length) == ("upper/lower", 10.0, pytest.approx(80.0))
    first, second = found.split.halves
    # 60 high with the joint of 10 beyond the score
    assert (first.panels, first.width, first.height) == (("upper",), pytest.approx(80.0), pytest.approx(70.0))
    assert (second.panels, second.height) == (("lower",), pytest.approx(60.0))
    assert (first.lie.turn, second.lie.turn) == (180, 0)


def test_a_split_that_would_lose_a_kept_face_is_not_offered():
    # both faces are on one panel, asked for in two views that are upside down to each other: no score parts a panel
    steps = ["{fold: upper/lower, stage: folded}", "{turn: card, by: 180, stage: round}"]
    body = wishing(HALVES.replace("SIDE", ""), *steps, upright="lower in folded, lower in round")
    assert ways_out(body, paper("plain", "one-way"), 1).split is None


def test_the_other_side_is_offered_with_the_faces_that_change_too():
    found = ways_out(wishing(HALVES.replace("SIDE", ""), OVER, upright="lower, upper"), paper("all-over", "one-way"), 1)
    assert found.other_side is not None
    assert (found.other_side.print, found.other_side.changed, found.other_side.lie.back_up) == ("all-over", (0,), True)


def test_the_other_side_is_not_offered_where_it_is_printed_alike():
    assert ways_out(wishing(HALVES.replace("SIDE", ""), OVER, upright="lower, upper"), paper("one-way", "one-way"), 1).other_side is None


def test_a_joint_is_as_wide_in_inches_as_makers_measure():
    worked = worked_of(wishing(HALVES.replace("SIDE", ""), OVER, upright="lower, upper"), paper("plain", "one-way"), system="in")
    found = alternatives(1, worked.wishes, worked.papers["card"], worked.lies["card"], "in")
    assert found.split is not None
    assert found.split.joint == pytest.approx(0.375 * 25.4)


# --- laws

SIDES = st.sampled_from(["plain", "one-way", "two-way", "all-over"])
PANELS = ["a", "b", "c", "d"]


@st.composite
def folded(draw: st.DrawFn) -> Worked:
    """A strip of four panels folded in some of its scores, laid somehow, with some faces wished upright in two stages."""
    way = draw(st.sampled_from(["across", "down"]))
    other = "height" if way == "across" else "width"
    side = draw(st.sampled_from(["", "paper up: back, ", "paper up: either, "]))
    grain = draw(st.sampled_from(["", "grain: height, "]))
    blank = f"strip: {{{side}{grain}{other}: 50 mm, {way}: [{', '.join(f'{name}: 60 mm' for name in PANELS)}]}}"
    scores = draw(st.lists(st.sampled_from(["a/b", "b/c", "c/d"]), unique=True))
    head = draw(st.sampled_from(["away", "left", "right", "near"]))
    steps = [f"{{lay: strip, up: {draw(st.sampled_from(['front', 'back']))}, head: {head}, stage: flat}}"]
    steps += [f"{{fold: {score}, seen from: front, stays: {'b' if score == 'a/b' else 'c'}}}" for score in sorted(scores)[:1]]
    faces = draw(st.lists(st.tuples(st.sampled_from(PANELS), st.sampled_from(["flat", "closed"])), min_size=1, max_size=4, unique=True))
    agrees = draw(st.sampled_from(["head-to-head", "head-to-tail"]))
    runs = draw(st.sampled_from(["height", "width"]))
    more = f", back agrees: {agrees}, runs: {runs}, grain: height"
    return worked_of(
        wishing(blank, *steps, upright=", ".join(f"{panel} in {stage}" for panel, stage in faces)),
        paper(draw(SIDES), draw(SIDES), more),
    )


@given(folded())
@settings(max_examples=60, deadline=None)
def test_no_lie_of_all_eight_that_is_allowed_keeps_more_important_wishes_than_the_chosen_one(worked: Worked):
    wishes = [result.wish for result in worked.wishes]
    card, blank = worked.papers["card"], worked.blanks[0]

    def kept(lie: Lie) -> list[bool]:
        return [upright(wish, card, lie) for wish in wishes]

    allowed = [lie for lie in EVERY_LIE if lie in allowed_lies(blank, card)]
    best = max(kept(lie) for lie in allowed)
    assert kept(worked.lies["strip"]) == best
    # and of those that do as well, the first: front up before back up, little turns before great ones
    assert worked.lies["strip"] == min(lie for lie in allowed if kept(lie) == best)


@given(folded())
@settings(max_examples=40, deadline=None)
def test_seen_from_the_other_side_of_the_table_every_flat_print_stands_the_other_way(worked: Worked):
    for result in worked.wishes:
        wish = result.wish
        round_ = replace(wish, body=replace(wish.body, view=times(about_vertical(180), wish.body.view)))
        for lie in EVERY_LIE:
            here, there = (stands(one, worked.papers["card"], lie) for one in (wish, round_))
            two_way = worked.papers["card"].with_up(lie.back_up).print_of(wish.side or "front") == "two-way"
            assert (here is None) == (there is None)
            if here is not None and there is not None:
                assert there == (here if two_way else (here + 180) % 360)


@given(folded())
@settings(max_examples=40, deadline=None)
def test_all_wishes_seen_from_the_other_side_turn_the_blank_by_half(worked: Worked):
    wishes = [result.wish for result in worked.wishes]
    view = about_vertical(180)
    turned = [replace(wish, body=replace(wish.body, view=times(view, wish.body.view))) for wish in wishes]
    finished = worked.finished
    assert finished is not None
    before, after = (solved_lies(finished.state, worked.papers, some) for some in (wishes, turned))
    assert [result.upright for result in before.results] == [result.upright for result in after.results]
    assert {lie.turn % 180 for lie in before.lies.values()} == {lie.turn % 180 for lie in after.lies.values()}


@given(folded())
@settings(max_examples=40, deadline=None)
def test_a_two_way_print_is_content_wherever_a_one_way_print_is_or_its_opposite(worked: Worked):
    card = worked.papers["card"]
    one, two = replace(card, front="one-way", back="one-way"), replace(card, front="two-way", back="two-way")
    for result, turn in product(worked.wishes, (0, 90, 180, 270)):
        ways = [upright(result.wish, one, Lie(False, turn)), upright(result.wish, one, Lie(False, (turn + 180) % 360))]
        assert upright(result.wish, two, Lie(False, turn)) == any(ways)
        assert not all(ways)


@given(folded())
@settings(max_examples=40, deadline=None)
def test_halves_of_an_offered_split_keep_every_face_that_was_kept_and_the_lost_one(worked: Worked):
    for number, result in enumerate(worked.wishes):
        if result.upright or result.side is None:
            continue
        found = alternatives(number, worked.wishes, worked.papers["card"], worked.lies["strip"], "mm").split
        if found is None:
            continue
        lies = {panel: half.lie for half in found.halves for panel in half.panels}
        assert sorted(lies) == PANELS
        kept: list[Wish] = [other.wish for other in worked.wishes if other.upright] + [result.wish]
        assert all(upright(wish, worked.papers["card"], lies[wish.panel[1]]) for wish in kept)
