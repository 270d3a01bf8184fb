"""Every template of every built-in design: read back from its file, and measured on the raster of its pages."""

import pytest
from msgspec.structs import replace

from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.template_pages import template_window
from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.proof import prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from creasewright.reading.settings import TemplateWishes
from section_cases import DESIGNS, context_of, shipped
from template_cases import written


@pytest.mark.parametrize(("page", "system", "joining"), [("letter", "in", "overlap"), ("a4", "mm", "butt")])
@pytest.mark.parametrize("design", DESIGNS)
def test_templates_are_within_a_hundredth_in_the_file_and_a_tenth_on_the_raster(design, page, system, joining):
    context = replace(context_of(shipped(design, system), "templates", page), wishes=TemplateWishes("all", joining))
    templates = kit_templates(context)
    size = PageSize(context.page.width, context.page.height)
    done = tile_templates(templates, size, FontRuler(), TileWords(), template_window(context))
    assert done.least <= len(done.pages)
    data, numbers = written(done.pages, done.forms), range(len(done.pages))
    marks = read_marks(data, numbers)
    read = compare(done.tiles, templates, marks)
    assert (read.missing, read.unexpected) == ((), ())
    assert read.worst_mm <= 0.01
    proof = prove(done.tiles, templates, marks, page_rasters(data, numbers))
    assert proof.lost == ()
    assert max(proof.worst_mm, proof.widest_mm) <= 0.1
