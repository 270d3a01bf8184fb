"""How true the templates of all built-in designs are: letter and A4, both joining ways, and printers that are off.

    python tests/bench/true_templates.py

For each printer the pages are drawn at its scales; what is found, in the file and on the raster, is taken back by the inverse
scale and must be what the design says. Prints the largest errors in mm; judges nothing.
"""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1])]

from msgspec.structs import replace

from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.template_pages import template_window
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize
from creasewright.geometry.plane_transform import Affine
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.proof import prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from creasewright.reading.settings import TemplateWishes
from profiled import stretched
from section_cases import DESIGNS, context_of, shipped
from template_cases import written

PRINTERS = ((1.0, 1.0), (0.97, 0.97), (1.015, 1.015), (0.985, 1.012))
"""Scales across and down."""


def main():
    for page, system in (("letter", "in"), ("a4", "mm")):
        for joining in ("overlap", "butt"):
            for across, down in PRINTERS:
                print(f"{page} {joining} {across:.3f} x {down:.3f}: {worst_of(page, system, joining, across, down)}", flush=True)


def worst_of(page, system, joining, across, down):
    vector = raster = doubled = 0.0
    pages = lost = 0
    for design in DESIGNS:
        context = replace(context_of(shipped(design, system), "templates", page), wishes=TemplateWishes("all", joining))
        templates = kit_templates(context)
        size = PageSize(context.page.width, context.page.height)
        done = tile_templates(templates, size, FontRuler(), TileWords(), template_window(context))
        data, numbers = stretched(written(done.pages, done.forms), across, down), range(len(done.pages))
        undo = Affine(1 / across, 0.0, 0.0, 1 / down, 0.0, 0.0)
        marks = read_marks(data, numbers)
        read = compare(done.tiles, templates, marks, undo)
        proof = prove(done.tiles, templates, marks, page_rasters(data, numbers), undo)
        vector, raster = max(vector, read.worst_mm), max(raster, proof.worst_mm)
        doubled = max(doubled, proof.widest_mm)
        pages, lost = pages + len(done.pages), lost + len(proof.lost) + len(read.missing) + len(read.unexpected)
    return f"{pages} pages, vector {vector:.4f}, raster {raster:.4f}, wider than the pen by {doubled:.4f}, lost {lost}"


if __name__ == "__main__":
    main()
