"""Hidden lines and faces against what can be said without the program: formulas, and another polygon library as oracle."""

import random
from itertools import pairwise
from math import cos, isclose, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from shapely.geometry import Polygon as Oracle
from shapely.ops import unary_union

from creasewright.booklet.diagrams.axonometric import draw_space
from creasewright.booklet.diagrams.edge_strokes import bodies_of
from creasewright.booklet.diagrams.face_view import coarsened, faces_of, spread_stacks
from creasewright.booklet.diagrams.scene import Dimension3, Facet3, Motif, SpaceScene, Spot3
from creasewright.booklet.diagrams.seen_solid import SeenSolid, seen_solid
from creasewright.booklet.diagrams.shade import LIGHT, shade_of, shaded
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at, space_view, standing
from creasewright.booklet.drawing import Group, Item, Shape, Words
from creasewright.geometry.clip import total_area
from creasewright.geometry.rigid_transform import cross, dot

VIEW = space_view(-38, 33)
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
LEFTWARDS, AWAY = (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)


def panel(
    start: Spot3, across: Spot3, down: Spot3, width: float, height: float, name: str, layer: int = 0, kinds: tuple[str, ...] = ()
) -> Facet3:
    """A rectangle seen as written (corner, to the right, down): the normal points to whoever sees it so."""
    normal = cross(down, across)
    corners = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    polygon = tuple(tuple(start[i] + u * across[i] + v * down[i] for i in range(3)) for u, v in corners)
    print_ = Motif("one-way", 1, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0))
    return Facet3(
        polygon, "box", name, "A", "front", normal, "paper 1 front", "paper 1 back", print_, None, across, down, layer, kinds
    )


def box(w: float, d: float, h: float, at: Spot3 = (0.0, 0.0, 0.0), name: str = "") -> tuple[Facet3, ...]:
    """A closed box standing with its far left bottom corner at a place; six panels, their fronts outside."""
    x, y, z = at
    return (
        panel((x, y, z - h), X, Y, w, d, f"{name}lid"),
        panel((x, y + d, z - h), X, Z, w, h, f"{name}near wall"),
        panel((x, y, z - h), Y, Z, d, h, f"{name}left wall"),
        panel((x + w, y + d, z - h), AWAY, Z, d, h, f"{name}right wall"),
        panel((x + w, y, z - h), LEFTWARDS, Z, w, h, f"{name}far wall"),
        panel((x + w, y, z), LEFTWARDS, Y, w, d, f"{name}base"),
    )


def visible_area(seen: SeenSolid) -> dict[str, float]:
    """mm² of the model's page, of each panel that shows."""
    return {
        face.facet.panel: total_area(region)
        for face, region in zip(seen.faces, seen.regions, strict=True)
        if total_area(region) > 1e-3
    }


def outline_of(facets: tuple[Facet3, ...], view: SpaceView = VIEW) -> Oracle:
    return unary_union([Oracle([seen_at(view, spot) for spot in facet.polygon]).buffer(0) for facet in facets])


def shapes(items: tuple[Item, ...]) -> list[Shape]:
    found: list[Shape] = []
    for item in items:
        if isinstance(item, Group):
            found += shapes(item.items)
        elif isinstance(item, Shape):
            found.append(item)
    return found


def test_the_x_axis_of_a_step_runs_to_the_right_and_up_and_the_y_axis_to_the_right_and_down() -> None:
    # turned 38 degrees, looked at from 33 degrees above:
    # x goes to (cos 38, -sin 38 sin 33), y to (sin 38, cos 38 sin 33), z down by cos 33
    assert seen_at(VIEW, X) == pytest.approx((cos(radians(38)), -sin(radians(38)) * sin(radians(33))))
    assert seen_at(VIEW, Y) == pytest.approx((sin(radians(38)), cos(radians(38)) * sin(radians(33))))
    assert seen_at(VIEW, Z) == pytest.approx((0, cos(radians(33))))


def test_looking_straight_down_without_a_turn_is_the_plan() -> None:
    assert seen_at(space_view(0, 90), (3.0, 5.0, -7.0)) == pytest.approx((3, 5))


def test_of_a_closed_box_three_faces_and_nine_edges_are_seen() -> None:
    seen = seen_solid(box(120, 80, 60), VIEW)
    assert set(visible_area(seen)) == {"lid", "near wall", "left wall"}
    assert len(seen.edges) == 9
    assert all(edge.seen == ((0.0, 1.0),) for edge in seen.edges)


def test_each_seen_face_of_a_box_shows_its_area_times_the_cosine_of_its_slant() -> None:
    w, d, h = 120, 80, 60
    areas = visible_area(seen_solid(box(w, d, h), VIEW))
    # the line of sight makes these cosines with up, front and left: sin 33, cos 38 cos 33, sin 38 cos 33
    assert areas["lid"] == pytest.approx(w * d * sin(radians(33)), abs=0.01)
    assert areas["near wall"] == pytest.approx(w * h * cos(radians(38)) * cos(radians(33)), abs=0.01)
    assert areas["left wall"] == pytest.approx(d * h * sin(radians(38)) * cos(radians(33)), abs=0.01)


def test_an_open_box_shows_the_inside_of_its_two_far_walls_and_what_they_leave_of_its_base() -> None:
    w, d, h = 200.0, 140.0, 50.0
    facets = box(w, d, h)[1:]
    seen = seen_solid(facets, VIEW)
    assert set(visible_area(seen)) == {"near wall", "left wall", "right wall", "far wall", "base"}
    # the near and left walls hide of the base a strip as wide as their height h carried along the line of sight to the floor:
    # h cot 33 in all, cos 38 of it towards the far side and sin 38 towards the right; what is left is a rectangle
    reach = h / (sin(radians(33)) / cos(radians(33)))
    left = (w - reach * sin(radians(38))) * (d - reach * cos(radians(38))) * sin(radians(33))
    assert visible_area(seen)["base"] == pytest.approx(left, abs=0.05)
    colours = {face.facet.panel: shade_of(face.colour)[0] for face in seen.faces}
    assert colours["far wall"] == colours["right wall"] == "paper 1 back"
    assert colours["near wall"] == colours["left wall"] == "paper 1 front"


def test_all_that_is_seen_of_overlapping_boxes_is_the_area_of_their_outline_together() -> None:
    facets = box(120, 80, 60) + box(90, 50, 30, (40, 130, 0), "near ") + box(50, 50, 50, (30, 10, -90), "high ")
    seen = seen_solid(facets, VIEW)
    assert sum(visible_area(seen).values()) == pytest.approx(outline_of(facets).area, abs=0.05)


sizes = st.integers(min_value=8, max_value=120)
places = st.integers(min_value=0, max_value=2)


@st.composite
def boxes_apart(draw: st.DrawFn) -> tuple[Facet3, ...]:
    """Boxes in cells of their own, so that none runs into another."""
    cells = draw(st.lists(st.tuples(places, places, places), min_size=1, max_size=4, unique=True))
    found: tuple[Facet3, ...] = ()
    for i, (x, y, z) in enumerate(cells):
        found += box(draw(sizes), draw(sizes), draw(sizes), (130.0 * x, 130.0 * y, 130.0 * z), f"{i} ")
    return found


@settings(max_examples=40, deadline=None)
@given(boxes_apart(), st.integers(0, 1000), st.integers(-80, 80), st.integers(10, 80))
def test_what_is_seen_does_not_depend_on_the_order_of_the_facets(
    facets: tuple[Facet3, ...], seed: int, turn: int, down: int
) -> None:
    view = space_view(turn, down)
    shuffled = random.Random(seed).sample(facets, len(facets))
    one, other = seen_solid(facets, view), seen_solid(shuffled, view)
    assert visible_area(one) == visible_area(other)
    assert one.strokes == other.strokes


@settings(max_examples=40, deadline=None)
@given(boxes_apart(), st.integers(-80, 80), st.integers(10, 80))
def test_what_is_seen_covers_the_outline_once(facets: tuple[Facet3, ...], turn: int, down: int) -> None:
    view = space_view(turn, down)
    seen = seen_solid(facets, view)
    assert sum(map(total_area, seen.regions)) == pytest.approx(outline_of(facets, view).area, abs=0.2)


@settings(max_examples=25, deadline=None)
@given(boxes_apart(), st.integers(-80, 80), st.integers(10, 80))
def test_no_seen_piece_of_an_edge_runs_inside_a_visible_part(facets: tuple[Facet3, ...], turn: int, down: int) -> None:
    seen = seen_solid(facets, space_view(turn, down))
    parts = [Oracle(ring).buffer(-0.01) for region in seen.regions for ring in region]
    for edge in seen.edges:
        for low, high in edge.seen:
            t = (low + high) / 2
            place = [a + t * (b - a) for a, b in zip(edge.start, edge.end, strict=True)]
            middle = Oracle([(place[0] + dx, place[1] + dy) for dx, dy in ((0, 0), (1e-6, 0), (0, 1e-6))])
            assert not any(part.contains(middle) for part in parts)


def test_a_stack_in_one_plane_shows_its_top_from_its_side_and_its_lowest_from_the_other() -> None:
    stack = tuple(panel((0, 0, 0), X, Y, 100, 70, f"layer {k}", layer=k) for k in range(3))
    above, below = space_view(-38, 33), space_view(-38, -33)
    assert set(visible_area(seen_solid(stack, above))) == {"layer 2"}
    assert set(visible_area(seen_solid(stack, below))) == {"layer 0"}


def test_a_folded_panel_whose_normal_turned_over_lies_where_its_layer_says() -> None:
    lower = panel((0, 0, 0), X, Y, 100, 70, "lower", layer=0)
    upside_down = panel((100, 0, 0), LEFTWARDS, Y, 100, 70, "under", layer=1)
    assert upside_down.normal == (0.0, 0.0, 1.0)
    assert set(visible_area(seen_solid((lower, upside_down), VIEW))) == {"lower"}


def test_layers_in_one_plane_are_spread_in_their_order_and_nothing_else_moves() -> None:
    layers = (panel((0, 0, 0), X, Y, 100, 70, f"layer {k}", layer=3 * k) for k in range(3))
    stack = (*layers, panel((200, 0, 0), X, Y, 9, 9, "alone", 7))
    heights = {facet.panel: facet.polygon[0][2] for facet in spread_stacks(stack, 0.5)}
    assert heights == {"layer 0": 0, "layer 1": -0.5, "layer 2": -1.0, "alone": 0}


def test_panels_that_run_through_each_other_are_parted_where_they_cross() -> None:
    # two squares crossing along the middle line of both, seen from the front at the same slant: half of each shows
    s = 0.5**0.5
    one = panel((0, -50 * s, -50 * s), X, (0, s, s), 100, 100, "falling")
    other = panel((0, 50 * s, -50 * s), X, (0, -s, s), 100, 100, "rising")
    seen = visible_area(seen_solid((one, other), space_view(0, 45)))
    assert sum(seen.values()) == pytest.approx(outline_of((one, other), space_view(0, 45)).area, abs=0.05)
    level = visible_area(seen_solid((one, other), space_view(0, 30)))
    assert level["falling"] > 0
    assert level["rising"] > 0


def test_three_panels_that_lie_over_one_another_in_a_ring_each_show_one_end() -> None:
    def strip(k: int) -> Facet3:
        """Side k of a triangle, running on past its corners, the far end lower than the near one."""
        a = radians(120 * k)
        along, across = (cos(a), sin(a), 0.1), (-sin(a), cos(a), 0.0)
        middle = (-30 * across[0], -30 * across[1], 0.0)
        start = tuple(middle[i] - 60 * along[i] - 8 * across[i] for i in range(3))
        return panel(start, along, across, 120, 16, f"strip {k}")

    ring = tuple(strip(k) for k in range(3))
    seen = visible_area(seen_solid(ring, space_view(0, 90)))
    areas = sorted(seen.values())
    assert len(areas) == 3
    assert areas[0] == pytest.approx(areas[2], abs=0.01)
    assert sum(areas) == pytest.approx(outline_of(ring, space_view(0, 90)).area, abs=0.05)


def test_a_folder_standing_open_like_a_v_shows_one_inside_and_hides_part_of_its_far_leaf() -> None:
    # open by 40 degrees, hinge at the back, seen from the front left: the left leaf turns its outside, the right one its inside
    a = radians(70)
    right = panel((0, 0, -100), (cos(a), sin(a), 0), Z, 80, 100, "right leaf")
    left = panel((0, 0, -100), (-cos(a), sin(a), 0), Z, 80, 100, "left leaf")
    seen = seen_solid((right, left), VIEW)
    areas = visible_area(seen)
    whole = {
        face.facet.panel: Oracle([seen_at(VIEW, spot) for spot in face.facet.polygon]).area for face in seen.faces
    }
    nearer = max(("left leaf", "right leaf"), key=lambda name: areas[name] / whole[name])
    assert areas[nearer] == pytest.approx(whole[nearer], abs=0.01)
    assert sum(areas.values()) == pytest.approx(outline_of((right, left)).area, abs=0.05)
    assert len([edge for edge in seen.edges if len(edge.owners) == 2]) == 1


def test_the_outer_silhouette_is_heavier_and_closes_and_inner_edges_are_three() -> None:
    seen = seen_solid(box(120, 80, 60), VIEW)
    heavy = [stroke for stroke in seen.strokes if stroke.style == "silhouette"]
    light = [stroke for stroke in seen.strokes if stroke.style == "inner"]
    assert len(heavy) == 1
    assert heavy[0].places[0] == pytest.approx(heavy[0].places[-1], abs=0.02)
    assert len(heavy[0].places) == 7  # six corners, the first again
    assert sum(len(stroke.places) - 1 for stroke in light) == 3


def test_a_piece_held_over_another_keeps_a_heavy_outline_of_its_own() -> None:
    tray, lid = box(120, 80, 40)[1:], panel((0, 0, -90), X, Y, 120, 80, "sheet")
    seen = seen_solid((*tray, lid), VIEW)
    assert len(set(bodies_of(seen.faces))) == 2
    rim = [spot for stroke in seen.strokes if stroke.style == "silhouette" for spot in stroke.places]
    for x, y in (seen_at(VIEW, corner) for corner in lid.polygon):
        assert any(isclose(x, p, abs_tol=0.02) and isclose(y, q, abs_tol=0.02) for p, q in rim)


def test_a_score_that_two_panels_share_stays_one_dashed_line() -> None:
    kinds = ("cut", "valley", "cut", "cut"), ("cut", "cut", "cut", "valley")
    base = panel((0, 0, 0), X, Y, 60, 80, "base", kinds=kinds[0])
    wall = panel((60, 0, 0), X, Y, 30, 80, "wall", kinds=kinds[1])
    picture = draw_space(SpaceScene((base, wall)), 90, 60)
    dashed = [shape for shape in shapes(picture.items) if shape.pen and shape.pen.dash]
    assert len(dashed) == 1
    assert len(dashed[0].path) == 2


def test_a_bridge_to_a_window_is_no_edge() -> None:
    outer = ((0.0, 0.0, 0.0), (100.0, 0.0, 0.0), (100.0, 100.0, 0.0), (0.0, 100.0, 0.0))
    window = ((30.0, 30.0, 0.0), (30.0, 70.0, 0.0), (70.0, 70.0, 0.0), (70.0, 30.0, 0.0))
    frame = Facet3(
        (*outer, outer[0], *window, window[0]), "mat", "frame", "A", "front", (0.0, 0.0, -1.0), "paper 1 front", "paper 1 back",
        None, None, X, Y,
    )  # fmt: skip
    seen = seen_solid((frame,), VIEW)
    assert len(seen.edges) == 8
    assert sum(map(total_area, seen.regions)) == pytest.approx((100 * 100 - 40 * 40) * sin(radians(33)), abs=0.05)


def test_tones_are_few_named_by_palette_and_follow_the_light() -> None:
    assert dot(LIGHT, LIGHT) == pytest.approx(1)
    # 0.86 + 0.14 cos: fully lit 1.00, square to the light 0.86
    assert shaded("board", LIGHT) == "board"
    assert shaded("board", cross(LIGHT, X)) == "board*0.86"
    assert shade_of("paper 1 front*0.93") == ("paper 1 front", 0.93)
    assert shade_of("board") == ("board", 1.0)
    up, front, left = (shade_of(shaded("wall", way))[1] for way in ((0, 0, -1), Y, LEFTWARDS))
    assert up > front > left


def test_motifs_are_seen_through_their_panels_only() -> None:
    picture = draw_space(SpaceScene(box(120, 80, 60)), 90, 90)
    group = picture.items[0]
    assert isinstance(group, Group)
    panels = unary_union([
        Oracle([(command[1], command[2]) for command in shape.path if command[0] != "Z"]).buffer(0)
        for shape in group.items
        if isinstance(shape, Shape) and shape.role == "faces"
    ])
    faces = [each for each in group.items if isinstance(each, Group) and each.role == "motifs"]
    assert len(faces) == 3  # one group for each seen face
    seen = [Oracle([(command[1], command[2]) for command in face.clip if command[0] != "Z"]) for face in faces if face.clip]
    assert unary_union(seen).symmetric_difference(panels).area < 1e-6 * panels.area
    assert sum(each.area for each in seen) == pytest.approx(panels.area)
    assert all(each.items for each in faces)


def test_the_picture_fits_its_box_and_says_its_scale() -> None:
    for width, height in ((90, 60), (60, 90), (40, 30)):
        picture = draw_space(SpaceScene(box(197, 140, 51)), width, height)
        assert picture.width == width
        assert picture.height <= height
        assert picture.scale.startswith("1:")
    # 197 x 140 turned: 197 cos 38 + 140 sin 38 = 241 wide, so 1:3 is the largest scale within 90
    assert draw_space(SpaceScene(box(197, 140, 51)), 90, 90).scale == "1:3"
    assert draw_space(SpaceScene(box(197, 140, 51)), 90, 90, scale="1:5").scale == "1:5"


class EvenRuler:
    """Every letter half its size wide."""

    def width(self, text: str, face: str, size: float) -> float:
        return len(text) * size * 0.5 * 25.4 / 72

    def ascent(self, face: str, size: float) -> float:
        return size * 0.25

    def descent(self, face: str, size: float) -> float:
        return size * 0.06

    def cap_height(self, face: str, size: float) -> float:
        return size * 0.25


def test_measures_stand_off_along_the_axes_and_keep_within_the_box() -> None:
    w, d, h = 197, 140, 51
    measures = (
        Dimension3((0, d, 0), (w, d, 0), Y, "197 mm"),
        Dimension3((0, 0, 0), (0, d, 0), LEFTWARDS, "140 mm"),
        Dimension3((w, d, -h), (w, d, 0), X, "51 mm"),
    )
    picture = draw_space(SpaceScene(box(w, d, h), dimensions=measures), 90, 90, ruler=EvenRuler())
    group = picture.items[0]
    assert isinstance(group, Group)
    texts = [item.runs[0].text for item in group.items if isinstance(item, Words)]
    assert texts == ["197 mm", "140 mm", "51 mm"]
    assert picture.height <= 90
    with pytest.raises(ValueError, match="ruler"):
        draw_space(SpaceScene(box(w, d, h), dimensions=measures), 90, 90)


def test_a_fold_path_becomes_one_arrow_with_a_head_at_its_end() -> None:
    path = tuple((120 + 60 * cos(radians(a)), 40.0, -60 * sin(radians(a))) for a in range(0, 91, 6))
    picture = draw_space(SpaceScene(box(120, 80, 60), fold_paths=(path,)), 90, 90)
    assert [shape.role for shape in shapes(picture.items)].count("arrow head") == 1


def test_a_scene_with_nothing_in_it_is_refused() -> None:
    with pytest.raises(ValueError, match="facet"):
        draw_space(SpaceScene(()), 90, 90)


def test_standing_a_book_up_puts_its_head_up_and_its_cover_to_the_maker() -> None:
    cover = panel((0, 0, -12), X, Y, 140, 190, "cover")
    upright = standing(SpaceScene((cover,), ties=(((0.0, 95.0, -12.0), (140.0, 95.0, -12.0), (140.0, 95.0, 0.0)),))).facets[0]
    assert upright.polygon[0] == (0, 12, -190)  # the head corner is 190 above the table
    assert upright.polygon[2] == (140, 12, 0)
    assert upright.normal == (0, 1, 0)
    assert faces_of((upright,), VIEW)[0].normal_seen


def test_a_thick_stack_of_paper_is_drawn_with_lines_far_enough_apart_to_read() -> None:
    stack = tuple(panel((0, 0, -0.3 * k), X, Y, 100, 70, f"sheet {k:02}") for k in range(20))
    every, thinned = seen_solid(stack, VIEW), seen_solid(stack, VIEW, 1.1)
    assert every.regions == thinned.regions
    # where the lines that rise to the right cut the head-tail axis of the page
    fronts = sorted(
        y0 - x0 * (y1 - y0) / (x1 - x0)
        for stroke in thinned.strokes
        for (x0, y0), (x1, y1) in pairwise(stroke.places)
        if stroke.style == "inner" and (y1 - y0) * (x1 - x0) < 0
    )
    drawn = [sum(stroke.style == "inner" for stroke in seen.strokes) for seen in (every, thinned)]
    assert drawn[1] < drawn[0]
    assert drawn[1] > 0
    assert all(b - a > 1.1 for a, b in pairwise(fronts))


def test_a_curve_keeps_within_a_fiftieth_of_a_mm_of_the_page_with_fewer_corners() -> None:
    disc = panel((0, 0, 0), X, Y, 1, 1, "disc")
    ring = tuple((20 * cos(radians(2 * k)), 20 * sin(radians(2 * k)), 0.0) for k in range(180))
    fine = replace(disc, polygon=ring)
    coarse = coarsened(fine, 0.5)
    assert len(coarse.polygon) < 90
    before, after = (Oracle([spot[:2] for spot in polygon]) for polygon in (ring, coarse.polygon))
    assert before.hausdorff_distance(after) < 0.02 / 0.5 + 0.01
    assert coarsened(disc, 0.5) is disc
