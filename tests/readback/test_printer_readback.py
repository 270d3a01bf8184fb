"""Template pages made for one printer: printed by it, they measure true, in vector and on a raster."""

import io
from fractions import Fraction

import pypdfium2
import pytest
from msgspec.structs import replace

from creasewright.booklet.drawing import Bookmark, Document
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.pdf.fonts import FontRuler
from creasewright.pdf.paint import paint
from creasewright.readback.compare import compare
from creasewright.readback.printer_undo import tile_in_file, undo_of
from creasewright.readback.read_marks import read_marks
from creasewright.units.printer import Printer, Reading
from template_cases import PALETTE, l_shaped, pillow, tray, wheel

TEMPLATES = (tray(), wheel("big wheel", 130), l_shaped(), pillow())
MARGINS = (Fraction(4), Fraction(6), Fraction(5), Fraction(14))
DPI = 600
SIZES = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}


def printer(page, across, along):
    return Printer("desk", page, Reading(Fraction(across), Fraction(100)), Reading(Fraction(along), Fraction(100)), MARGINS)


CASES = [(page, across, along) for page in SIZES for across, along in (("97", "97"), ("101.5", "101.5"), ("97.3", "102.9"))]


@pytest.fixture(scope="module", params=CASES, ids=" ".join)
def made(request):
    page, across, along = request.param
    one = printer(page, across, along)
    size = PageSize(*SIZES[page], one.white(*SIZES[page]))
    tiled = tile_templates(TEMPLATES, size, FontRuler(), TileWords())
    pages = tuple(replace(drawn, stretch=one.stretch) for drawn in tiled.pages)
    pages = (replace(pages[0], bookmarks=(Bookmark("templates", "Templates"), *pages[0].bookmarks)), *pages[1:])
    out = io.BytesIO()
    paint(Document("t", "a", "s", "en", pages, tiled.forms, PALETTE), out, b"test")
    return one, size, tiled, out.getvalue()


def test_after_the_inverse_every_line_is_where_the_design_puts_it(made):
    one, size, tiled, pdf = made
    found = read_marks(pdf, range(len(tiled.pages)))
    result = compare(tiled.tiles, TEMPLATES, found, undo_of(one, size))
    assert result.true
    assert result.largest_error_mm < 0.01
    assert result.largest_square_error_mm < 0.001
    assert not compare(tiled.tiles, TEMPLATES, found).true


def test_the_record_of_a_tile_maps_the_files_own_points(made):
    one, size, tiled, pdf = made
    found = read_marks(pdf, range(len(tiled.pages)))
    in_file = [tile_in_file(tile, undo_of(one, size)) for tile in tiled.tiles]
    result = compare(in_file, TEMPLATES, found)
    # only the square and the combs are looked for at their true size there, and that is not their size in the file
    assert result.largest_error_mm < 0.01
    assert {missed.line.split()[0] for missed in result.missing} <= {"comb"}


def test_nothing_is_inked_where_the_printer_prints_nothing(made):
    one, _, tiled, pdf = made
    document = pypdfium2.PdfDocument(pdf)
    pixel = 25.4 / 150
    for index in range(len(tiled.pages)):
        image = document[index].render(scale=150 / 72, grayscale=True).to_pil()
        left, head, right, tail = image.point(lambda grey: 255 if grey < 200 else 0).getbbox()
        edges = (left, head, image.width - right, image.height - tail)
        assert all(edge * pixel > float(margin) - pixel for edge, margin in zip(edges, one.margins, strict=True))


def test_the_check_square_measures_50_mm_on_the_paper(made):
    """On a raster, each way along the middle of the square's sides; scaled as the printer scales."""
    one, size, tiled, pdf = made
    document = pypdfium2.PdfDocument(pdf)
    tile = tiled.tiles[0]
    image = document[tile.page_index].render(scale=DPI / 72, grayscale=True).to_pil()
    left, tail, right, head = tile_in_file(tile, undo_of(one, size)).check_square
    pixel = DPI / 72
    box = (left * pixel - 30, image.height - head * pixel - 30, right * pixel + 30, image.height - tail * pixel + 30)
    square = image.crop(tuple(round(side) for side in box)).point(lambda grey: 1 if grey < 128 else 0)
    for axis in (0, 1):
        middles = side_middles(square, axis)
        drawn = (middles[1] - middles[0]) * 25.4 / DPI
        assert abs(drawn * one.scale[axis] - 50) < 0.1


def side_middles(square, axis):
    """Where the two sides that cross the axis lie, pixels: the lines that are dark for most of the square's length."""
    data = square.load()
    across, along = (square.width, square.height) if axis == 0 else (square.height, square.width)
    dark = [sum(data[(k, j) if axis == 0 else (j, k)] for j in range(along)) > along * 0.8 for k in range(across)]
    halves = range(across // 2), range(across // 2, across)
    return [sum(places) / len(places) for places in ([k for k in half if dark[k]] for half in halves)]


def test_margins_move_the_window_and_nothing_else_does():
    usual, own = PageSize(210.0, 297.0), PageSize(210.0, 297.0, (4.0, 6.0, 5.0, 14.0))
    was, window = window_of(usual), window_of(own)
    # 7.2 mm is usual: 3.2 more at the left, 1.2 at the head, 2.2 at the right, 6.8 less at the tail
    assert (window.left, window.head) == pytest.approx((was.left - 3.2, was.head - 1.2))
    assert (window.right, window.tail) == pytest.approx((was.right + 2.2, was.tail - 6.8))
