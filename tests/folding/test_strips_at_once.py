"""A strip folded up at many scores in one step: the same as one fold after another, and quick for a thousand panels."""

from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.folding.panel_graph import links
from creasewright.folding.state import State
from creasewright.folding.strip import folded_strip
from creasewright.geometry.rigid_transform import same_place
from small_designs import from_the_table, made, runs_of, with_steps


@st.composite
def folded_up(draw: st.DrawFn) -> tuple[str, list[tuple[str, str]], str]:
    """A strip, its scores with a verb each, and the panel that stays."""
    widths = draw(st.lists(st.integers(10, 60), min_size=4, max_size=9))
    bands = ", ".join(f"p{k}: {wide} mm" for k, wide in enumerate(widths, start=1))
    verbs = draw(st.lists(st.sampled_from(["fold", "mountain"]), min_size=len(widths) - 1, max_size=len(widths) - 1))
    scores = [(f"p{k}/p{k + 1}", verb) for k, verb in enumerate(verbs, start=1)]
    return f"strip: {{height: 40 mm, across: [{bands}]}}", scores, f"p{draw(st.integers(1, len(widths)))}"


def at_once(scores: list[tuple[str, str]], stays: str) -> str:
    keys = [(verb, ", ".join(score for score, own in scores if own == verb)) for verb in ("fold", "mountain")]
    return "{" + ", ".join(f"{verb}: [{names}]" for verb, names in keys if names) + f", stays: {stays}, seen from: front}}"


def one_by_one(scores: list[tuple[str, str]], stays: str) -> list[str]:
    """Farthest from the panel that stays first."""
    home = int(stays[1:])

    def distance(score: str) -> int:
        low = int(score.split("/")[0][1:])
        return low - home + 1 if low >= home else home - low

    ordered = sorted(scores, key=lambda pair: -distance(pair[0]))
    return [f"{{{verb}: {score}, stays: {stays}, seen from: front}}" for score, verb in ordered]


@given(folded_up())
@settings(max_examples=150, deadline=None)
def test_a_strip_folded_at_once_lies_as_one_folded_score_by_score(wish):
    blank, scores, stays = wish
    flat = runs_of(with_steps(blank, "{lay: strip, up: front}"))[0].after
    targets = {("strip", score): 180.0 if verb == "fold" else -180.0 for score, verb in scores}
    direct = folded_strip(flat, flat.body_of("strip"), ("strip", stays), targets)
    runs = runs_of(with_steps(blank, *one_by_one(scores, stays)))
    if direct is None:
        return
    assert [run.refused for run in runs] == [None] * len(runs)
    slow = runs[-1].after
    assert from_the_table(direct, "strip") == from_the_table(slow, "strip")
    assert all(same_place(direct.placed[key], slow.placed[key]) for key in slow.placed)
    assert direct.angles == slow.angles


@given(folded_up())
@settings(max_examples=40, deadline=None)
def test_what_the_quick_answer_leaves_is_still_folded_or_refused(wish):
    blank, scores, stays = wish
    run = runs_of(with_steps(blank, at_once(scores, stays)))[0]
    assert run.refused is None or run.after == run.before


def test_an_even_accordion_is_answered_at_once():
    # equal panels, valley and mountain in turn: the pile grows by one panel on alternate sides and no pile passes a score
    n = 50
    bands = ", ".join(f"p{k}: 20 mm" for k in range(1, n + 1))
    scores = [(f"p{k}/p{k + 1}", "fold" if k % 2 else "mountain") for k in range(1, n)]
    state = made(with_steps(f"strip: {{height: 40 mm, across: [{bands}]}}", at_once(scores, "p1")))
    assert from_the_table(state, "strip") == [("strip", f"p{k}") for k in range(1, n + 1)]


def test_a_pile_that_reaches_past_the_next_score_is_left_to_the_slow_way():
    # p3 of 50 mm folded over p2 of 20 mm lies across the score p1/p2
    blank = "strip: {height: 40 mm, across: [p1: 60 mm, p2: 20 mm, p3: 50 mm]}"
    flat: State = runs_of(with_steps(blank, "{lay: strip, up: front}"))[0].after
    targets = {("strip", "p2/p3"): 180.0, ("strip", "p1/p2"): 180.0}
    assert len(list(links(flat, ["strip"]))) == 2
    assert folded_strip(flat, flat.body_of("strip"), ("strip", "p1"), targets) is None
