"""Blocks to pages. Letter's content runs from 36 to 262 mm: 226 mm."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.stacking import LEAST, stacks
from creasewright.problems import ProblemsFound
from creasewright.reading.page_layout import PageLayout


def block(
    height: float, *, keep_with_next: bool = False, space_before: float = 0.0, within: str = "", repeat: Block | None = None
) -> Block:
    return Block(height, (), keep_with_next, space_before, within, repeat)


def tops(layout: PageLayout, *blocks: Block) -> list[list[float]]:
    return [[placed.top for placed in stack.placed] for stack in stacks(blocks, layout.page("letter"), "Steps")]


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
    assert [placed.block for stack in pages for placed in stack.placed] == blocks
    for stack in pages:
        assert stack.placed[0].top == page.content_from
        assert all(a.top + a.block.height <= b.top + 1e-9 for a, b in pairwise(stack.placed))
        assert stack.placed[-1].top + stack.placed[-1].block.height == pytest.approx(stack.end)
        assert stack.end <= page.content_to + 1e-5


def test_white_above_blocks_is_squeezed_where_a_page_is_overrun_by_a_little(pack_layout: PageLayout) -> None:
    # 100 + 9 + 60 + 8 + 51 = 228, 2 too many; 3 and 2 may be given: two fifths of each less
    assert tops(pack_layout, block(100), block(60, space_before=9), block(51, space_before=8)) == [
        [36, pytest.approx(36 + 100 + 9 - 1.2), pytest.approx(262 - 51)]
    ]
    # 5 too many and no more: all that may be given
    (given_all,) = tops(pack_layout, block(100), block(60, space_before=9), block(54, space_before=8))
    assert given_all == [36, 36 + 100 + LEAST, 36 + 100 + 60 + 2 * LEAST]
    assert len(tops(pack_layout, block(100), block(60, space_before=9), block(54.1, space_before=8))) == 2


def loose(height: float) -> Block:
    return replace(block(height, keep_with_next=True), loosely=True)


def test_what_is_kept_loosely_is_parted_before_a_large_part_of_a_page_is_left_empty(pack_layout: PageLayout) -> None:
    # 126 mm would be left empty
    assert tops(pack_layout, block(100), loose(50), block(90)) == [[36, 136], [36]]
    # 36 mm are
    assert tops(pack_layout, block(190), loose(30), block(90)) == [[36], [36, 66]]
    # the last place that fits
    assert tops(pack_layout, block(100), loose(30), loose(30), loose(80), block(10)) == [[36, 136, 166], [36, 116]]


def test_the_head_of_what_begins_a_page_stands_in_the_page_s_head(pack_layout: PageLayout) -> None:
    page = pack_layout.page("letter")
    begins = replace(block(10, keep_with_next=True), head=PageHead("Back block", begins=True))
    goes_on = replace(block(150), head=PageHead("Back block", "continued"))
    first, second, third = stacks([block(200), begins, goes_on, goes_on], page, "Steps")
    assert first.head is None
    assert second.head == begins.head and [placed.block for placed in second.placed] == [goes_on]
    assert third.head == goes_on.head
    # in the middle of a page it is set
    assert tops(pack_layout, block(20), begins, goes_on) == [[36, 56, 66]]


def test_blocks_below_others_begin_where_they_are_told(pack_layout: PageLayout) -> None:
    page = pack_layout.page("letter")
    assert [[placed.top for placed in stack.placed] for stack in stacks([block(62), block(1)], page, "x", 200.0)] == [[200], [36]]
