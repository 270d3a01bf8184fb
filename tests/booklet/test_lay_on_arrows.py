"""The arrow of a piece that is laid on another: from the piece to a spot well inside the place where it goes, which is seen there."""

from collections.abc import Iterator

import pytest
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from creasewright.booklet.diagrams.axonometric import LOOK_DOWN, draw_space, side_turn
from creasewright.booklet.diagrams.boxes import path_lines
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scales import scale_named
from creasewright.booklet.diagrams.scene import PlanScene, SpaceScene, Spot, Spot3
from creasewright.booklet.diagrams.space_view import seen_at, space_view
from creasewright.booklet.drawing import Group, Item, Shape
from creasewright.booklet.join_pictures import way_in
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.fitting.worked import Worked
from creasewright.pdf.fonts import FontRuler
from creasewright.reading.design import Join
from section_cases import DESIGNS, shipped
from small_designs import worked_of

RULER = FontRuler()
WELL_IN = 4.0
"""mm on the page"""
Ends = tuple[Spot, Spot]


def laid(worked: Worked) -> Iterator[PlanScene | SpaceScene]:
    for steps in pictured_steps(worked):
        for run, picture in zip(steps.runs, steps.pictures, strict=True):
            scene = picture.plan or picture.space
            if isinstance(run.written.action, Join) and scene is not None and scene.slides:
                yield scene


def drawn_ends(items: tuple[Item, ...]) -> Ends:
    """Tail and tip of the one block arrow, in the frame of the whole picture's group."""
    (group,) = items
    assert isinstance(group, Group)
    (arrow,) = [item for item in group.items if isinstance(item, Shape) and item.role == "slide arrow"]
    (corners,) = path_lines(arrow.path)
    (ax, ay), (bx, by) = corners[0], corners[6]
    return ((ax + bx) / 2, (ay + by) / 2), corners[3]


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_the_arrow_leads_from_the_piece_well_into_its_place(design: str, system: str) -> None:
    for scene in laid(shipped(design, system)):
        if not isinstance(scene, PlanScene):
            continue
        picture = draw_plan(scene, 88, 92, RULER)
        mm = scale_named(picture.scale)[1]
        tail, tip = (Point(x / mm, y / mm) for x, y in drawn_ends(picture.items))
        held = unary_union([Polygon(facet.polygon).buffer(0.01) for facet in scene.facets if facet.lifted])
        place = next(Polygon(ring) for ring in scene.landing if Polygon(ring).contains(tip))
        assert place.exterior.distance(tip) * mm >= WELL_IN - 1e-6
        assert held.distance(tip) * mm >= WELL_IN - 1e-6
        assert held.contains(tail)


def test_on_a_narrow_tab_that_a_large_piece_comes_to_the_arrow_ends_on_the_tab() -> None:
    found = [scene for scene in laid(shipped("seed-swap-folio")) if isinstance(scene, PlanScene)]
    tabs = [(scene, [facet for facet in scene.facets if facet.part == "connector" and not facet.lifted]) for scene in found]
    blocks = [(scene, facets) for scene, facets in tabs if facets][:2]  # then comes the mat of the cover
    assert len(blocks) == 2
    for scene, facets in blocks:
        picture = draw_plan(scene, 88, 92, RULER)
        mm = scale_named(picture.scale)[1]
        _, (x, y) = drawn_ends(picture.items)
        assert any(Polygon(facet.polygon).contains(Point(x / mm, y / mm)) for facet in facets)


def square(x: float, y: float, side: float) -> tuple[Spot, ...]:
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side))


def test_a_piece_that_would_hide_its_place_is_held_farther_off() -> None:
    # 100 mm square, glued by a strip 20 mm high along its upper edge: 60 mm aside and 45 up leave a square of 60 x 20 to see,
    # with room for a round of 10 mm, as the strip has itself: a round of 5 is asked for
    work = [square(0, 0, 200)]
    strip = ((20.0, 40.0), (120.0, 40.0), (120.0, 60.0), (20.0, 60.0))
    (dx, dy), _ = way_in([square(20, 40, 100)], work, (strip,))
    assert (dx, dy) == pytest.approx((-60, -45))
    # a square of 30 mm in its corner is then hidden; of 75 mm aside 5 mm of it are seen, of 90 mm 20: room for a round of 10,
    # and of 7.5 is asked for
    corner = square(20, 40, 30)
    (dx, dy), seen = way_in([square(20, 40, 100)], work, (corner,))
    assert (dx, dy) == pytest.approx((-90, -67.5))
    assert sum(Polygon(ring).area for ring in seen) == pytest.approx(20 * 30)


UPRIGHT = """
blanks:
  sheet: {base: {width: 100 mm, height: 80 mm}, flaps: {wall: {at: left of base, depth: 60 mm}}}
  plate: {width: 60 mm, height: 40 mm}
materials: {glue: {kind: glue}}
steps:
  - {lay: sheet, up: back}
  - {fold: wall, to: 90}
  - {join: plate, onto: base, meet: centre}
"""


def on_page(scene: SpaceScene, ring: tuple[Spot3, ...], mm: float) -> Polygon:
    view = space_view(side_turn(scene), LOOK_DOWN)
    return Polygon([(x * mm, y * mm) for x, y in (seen_at(view, spot) for spot in ring)])


def check_seen(scene: SpaceScene) -> None:
    """The tip lies in a place where the piece goes, and not over the piece as it is held; the tail does."""
    (slide,) = scene.slides
    picture = draw_space(scene, 88, 92, ruler=RULER)
    tail, tip = (Point(spot) for spot in drawn_ends(picture.items))
    mm = scale_named(picture.scale)[1]
    held = unary_union([on_page(scene, facet.polygon, mm).buffer(0.01) for facet in scene.facets if facet.part in slide.parts])
    assert any(on_page(scene, place.polygon, mm).contains(tip) for place in slide.places)
    assert held.distance(tip) > 0.5
    assert held.contains(tail)
    assert tail.distance(tip) >= 9 - 1e-6


def test_on_a_standing_thing_the_arrow_ends_where_the_place_is_seen() -> None:
    (scene,) = [scene for scene in laid(worked_of(UPRIGHT)) if isinstance(scene, SpaceScene)]
    assert [(place.part, place.panel) for place in scene.slides[0].places] == [("sheet", "base")]
    check_seen(scene)
    _, front, _, lining, other = [scene for scene in laid(shipped("season-album")) if isinstance(scene, SpaceScene)]
    for each in (front, lining, other):
        check_seen(each)


def test_an_arrow_to_a_place_that_is_not_seen_comes_out_from_over_the_piece_and_ends_inside_the_rim() -> None:
    (scene,) = [scene for scene in laid(shipped("bulb-bag", "mm")) if isinstance(scene, SpaceScene)]
    picture = draw_space(scene, 88, 92, ruler=RULER)
    (_, low), tip = drawn_ends(picture.items)
    mm = scale_named(picture.scale)[1]
    card = unary_union([on_page(scene, facet.polygon, mm) for facet in scene.facets if facet.part == "bottom card"])
    assert card.distance(Point(tip)) > 1
    assert tip[1] - low < 60 * mm  # of the 180 mm down to the foot
