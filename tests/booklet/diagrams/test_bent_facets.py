"""Panels bent by curved scores in pictures: flat strips that make the whole panel, and lines only where the paper ends or turns away."""

from math import isclose

import pytest

from creasewright.booklet.diagrams.axonometric import LOOK_DOWN, TURN, draw_space
from creasewright.booklet.diagrams.scene import Facet3, SpaceScene
from creasewright.booklet.diagrams.seen_solid import seen_solid
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.diagrams.space_view import space_view
from creasewright.booklet.fold_pictures import folding
from creasewright.booklet.shown_parts import shown_parts
from creasewright.folding.curved import STRIPS
from creasewright.geometry.rigid_transform import cross, dot, minus, norm
from section_cases import shipped


def closed_facets() -> tuple[Facet3, ...]:
    worked = shipped("bulb-pillow", "mm")
    assert worked.finished is not None
    return space_facets(worked.finished.state, worked.finished.body, shown_parts(worked, worked.assemblies[-1]))


def size_of(facet: Facet3) -> float:
    """mm² of a flat ring in space: half the length of its vector area."""
    total = (0.0, 0.0, 0.0)
    for a, b in zip(facet.polygon, facet.polygon[1:] + facet.polygon[:1], strict=True):
        turned = cross(a, b)
        total = (total[0] + turned[0], total[1] + turned[1], total[2] + turned[2])
    return norm(total) / 2


@pytest.mark.parametrize("panel", ["front", "back", "ear 1", "ear 4"])
def test_the_strips_of_a_panel_are_flat_and_make_the_whole_of_it(panel: str) -> None:
    worked = shipped("bulb-pillow", "mm")
    strips = [facet for facet in closed_facets() if facet.panel == panel]
    assert len(strips) == STRIPS
    whole = worked.blanks[0].panel(panel).area
    assert isclose(sum(map(size_of, strips)), whole, rel_tol=0.01)  # chords for arcs: 20 strips across a lens take 0.5 % off it
    for strip in strips:
        off = [abs(dot(strip.normal, minus(spot, strip.polygon[0]))) for spot in strip.polygon]
        assert max(off) < 0.35  # mm; the normal is that of the strip's middle


def test_lines_are_drawn_where_paper_ends_or_turns_away_and_not_between_strips() -> None:
    view = space_view(TURN, LOOK_DOWN)
    seen = seen_solid(closed_facets(), view)
    kinds = {edge.kind for edge in seen.edges}
    assert kinds == {"cut"}
    faces = seen.faces
    for edge in seen.edges:
        owners = [faces[owner] for owner in edge.owners]
        if len(owners) == 2 and len({face.facet.panel for face in owners}) == 1:
            assert owners[0].normal_seen != owners[1].normal_seen  # the contour of the cylinder
    assert any(stroke.style == "silhouette" for stroke in seen.strokes)


def test_a_bent_panel_seen_along_its_rulings_has_its_section_for_an_outline() -> None:
    picture = draw_space(SpaceScene(closed_facets()), 80.0, 60.0, scale="1:2")
    assert picture.width == 80.0 and 10 < picture.height < 60


def test_pushing_an_ear_in_is_shown_by_a_quarter_circle_about_its_crease() -> None:
    worked = shipped("bulb-pillow", "mm")
    run = next(run for run in worked.assemblies[-1].runs if run.after.curved)
    picture = folding(run, shown_parts(worked, worked.assemblies[-1]))
    assert picture.space is not None
    (path,) = picture.space.fold_paths
    centre = (path[0][0], path[-1][1], path[0][2])  # level with the start, upright under the end
    radii = [norm(minus(spot, centre)) for spot in path]
    assert max(radii) - min(radii) < 1e-6 and min(radii) > 13
