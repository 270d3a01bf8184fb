"""What would even a wedge: the hinge, the band or the spacer strips, with their figures."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.fitting.evening import EVEN, MOST_STRIPS, Evening, evening
from small_designs import with_steps, worked_of

CARD = 0.4
PAPERS = f"papers: {{card: {{sheet: [900 mm, 900 mm], caliper: {CARD} mm}}, board: {{sheet: A4, caliper: 2 mm}}}}"
FOAM = "materials: {foam: {kind: foam, thick: 4 mm, sold by: sheet}, glue: {kind: glue}}\n"


def evened(body: str, calipers: dict[str, float]) -> Evening:
    finished = worked_of(body + "finished: {front: front}\n", PAPERS).finished
    assert finished is not None
    found = evening(finished.state, finished.body, finished.bulk, calipers)
    assert found is not None
    return found


def wedge(turns: int, turn: str = "30 mm", width: str = "80 mm") -> str:
    """A folded card with `turns` turned in at its open edge, one over another."""
    bands = "".join(f", t{k}: {turn}" for k in range(1, turns + 1))
    blank = f"strip: {{paper: card, height: 50 mm, across: [front: {width}, back: {width}{bands}]}}"
    names = ["back", *(f"t{k}" for k in range(1, turns + 1))]
    rolls = [f"{{fold: {names[k - 1]}/{names[k]}, seen from: front, stays: front}}" for k in range(turns, 0, -1)]
    return with_steps(blank, *rolls, "{fold: front/back, seen from: front}")


def test_an_even_thing_needs_nothing():
    found = evened(wedge(0), {"card": CARD})
    assert (found.wedge, found.strips) == (pytest.approx(0.0), None)


def test_spacers_are_the_fewest_strips_that_close_the_wedge():
    # rolled in three times: three layers more, 1.2 mm; three of card at 0.4, or one of board at 2 mm, which is 0.8 too much
    found = evened(wedge(3), {"card": CARD, "board": 2.0})
    assert found.wedge == pytest.approx(1.2)
    assert found.strips is not None
    assert (found.strips.paper, found.strips.layers, found.strips.thick) == ("card", 3, pytest.approx(1.2))
    # as wide as spacers ever are: the turned-in bands begin 50 mm from the fold
    assert (found.strips.width, found.strips.length) == (pytest.approx(12.0), pytest.approx(50.0))


def test_a_thicker_paper_that_fits_saves_strips():
    found = evened(wedge(3), {"card": CARD, "thick card": 1.2})
    assert found.strips is not None
    assert (found.strips.paper, found.strips.layers) == ("thick card", 1)


def test_spacers_end_before_the_place_that_is_thick_already():
    # the turned-in bands are 70 mm of 80: they begin 10 mm from the fold
    found = evened(wedge(3, turn="70 mm"), {"card": CARD})
    assert found.strips is not None
    assert found.strips.width == pytest.approx(10.0)
    # 4 mm from the fold there is no room for a strip
    assert evened(wedge(3, turn="76 mm"), {"card": CARD}).strips is None


def test_the_band_in_place_of_the_fold_is_as_wide_as_the_open_edge_between_the_middles_of_its_outer_layers():
    found = evened(wedge(3), {"card": CARD})
    # five layers at the open edge: 5 * 0.4 - 0.4
    assert (found.fold, found.needed) == (("strip", "front/back"), pytest.approx(1.6))


def case(spine: str, more: tuple[str, ...] = ()) -> str:
    blanks = f"""
        case: {{paper: card, height: 90 mm, across: [back: 60 mm, spine: {spine}, front: 60 mm]}}
        slip: {{paper: card, width: 20 mm, height: 80 mm}}
        label: {{paper: card, width: 20 mm, height: 20 mm}}
    """
    steps = [
        "{lay: case, up: back}",
        "{join: slip, onto: back, meet: {right: {from: right, by: 2 mm}, head: {from: head, by: 5 mm}}, with: foam}",
        "{fold: [back/spine, spine/front], to: 90, stays: back}",
    ]
    return FOAM + with_steps(blanks, *steps, *more)


def test_a_standing_spine_is_told_how_wide_it_has_to_be():
    # lying back up, the open edge of `back` is its right one: there lies the slip
    found = evened(case("2 mm"), {"card": CARD})
    assert found.hinge == ("case", "spine")
    # 2 mm from middle to middle of the paper hold 1.6 open, against a slip of 0.4 on 4 mm of foam
    assert (found.hinge_width, found.at_spine, found.wedge) == (pytest.approx(2.0), pytest.approx(1.6), pytest.approx(2.8))
    assert found.needed == pytest.approx(4.8)


def test_a_spine_as_wide_as_is_needed_evens_the_thing():
    found = evened(case("4.8 mm"), {"card": CARD})
    assert found.wedge == pytest.approx(0.0)


@given(st.integers(1, 5), st.floats(0.1, 2.5))
@settings(max_examples=25, deadline=None)
def test_the_strips_offered_always_leave_less_than_can_be_seen(turns: int, caliper: float):
    found = evened(wedge(turns), {"spacer": caliper})
    if found.strips is not None:
        assert found.wedge > EVEN
        assert abs(found.wedge - found.strips.thick) <= EVEN
        assert 1 <= found.strips.layers <= MOST_STRIPS


def test_a_standing_spine_is_held_against_the_thickest_place_wherever_that_is():
    # the slip lies in the middle of the cover, 20 mm from both edges: the open edge has two layers, but the cover bows over the slip
    middle = case("2 mm").replace("by: 2 mm", "by: 20 mm")
    found = evened(middle, {"card": CARD})
    assert (found.thickest.mm, found.wedge) == (pytest.approx(4.4), pytest.approx(2.8))
    assert [panel for _, panel in found.thickest.layers] == ["foam", "slip"]
    assert found.needed == pytest.approx(4.8)
    assert evened(case("4.8 mm").replace("by: 2 mm", "by: 20 mm"), {"card": CARD}).wedge == pytest.approx(0.0)


def test_what_is_stuck_on_outside_is_no_matter_of_the_spine():
    outside = ("{lay: front, up: front}", "{stick on: label, onto: front, meet: centre, with: foam}")
    found = evened(case("4.8 mm", outside), {"card": CARD})
    assert found.hinge is not None
    assert (found.wedge, found.needed) == (pytest.approx(0.0), pytest.approx(4.8))
