"""Blocks to pages. Letter's content runs from 36 to 262 mm: 226 mm."""



from booklet.square_ruler import SquareRuler
from creasewright.booklet.block import Block
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
