"""Small templates in the empty corners of large ones."""

from creasewright.booklet.tiling.hosting import CLEAR, host_small
from creasewright.booklet.tiling.placing import placed_on
from creasewright.booklet.tiling.tile_templates import layouts_of, tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.booklet.tiling.window import PageSize, window_of
from creasewright.pdf.fonts import FontRuler
from creasewright.readback.compare import compare
from creasewright.readback.read_marks import read_marks
from template_cases import outline_of, rectangle, template_of, wheel, written

LETTER = PageSize(215.9, 279.4)
WINDOW = window_of(LETTER)
WEDGE = template_of("wedge", outline_of([(0, 0), (330, 0), (0, 400)]), ("B",))
"""Half of a sheet of two by two windows: three pages, two of them half empty."""


def pages_of(layouts):
    return sum(len(layout.printed) for layout in layouts)


def test_a_small_template_goes_into_an_empty_corner_of_a_large_one():
    alone = pages_of(layouts_of((WEDGE,), WINDOW))
    layouts = layouts_of((WEDGE, wheel("wheel", 20)), WINDOW)
    assert pages_of(layouts) == alone
    (layout,) = layouts
    large, small = layout.placed
    shows = [cell for cell in layout.printed if small in placed_on(layout, cell, WINDOW)]
    assert len(shows) == 1
    assert large in placed_on(layout, shows[0], WINDOW)


def test_what_is_hosted_keeps_clear_of_the_large_template():
    layout = layouts_of((WEDGE, rectangle("tag", 40, 60)), WINDOW)[0]
    wedge, tag = layout.placed
    # the slant runs from (330, 0) to (0, 400) of the wedge; its distance from the tag's nearest corner
    corners = [(tag.left + i * tag.width - wedge.left, tag.head + k * tag.height - wedge.head) for i in (0, 1) for k in (0, 1)]
    away = [(400 * x + 330 * y - 400 * 330) / (400**2 + 330**2) ** 0.5 for x, y in corners]
    assert min(away) >= CLEAR or max(away) <= -CLEAR


def test_nothing_is_moved_for_less_than_a_page():
    big = rectangle("lid", 150, 200)
    shared = layouts_of((big, rectangle("tag", 20, 30)), WINDOW)
    assert host_small([], shared, WINDOW) == shared


def test_hosted_templates_are_named_on_their_page_alone_and_read_back_true():
    templates = (WEDGE, wheel("wheel", 20))
    done = tile_templates(templates, LETTER, FontRuler(), TileWords())
    assert [tile.template for tile in done.tiles].count("wheel") == 1
    read = compare(done.tiles, templates, read_marks(written(done.pages, done.forms), range(len(done.pages))))
    assert read.true
    bookmarks = [[mark.title for mark in page.bookmarks if mark.level == 1] for page in done.pages]
    at = next(tile.page_index for tile in done.tiles if tile.template == "wheel")
    assert [k for k, titles in enumerate(bookmarks) if "Template W: wheel" in titles] == [at]
