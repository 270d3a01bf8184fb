"""The grey letter on a piece's drawing: at its place or near by, off every line; beside the piece where it has no room inside."""

from itertools import pairwise

import pytest

from booklet.diagrams.flat_scenes import rectangle
from booklet.square_ruler import SquareRuler
from creasewright.booklet.diagrams.boxes import Box, box_of, path_lines, segment_meets, words_box
from creasewright.booklet.diagrams.picture_style import NORMAL
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.drawing import Item, Shape, Tagged, Words
from creasewright.booklet.pencilled_letter import BESIDE, DOTS, FREE, pencilled_letter
from creasewright.booklet.sections import cut_list
from section_cases import DESIGNS, context_of, every_item, shipped

RULER = SquareRuler()
SHEET = rectangle(0.0, 0.0, 30.0, 20.0)


def drawn(at: Spot, sheet: Polygon2 = SHEET, *lines: Polygon2) -> dict[str, Item]:
    room = Room(1000.0, 1000.0)
    for chain in ((*sheet, sheet[0]), *lines):
        room.take_line(chain)
    return {getattr(item, "role", ""): item for item in pencilled_letter("A", at, sheet, room, RULER, NORMAL).items}


def box_in(items: dict[str, Item]) -> Box:
    words = items["pencilled letter"]
    assert isinstance(words, Words)
    return words_box(words, RULER)


def test_where_the_place_is_roomy_the_letter_stands_on_it_and_nothing_else_is_drawn() -> None:
    items = drawn((15.0, 10.0))
    assert list(items) == ["pencilled letter"]
    assert box_in(items).middle == pytest.approx((15.0, 10.0), abs=0.02)


def test_by_an_edge_the_letter_stands_beside_it_with_a_line_to_a_dot_at_the_place() -> None:
    items = drawn((15.0, 19.8))
    assert set(items) == {"pencilled letter", "pencilled letter's line", "pencilled letter's dot"}
    assert box_in(items).y1 <= 20 - FREE
    dot = items["pencilled letter's dot"]
    assert isinstance(dot, Shape)
    (ring,) = path_lines(dot.path)
    # a radius of 0.25 mm would reach over the edge, 0.2 mm off
    assert box_of(ring).middle == pytest.approx((15.0, 19.8)) and box_of(ring).width == pytest.approx(2 * DOTS[2])


def test_a_letter_keeps_off_a_fold_line_too() -> None:
    fold = ((15.0, 0.0), (15.0, 20.0))
    assert not segment_meets(*fold, box_in(drawn((15.5, 10.0), SHEET, fold)).grown(0.9 * FREE))


def test_on_a_strip_too_narrow_for_the_letter_it_stands_beside_it_with_a_line_to_a_dot_as_large_as_has_room() -> None:
    strip = rectangle(0.0, 0.0, 0.6, 20.0)
    items = drawn((0.3, 10.0), strip)
    assert list(items) == ["pencilled letter's line", "pencilled letter's dot", "pencilled letter"]
    assert box_in(items).x0 == pytest.approx(0.6 + BESIDE, abs=0.02) and box_in(items).middle[1] == pytest.approx(10.0, abs=0.02)
    under = box_in(drawn((10.0, 0.3), rectangle(0.0, 0.0, 20.0, 0.6)))
    assert under.y0 == pytest.approx(0.6 + BESIDE, abs=0.05) and under.middle[0] == pytest.approx(10.0, abs=0.02)
    dot = items["pencilled letter's dot"]
    assert isinstance(dot, Shape)
    (ring,) = path_lines(dot.path)
    assert box_of(ring).width == pytest.approx(2 * DOTS[1])  # 0.8 mm is too wide for 0.6 mm, 0.5 mm is not


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_no_letter_or_dot_of_a_shipped_design_touches_the_outline_of_its_piece(design: str, system: str) -> None:
    section = cut_list.build(context_of(shipped(design, system), "cut list"))
    assert section is not None
    for block in section.blocks:
        for figure in every_item(block.items):
            if not (isinstance(figure, Tagged) and figure.kind == "Figure"):
                continue
            inside = list(every_item(figure.items))
            rings = [path_lines(each.path)[0] for each in inside if isinstance(each, Shape) and each.role.startswith("outline of")]
            letters = [words_box(each, RULER) for each in inside if isinstance(each, Words) and each.role == "pencilled letter"]
            dots = [box_of(path_lines(each.path)[0]) for each in inside if isinstance(each, Shape) and each.role.endswith("letter's dot")]
            assert len(letters) <= 1 and (letters or not dots)  # no dot without its letter
            for box in (*letters, *dots):
                (ring,) = rings
                assert within(box.middle, ring) or (box in letters and dots)
                assert not any(segment_meets(a, b, box) for a, b in pairwise((*ring, ring[0])))
