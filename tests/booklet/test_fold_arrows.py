"""The arrow of a fold: from three quarters of the flap's depth to the mirror image of that place in the score, never too short to read."""

from itertools import pairwise
from math import dist

import pytest
from shapely.geometry import LineString, Point, Polygon

from creasewright.booklet.diagrams.axonometric import LOOK_DOWN, draw_space, side_turn
from creasewright.booklet.diagrams.boxes import path_lines
from creasewright.booklet.diagrams.fold_arrow import fold_arrow, fold_curve
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.scales import scale_named
from creasewright.booklet.diagrams.scene import PlanScene
from creasewright.booklet.diagrams.space_paths import page_paths
from creasewright.booklet.diagrams.space_view import seen_at, space_view
from creasewright.booklet.drawing import Shape
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.fitting.worked import Worked
from creasewright.pdf.fonts import FontRuler
from section_cases import DESIGNS, shipped
from small_designs import worked_of

SHORTEST = 9.0
"""mm on the page"""


def folds(worked: Worked) -> list[PlanScene]:
    plans = [picture.plan for steps in pictured_steps(worked) for picture in steps.pictures]
    return [plan for plan in plans if plan is not None and plan.fold_arrows]


def check_three_quarters(scene: PlanScene) -> None:
    """Of each arrow: how far its start and its end are from the score, by the depth of the flap."""
    for arrow in scene.fold_arrows:
        flap = next(facet for facet in reversed(scene.facets) if facet.moves and Polygon(facet.polygon).contains(Point(arrow.start)))
        scores = [LineString((edge.start, edge.end)) for edge in flap.edges if edge.kind in ("valley", "mountain")]
        score = min(scores, key=lambda line: line.distance(Point((arrow.start[0] + arrow.end[0]) / 2, (arrow.start[1] + arrow.end[1]) / 2)))
        (ax, ay), (bx, by) = score.coords
        depths = [abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / score.length for x, y in flap.polygon]
        start, end = (abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / score.length for x, y in (arrow.start, arrow.end))
        assert start == pytest.approx(0.75 * max(depths), abs=0.01)
        assert end == pytest.approx(start, abs=0.2)  # a layer or two of caliper lies between


def test_the_arrow_of_an_envelope_s_flap_begins_far_out_on_it() -> None:
    for system in ("in", "mm"):
        sides, bottom, _, _, top = folds(shipped("seed-packet-envelope", system))
        for scene in (sides, bottom, top):
            check_three_quarters(scene)


SLANTED = """
blanks:
  strip:
    height: 80 mm
    across: [page: 90 mm, flap: 40 mm]
    corners: {head-right: {cut: [40 mm, 40 mm]}}
steps:
  - {lay: strip, up: back}
  - {fold: flap of strip}
"""


def test_it_begins_in_the_middle_of_the_flap_s_breadth_there() -> None:
    (scene,) = folds(worked_of(SLANTED))
    check_three_quarters(scene)
    (arrow,) = scene.fold_arrows
    flap = next(Polygon(facet.polygon) for facet in scene.facets if facet.moves)
    x, y = arrow.start
    _, low, _, high = flap.intersection(LineString(((x, y - 200), (x, y + 200)))).bounds
    # 80 mm long at the score, at 30 mm from it 30 less
    assert high - low == pytest.approx(50)
    assert y == pytest.approx((low + high) / 2)


@pytest.mark.parametrize("chord", [1.0, 4.0, 5.6, 8.9])
def test_a_short_way_is_a_wide_arc_with_a_head_that_fits_it(chord: float) -> None:
    curve = fold_curve((0.0, 0.0), (chord, 0.0), True)
    assert chain_length(curve) > SHORTEST
    assert max(abs(y) for _, y in curve) > 2.5
    drawn = [item for item in fold_arrow("front", curve, "WHITE", NORMAL) if isinstance(item, Shape)]
    (head,) = [path_lines(item.path)[0] for item in drawn if item.role == "arrow head"]
    (shaft,) = [path_lines(item.path)[0] for item in drawn if item.role == "arrow shaft"]
    tip, notch = head[0], head[2]
    assert dist(tip, notch) < 0.4 * chain_length(curve)
    # the shaft comes in at the notch, along the head
    assert dist(shaft[-1], notch) < 0.45
    (ax, ay), (bx, by) = shaft[-3], shaft[-1]
    along = ((bx - ax) * (tip[0] - notch[0]) + (by - ay) * (tip[1] - notch[1])) / dist((ax, ay), (bx, by)) / dist(tip, notch)
    assert along > 0.85


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_in_space_a_way_seen_short_swings_wider_from_the_same_rim(design: str, system: str) -> None:
    for steps in pictured_steps(shipped(design, system)):
        for scene in (picture.space for picture in steps.pictures if picture.space is not None and picture.space.fold_paths):
            view = space_view(side_turn(scene), LOOK_DOWN)
            mm = scale_named(draw_space(scene, 88, 92, ruler=FontRuler()).scale)[1]
            rims = [tuple(c * mm for c in seen_at(view, path[0])) for path in scene.fold_paths]
            for spots in page_paths(scene, view, mm):
                assert sum(dist(a, b) for a, b in pairwise(spots)) > SHORTEST - 1e-6
                assert min(dist(spots[0], rim) for rim in rims) < 1e-6
