"""Templates measured on the raster of their pages: the true file passes, every planted fault is found."""

from functools import cache, partial

import pytest
from msgspec.structs import replace

from creasewright.booklet.drawing import FormUse, Group, Mark, Shape, Tagged
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Joining, PageSize, window_of
from creasewright.geometry.plane_transform import Affine
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.proof import prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from profiled import stretched
from template_cases import rounded, tray, written

LETTER = PageSize(215.9, 279.4)
TEMPLATES = (tray(), rounded("liner", 120, 80, 12))


@cache
def tiled(way="overlap"):
    return tile_templates(TEMPLATES, LETTER, FontRuler(), TileWords(), window_of(LETTER, Joining(way)))


def proof_of(done, pages=None, forms=None, undo=None, change=lambda data: data):
    pages = done.pages if pages is None else pages
    data = change(written(pages, done.forms if forms is None else forms))
    numbers = range(len(pages))
    return prove(done.tiles, TEMPLATES, read_marks(data, numbers), page_rasters(data, numbers), undo)


def changed(items, change):
    out = []
    for item in items:
        if isinstance(item, Group | Mark | Tagged):
            out.append(replace(item, items=changed(item.items, change)))
        else:
            out.append(change(item))
    return tuple(out)


def with_form(done, role, change):
    return tuple(
        replace(form, items=tuple(new for item in form.items if (new := change(item) if item.role == role else item)))
        for form in done.forms
    )


@pytest.mark.parametrize("way", ["overlap", "butt"])
def test_a_true_file_measures_true(way):
    proof = proof_of(tiled(way))
    assert proof.true
    assert proof.lost == ()
    assert proof.worst_mm < 0.03
    # the tray's four pages meet at four joins; five lines run over them clear of others at least
    assert proof.joins >= 5
    assert proof.places > 200


@pytest.mark.parametrize(("across", "down"), [(0.97, 0.97), (1.015, 1.015), (0.985, 1.012)])
def test_a_printer_that_is_off_measures_true_after_the_inverse_scale(across, down):
    done = tiled()
    undo = Affine(1 / across, 0.0, 0.0, 1 / down, 0.0, 0.0)
    change = partial(stretched, across=across, down=down)
    assert proof_of(done, undo=undo, change=change).worst_mm < 0.03
    data = change(written(done.pages, done.forms))
    marks = read_marks(data, range(len(done.pages)))
    assert compare(done.tiles, TEMPLATES, marks, undo).true
    assert not compare(done.tiles, TEMPLATES, marks).true


def test_a_score_printed_three_tenths_aside_is_measured():
    done = tiled()
    forms = with_form(done, "score left wall of tray", lambda shape: replace(shape, path=aside(shape.path, 0.3)))
    proof = proof_of(done, forms=forms)
    assert not proof.true
    assert proof.largest_error_mm == pytest.approx(0.3, abs=0.03)


def aside(path, dx):
    return tuple((c[0], *(v + dx if k % 2 == 0 else v for k, v in enumerate(c[1:]))) for c in path)


def test_a_page_whose_drawing_slipped_does_not_meet_its_neighbour():
    done = tiled()

    def slipped(item):
        return replace(item, dy=item.dy + 0.25) if isinstance(item, FormUse) else item

    pages = (replace(done.pages[0], items=changed(done.pages[0].items, slipped)), *done.pages[1:])
    proof = proof_of(done, pages=pages)
    assert not proof.true
    assert proof.largest_join_error_mm == pytest.approx(0.25, abs=0.03)


def test_a_line_left_out_is_found():
    done = tiled()
    proof = proof_of(done, forms=with_form(done, "slit slot of liner", lambda shape: None))
    assert {lost.line for lost in proof.lost} == {"slit slot"}


def test_a_gap_in_an_outline_is_found():
    done = tiled()

    def opened(shape):
        return replace(shape, path=shape.path[:-2])  # without its last corner and its way back to the start

    proof = proof_of(done, forms=with_form(done, "outline of tray", opened))
    assert not proof.true
    assert any(lost.line == "outline" and lost.tile == "" and lost.long > 1 for lost in proof.lost)


def test_an_outline_drawn_twice_with_a_slip_is_wider_than_its_pen():
    done = tiled()
    forms = tuple(
        replace(form, items=(*form.items, *(replace(i, path=aside(i.path, 0.2), role="twice") for i in form.items[:1])))
        for form in done.forms
    )
    proof = proof_of(done, forms=forms)
    assert proof.widest_mm > 0.1
    assert not proof.true


def test_a_check_square_of_another_size_is_measured():
    done = tiled()

    def larger(item):
        if not (isinstance(item, Shape) and item.role == "check square"):
            return item
        x, y = item.path[0][1:]
        return replace(item, path=(("M", x, y), ("L", x + 50.3, y), ("L", x + 50.3, y + 50), ("L", x, y + 50), ("Z",)))

    pages = (replace(done.pages[0], items=changed(done.pages[0].items, larger)), *done.pages[1:])
    assert proof_of(done, pages=pages).largest_square_error_mm == pytest.approx(0.3, abs=0.03)
