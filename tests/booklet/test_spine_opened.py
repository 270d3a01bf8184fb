"""The cover's thing open at its spine: how far, what is seen then, what stays closed."""

from math import acos, degrees

import pytest

from creasewright.booklet.diagrams.cover_picture import LOOK_DOWN, TURN
from creasewright.booklet.diagrams.scene import SpaceScene
from creasewright.booklet.diagrams.seen_solid import SeenSolid, seen_solid
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.diagrams.space_view import space_view, standing
from creasewright.booklet.shown_parts import shown_parts
from creasewright.booklet.spine_opened import BACK_BY, LEAF_AT, LEFT_AT, TURNED, spine_opened
from creasewright.booklet.standing_stage import standing_stage
from creasewright.fitting.worked import Worked
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.clip import total_area
from creasewright.geometry.rigid_transform import apply, dot, rotate
from section_cases import DESIGNS, shipped
from small_designs import with_steps, worked_of

OPENS = ("garden-journal", "recipe-booklet", "season-album", "seed-swap-folio")
SYSTEMS = pytest.mark.parametrize("system", ["in", "mm"])


def opened(worked: Worked) -> tuple[State, Body]:
    found = spine_opened(worked)
    assert found is not None
    return found


def between(state: State, one: PanelKey, other: PanelKey) -> float:
    """Degrees between the ways in which two fronts look."""
    return degrees(acos(dot(front_normal(state.placed[one]), front_normal(state.placed[other]))))


def solid_of(worked: Worked) -> SeenSolid:
    """As the cover's view shows it, in mm of the thing."""
    state, body = opened(worked)
    scene = standing(SpaceScene(space_facets(state, body, shown_parts(worked, worked.assemblies[-1]), backs=True)))
    return seen_solid(scene.facets, space_view(TURN, LOOK_DOWN))


def seen(worked: Worked) -> dict[PanelKey, float]:
    """mm² of each panel."""
    solid = solid_of(worked)
    sizes: dict[PanelKey, float] = {}
    for face, region in zip(solid.faces, solid.regions, strict=True):
        key = face.facet.part, face.facet.panel
        sizes[key] = sizes.get(key, 0.0) + abs(total_area(region))
    return sizes


def casing(spine: str = "6 mm", *steps: str) -> Worked:
    blank = f"cover: {{height: 100 mm, across: [back: 70 mm, spine: {spine}, front: 70 mm]}}"
    return worked_of(with_steps(blank, *steps) + "finished: {front: front}\n")


@SYSTEMS
def test_the_covers_of_the_folio_stand_as_far_apart_as_the_spine_is_left_folded(system: str) -> None:
    worked = shipped("seed-swap-folio", system)
    assert worked.finished is not None
    front, back = ("front block/right strip", "page"), ("back block/right strip", "page")
    assert between(worked.finished.state, front, back) == pytest.approx(180.0)
    state, body = opened(worked)
    assert between(state, front, back) == pytest.approx(180.0 * LEFT_AT)
    # both reach the table with their tails, and the spine between them is turned a little from facing straight up as it lies
    x, y, z = rotate(body.view, front_normal(state.placed["connector", "spine"]))
    assert (abs(y), degrees(acos(abs(z)))) == (pytest.approx(0.0, abs=1e-9), pytest.approx(TURNED))
    assert x


@SYSTEMS
def test_both_slanted_pockets_and_the_cards_in_them_are_seen(system: str) -> None:
    worked = shipped("seed-swap-folio", system)
    state, _ = opened(worked)
    sizes = seen(worked)
    for block in ("front block", "back block"):
        strip = f"{block}/left strip"
        for key in ((strip, "flap"), (f"{block}/seed card 1", "seed card"), (f"{block}/right strip", "centre")):
            whole = state.blanks[key[0]].panel(key[1]).area
            assert sizes[key] > 0.2 * whole, key
        assert between(state, (strip, "page"), (strip, "centre")) == pytest.approx(LEAF_AT)
    assert not state.closures
    assert worked.finished is not None
    assert worked.finished.state.closures


def test_a_cover_with_leaves_on_its_spine_is_turned_back_alone() -> None:
    worked = shipped("season-album")
    assert worked.finished is not None
    state, _ = opened(worked)
    turned = {key for key, angle in state.angles.items() if angle != worked.finished.state.angles.get(key, 0.0)}
    assert turned == {("hinge strip", "front tab/gap 1")}
    fold = "hinge strip", "front tab/gap 1"
    assert state.angles[fold] == pytest.approx(BACK_BY * worked.finished.state.angles[fold])
    sizes = seen(worked)
    assert sizes["cover lining 1", "cover lining"] > 2000.0
    assert sum(size for (part, _), size in sizes.items() if "picture" in part) > 2000.0


@pytest.mark.parametrize(("design", "cover"), [("garden-journal", "case cloth"), ("season-album", "cover sheet")])
@SYSTEMS
def test_of_what_covers_a_board_only_the_front_is_seen(design: str, cover: str, system: str) -> None:
    solid = solid_of(shipped(design, system))
    shown = [face for face, region in zip(solid.faces, solid.regions, strict=True) if abs(total_area(region)) > 3.0]
    tones = {face.colour.split("*")[0] for face in shown if face.facet.part.split("/")[-1] == cover}
    assert len(tones) == 1
    assert tones.pop().endswith("front")


@pytest.mark.parametrize("design", OPENS)
@SYSTEMS
def test_layers_that_stay_together_keep_their_order(design: str, system: str) -> None:
    worked = shipped(design, system)
    assert worked.finished is not None
    _, body = opened(worked)
    before = [stack.order for stack in worked.finished.body.stacks]
    for stack in body.stacks:
        kept = [tuple(panel for panel in order if panel in stack.order) for order in before]
        assert stack.order in kept


@pytest.mark.parametrize("design", OPENS)
@SYSTEMS
def test_it_stands_as_high_as_it_is_closed(design: str, system: str) -> None:
    worked = shipped(design, system)
    assert worked.finished is not None
    state, body = opened(worked)
    high = [
        rotate(body.view, apply(state.placed[part, panel.name], (x, y, 0.0)))[1]
        for part in body.parts
        for panel in state.blanks[part].panels
        for x, y in panel.polygon
    ]
    assert max(high) - min(high) == pytest.approx(worked.finished.size[1], abs=3.0)


@pytest.mark.parametrize("design", [name for name in DESIGNS if name not in OPENS])
@SYSTEMS
def test_a_thing_without_a_spine_stays_as_it_is(design: str, system: str) -> None:
    assert spine_opened(shipped(design, system)) is None


@pytest.mark.parametrize("design", OPENS)
def test_none_of_these_has_a_stage_that_stands(design: str) -> None:
    assert standing_stage(shipped(design)) is None


@pytest.mark.parametrize("kind", ["fold", "mountain"])
def test_two_covers_and_a_spine_open_with_the_inside_to_the_reader(kind: str) -> None:
    worked = casing("6 mm", f"{{{kind}: [back/spine, spine/front], to: 90}}")
    state, body = opened(worked)
    assert between(state, ("cover", "back"), ("cover", "front")) == pytest.approx(180.0 * LEFT_AT)
    _, _, up = rotate(body.view, front_normal(state.placed["cover", "spine"]))
    assert (up < 0) == (kind == "fold")  # z runs down: a valley has its front inside


@pytest.mark.parametrize(
    "worked",
    [
        casing("40 mm", "{fold: [back/spine, spine/front], to: 90}"),
        casing("6 mm", "{fold: [back/spine, spine/front], to: 45}"),
        casing("6 mm", "{fold: [back/spine, spine/front], to: 90}", "{fold: spine/front, to: 30}"),
        casing("6 mm", "{fold: back/spine, to: 90}"),
        casing("6 mm", "{lay: cover, up: front}"),
    ],
    ids=["wide spine", "half closed", "changed since", "one fold", "flat"],
)
def test_what_is_no_closed_pair_of_covers_is_not_opened(worked: Worked) -> None:
    assert spine_opened(worked) is None


def test_a_ring_of_walls_is_no_spine() -> None:
    strip = "tube: {height: 60 mm, across: [a: 50 mm, b: 8 mm, c: 50 mm, d: 8 mm, tab: 6 mm]}"
    worked = worked_of(with_steps(strip, "{fold: [a/b, b/c, c/d, d/tab], to: 90, bending: yes}") + "finished: {front: a}\n")
    assert spine_opened(worked) is None
