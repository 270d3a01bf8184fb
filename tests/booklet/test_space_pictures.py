"""Pictures of steps on standing things: what is opened, where the adhesive is, what is held over its place; worked by hand."""

from collections import Counter

import pytest

from creasewright.booklet.diagrams.axonometric import LOOK_DOWN, TURN, draw_space
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.diagrams.scene import Facet3, SpaceScene
from creasewright.booklet.diagrams.space_view import space_view
from creasewright.booklet.drawing import Words
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.step_views import StepPicture
from creasewright.fitting.worked import Worked
from creasewright.geometry.rigid_transform import dot
from creasewright.pdf.fonts import FontRuler
from section_cases import every_item, shipped
from small_designs import worked_of

BOX = """
blanks:
  tray:
    base: {width: 100 mm, height: 80 mm}
    flaps:
      wall: {at: each edge of base, depth: 30 mm}
      tab: {at: [ends of wall 1, ends of wall 3], depth: 10 mm, ends: 75}
steps:
  - {lay: tray, up: back}
  - {fold: [wall 1, wall 3, each tab], to: 90}
  - {fold: [wall 2, wall 4], to: 90}
  - {glue: each tab}
"""


def pictures(worked: Worked) -> list[StepPicture]:
    return [picture for steps in pictured_steps(worked) for picture in steps.pictures]


def space(picture: StepPicture) -> SpaceScene:
    assert picture.space is not None
    return picture.space


def facet(scene: SpaceScene, panel: str) -> Facet3:
    return next(facet for facet in scene.facets if facet.panel == panel)


def top(scene: SpaceScene, parts: str) -> float:
    return min(z for facet in scene.facets if facet.part == parts for *_, z in facet.polygon)


def test_walls_that_fold_up_are_shown_on_their_way_with_the_way_that_is_left() -> None:
    both = [space(picture) for picture in pictures(worked_of(BOX))[1:3]]
    assert [len(scene.fold_paths) for scene in both] == [2, 2]
    for scene, walls in zip(both, (("wall 1", "wall 3"), ("wall 2", "wall 4")), strict=True):
        tops = sorted(-min(z for *_, z in facet(scene, wall).polygon) for wall in walls)
        for path in scene.fold_paths:
            # from the rim as it is drawn, part of the way up, to where it ends, 30 mm over the base: it never sinks on the way
            heights = [-z for *_, z in path]
            assert min(abs(heights[0] - top) for top in tops) < 0.3
            assert 5 < heights[0] < 25
            assert heights == sorted(heights)
            assert heights[-1] == pytest.approx(30, abs=0.3)


def test_what_folds_in_a_step_is_dashed_and_what_does_not_is_a_line_that_is_pressed_only() -> None:
    # laid with its back up, the printed front outside: the walls come toward the maker, a valley as seen from within
    first, second = (space(picture) for picture in pictures(worked_of(BOX))[1:3])
    assert Counter(facet(first, "base").edge_kinds) == {"valley": 2, "score": 2}
    assert Counter(facet(second, "base").edge_kinds) == {"folded": 2, "valley": 2}
    # all folded: nothing to tell apart
    assert facet(space(pictures(shipped("seedling-box", "mm"))[-1]), "base").edge_kinds == ()


def test_a_wall_seen_from_outside_shows_its_fold_as_a_mountain() -> None:
    # folded away, the walls hang down over the table's edge; of those at the reader's side the outside is seen
    scene = space(pictures(worked_of(BOX.replace("{fold: [wall 1, wall 3, each tab], to: 90}", "{mountain: [wall 1, wall 3], to: 90}")))[1])
    assert Counter(facet(scene, "base").edge_kinds) == {"mountain": 2, "score": 2}


def test_a_fold_that_carries_a_large_part_has_its_arrow_on_the_rim_of_that_part() -> None:
    # the spine of 10 mm stands between the two pages: what comes over is the far page, 100 mm of it, and not the spine alone
    pages = "blanks:\n  strip: {height: 80 mm, across: [front: 120 mm, spine: 10 mm, back: 100 mm]}\nsteps:\n"
    scene = space(pictures(worked_of(pages + "  - {lay: strip, up: back}\n  - {fold: [front/spine, spine/back], to: 90}\n"))[1])
    (path,) = scene.fold_paths
    farthest = max(facet(scene, "back").polygon, key=lambda spot: abs(spot[2]))
    # half way, both folds at 45 degrees: the back stands upright on the slanting spine, 100 + 10 sin 45 mm over the front
    assert -farthest[2] == pytest.approx(107.07, abs=0.3)
    assert -path[0][2] == pytest.approx(107.07, abs=0.3)
    assert -path[-1][2] == pytest.approx(10, abs=0.3)


def test_tabs_get_their_adhesive_while_the_walls_they_go_onto_still_stand_open() -> None:
    scene = space(pictures(worked_of(BOX))[3])
    assert {mark.panel for mark in scene.glue} == {"tab 1", "tab 2", "tab 3", "tab 4"}
    # walls 2 and 4 are open: of their 30 mm they stand 30 sin(0.4 x 90°) = 17.6 mm up; walls 1 and 3 stand upright
    heights = {panel: -min(z for *_, z in facet(scene, panel).polygon) for panel in ("wall 1", "wall 2", "wall 3", "wall 4")}
    assert heights == pytest.approx({"wall 1": 30, "wall 2": 17.6, "wall 3": 30, "wall 4": 17.6}, abs=0.3)
    assert len(scene.fold_paths) == 2


def test_adhesive_on_a_side_turned_away_is_marked_hidden_and_dotted() -> None:
    scene = space(pictures(worked_of(BOX))[3])
    eye = space_view(TURN, LOOK_DOWN).eye
    for mark in scene.glue:
        tab = facet(scene, mark.panel)
        # the printed front of a tab looks outwards, away from the middle of the box, and carries the adhesive
        outward = tab.normal if (tab.side == "front") else (-tab.normal[0], -tab.normal[1], -tab.normal[2])
        assert mark.hidden == (dot(outward, eye) < 0)
    assert Counter(mark.hidden for mark in scene.glue) == {True: 2, False: 2}
    roles = Counter(getattr(item, "role", "") for item in every_item(draw_space(scene, 90, 80).items))
    assert roles["glue outline"] == 2
    assert roles["line hidden"] >= 1


def test_a_lid_is_held_clear_above_its_tray_with_an_arrow_down() -> None:
    scene = space(pictures(shipped("seedling-box", "mm"))[-1])
    lid = [z for facet in scene.facets if facet.part == "lid box/lid" for *_, z in facet.polygon]
    tray = [z for facet in scene.facets if facet.part == "tray box/tray" for *_, z in facet.polygon]
    assert max(lid) < min(tray) - 5
    ((start, end),) = [(slide.start, slide.end) for slide in scene.slides]
    assert start[:2] == pytest.approx(end[:2])
    assert end[2] > start[2]


def test_a_card_for_an_upright_panel_comes_from_the_reader_s_side() -> None:
    scene = space(pictures(shipped("welcome-card", "mm"))[2])
    ((start, end),) = [(slide.start, slide.end) for slide in scene.slides]
    eye = space_view(TURN, LOOK_DOWN).eye
    assert dot(eye, start) > dot(eye, end)
    assert start[2] == pytest.approx(end[2])  # straight at the panel, which stands
    assert [(mark.panel, mark.hidden) for mark in scene.glue] == [("front", False)]


def test_a_card_for_the_bottom_of_a_bag_is_held_over_its_mouth() -> None:
    scene = space(pictures(shipped("bulb-bag", "mm"))[11])
    assert top(scene, "bottom card") < top(scene, "bag") - 5


def test_what_stands_and_folds_flat_is_shown_standing() -> None:
    scene = space(pictures(shipped("welcome-card", "mm"))[3])
    assert -top(scene, "card") == pytest.approx(140, abs=0.5)  # the wall upright
    assert len(scene.fold_paths) == 2  # the wall, and the front that follows


def test_a_shallow_lid_is_no_flat_thing() -> None:
    # 30 mm of wall round 100 x 80 mm is more than 0.15 of the smaller side: a picture in space, although the base is the largest
    assert all(picture.plan is None for picture in pictures(worked_of(BOX))[1:])


WALL = """
blanks:
  sheet: {base: {width: 100 mm, height: 80 mm}, flaps: {wall: {at: SIDE of base, depth: 60 mm}}}
  plate: {width: 30 mm, height: 20 mm}
materials: {glue: {kind: glue}}
steps:
  - {lay: sheet, up: back}
  - {fold: wall, to: 90}
  - {join: plate, RELATION: wall, meet: centre}
"""


@pytest.mark.parametrize(
    ("side", "relation", "from_left"),
    # laid back up, the piece lies left for right: its left wall rises at the maker's right. Its inner side looks to the left,
    # its outer one to the right, where it is seen over the right shoulder only
    [("left", "onto", True), ("left", "under", False), ("right", "onto", False), ("right", "under", True)],
)
def test_a_card_is_looked_at_from_the_side_it_comes_to(side: str, relation: str, from_left: bool) -> None:
    scene = space(pictures(worked_of(WALL.replace("SIDE", side).replace("RELATION", relation)))[2])
    assert scene.from_left == from_left
    ((start, end),) = [(slide.start, slide.end) for slide in scene.slides]
    assert (start[0] < end[0]) == from_left  # from the left it goes to the right
    assert [mark.hidden for mark in scene.glue] == [False]


def tags(scene: SpaceScene) -> list[str]:
    drawn = draw_space(scene, 90, 80, ruler=FontRuler())
    assert overlaps(drawn.items, FontRuler()) == []
    return sorted(item.runs[0].text for item in every_item(drawn.items) if isinstance(item, Words) and item.role == "tag")


def test_two_pieces_in_space_bear_their_letters_once_each_and_one_alone_bears_none() -> None:
    scenes = [space(picture) for picture in pictures(shipped("seedling-box", "mm")) if picture.space is not None]
    assert tags(scenes[0]) == []
    assert tags(scenes[-1]) == ["A", "B"]
    assert tags(space(pictures(shipped("welcome-card"))[2])) == ["A", "B"]
