"""Every design's templates made for printers that are off: what comes out measures true, in vector and on a raster of 600 dpi."""

from fractions import Fraction
from io import BytesIO

import pypdfium2
import pytest
from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Bookmark, Document
from creasewright.booklet.template_pages import tile_page_size
from creasewright.booklet.tiling.spots import moved
from creasewright.checked import checked
from creasewright.geometry.outline import Line
from creasewright.pack import templates_of
from creasewright.pdf.fonts import FontRuler
from creasewright.pdf.paint import paint
from creasewright.places import built_in_designs, shipped
from creasewright.readback.compare import compare
from creasewright.readback.printer_undo import tile_in_file, undo_of
from creasewright.readback.read_marks import read_marks
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_words import read_words
from creasewright.reading.settings import MakerSettings, Tools
from creasewright.units.printer import Printer, Reading

LAYOUT = read_layout(shipped("layouts") / "pack.yaml")
WORDS = read_words(shipped("layouts") / LAYOUT.words)
PRINTERS = [("97", "97"), ("100", "100"), ("101.5", "101.5"), ("98.2", "102.7")]
MARGINS = (Fraction(4), Fraction(5), Fraction(6), Fraction(12))
DPI = 600
REACH = 6
"""Pixels to each side of where a line should be."""


def made(name, page, system, across, along):
    done = checked(built_in_designs()[name], system, 1, {}, MakerSettings(), Tools())
    printer = Printer("desk", page, Reading(Fraction(across), Fraction(100)), Reading(Fraction(along), Fraction(100)), MARGINS)
    context = PackContext(
        done.worked, done.plans, done.findings, done.tools, LAYOUT, LAYOUT.sections[0], LAYOUT.page(page), FontRuler(), WORDS, printer
    )
    templates, tiled = templates_of(context)
    if tiled is None:
        return None
    pages = [replace(one, stretch=printer.stretch) for one in tiled.pages]
    pages[0] = replace(pages[0], bookmarks=(Bookmark("first", "Templates"), *pages[0].bookmarks))
    out = BytesIO()
    paint(Document("t", "a", "s", "en", tuple(pages), tiled.forms, LAYOUT.palette), out, b"test")
    return templates, tiled, out.getvalue(), undo_of(printer, tile_page_size(context))


@pytest.mark.parametrize(("across", "along"), PRINTERS)
@pytest.mark.parametrize(("page", "system"), [("letter", "in"), ("a4", "mm")])
@pytest.mark.parametrize("name", built_in_designs())
def test_templates_come_out_true_on_a_printer_that_is_off(name, page, system, across, along):
    found = made(name, page, system, across, along)
    if found is None:
        return
    templates, tiled, pdf, undo = found
    result = compare(tiled.tiles, templates, read_marks(pdf, range(len(tiled.pages))), undo)
    assert result.true
    assert max(result.largest_error_mm, result.largest_square_error_mm) < 0.01


@pytest.mark.parametrize(("across", "along"), PRINTERS)
@pytest.mark.parametrize("name", ["seed-packet-envelope", "seed-swap-folio"])
def test_level_and_upright_edges_lie_where_they_should_on_the_raster(name, across, along):
    templates, tiled, pdf, undo = made(name, "letter", "in", across, along)
    by_key = {template.key: template for template in templates}
    document = pypdfium2.PdfDocument(pdf)
    images = {}
    looked = 0
    for tile in tiled.tiles:
        image = images.setdefault(tile.page_index, document[tile.page_index].render(scale=DPI / 72, grayscale=True).to_pil())
        from_blank = tile_in_file(tile, undo).to_blank.inverse()
        left, tail, right, head = tile_in_file(tile, undo).window
        for edge in by_key[tile.template].outline.edges:
            if not isinstance(edge, Line):
                continue
            ends = [moved(from_blank, (float(at.x), float(at.y))) for at in (edge.start, edge.end)]
            x, y = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
            if not (left + 20 < x < right - 20 and tail + 20 < y < head - 20):
                continue
            for axis in (0, 1):
                if abs(ends[0][axis] - ends[1][axis]) < 0.01:
                    off = off_by(image, x * DPI / 72, image.height - y * DPI / 72, axis)
                    scale = float(Fraction((across, along)[axis]) / 100)
                    assert abs(off) * 25.4 / DPI * scale < 0.1
                    looked += 1
    assert looked >= 2


def off_by(image, x, y, axis):
    """How far the dark pixels about a place are from it, across a line that runs along the other axis; pixels."""
    cells = range(-REACH, REACH + 1)
    column = round(x - 0.5), round(y - 0.5)
    ink = [255 - image.getpixel((column[0] + k, column[1]) if axis == 0 else (column[0], column[1] + k)) for k in cells]
    assert sum(ink) > 255, "no line is drawn there"
    middle = sum(k * dark for k, dark in zip(cells, ink, strict=True)) / sum(ink)
    return column[axis] + 0.5 + middle - (x, y)[axis]
