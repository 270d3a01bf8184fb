"""Twenty of the bench's random outlines (tests/bench/tiles.py measures all 500): put together again from the rasters of their pages
they are whole, and they take no more pages than a plain grid."""

import pytest

from creasewright.booklet.tiling.tile_templates import tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import Joining, PageSize, window_of
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.proof import prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from plain_grid import plain_grid_pages
from random_outlines import random_templates
from template_cases import written

CASES = [
    (template, page, way)
    for template, (page, way) in zip(
        random_templates(20),
        [(PageSize(215.9, 279.4), "overlap"), (PageSize(210.0, 297.0), "butt")] * 10,
        strict=True,
    )
]


@pytest.mark.parametrize(("template", "page", "way"), CASES, ids=[template.key for template, *_ in CASES])
def test_a_random_outline_is_whole_again_and_on_no_more_pages_than_a_plain_grid(template, page, way):
    window = window_of(page, Joining(way))
    done = tile_templates((template,), page, FontRuler(), TileWords(), window)
    assert done.least <= len(done.pages) <= plain_grid_pages(template.polygon, window)
    data, numbers = written(done.pages, done.forms), range(len(done.pages))
    marks = read_marks(data, numbers)
    assert compare(done.tiles, (template,), marks).true
    proof = prove(done.tiles, (template,), marks, page_rasters(data, numbers))
    assert proof.lost == ()
    assert max(proof.worst_mm, proof.widest_mm) <= 0.1
