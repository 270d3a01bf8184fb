"""Whole plan pictures of flat scenes, in three boxes, in normal and large print; widths of text are the printed face's own."""

from itertools import pairwise

import flat_scenes
import pytest
from msgspec.structs import replace

from creasewright.booklet.diagrams.boxes import Box, path_lines, words_box
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.diagrams.picture_style import LARGE_PRINT, NORMAL, PictureStyle
from creasewright.booklet.diagrams.plan_view import draw_plan
from creasewright.booklet.diagrams.scene import Dimension, Named, Picture, PlanScene
from creasewright.booklet.drawing import Group, Item, Shape, Words
from creasewright.pdf.fonts import FontRuler

RULER = FontRuler()
BOXES = {"a half": (88.0, 90.0), "two thirds": (119.0, 75.0), "the full width": (181.0, 120.0)}


def flat_items(items: tuple[object, ...], dx: float = 0.0, dy: float = 0.0) -> list[tuple[Item, float, float]]:
    found: list[tuple[Item, float, float]] = []
    for item in items:
        if isinstance(item, Group):
            found += flat_items(item.items, dx + item.dx, dy + item.dy)
        else:
            assert isinstance(item, Shape | Words)
            found.append((item, dx, dy))
    return found


def with_role(picture: Picture, role: str) -> list[tuple[Item, float, float]]:
    return [each for each in flat_items(picture.items) if getattr(each[0], "role", "") == role]


def said(picture: Picture, role: str) -> list[str]:
    return ["".join(run.text for run in item.runs) for item, _, _ in with_role(picture, role) if isinstance(item, Words)]


@pytest.mark.parametrize("box", BOXES)
@pytest.mark.parametrize("name", flat_scenes.ALL)
@pytest.mark.parametrize("style", [NORMAL, LARGE_PRINT], ids=["normal", "large print"])
def test_nothing_is_set_over_anything_and_the_picture_stays_in_its_box(name: str, box: str, style: PictureStyle) -> None:
    width, height = BOXES[box]
    picture = draw_plan(flat_scenes.ALL[name](), width, height, RULER, style=style)
    assert overlaps(picture.items, RULER, picture.width, picture.height) == []
    assert picture.width <= width + 1e-6
    assert picture.height <= height + 1e-6


@pytest.mark.parametrize("name", flat_scenes.ALL)
def test_every_measure_name_and_letter_of_the_scene_is_in_the_picture(name: str) -> None:
    scene = flat_scenes.ALL[name]()
    picture = draw_plan(scene, 120, 75, RULER)
    repeated = [action.text for action in scene.actions if action.kind == "repeat"]
    angles = [f"{arrow.angle:g}°" for arrow in scene.fold_arrows if arrow.kind == "lift"]
    assert sorted(said(picture, "measure")) == sorted([dim.text for dim in scene.dimensions] + angles)
    assert sorted(" ".join(said(picture, "label")).split()) == sorted(" ".join(named.text for named in scene.names).split())
    assert sorted(said(picture, "tag")) == sorted({facet.letter for facet in scene.facets} | set(repeated))


def test_the_largest_scale_that_fits_is_taken() -> None:
    # the strip is 10 1/4 in = 260.35 mm long: 86.8 mm at 1:3 with a name above it is more than 90; 65.1 at 1:4 is not
    assert draw_plan(flat_scenes.strip_flat(), 88, 90, RULER).scale == "1:4"
    assert draw_plan(flat_scenes.strip_flat(), 88, 95, RULER).scale == "1:3"


def test_a_given_scale_is_kept_even_if_the_picture_outgrows_its_box() -> None:
    picture = draw_plan(flat_scenes.strip_flat(), 30, 30, RULER, scale="1:3")
    assert picture.scale == "1:3"
    assert picture.height > 260.35 / 3


def test_a_measure_that_prints_under_two_and_a_half_millimetres_gets_a_lens() -> None:
    # 3/16 in = 4.76 mm is 1.19 mm at 1:4, 1/16 in is 0.4 mm; both are readable at 2:1 (9.5 and 3.2 mm)
    picture = draw_plan(flat_scenes.glue_strip(), 120, 75, RULER, scale="1:4")
    assert said(picture, "lens scale") == ["2:1"]
    assert len(with_role(picture, "lens ring")) == 1


def test_a_measure_that_prints_long_enough_gets_none() -> None:
    scene = PlanScene(flat_scenes.glue_strip().facets, dimensions=(Dimension((0.0, 0.0), (12.0, 0.0), "12 mm", "head"),))
    assert with_role(draw_plan(scene, 120, 75, RULER, scale="1:4"), "lens ring") == []


def test_a_dimension_line_leaves_a_gap_for_its_upright_value() -> None:
    # 2 in at 1:4 is 12.7 mm, long enough for the 3.05 mm of a 12 pt value: it stands in the line
    picture = draw_plan(flat_scenes.strip_flat(), 88, 90, RULER, scale="1:4")
    (value, dx, dy) = next(each for each in with_role(picture, "measure") if said_by(each[0]) == "2 in")
    assert isinstance(value, Words)
    assert value.turned == 0
    box = words_box(value, RULER).moved(dx, dy)
    upright = [
        (a, b)
        for shape, sx, sy in with_role(picture, "dimension")
        if isinstance(shape, Shape)
        for chain in path_lines(shape.path)
        for a, b in pairwise([(x + sx, y + sy) for x, y in chain])
        if abs(a[0] - b[0]) < 1e-6 and abs(a[0] - box.middle[0]) < 0.01
    ]
    ends = sorted(y for a, b in upright for y in (a[1], b[1]))
    assert len(ends) == 4
    assert ends[1] < box.y0 < box.y1 < ends[2]
    assert ends[3] - ends[0] == pytest.approx(2 * 25.4 / 4)


def said_by(item: Item) -> str:
    assert isinstance(item, Words)
    return "".join(run.text for run in item.runs)


def test_the_fold_arrow_ends_at_the_mirror_image_of_its_start() -> None:
    picture = draw_plan(flat_scenes.envelope(), 88, 90, RULER)
    (dot, dx, dy), *_ = with_role(picture, "arrow dot")
    (head, hx, hy), *_ = with_role(picture, "arrow head")
    assert isinstance(dot, Shape)
    assert isinstance(head, Shape)
    ring = path_lines(dot.path)[0]
    start = sum(y for _, y in ring[:-1]) / len(ring[:-1]) + dy
    start_x = (min(x for x, _ in ring) + max(x for x, _ in ring)) / 2 + dx
    tip = head.path[0][1] + hx, head.path[0][2] + hy
    score = score_height(picture)
    assert tip[1] - score == pytest.approx(score - start, abs=0.05)
    assert tip[0] == pytest.approx(start_x, abs=0.01)


def score_height(picture: Picture) -> float:
    (score, _, dy), *_ = with_role(picture, "line valley")
    assert isinstance(score, Shape)
    return float(score.path[0][2]) + dy


def test_motifs_keep_off_tags_values_glue_and_arrows() -> None:
    for make in flat_scenes.ALL.values():
        picture = draw_plan(make(), 120, 75, RULER)
        placed = flat_items(picture.items)
        motifs = [
            box_at([(x + dx, y + dy) for x, y in chain])
            for item, dx, dy in placed
            if isinstance(item, Shape) and item.role.startswith("motif")
            for chain in path_lines(item.path)
        ]
        guarded = [
            box_at([(x + dx, y + dy) for x, y in chain])
            for item, dx, dy in placed
            if isinstance(item, Shape) and item.role in ("tag box", "arrow head")
            for chain in path_lines(item.path)
        ]
        assert not any(motif.overlaps(other) for motif in motifs for other in guarded)


def box_at(spots: list[tuple[float, float]]) -> Box:
    return Box(min(x for x, _ in spots), min(y for _, y in spots), max(x for x, _ in spots), max(y for _, y in spots))


def test_the_same_scene_gives_the_same_picture() -> None:
    assert draw_plan(flat_scenes.two_meet(), 120, 75, RULER) == draw_plan(flat_scenes.two_meet(), 120, 75, RULER)


def test_a_scene_with_nothing_in_it_is_an_empty_picture() -> None:
    assert draw_plan(PlanScene(()), 50, 50, RULER) == Picture((), 0.0, 0.0, "2:1")


def test_only_palette_names_are_used() -> None:
    named = {"INK", "ACC", "WHITE", "SLIVER", "board"} | {
        f"paper {n} {what}" for n in range(1, 5) for what in ("front", "motif", "back")
    }
    for make in flat_scenes.ALL.values():
        for item, _, _ in flat_items(draw_plan(make(), 120, 75, RULER).items):
            used = {run.colour for run in item.runs} if isinstance(item, Words) else set()
            if isinstance(item, Shape):
                used = {colour for colour in (item.fill, item.pen.colour if item.pen else None) if colour}
            assert used <= named


def test_a_slide_arrow_points_where_the_piece_goes() -> None:
    scene = flat_scenes.two_meet()
    picture = draw_plan(scene, 120, 75, RULER, scale="1:4")
    (arrow, _, _), *_ = with_role(picture, "slide arrow")
    assert isinstance(arrow, Shape)
    corners = path_lines(arrow.path)[0]
    tip, tail = corners[3], ((corners[0][0] + corners[6][0]) / 2, (corners[0][1] + corners[6][1]) / 2)
    slide = scene.slides[0]
    way = (slide.end[0] - slide.start[0], slide.end[1] - slide.start[1])
    drawn = (tip[0] - tail[0], tip[1] - tail[1])
    assert drawn[0] * way[1] - drawn[1] * way[0] == pytest.approx(0, abs=1e-6)
    assert tip == pytest.approx((slide.end[0] / 4, slide.end[1] / 4))


def sheet(*names: Named, told: tuple[str, ...] = (), sliver: float = 0.5) -> PlanScene:
    """A sheet 80 x 60 mm over another that shows `sliver` mm beyond its right edge."""
    over = flat_scenes.facet(flat_scenes.rectangle(0.0, 0.0, 80.0, 60.0), letter="B", motif=None)
    under = flat_scenes.facet(flat_scenes.rectangle(0.0, 0.0, 80.0 + sliver, 60.0), part="under", letter="A", tone=2, motif=None)
    return PlanScene((under, over), names=names, told=told)


@pytest.mark.parametrize(("sliver", "told", "tags"), [(0.5, (), ["B"]), (0.5, ("A",), ["A", "B"]), (5.0, (), ["A", "B"])])
def test_a_layer_that_shows_as_a_line_is_tagged_only_where_the_words_tell_of_it(
    sliver: float, told: tuple[str, ...], tags: list[str]
) -> None:
    assert sorted(said(draw_plan(sheet(told=told, sliver=sliver), 120, 90, RULER, scale="1:1"), "tag")) == tags


@pytest.mark.parametrize(
    ("sliver", "told", "tags"), [(0.5, ("A",), ["B"]), (5.0, ("A",), ["A", "B"]), (5.0, (), ["B"]), (60.0, (), ["A", "B"])]
)
def test_where_one_looks_at_the_whole_only_what_is_told_and_what_shows_most_is_tagged(
    sliver: float, told: tuple[str, ...], tags: list[str]
) -> None:
    scene = replace(sheet(told=told, sliver=sliver), told_only=True)
    assert sorted(said(draw_plan(scene, 180, 90, RULER, scale="1:1"), "tag")) == tags


def test_a_name_that_may_be_left_out_is_set_where_there_is_a_clear_place() -> None:
    name = Named("page", flat_scenes.rectangle(0.0, 0.0, 80.0, 60.0), wish=True, panel=("strip", "page"))
    assert said(draw_plan(sheet(name), 120, 90, RULER), "label") == ["page"]
    # the same panel hidden wholly by what lies over it
    hidden = Named("base", flat_scenes.rectangle(0.0, 0.0, 80.0, 60.0), wish=True, panel=("under", "page"))
    assert said(draw_plan(sheet(hidden, sliver=0.0), 120, 90, RULER), "label") == []


@pytest.mark.parametrize("name", flat_scenes.ALL)
@pytest.mark.parametrize("box", BOXES)
def test_names_that_may_be_left_out_make_a_picture_neither_smaller_nor_higher(name: str, box: str) -> None:
    scene = flat_scenes.ALL[name]()
    width, height = BOXES[box]
    whole = tuple(spot for facet in scene.facets for spot in facet.polygon)
    wishes = [Named(f"the {each.panel}", each.polygon, wish=True, panel=(each.part, each.panel)) for each in scene.facets]
    wishes += [Named("top edge", whole, "head", wish=True), Named("right edge", whole, "right", wish=True)]
    without, wished = (draw_plan(one, width, height, RULER) for one in (scene, replace(scene, names=(*scene.names, *wishes))))
    assert (without.scale, without.height) == (wished.scale, wished.height)
    assert wished.width <= width + 1e-6
    assert overlaps(wished.items, RULER, wished.width, wished.height) == []
