"""The bulk map: every place of a folded thing with its layers, and its laws."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.geometry.clip import total_area
from creasewright.joining.bulk_map import BulkMap, area_within, bulk_map
from small_designs import made, with_steps

PAPERS = "papers: {card: {sheet: [900 mm, 900 mm], caliper: 0.25 mm}}"
FOAM = "materials: {foam: {kind: foam, thick: 2 mm, sold by: sheet}}\n"


def mapped(blanks: str, *steps: str, before: str = "") -> BulkMap:
    state = made(before + with_steps(blanks, *steps), PAPERS)
    return bulk_map(state, state.bodies[-1])


def sizes(found: BulkMap) -> list[tuple[float, float, list[str]]]:
    """Thickness, area and the panels from the table up, thickest first."""
    return [
        (round(found.thick(cell), 3), round(cell.area, 1), [panel for _, panel in found.layers_at(cell)]) for cell in found.cells
    ]


def test_a_flap_folded_over_makes_a_cell_of_two_layers_and_leaves_one():
    found = mapped("card: {height: 50 mm, across: [flap: 20 mm, page: 60 mm]}", "{fold: flap}")
    assert sizes(found) == [(0.5, 1000.0, ["page", "flap"]), (0.25, 2000.0, ["page"])]


def test_foam_counts_only_where_its_two_panels_meet():
    # a mat of 40 x 30 hangs 10 mm over the page's edge: foam is under the 30 mm that lie on the page
    blanks = "page: {width: 80 mm, height: 60 mm}\nmat: {width: 40 mm, height: 30 mm}"
    step = "{join: mat, onto: page, meet: {right: {from: right, by: -10 mm}, head: {from: head, by: 5 mm}}, with: foam}"
    found = mapped(blanks, step, before=FOAM)
    assert sizes(found) == [
        (2.5, 900.0, ["page", "foam", "mat"]),
        (0.25, 3900.0, ["page"]),
        (0.25, 300.0, ["mat"]),
    ]


def test_panels_that_stand_upright_are_not_in_the_map():
    found = mapped("case: {height: 90 mm, across: [back: 60 mm, spine: 20 mm, front: 60 mm]}", "{fold: [back/spine, spine/front], to: 90}")
    assert [panel for _, panel in (layer.key for layer in found.layers)] in (["back", "front"], ["front", "back"])


def test_a_sliver_between_edges_meant_to_agree_is_left_out():
    # the flap reaches 0.01 mm past the page: a strip of 0.5 mm² that no one sees
    found = mapped("card: {height: 50 mm, across: [flap: 60.01 mm, page: 60 mm]}", "{fold: flap}")
    assert [thick for thick, _, _ in sizes(found)] == [0.5]


def test_the_thickest_place_of_a_zone_is_the_thickest_that_shares_more_than_a_sliver_with_it():
    found = mapped("card: {height: 50 mm, across: [flap: 20 mm, page: 60 mm]}", "{fold: flap, stays: page}")
    left, head, right, tail = found.whole
    flap = found.thickest((left, head, left + 6, tail))
    page = found.thickest((right - 6, head, right, tail))
    barely = found.thickest((left + 19.99, head, right, tail))
    assert flap is not None and page is not None and barely is not None
    assert [found.thick(cell) for cell in (flap, page, barely)] == [0.5, 0.25, 0.25]
    assert area_within(flap, (left, head, left + 6, tail)) == pytest.approx(300)


@st.composite
def accordions(draw: st.DrawFn) -> tuple[str, list[str], list[int]]:
    widths = draw(st.lists(st.integers(20, 60), min_size=2, max_size=7))
    bands = ", ".join(f"p{k}: {wide} mm" for k, wide in enumerate(widths, start=1))
    verbs = [(k, "fold" if k % 2 else "mountain") for k in range(len(widths) - 1, 0, -1)]
    steps = [f"{{{verb}: p{k}/p{k + 1}, seen from: front, stays: p1}}" for k, verb in verbs]
    return f"strip: {{height: 40 mm, across: [{bands}]}}", steps, widths


@given(accordions())
@settings(max_examples=30, deadline=None)
def test_the_paper_of_all_cells_is_the_paper_of_all_panels(drawn: tuple[str, list[str], list[int]]):
    blank, steps, widths = drawn
    found = mapped(blank, *steps)
    assert sum(found.thick(cell) * cell.area for cell in found.cells) == pytest.approx(sum(widths) * 40 * 0.25)
    for cell in found.cells:
        assert found.thick(cell) == pytest.approx(0.25 * len(found.layers_at(cell)))
        assert total_area(cell.polygons()) == pytest.approx(cell.area, abs=1e-3)


@given(accordions())
@settings(max_examples=30, deadline=None)
def test_an_accordion_is_as_thick_at_a_place_as_panels_lie_over_it(drawn: tuple[str, list[str], list[int]]):
    blank, steps, widths = drawn
    found = mapped(blank, *steps)
    # from the first panel on each next one goes the other way: its ends by hand
    ends = [0]
    for k, wide in enumerate(widths):
        ends.append(ends[-1] + (wide if k % 2 == 0 else -wide))
    covers = [(min(a, b), max(a, b)) for a, b in pairwise(ends)]
    places = sorted(set(ends))
    expected = max(sum(a <= low and high <= b for a, b in covers) for low, high in pairwise(places))
    best = found.thickest()
    assert best is not None and found.thick(best) == pytest.approx(0.25 * expected)
