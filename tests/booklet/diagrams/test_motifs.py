"""Motifs: on a lattice carried by the panel, cut by its edge, left out whole where something must be read."""

from math import cos, radians, sin

import pytest
from flat_scenes import rectangle
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon, box

from creasewright.booklet.diagrams.boxes import Box, path_lines
from creasewright.booklet.diagrams.motif_shapes import LEAF, SHAPES
from creasewright.booklet.diagrams.motifs import THIN, lattice_places, motif_group
from creasewright.booklet.diagrams.picture_style import LARGE_PRINT, NORMAL
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Motif
from creasewright.booklet.drawing import Group, Shape

UPRIGHT: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def outlines(group: Group | None) -> list[list[tuple[float, float]]]:
    """Every closed line of every motif, where it stands."""
    found = []
    for one in group.items if group else ():
        assert isinstance(one, Group)
        (shape,) = one.items
        assert isinstance(shape, Shape)
        found += [[(x + one.dx, y + one.dy) for x, y in chain] for chain in path_lines(shape.path)]
    return found


def turned(degrees: float, dx: float, dy: float, mirror: bool = False) -> Affine:
    co, si = cos(radians(degrees)), sin(radians(degrees))
    return (-co if mirror else co, -si if mirror else si, -si, co, dx, dy)


@st.composite
def panels(draw: st.DrawFn) -> Polygon:
    """Convex, of at least 1 mm², within 60 x 60 mm."""
    corners = draw(st.lists(st.tuples(st.floats(0, 60), st.floats(0, 60)), min_size=3, max_size=7, unique=True))
    panel = Polygon(corners).convex_hull
    assume(panel.geom_type == "Polygon" and panel.area >= 1)
    return panel


@given(st.sampled_from(sorted(SHAPES)), panels())
def test_every_lattice_place_that_reaches_into_the_panel_has_its_motif(kind: str, panel: Polygon) -> None:
    ring = tuple(panel.exterior.coords)[:-1]
    shape = SHAPES[kind]
    half_w, half_h = shape.half_width - NORMAL.fleck, shape.half_height - NORMAL.fleck
    foot = half_h - shape.foot  # a bare stem does not count
    reaching, found = set(), {(round(x, 6), round(y, 6)) for (x, y), _ in lattice_places(shape, (ring,), NORMAL)}
    for row in range(-2, 16):
        for column in range(-2, 18):
            x, y = (column + (0.5 if row % 2 else 0.0) + 0.5) * shape.across, (row + 0.5) * shape.down
            if panel.intersection(box(x - half_w, y - half_h, x + half_w, y + foot)).area > 1e-4:
                reaching.add((round(x, 6), round(y, 6)))
    assert reaching <= found
    assert all(panel.distance(box(x - half_w, y - half_h, x + half_w, y + foot)) < 1e-3 for x, y in found)


@given(st.sampled_from(sorted(SHAPES)), st.floats(0, 360), st.booleans(), panels())
def test_motifs_are_seen_through_the_panel_only(kind: str, degrees: float, mirror: bool, panel: Polygon) -> None:
    ring = tuple(panel.exterior.coords)[:-1]
    group = motif_group(Motif(kind, 1, turned(degrees, 7.0, 3.0, mirror)), (ring,), 1.0, Room(0, 0), NORMAL)
    if group is not None:
        assert group.clip is not None
        assert path_lines(group.clip) == [[*ring, ring[0]]]


def test_a_panel_into_which_a_stem_alone_would_reach_does_not_show_it() -> None:
    # the first row of the lattice stands at 3.2 mm: bud and leaves from 1.45 to 3.95 mm, the stem on to 4.95
    def heads(top: float) -> set[float]:
        return {y for (_, y), _ in lattice_places(LEAF, (rectangle(0, top, 60, 4),), NORMAL)}

    assert 3.2 in heads(3.4)
    assert 3.2 not in heads(4.0)


def test_no_motif_lies_in_a_hole() -> None:
    rings = (rectangle(0, 0, 60, 60), tuple(reversed(rectangle(10, 10, 40, 40))))
    for (x, y), _ in lattice_places(LEAF, rings, NORMAL):
        assert not (10 + LEAF.half_width < x < 50 - LEAF.half_width and 10 + LEAF.half_height < y < 50 - LEAF.half_height)


def test_the_print_runs_on_across_a_fold() -> None:
    left = lattice_places(LEAF, (rectangle(0, 0, 30, 60),), NORMAL)
    right = lattice_places(LEAF, (rectangle(30, 0, 30, 60),), NORMAL)
    whole = lattice_places(LEAF, (rectangle(0, 0, 60, 60),), NORMAL)
    assert set(left) | set(right) == set(whole)
    assert any(abs(x - 30) < LEAF.half_width - NORMAL.fleck for (x, _), _ in set(left) & set(right))  # cut by the fold on both sides
    # the lattice of the look: 6.6 by 6.4, every other row shifted by half
    assert {round(x % 3.3, 6) % 3.3 for (x, _), _ in whole} == {0.0}
    assert {round((y - 3.2) % 6.4, 6) % 6.4 for (_, y), _ in whole} == {0.0}


def test_a_motif_has_the_same_size_at_every_scale() -> None:
    ring = rectangle(0, 0, 40, 40)
    counts = [motif_group(Motif("one-way", 1, UPRIGHT), (ring,), scale, Room(0, 0), NORMAL) for scale in (1.0, 0.25)]
    assert counts[0] == counts[1]


def test_one_way_motifs_of_a_piece_turned_round_stand_on_their_heads() -> None:
    ring = rectangle(-40, -40, 40, 40)
    shape = motif_group(Motif("one-way", 1, turned(180, 0, 0)), (ring,), 1.0, Room(0, 0), NORMAL)
    bud, _, _, stem = outlines(shape)[:4]
    assert max(y for _, y in bud) > max(y for _, y in stem)


def test_motifs_are_left_out_whole_where_something_is_to_be_read() -> None:
    room = Room(0, 0)
    room.take_box(Box(10, 10, 30, 30))
    shape = motif_group(Motif("all-over", 2, UPRIGHT), (rectangle(0, 0, 40, 40),), 1.0, room, NORMAL)
    assert outlines(shape)
    for x, y in (spot for chain in outlines(shape) for spot in chain):
        assert not (10 < x < 30 and 10 < y < 30)


def test_a_printed_back_shows_its_print_in_outline() -> None:
    group = motif_group(Motif("one-way", 3, UPRIGHT, outline_only=True), (rectangle(0, 0, 40, 40),), 1.0, Room(0, 0), NORMAL)
    assert group is not None
    shapes = {shape for one in group.items if isinstance(one, Group) for shape in one.items}
    assert [(shape.fill, shape.pen and shape.pen.colour) for shape in shapes if isinstance(shape, Shape)] == [(None, "paper 3 motif")]


def test_a_panel_between_lattice_points_still_shows_one_motif() -> None:
    # 4 mm wide, 5 high: room for a leaf of 2.4 by 3.5 with 0.45 mm round it, but the lattice cuts every leaf that reaches in
    ring = rectangle(4.2, 0.5, 4.0, 5.0)
    shape = motif_group(Motif("one-way", 1, UPRIGHT), (ring,), 1.0, Room(0, 0), NORMAL)
    panel = Polygon(ring)
    assert [chain for chain in outlines(shape) if not all(panel.covers(Point(spot)) for spot in chain)] == []
    assert outlines(shape)


def test_a_panel_crowded_by_its_tag_still_shows_a_whole_motif() -> None:
    ring = rectangle(0, 0, 16, 10)
    tag = Box(4, 2, 10, 8)
    room = Room(0, 0)
    room.take_box(tag)
    shape = motif_group(Motif("one-way", 1, UPRIGHT), (ring,), 1.0, room, NORMAL)
    boxes = [Polygon(chain) for chain in outlines(shape)]
    assert not any(tag.x0 < x < tag.x1 and tag.y0 < y < tag.y1 for chain in outlines(shape) for x, y in chain)
    assert sum(Polygon(ring).covers(each) for each in boxes) >= 4  # the four lines of one leaf at least


def test_a_strip_of_a_layer_shows_its_tone_only() -> None:
    assert motif_group(Motif("one-way", 1, UPRIGHT), (rectangle(0, 0, 60, THIN - 0.1),), 1.0, Room(0, 0), NORMAL) is None


def test_large_print_enlarges_the_motif() -> None:
    heights = []
    for style in (NORMAL, LARGE_PRINT):
        shape = motif_group(Motif("two-way", 1, UPRIGHT), (rectangle(0, 0, 9, 9),), 1.0, Room(0, 0), style)
        ys = [y for chain in outlines(shape)[:2] for _, y in chain]
        heights.append(max(ys) - min(ys))
    assert heights == pytest.approx([3.5, 3.5 * 1.3])
