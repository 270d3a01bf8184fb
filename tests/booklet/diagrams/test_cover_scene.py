"""What is thin stands on the cover; steps between layers that nobody would see are closed."""

from msgspec.structs import replace

from creasewright.booklet.diagrams.cover_scene import CLOSE, NEAR, cover_scene
from creasewright.booklet.diagrams.scene import Facet3, SpaceScene


def sheet(x0: float, y0: float, x1: float, y1: float, z: float) -> Facet3:
    return Facet3(
        polygon=((x0, y0, z), (x1, y0, z), (x1, y1, z), (x0, y1, z)),
        part="a", panel="p", letter="A", side="front", normal=(0.0, 0.0, -1.0), fill="paper 1 front", back_fill="paper 1 back",
        motif=None, back_motif=None, axis_x=(1.0, 0.0, 0.0), axis_y=(0.0, 1.0, 0.0), layer=0, edge_kinds=(),
    )  # fmt: skip


def test_a_thin_thing_stands_on_its_bottom_edge() -> None:
    stood = cover_scene(SpaceScene((sheet(0, 0, 100, 150, 0),)))
    heights = [spot[2] for spot in stood.facets[0].polygon]
    assert (min(heights), max(heights)) == (-150, 0)


def test_a_thick_thing_lies_as_it_was_given() -> None:
    scene = SpaceScene((sheet(0, 0, 100, 150, 0), sheet(0, 0, 100, 150, 40)))
    assert cover_scene(scene) == scene


def test_edges_of_layers_that_nearly_meet_are_drawn_as_one() -> None:
    inner = NEAR / 2
    scene = SpaceScene((sheet(0, 0, 100, 150, 0), sheet(inner, 0, 100 - inner, 150, 30)))
    assert {(x, y) for facet in cover_scene(scene).facets for x, y, _ in facet.polygon} == {(0, 0), (100, 0), (100, 150), (0, 150)}


def test_a_tie_keeps_to_the_faces() -> None:
    scene = SpaceScene((sheet(0, 0, 100, 150, 0), sheet(0, 0, 100, 150, 40)), ties=(((-2.0, 75.0, -1.0), (102.0, 75.0, 41.0)),))
    assert cover_scene(scene).ties == (((-CLOSE, 75.0, -CLOSE), (100.0 + CLOSE, 75.0, 40.0 + CLOSE)),)


def test_a_thing_open_along_an_upright_fold_stands_and_one_open_otherwise_does_not() -> None:
    slanting = replace(sheet(0, 0, 100, 150, 0), normal=(0.6, 0.0, -0.8))
    other = replace(sheet(0, 0, 100, 150, 0), normal=(0.0, 0.6, -0.8))
    assert cover_scene(SpaceScene((slanting,))) != SpaceScene((slanting,))
    assert cover_scene(SpaceScene((other,))) == SpaceScene((other,))


def test_round_corners_of_what_stands_stay_round() -> None:
    # an upright plate with corners cut off by 1 mm: nearer to each other than the steps that are closed
    spots = ((1.0, 0.0), (39.0, 0.0), (40.0, 1.0), (40.0, 29.0), (39.0, 30.0), (1.0, 30.0), (0.0, 29.0), (0.0, 1.0))
    upright = tuple((x, 50.0, -z) for x, z in spots)
    plate = replace(sheet(0, 0, 1, 1, 0), polygon=upright, normal=(0.0, 1.0, 0.0), axis_y=(0.0, 0.0, 1.0))
    floor = sheet(0, 0, 100, 150, 0)
    assert cover_scene(SpaceScene((floor, plate))).facets[1].polygon == upright
