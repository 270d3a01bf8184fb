"""Folds that paper does not allow, and the words that say why."""

from itertools import permutations

from creasewright.folding.layer_solver import Rules
from creasewright.folding.panel_graph import links
from small_designs import from_the_table, last_run, made, with_steps

STRIP = "strip: {height: 50 mm, across: [a: 60 mm, b: 40 mm, c: 30 mm]}"


def test_a_score_under_glued_paper_is_locked():
    run = last_run("materials: {glue: {kind: glue}}\n" + with_steps(STRIP, "{fold: b/c}", "{glue: c, onto: b}", "{unfold: b/c}"))
    assert run.refused == (
        "the score between b of strip and c of strip cannot turn: b of strip holds c of strip on both sides of it",
        "fold it before that join, or give the piece that lies across a score on the same line",
    )
    assert run.after == run.before


def test_a_panel_with_paper_over_it_that_stays_cannot_swing_up():
    # c lies folded on b; then a comes over both; c cannot be unfolded under a
    steps = ["{fold: b/c, stays: b}", "{fold: a/b, stays: b}", "{unfold: b/c, stays: b}"]
    run = last_run(with_steps("strip: {height: 50 mm, across: [a: 70 mm, b: 70 mm, c: 60 mm]}", *steps))
    assert run.refused == (
        "c of strip cannot swing that way: a of strip lies over it and stays",
        "fold it the other way, or fold it before that piece is laid on",
    )
    assert run.after == run.before


def test_a_panel_with_paper_under_it_that_stays_cannot_swing_down():
    steps = ["{mountain: b/c, stays: b}", "{mountain: a/b, stays: b}", "{unfold: b/c, stays: b}"]
    run = last_run(with_steps("strip: {height: 50 mm, across: [a: 70 mm, b: 70 mm, c: 60 mm]}", *steps))
    assert run.refused is not None
    assert run.refused[0] == "c of strip cannot swing that way: a of strip lies over it and stays"


def test_the_same_fold_is_free_once_the_upper_panel_is_back():
    steps = ["{fold: b/c, stays: b}", "{fold: a/b, stays: b}", "{unfold: a/b, stays: b}", "{unfold: b/c, stays: b}"]
    state = made(with_steps("strip: {height: 50 mm, across: [a: 70 mm, b: 70 mm, c: 60 mm]}", *steps))
    assert set(state.angles.values()) == {0.0}


def test_a_ring_that_cannot_close_names_the_loop_and_its_gap():
    # four panels round one point; only three of the four scores turn, so the fourth would have to tear
    sheet = "sheet: {across: [a: 50 mm, b: 50 mm], down: [top: 50 mm, bottom: 50 mm]}"
    run = last_run(with_steps(sheet, "{fold: {a/b in top: 90, a/b in bottom: 90, top/bottom in a: 90, top/bottom in b: 0}}"))
    assert run.refused is not None
    assert "do not meet when this is folded" in run.refused[0]
    assert "and 90.00° are left" in run.refused[0]


def test_one_piece_of_a_line_cannot_turn_while_the_rest_holds():
    sheet = "sheet: {across: [a: 50 mm, b: 50 mm], down: [top: 50 mm, bottom: 50 mm]}"
    run = last_run(with_steps(sheet, "{fold: a/b in top}"))
    assert run.refused == (
        "the score between top a of sheet and top b of sheet cannot turn alone: other paper goes round it",
        "name every score that turns in this step",
    )


def test_folds_that_no_order_of_layers_allows_are_told_with_their_panels():
    # all four creases of a right-angled vertex as valleys: Maekawa asks for a difference of two
    sheet = "sheet: {across: [a: 50 mm, b: 50 mm], down: [top: 50 mm, bottom: 50 mm]}"
    run = last_run(with_steps(sheet, "{fold: [a/b, top/bottom]}"))
    assert run.refused == (
        "no order of layers lets bottom a, bottom b, top a, top b lie flat with these folds",
        "check which of the folds are mountain and which valley",
    )


def test_a_fold_to_the_angle_it_has_already_changes_no_layer():
    once = made(with_steps(STRIP, "{fold: b/c}"))
    twice = made(with_steps(STRIP, "{fold: b/c}", "{unfold: b/c, to: 180}"))
    assert from_the_table(once, "strip") == [("strip", "a"), ("strip", "b"), ("strip", "c")]
    assert from_the_table(twice, "strip") == from_the_table(once, "strip")
    assert twice.angles == once.angles


def test_flat_joints_on_one_line_keep_one_order_on_both_sides():
    # three equal rows rolled up, two columns that stay flat to each other: the rows may lie either way round, but alike in both
    sheet = "sheet: {across: [a: 40 mm, b: 40 mm], down: [one: 50 mm, two: 50 mm, three: 50 mm]}"
    state = made(with_steps(sheet, "{fold: {one/two: 180, two/three: 180, a/b: 0}}"))
    body = state.body_of("sheet")
    (stack,) = body.stacks
    rules = Rules(state, list(links(state, body.parts)), stack)
    kinds = set()
    for order in permutations(stack.order):
        if rules.allows(list(order)):
            place = {name: k for k, (_, name) in enumerate(order)}
            kinds.add((place["one a"] < place["three a"], place["one b"] < place["three b"]))
    assert kinds == {(True, True), (False, False)}


def test_a_panel_folded_in_that_reaches_past_the_next_fold_is_creased_by_it():
    # a (45) folded over b (40) reaches 5 mm past b/c, over c; b cannot then turn onto c
    strip = "strip: {height: 50 mm, across: [a: 45 mm, b: 40 mm, c: 90 mm]}"
    run = last_run(with_steps(strip, "{fold: a/b}", "{fold: b/c}"))
    assert run.refused == (
        "the fold creases a of strip, which has no score there: it reaches past the fold line over c of strip",
        "make it short enough to end before that line, or give it a score there",
    )
    # folded away from it, c lies under b, and a reaches past the line on the free side
    away = made(with_steps(strip, "{fold: a/b}", "{mountain: b/c}"))
    assert [name for _, name in from_the_table(away, "strip")] == ["a", "b", "c"]


def test_a_panel_folded_in_that_ends_at_the_next_fold_is_not_creased():
    strip = "strip: {height: 50 mm, across: [a: 40 mm, b: 40 mm, c: 90 mm]}"
    state = made(with_steps(strip, "{fold: a/b}", "{fold: b/c}"))
    assert [name for _, name in from_the_table(state, "strip")] == ["c", "a", "b"]


def test_what_reaches_past_a_fold_line_lands_the_other_way_round():
    # c, folded on b, reaches 20 mm past a/b, over a. b goes under a with c; the free 20 mm stand out on the far side of the line.
    strip = "strip: {height: 50 mm, across: [a: 120 mm, b: 40 mm, c: 60 mm]}"
    under = made(with_steps(strip, "{fold: b/c}", "{mountain: a/b}"))
    assert [name for _, name in from_the_table(under, "strip")] == ["c", "b", "a"]
    # opened again, b comes back beside a, and c over both: never under a, where its free end could not have gone
    again = made(with_steps(strip, "{fold: b/c}", "{mountain: a/b}", "{unfold: a/b}"))
    order = [name for _, name in from_the_table(again, "strip")]
    assert order.index("c") > order.index("a")
    assert order.index("c") > order.index("b")
