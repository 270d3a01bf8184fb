"""Blocks to pages. Letter's content runs from 36 to 262 mm: 226 mm."""

import pytest
from msgspec.structs import replace

from booklet.square_ruler import SquareRuler
from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.drawing import Bookmark, Group, Mark, Page, Tagged, Words
from creasewright.booklet.section import Section, Sheet
from creasewright.pages.flow import flow
from creasewright.reading.page_layout import PageLayout

RULER = SquareRuler()


def block(
    height: float, *, keep_with_next: bool = False, space_before: float = 0.0, within: str = "", repeat: Block | None = None
) -> Block:
    return Block(height, (), keep_with_next, space_before, within, repeat)


def pages_of(layout: PageLayout, *sections: Section) -> tuple[Page, ...]:
    return flow(sections, layout, layout.page("letter"), RULER, "Folio")


def test_pages_are_numbered_in_one_pass(pack_layout: PageLayout) -> None:
    cover = Section("cover", "Cover", numbered="none", sheets=(Sheet(()),))
    steps = Section("steps", "Steps", blocks=(block(200), block(200)))
    templates = Section("templates", "Templates", numbered="T-", sheets=(Sheet(()), Sheet(())))
    back = Section("back matter", "Terms", blocks=(block(10),))
    assert [page.label for page in pages_of(pack_layout, cover, steps, templates, back)] == ["", "1", "2", "T-1", "T-2", "3"]


def test_a_section_all_of_which_fits_goes_below_the_one_before(pack_layout: PageLayout) -> None:
    heights = {"a": 100, "b": 95, "c": 10}
    first, second, third = (Section(key, key.upper(), blocks=(block(height),)) for key, height in heights.items())
    # 36 + 100, 10 to the strip at 17.5 of what would be a page's head, and 18.5 from there to the content: 164.5; 95 more is 259.5
    one, other = pages_of(pack_layout, first, second, third)
    assert [mark.key for mark in one.bookmarks] == ["a", "b"] and [mark.key for mark in other.bookmarks] == ["c"]
    placed = [(item.dx, item.dy) for item in one.items if isinstance(item, Group)]
    assert placed == [(20, 36), (0, 128.5), (20, 164.5)]
    marks = [item for mark in one.items if isinstance(mark, Mark) for item in mark.items]
    running = [words.runs[0].text for words in marks if isinstance(words, Words)]
    assert "A · B" in running


def test_the_white_above_a_section_gives_way_where_only_so_all_of_it_fits(pack_layout: PageLayout) -> None:
    # with 10 mm above it 99 mm would end at 263.5; with 6 they end at 259.5
    (one,) = pages_of(pack_layout, *(Section(key, key.upper(), blocks=(block(height),)) for key, height in (("a", 100), ("b", 99))))
    assert [(item.dx, item.dy) for item in one.items if isinstance(item, Group)] == [(20, 36), (0, 124.5), (20, 160.5)]


@pytest.mark.parametrize(
    ("before", "heights", "begun_on"),
    [
        (60, (100, 200), 1),  # the first block goes below, and the second page is as it was
        (60, (100, 100, 100), 2),  # no page less, as the last one would be fuller
        (60, (100, 200, 180), 1),
        (60, (100, 120), 2),  # it is whole on a page of its own
        (60, (20, 220), 2),  # too little below
        (135, (70, 200), 2),  # it would begin in the lowest third
    ],
)
def test_a_section_goes_on_below_the_one_before_where_a_page_is_saved(
    pack_layout: PageLayout, before: float, heights: tuple[float, ...], begun_on: int
) -> None:
    second = Section("b", "B", blocks=tuple(block(height) for height in heights))
    pages = pages_of(pack_layout, Section("a", "A", blocks=(block(before),)), second)
    assert [page.label for page in pages if any(mark.key == "b" for mark in page.bookmarks)] == [str(begun_on)]
    assert [page.label for page in pages] == [str(k + 1) for k in range(len(pages))]
    assert running_heads(pages) == [("A · B" if begun_on == 1 else "A"), *(["B"] * (len(pages) - 1))]


def running_heads(pages: tuple[Page, ...]) -> list[str]:
    return [
        item.items[-1].runs[0].text
        for page in pages
        for item in page.items
        if isinstance(item, Mark) and isinstance(item.items[-1], Words) and item.items[-1].role == "running head"
    ]


def test_a_page_with_a_title_of_its_own_says_it_in_its_running_head_too(pack_layout: PageLayout) -> None:
    own, part = PageHead("Marks", own=True), PageHead("Front block", "continued")
    blocks = (block(200), replace(block(200), head=own), replace(block(200), head=part))
    assert running_heads(pages_of(pack_layout, Section("a", "A", blocks=blocks))) == ["A", "Marks", "A"]


def test_a_section_goes_below_none_that_is_numbered_otherwise_or_laid_out_whole(pack_layout: PageLayout) -> None:
    cover = Section("cover", "Cover", numbered="none", blocks=(block(10),))
    steps = Section("steps", "Steps", blocks=(block(10),))
    templates = Section("templates", "Templates", numbered="T-", sheets=(Sheet(()),))
    back = Section("back matter", "Terms", blocks=(block(10),))
    assert [page.label for page in pages_of(pack_layout, cover, steps, templates, back)] == ["", "1", "T-1", "2"]


def test_a_section_begins_a_page_and_is_bookmarked_there(pack_layout: PageLayout) -> None:
    inner = Block(10, (), bookmarks=(Bookmark("step 1", "Step 1", 1),))
    first, second = pages_of(pack_layout, Section("a", "A **b**", blocks=(inner,)), Section("c", "C", blocks=(block(200),)))
    assert first.bookmarks == (Bookmark("a", "A b"), Bookmark("step 1", "Step 1", 1))
    assert second.bookmarks == (Bookmark("c", "C"),)


def test_blocks_of_one_table_are_in_one_element_a_page(pack_layout: PageLayout) -> None:
    row = Words(0, 5, ())
    rows = tuple(Block(90, (row,), within="Table t") for _ in range(3))
    after = Block(10, (row,))
    pages = pages_of(pack_layout, Section("a", "A", blocks=(*rows, after)))
    tables = [[len(item.items) for item in page.items if isinstance(item, Tagged) and item.kind == "Table"] for page in pages]
    assert tables == [[2], [1]]
    # the block after the table stands on its own, at the left margin of 20 mm
    (group,) = [item for item in pages[1].items if isinstance(item, Group)]
    assert (group.dx, group.dy) == (20, 126)


def test_a_section_head_is_a_heading_on_its_first_page_only(pack_layout: PageLayout) -> None:
    pages = pages_of(pack_layout, Section("a", "A", "pieces A, B", blocks=(block(200), block(200))))
    heads = [[item.kind for item in page.items if isinstance(item, Tagged)] for page in pages]
    assert heads == [["H1", "P"], []]
