"""Blocks to pages. Letter's content runs from 36 to 262 mm: 226 mm."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.square_ruler import SquareRuler
from creasewright.booklet.block import Block
from creasewright.booklet.drawing import Bookmark, Group, Page, Tagged, Words
from creasewright.booklet.section import Section, Sheet
from creasewright.pages.flow import flow, stacks
from creasewright.problems import ProblemsFound
from creasewright.reading.page_layout import PageLayout

RULER = SquareRuler()


def block(
    height: float, *, keep_with_next: bool = False, space_before: float = 0.0, within: str = "", repeat: Block | None = None
) -> Block:
    return Block(height, (), keep_with_next, space_before, within, repeat)


def tops(layout: PageLayout, *blocks: Block) -> list[list[float]]:
    return [[placed.top for placed in stack] for stack in stacks(blocks, layout.page("letter"), "Steps")]


def pages_of(layout: PageLayout, *sections: Section) -> tuple[Page, ...]:
    return flow(sections, layout, layout.page("letter"), RULER, "Folio")


def test_blocks_are_stacked_from_the_head(pack_layout: PageLayout) -> None:
    assert tops(pack_layout, block(10), block(20, space_before=5), block(1)) == [[36, 51, 71]]


def test_a_block_that_does_not_fit_begins_a_page_without_its_space_before(pack_layout: PageLayout) -> None:
    # 36 + 200 + 5 + 30 = 271 is past 262
    assert tops(pack_layout, block(200), block(30, space_before=5)) == [[36], [36]]
    assert tops(pack_layout, block(196), block(30)) == [[36, 232]]


def test_a_head_goes_with_what_follows(pack_layout: PageLayout) -> None:
    assert tops(pack_layout, block(200), block(10, keep_with_next=True), block(30)) == [[36], [36, 46]]


def test_a_chain_longer_than_a_page_is_parted(pack_layout: PageLayout) -> None:
    assert tops(pack_layout, block(150, keep_with_next=True), block(150)) == [[36], [36]]


def test_the_head_row_is_set_again_where_a_table_runs_on(pack_layout: PageLayout) -> None:
    head = block(8, within="Table a", keep_with_next=True)
    rows = [block(100, within="Table a", repeat=head) for _ in range(3)]
    assert tops(pack_layout, head, *rows) == [[36, 44, 144], [36, 44]]


def test_a_table_that_begins_a_page_has_one_head_row(pack_layout: PageLayout) -> None:
    head = block(8, within="Table b", keep_with_next=True)
    assert tops(pack_layout, block(220), head, block(100, within="Table b", repeat=head)) == [[36], [36, 44]]


def test_a_block_taller_than_a_page_is_a_fault(pack_layout: PageLayout) -> None:
    with pytest.raises(ProblemsFound, match="a part of “Steps” is 300 mm high, and the page letter holds 226 mm"):
        tops(pack_layout, block(300))


@given(st.lists(st.tuples(st.floats(0.5, 226), st.booleans(), st.floats(0, 20)), max_size=40))
def test_every_block_is_placed_once_in_order_within_the_content(
    pack_layout: PageLayout, drawn: list[tuple[float, bool, float]]
) -> None:
    blocks = [Block(height, (), keep, space) for height, keep, space in drawn]
    page = pack_layout.page("letter")
    pages = stacks(blocks, page, "x")
    assert [placed.block for stack in pages for placed in stack] == blocks
    for stack in pages:
        assert stack[0].top == page.content_from
        assert all(a.top + a.block.height <= b.top + 1e-9 for a, b in pairwise(stack))
        assert stack[-1].top + stack[-1].block.height <= page.content_to + 1e-5


def test_pages_are_numbered_in_one_pass(pack_layout: PageLayout) -> None:
    cover = Section("cover", "Cover", numbered="none", sheets=(Sheet(()),))
    steps = Section("steps", "Steps", blocks=(block(200), block(200)))
    templates = Section("templates", "Templates", numbered="T-", sheets=(Sheet(()), Sheet(())))
    back = Section("back matter", "Terms", blocks=(block(10),))
    assert [page.label for page in pages_of(pack_layout, cover, steps, templates, back)] == ["", "1", "2", "T-1", "T-2", "3"]


def test_a_section_begins_a_page_and_is_bookmarked_there(pack_layout: PageLayout) -> None:
    inner = Block(10, (), bookmarks=(Bookmark("step 1", "Step 1", 1),))
    first, second = pages_of(pack_layout, Section("a", "A **b**", blocks=(inner,)), Section("c", "C", blocks=(block(10),)))
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


def test_a_section_head_stands_on_its_first_page_only(pack_layout: PageLayout) -> None:
    pages = pages_of(pack_layout, Section("a", "A", "pieces A, B", blocks=(block(200), block(200))))
    heads = [[item.kind for item in page.items if isinstance(item, Tagged)] for page in pages]
    assert heads == [["H1", "P"], []]
