"""The cover's thing a little open: which leaf is lifted, about which edge, which way it is turned."""

import pytest

from creasewright.booklet.ajar import OPENED, ajar
from creasewright.fitting.worked import Worked
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.compass import faces_maker
from section_cases import DESIGNS, shipped
from small_designs import with_steps, worked_of

OPENS = ("plant-diary", "seed-packet-envelope", "swap-day-card")
"""The designs whose panels all lie in one stack when closed, with nothing round them."""


def opened(worked: Worked) -> tuple[State, Body, set[str]]:
    """The state ajar, its body, and the names of the panels that left the plane of the staying ones."""
    finished = worked.finished
    assert finished is not None
    state, body = ajar(finished.state, finished.body, finished.front)
    level = max((stack for stack in body.stacks), key=lambda stack: len(stack.order))
    return state, body, {panel for stack in body.stacks if stack is not level for _, panel in stack.order}


def small(*steps: str, across: str = "a: 30 mm, b: 40 mm, c: 50 mm") -> Worked:
    return worked_of(with_steps(f"strip: {{height: 100 mm, across: [{across}]}}", *steps) + "finished: {front: a}\n")


def test_the_booklet_shows_its_front_with_the_first_leaf_lifted() -> None:
    # page one lies face down when the last fold is made; two is its own back, the spine is the fold to eight and the one to three
    worked = shipped("plant-diary")
    assert worked.finished is not None
    state, body, lifted = opened(worked)
    assert lifted == {"one", "two"}
    assert faces_maker(front_normal(state.placed["sheet", "one"]), body)
    changed = {key[1] for key, angle in state.angles.items() if angle != worked.finished.state.angles.get(key)}
    assert [abs(state.angles["sheet", name]) for name in sorted(changed)] == pytest.approx([180 * OPENED] * 2)
    names = {frozenset((p.first, p.second)) for p in state.blanks["sheet"].pieces if p.name in changed}
    assert names == {frozenset(("one", "eight")), frozenset(("two", "three"))}


def test_the_letter_card_opens_its_cover_and_the_envelope_its_flap() -> None:
    assert opened(shipped("swap-day-card"))[2] == {"cover"}
    assert "round flap" in opened(shipped("seed-packet-envelope"))[2]
    assert "middle" not in opened(shipped("seed-packet-envelope"))[2]


@pytest.mark.parametrize("design", [name for name in DESIGNS if name not in OPENS])
def test_what_is_tied_or_bent_or_has_walls_between_its_leaves_stays_closed(design: str) -> None:
    finished = shipped(design).finished
    assert finished is not None
    assert ajar(finished.state, finished.body, finished.front) == (finished.state, finished.body)


def test_a_sheet_with_no_fold_and_a_fold_that_stands_stay_as_they_are() -> None:
    for step in ("{lay: strip, up: front}", "{fold: a/b, to: 90}"):
        finished = small(step).finished
        assert finished is not None
        assert ajar(finished.state, finished.body, finished.front) == (finished.state, finished.body)


def test_a_z_fold_lifts_its_topmost_panel_about_the_edge_it_hangs_on() -> None:
    state, body, lifted = opened(small("{fold: a}", "{mountain: c}", across="a: 30 mm, b: 40 mm, c: 35 mm"))
    assert lifted == {"a"}
    assert len(body.stacks) == 2
    still = [seen_corners(state, key, body.view) for key in (("strip", "b"), ("strip", "c"))]
    assert all(abs(x - round(x, 3)) < 1e-3 for corners in still for x, _ in corners)


def test_a_flap_glued_down_is_not_lifted() -> None:
    worked = small("{fold: a}", "{glue: a, onto: b, along: tail}", across="a: 30 mm, b: 60 mm")
    finished = worked.finished
    assert finished is not None
    assert ajar(finished.state, finished.body, finished.front)[0].angles == finished.state.angles


@pytest.mark.parametrize("design", OPENS)
@pytest.mark.parametrize("system", ["in", "mm"])
def test_a_leaf_is_lifted_toward_the_maker(design: str, system: str) -> None:
    state, body, lifted = opened(shipped(design, system))
    assert lifted
    places = {key: _heights(state, key, body) for key in state.placed}
    table = max(z for key, heights in places.items() if key[1] not in lifted for z in heights)  # z runs down
    assert all(z <= table + 1e-6 for heights in places.values() for z in heights)
    assert all(min(places[key]) < table - 5.0 for key in places if key[1] in lifted)


def _heights(state: State, key: PanelKey, body: Body) -> list[float]:
    polygon = state.blanks[key[0]].panel(key[1]).polygon
    return [rotate(body.view, apply(state.placed[key], (x, y, 0.0)))[2] for x, y in polygon]
