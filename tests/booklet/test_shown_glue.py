"""Adhesive in pictures: hidden between layers, dotted; a piece cut from a sheet with its own corners, in the place where it goes."""

from math import dist

import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.plan_work import work_of
from creasewright.booklet.diagrams.scene import PlanScene
from creasewright.booklet.gate_pictures import wrong_picture
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.fitting.gates import gates_of
from creasewright.fitting.worked import Worked
from creasewright.pdf.fonts import FontRuler
from section_cases import every_item, shipped
from small_designs import worked_of


@pytest.mark.parametrize("system", ["in", "mm"])
def test_glue_at_the_mouth_lies_between_layers_and_is_dotted(system: str) -> None:
    worked = shipped("seed-swap-folio", system)
    shown = 0
    for steps in pictured_steps(worked):
        for gate in gates_of(worked)[steps.assembly.name]:
            for symptom in gate.symptoms:
                if symptom.run is None:
                    continue
                picture = wrong_picture(gate, symptom, (), steps.parts, 60, FontRuler())
                roles = [getattr(item, "role", "") for item in every_item(picture.items)]
                assert "hidden glue" in roles
                assert not {"glue hatch", "glue outline"} & set(roles)
                shown += 1
    assert shown >= 3


def laid_sheet(worked: Worked) -> PlanScene:
    """The last lay-on picture with adhesive."""
    plans = [picture.plan for steps in pictured_steps(worked) for picture in steps.pictures]
    return [plan for plan in plans if plan is not None and plan.glue and plan.slides][-1]


@pytest.mark.parametrize("system", ["in", "mm"])
def test_a_sheet_under_a_rounded_mat_keeps_its_corners_in_the_place_that_is_dotted(system: str) -> None:
    scene = laid_sheet(shipped("seed-swap-folio", system))
    (place,) = scene.landing
    (mark,) = scene.glue
    back = 3.175 if system == "in" else 3.0
    left, head, right, tail = Polygon(place).buffer(-back).bounds
    corners = [(left, head), (right, head), (right, tail), (left, tail)]
    held = unary_union([Polygon(facet.polygon) for facet in scene.facets if facet.lifted])
    seen = [corner for corner in corners if not held.contains(Point(corner))]
    assert len(seen) == 3
    for corner in seen:
        assert min(dist(corner, spot) for spot in mark.polygon) < 0.05
    # on the page too, where the layers fan out
    work = work_of(scene, 1 / 3, NORMAL)
    (ring,) = work.glued
    assert all(dist(spot, (x / 3, y / 3)) < 1e-9 for spot, (x, y) in zip(ring, mark.polygon, strict=True))


ROUND = """
materials: {foam: {kind: foam, thick: 1.5 mm}}
blanks:
  page: {width: 120 mm, height: 120 mm}
  mat: {width: 80 mm, height: 80 mm, corners: {all: {round: RADIUS}}}
steps:
  - {lay: page}
  - {join: mat, onto: page, meet: centre, with: foam}
"""


@pytest.mark.parametrize(("radius", "square"), [("6 mm", True), ("36 mm", False)])
def test_a_sheet_keeps_its_corners_only_where_the_piece_covers_them(radius: str, square: bool) -> None:
    # 3 mm back from the edges: a corner stands (36 - 3) sqrt(2) = 46.7 mm from the middle of a round of 36 mm, outside it
    scene = laid_sheet(worked_of(ROUND.replace("RADIUS", radius)))
    held = unary_union([LineString((*facet.polygon, facet.polygon[0])) for facet in scene.facets if facet.lifted])
    own = [spot for mark in scene.glue for spot in mark.polygon if held.distance(Point(spot)) > 0.01]
    assert (len(own) == 3) == square
