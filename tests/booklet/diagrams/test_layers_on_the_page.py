"""Layers in plan: what shows of each facet, how flaps fan out, what of each line is hidden, where slivers lie."""

import flat_scenes
import pytest
from flat_scenes import IN, SCORE, facet, rectangle
from shapely.geometry import Polygon
from shapely.ops import unary_union

from creasewright.booklet.diagrams.layer_spread import spread
from creasewright.booklet.diagrams.paper_fill import layer_slivers, lifted_slivers, visible_parts
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.plan_work import joined, work_of
from creasewright.booklet.diagrams.scene import PlanScene
from creasewright.booklet.diagrams.visible_lines import visible_chains
from creasewright.geometry.clip import total_area


@pytest.mark.parametrize("name", flat_scenes.ALL)
def test_visible_areas_add_up_to_the_area_of_all_facets_together(name: str) -> None:
    facets = spread(flat_scenes.ALL[name]().facets, 0.25)
    shown = sum(total_area(each.rings) for each in visible_parts(facets))
    # shapely's union as an independent kernel; a hole shows what is under it, else it is no paper
    whole = unary_union([Polygon(each.polygon, each.holes) for each in facets]).area
    assert shown == pytest.approx(whole, abs=0.05)


def test_a_lower_facet_shows_through_a_hole_of_a_higher_one() -> None:
    under, card = (
        facet(rectangle(0, 0, 50, 50), part="under"),
        facet(rectangle(0, 0, 50, 50), part="card", holes=(rectangle(10, 10, 20, 20),)),
    )
    low, high = visible_parts(spread((under, card), 1.0))
    assert total_area(low.rings) == pytest.approx(20 * 20)
    assert total_area(high.rings) == pytest.approx(50 * 50 - 20 * 20)


def test_a_folded_flap_fans_out_by_a_millimetre_at_its_free_edge_and_not_at_its_fold() -> None:
    page, flap = spread(flat_scenes.strip_folded().facets, 0.25)
    at_fold = [spot for spot in flap.polygon if abs(spot[1] - SCORE / 4) < 1e-6]
    assert sorted(x for x, _ in at_fold) == pytest.approx([0, 5 * IN / 4])
    far = min(flap.polygon, key=lambda spot: spot[1])
    assert far[0] == pytest.approx(5 * IN / 4 + 1.0)
    assert page.polygon[1][0] == pytest.approx(5 * IN / 4)


def test_a_second_layer_over_a_fanned_one_fans_out_farther() -> None:
    middle, first, second = spread(flat_scenes.three_layers().facets, 0.5)
    assert max(y for _, y in middle.polygon) == pytest.approx(5 * IN / 2)
    assert max(y for _, y in first.polygon) == pytest.approx(5 * IN / 2 + 1)
    assert max(y for _, y in second.polygon) == pytest.approx(5 * IN / 2 + 2)


def test_a_flap_whose_edges_read_by_themselves_is_not_fanned() -> None:
    page = facet(rectangle(0, 0, 100, 100), ["cut", "cut", "folded", "cut"])
    flap = facet(rectangle(30, 60, 40, 40), ["cut", "cut", "folded", "cut"], panel="flap", side="back")
    assert spread((page, flap), 0.5)[1].polygon == tuple((x / 2, y / 2) for x, y in rectangle(30, 60, 40, 40))


def test_panels_that_hang_together_fan_out_together() -> None:
    page = facet(rectangle(0, 0, 100, 100), ["cut", "cut", "folded", "cut"])
    flap = facet(rectangle(0, 60, 100, 40), ["score", "cut", "folded", "cut"], panel="flap", side="back")
    tab = facet(rectangle(0, 40, 100, 20), ["cut", "cut", "score", "cut"], panel="tab", side="back")
    _, lower, upper = spread((page, flap, tab), 0.5)
    assert min(lower.polygon, key=lambda s: (s[1], s[0])) == pytest.approx(max(upper.polygon, key=lambda s: (s[1], -s[0])))


def test_nothing_moves_without_fanning() -> None:
    scene = flat_scenes.three_layers()
    for before, after in zip(scene.facets, spread(scene.facets, 1.0, fan=False), strict=True):
        assert after.polygon == before.polygon


def test_the_sliver_lies_outside_the_flap_and_on_the_work() -> None:
    facets = spread(flat_scenes.strip_folded().facets, 0.25)
    (rings,) = layer_slivers(facets)
    page, flap = (Polygon(each.polygon) for each in facets)
    sliver = Polygon(rings[0])
    assert sliver.intersection(flap).area < 1e-3
    assert sliver.difference(page).area < 1e-3
    # along the slanted edge: (5 in, 1 in) / 4 long, less what sticks out to the right; 0.65 wide
    edge = (5**2 + 1) ** 0.5 * IN / 4
    assert sliver.area == pytest.approx(0.65 * edge, rel=0.06)


def test_a_lifted_piece_throws_its_sliver_right_and_down() -> None:
    facets = spread((facet(rectangle(0, 0, 40, 20), lifted=True),), 1.0)
    (rings,) = lifted_slivers(facets)
    # 1.1 right and down: two bands, 1.1 x 20 and 1.1 x 40, less the two ends, and the corner once
    assert total_area(rings) == pytest.approx(1.1 * 20 + 1.1 * 40 - 1.1 * 1.1)


def test_a_line_under_the_seam_of_two_higher_facets_is_hidden() -> None:
    left, right = facet(rectangle(0, 0, 10, 10)), facet(rectangle(10, 0, 10, 10))
    assert visible_chains(((10.0, -5.0), (10.0, 15.0)), spread((left, right), 1.0)) == [
        ((10.0, -5.0), (10.0, 0.0)),
        ((10.0, 10.0), (10.0, 15.0)),
    ]


def test_a_line_on_the_rim_of_a_higher_facet_shows() -> None:
    assert visible_chains(((10.0, 0.0), (10.0, 10.0)), spread((facet(rectangle(0, 0, 10, 10)),), 1.0)) == [
        ((10.0, 0.0), (10.0, 10.0))
    ]


def test_a_line_across_a_hole_shows_in_the_hole() -> None:
    card = facet(rectangle(0, 0, 30, 30), holes=(rectangle(10, 10, 10, 10),))
    assert visible_chains(((0.0, 15.0), (30.0, 15.0)), spread((card,), 1.0)) == [((10.0, 15.0), (20.0, 15.0))]


def test_a_score_over_several_panels_is_one_dashed_line() -> None:
    pieces = [
        ("valley", ((0.0, 5.0), (10.0, 5.0))),
        ("valley", ((20.0, 5.0), (10.0, 5.0))),
        ("valley", ((10.0, 5.0), (10.0, 9.0))),
    ]
    assert sorted(len(chain) for _, chain in joined(pieces)) == [2, 3]


def test_a_score_shared_by_two_panels_is_drawn_once() -> None:
    work = work_of(PlanScene(flat_scenes.strip_flat().facets), 0.25, NORMAL)
    assert [getattr(item, "role", "") for item in work.lines].count("line valley") == 1


def test_a_flap_that_would_stick_out_over_another_piece_stays_true() -> None:
    scene = flat_scenes.two_meet()
    pocket = next(each for each in spread(scene.facets, 0.25) if each.source.part == "left strip" and each.source.panel == "flap")
    assert pocket.polygon == tuple((x / 4, y / 4) for x, y in pocket.source.polygon)
