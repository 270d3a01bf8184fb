"""Frames, crosses and combs read back: what lets pages be joined to half a millimetre and better."""

import pytest
from msgspec.structs import replace

from creasewright.booklet.drawing import Group, Mark, Shape, Tagged
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Joining, PageSize, window_of
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.read_marks import read_marks
from template_cases import tray, written

LETTER = PageSize(215.9, 279.4)


@pytest.fixture(scope="module", params=["overlap", "butt"])
def tiled(request):
    return tile_templates((tray(),), LETTER, FontRuler(), TileWords(), window_of(LETTER, Joining(request.param)))


def read(tiled, change=lambda item: item):
    first = replace(tiled.pages[0], items=changed(tiled.pages[0].items, change))
    pages = (first, *tiled.pages[1:])
    return compare(tiled.tiles, (tray(),), read_marks(written(pages, tiled.forms), range(len(pages))))


def changed(items, change):
    out = []
    for item in items:
        if isinstance(item, Group | Mark | Tagged):
            out.append(replace(item, items=changed(item.items, change)))
        else:
            out.extend(new for new in [change(item)] if new)
    return tuple(out)


def moved(role, dx, dy):
    def change(item):
        if not (isinstance(item, Shape) and item.role == role):
            return item
        return replace(item, path=tuple((c[0], *(v + (dx, dy)[k % 2] for k, v in enumerate(c[1:]))) for c in item.path))

    return change


def without(role):
    return lambda item: None if isinstance(item, Shape) and item.role == role else item


def test_true_marks_pass(tiled):
    result = read(tiled)
    assert result.true
    assert result.joins == 4  # T-1 T-2 / T-3 T-4
    assert result.largest_mark_error_mm < 0.001


def test_combs_that_slipped_by_half_a_millimetre_are_found(tiled):
    result = read(tiled, moved("comb right", 0.0, 0.5))
    assert not result.true
    assert result.largest_mark_error_mm == pytest.approx(0.5, abs=1e-3)


def test_a_frame_that_slipped_is_found(tiled):
    assert read(tiled, moved("window", 0.3, 0.0)).largest_mark_error_mm == pytest.approx(0.3, abs=1e-3)


@pytest.mark.parametrize(("role", "name"), [("comb tail", "comb tail"), ("corner cross", "corner cross"), ("window", "frame")])
def test_marks_left_out_are_found(tiled, role, name):
    result = read(tiled, without(role))
    assert not result.true
    assert name in {missed.line for missed in result.missing}
