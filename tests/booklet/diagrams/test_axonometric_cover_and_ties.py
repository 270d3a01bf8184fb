"""Ribbons, bows, shadows and the ground of the cover."""

from itertools import pairwise
from math import dist

import pytest
from msgspec.structs import replace

from creasewright.booklet.diagrams.axonometric import draw_space
from creasewright.booklet.diagrams.cast_shadow import floor_shadow, without_crumbs
from creasewright.booklet.diagrams.cover_picture import draw_cover
from creasewright.booklet.diagrams.ribbon import PART, ribbon_facets
from creasewright.booklet.diagrams.scene import Facet3, SpaceScene, Spot3
from creasewright.booklet.diagrams.seen_solid import seen_solid
from creasewright.booklet.diagrams.shade import LIGHT, shade_of
from creasewright.booklet.diagrams.space_view import space_view
from creasewright.booklet.drawing import Group, Item, Shape
from creasewright.geometry.clip import total_area

VIEW = space_view(-38, 33)
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def quad(a: Spot3, b: Spot3, c: Spot3, d: Spot3, normal: Spot3, name: str) -> Facet3:
    return Facet3((a, b, c, d), "block", name, "A", "front", normal, "paper 2 front", "paper 2 back", None, None, X, Y)


def block(w: float = 140, d: float = 190, h: float = 40) -> tuple[Facet3, ...]:
    """A closed block on the table, its far left corner at the origin."""
    low = [(0.0, 0.0, 0.0), (w, 0.0, 0.0), (w, d, 0.0), (0.0, d, 0.0)]
    high = [(x, y, -h) for x, y, _ in low]
    sides = [
        quad(high[i], high[(i + 1) % 4], low[(i + 1) % 4], low[i], way, name)
        for i, (way, name) in enumerate((((0, -1, 0), "far"), (X, "right"), (Y, "near"), ((-1, 0, 0), "left")))
    ]
    return (*sides, quad(*high, (0.0, 0.0, -1.0), "top"), quad(*low, Z, "bottom"))


def belt(w: float = 140, d: float = 190, h: float = 40) -> tuple[Spot3, ...]:
    """Over the top, down the right side, under the bottom, up the left side."""
    return (0.0, d / 2, -h), (w, d / 2, -h), (w, d / 2, 0.0), (0.0, d / 2, 0.0)


def shapes(items: tuple[object, ...]) -> list[Shape]:
    found: list[Shape] = []
    for item in items:
        found += shapes(item.items) if isinstance(item, Group) else [item] if isinstance(item, Shape) else []
    return found


def ys(item: Item) -> list[float]:
    assert isinstance(item, Shape)
    return [command[k] for command in item.path for k in range(2, len(command), 2)]


def test_a_ribbon_round_a_block_shows_on_the_sides_that_show_and_nowhere_else() -> None:
    seen = seen_solid((*block(), *ribbon_facets(belt(), 10)), VIEW)
    pairs = zip(seen.faces, seen.regions, strict=True)
    shown = {face.facet.panel: total_area(region) for face, region in pairs if face.facet.part == PART}
    # the four stretches lie on top, right, bottom and left; from the front left above, top and left are seen
    assert shown["0-0"] > 0
    assert shown["0-3"] > 0
    assert shown["0-1"] == shown["0-2"] == 0


def test_a_ribbon_in_the_plane_of_a_cover_lies_on_it_whichever_way_its_line_runs() -> None:
    for line in (belt(), belt()[::-1]):
        seen = seen_solid((*block(), *ribbon_facets(line, 10)), VIEW)
        on_top = [
            (face, total_area(region))
            for face, region in zip(seen.faces, seen.regions, strict=True)
            if face.facet.part == PART and all(abs(spot[2] + 40) < 1e-9 for spot in face.facet.polygon)
        ]
        (face, area), = on_top
        # 140 long, 10 wide, seen at sin 33 = 0.544639
        assert area == pytest.approx(140 * 10 * 0.544639, abs=0.01)
        assert shade_of(face.colour)[0] == "ribbon"


def test_a_tie_is_drawn_with_one_bow_and_a_bow_needs_an_outside_that_shows() -> None:
    tied = draw_space(SpaceScene(block(), ties=(belt(),), tie_width=10), 90, 90)
    assert [shape.role for shape in shapes(tied.items)].count("bow") == 7  # two tails, two loops, two insides, a knot
    behind = ((20.0, -1.0, -30.0), (120.0, -1.0, -30.0), (120.0, -0.5, -30.0), (20.0, -0.5, -30.0))
    hidden = draw_space(SpaceScene(block(), ties=(behind,), tie_width=6), 90, 90)
    assert "bow" not in [shape.role for shape in shapes(hidden.items)]
    assert all(not (shape.fill or "").startswith("ribbon") for shape in shapes(hidden.items))


def test_the_shadow_of_a_level_sheet_has_the_size_of_the_sheet() -> None:
    view = space_view(0, 90)
    sheet = quad((0, 0, -50), (100, 0, -50), (100, 60, -50), (0, 60, -50), (0, 0, -1), "sheet")
    whole = [((-500.0, -500.0), (500.0, -500.0), (500.0, 500.0), (-500.0, 500.0))]
    shadow = floor_shadow((sheet,), 0.0, view, whole)
    assert total_area(shadow) == pytest.approx(6000)
    # moved by the height over the light's steepness: to the right and away
    shift = 50 / -LIGHT[2]
    assert min(x for ring in shadow for x, _ in ring) == pytest.approx(-LIGHT[0] * shift, abs=1e-4)
    assert min(y for ring in shadow for _, y in ring) == pytest.approx(-LIGHT[1] * shift, abs=1e-4)


def test_layers_that_end_a_little_apart_throw_one_plain_shadow() -> None:
    view = space_view(0, 90)
    whole = [((-500.0, -500.0), (500.0, -500.0), (500.0, 500.0), (-500.0, 500.0))]
    ends = (100.0, 101.0, 99.8, 100.6, 100.1)
    rows = tuple(
        quad((0, y, -50), (x, y, -50), (x, y + 12, -50), (0, y + 12, -50), (0, 0, -1), f"row {y}")
        for y, x in zip(range(0, 60, 12), ends, strict=True)
    )
    (rough,) = floor_shadow(rows, 0.0, view, whole)
    (plain,) = floor_shadow(rows, 0.0, view, whole, fine=1.5)
    assert len(rough) == 12
    assert {x - min(x for x, _ in plain) for x, _ in plain} <= {0.0, *ends}
    # of the five ends only those on the convex outline are left: 100, 101, 100.6 and 100.1
    assert len(plain) <= 8
    assert total_area([plain]) >= total_area([rough])


def test_a_hair_of_shadow_beside_the_thing_goes_and_a_shadow_stays() -> None:
    thing = [((0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0))]
    shadow = [((10.0, 10.0), (52.0, 10.0), (52.0, 40.0), (10.0, 40.0))]  # 2 mm of it show
    assert total_area(without_crumbs(shadow, thing, 3.0)) == pytest.approx(40 * 30)
    assert without_crumbs(shadow, thing, 1.5) == shadow


def test_an_inner_edge_seen_for_less_than_asked_is_not_drawn() -> None:
    near_step = quad((20, 190, -20), (24, 190, -20), (24, 190, -16), (20, 190, -16), Y, "window")
    faces = (*block(140, 190, 40), replace(near_step, polygon=tuple((x, y + 0.1, z) for x, y, z in near_step.polygon)))

    def drawn(least: float) -> list[float]:
        strokes = seen_solid(faces, VIEW, 0.0, least).strokes
        assert any(stroke.style == "silhouette" for stroke in strokes)
        return [sum(dist(a, b) for a, b in pairwise(stroke.places)) for stroke in strokes if stroke.style == "inner"]

    every = drawn(0.0)
    assert any(length < 20 for length in every)
    assert drawn(20.0) == [length for length in every if length >= 20]


SIZES = [(140, 30, 190), (140, 190, 12), (200, 140, 50), (40, 40, 200), (300, 200, 5)]


@pytest.mark.parametrize("size", SIZES)
def test_wall_and_floor_make_up_the_ground_and_the_shadow_stays_on_it(size: tuple[float, float, float]) -> None:
    picture = draw_cover(SpaceScene(block(*size)), 176, 148)
    ground = [shape for shape in shapes(picture.items) if shape.role == "ground"]
    assert {"wall", "floor", "shadow"} <= {shade_of(shape.fill or "")[0] for shape in ground}
    for shape in ground:
        xs = [command[1] for command in shape.path if len(command) > 1]
        assert min(xs) >= -1e-3
        assert max(xs) <= 176 + 1e-3
        # 0.065 of the ground's height stands above it: 0.065 / 1.065 of the picture's
        assert min(ys(shape)) >= picture.height * 0.065 / 1.065 - 1e-3
        assert max(ys(shape)) <= picture.height + 1e-3


@pytest.mark.parametrize("size", SIZES)
def test_a_thing_fills_the_width_or_the_height_of_its_ground_and_breaks_the_top_of_it(size: tuple[float, float, float]) -> None:
    picture = draw_cover(SpaceScene(block(*size)), 176, 148)
    lines = [shape for shape in shapes(picture.items) if shape.role == "edge silhouette"]
    across = [command[1] for shape in lines for command in shape.path if len(command) > 1]
    outline = [y for shape in lines for y in ys(shape)]
    ground = [y for shape in shapes(picture.items) if shape.role == "ground" for y in ys(shape)]
    wide, high = (max(across) - min(across)) / 176, (max(outline) - min(outline)) / (max(ground) - min(ground))
    assert high == pytest.approx(1.04, abs=1e-3)
    assert wide == pytest.approx(0.88, abs=1e-3) or (wide < 0.88 and picture.height == pytest.approx(148))
    assert picture.height <= 148 + 1e-9
    assert min(outline) == pytest.approx(0, abs=1e-3)
    assert min(outline) < min(ground)
    assert max(outline) < max(ground)


def test_an_ink_light_cover_has_no_ground() -> None:
    picture = draw_cover(SpaceScene(block()), 176, 148, ground=False)
    assert not [shape for shape in shapes(picture.items) if shape.role == "ground"]


@pytest.mark.parametrize(("out", "drawn"), [(-0.02, False), (0.12, False), (0.5, True)])
def test_what_is_slid_in_is_left_out_where_only_a_scrap_of_it_is_seen(out: float, drawn: bool) -> None:
    # a card of 100 by 100 mm stands right behind a block 100 mm high and reaches over it by a share of its own height
    top = -100.0 - 100.0 * out
    ring = (20.0, -1.0, top), (120.0, -1.0, top), (120.0, -1.0, top + 100), (20.0, -1.0, top + 100)
    card = replace(quad(*ring, Y, "card"), part="card", fill="WHITE", back_fill="WHITE")

    def tones(slid_in: frozenset[str]) -> set[str]:
        picture = draw_cover(SpaceScene((*block(140, 30, 100), card)), 176, 148, slid_in=slid_in)
        return {shade_of(shape.fill or "")[0] for shape in shapes(picture.items) if shape.role == "faces"}

    assert ("WHITE" in tones(frozenset({"card"}))) == drawn
    assert ("WHITE" in tones(frozenset())) == (out > 0)
