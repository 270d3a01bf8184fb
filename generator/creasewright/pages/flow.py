"""Sections to numbered pages. mm, y down.

A section begins a page, unless all of it goes below the section before it, or so much of it that a page is saved. Pages are numbered
in one pass: 1, 2, 3 … through all sections numbered `pages`, and a count of their own for each prefix (`T-1`, `T-2` …).
"""

from collections.abc import Sequence

from msgspec import Struct

from creasewright.booklet.block import PageHead
from creasewright.booklet.drawing import Bookmark, Group, Item, Page, Tagged
from creasewright.booklet.section import Section
from creasewright.booklet.stacking import EMPTY, LEAST, LOWEST, SLACK, Placed, Stack, stacks
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import plain
from creasewright.pages.furniture import Furnisher
from creasewright.reading.page_layout import PageLayout, PageSize

TO_STRIP = 10.0
"""mm from a section to the folded strip of one that follows it on its page; `LEAST` where only so all of that fits there."""


class _Begun(Struct):
    """A page that sections are put on."""

    sections: list[int]
    """Which ones, from 0."""
    titles: list[str]
    """Of what stands on it, for its running head."""
    items: list[Item]
    bookmarks: list[Bookmark]
    end: float
    """Where its last block ends."""


class _Flow:
    def __init__(self, sections: Sequence[Section], layout: PageLayout, page: PageSize, ruler: TextRuler, title: str) -> None:
        self.sections, self.layout, self.page = sections, layout, page
        self.furnisher = Furnisher(layout, page, ruler, title, len(sections))
        self.counts: dict[str, int] = {}
        self.pages: list[Page] = []
        self.begun: _Begun | None = None
        """The page that the next section may go on."""

    def run(self) -> tuple[Page, ...]:
        for index in range(len(self.sections)):
            self.add(index)
        self.finish()
        return tuple(self.pages)

    def add(self, index: int) -> None:
        section = self.sections[index]
        first: tuple[Bookmark, ...] = (Bookmark(section.key, plain(section.title)),)
        if section.sheets:
            self.finish()
        for sheet in section.sheets:
            label = _label(section.numbered, self.counts)
            self.pages.append(Page(self.page.width, self.page.height, sheet.items, label, first + sheet.bookmarks))
            first = ()
        down, found = self.below(section) or (0.0, stacks(section.blocks, self.page, section.title))
        for number, stack in enumerate(found):
            if number or not down:
                self.finish()
            head = self.later_head(section, stack) if number else self.first_head(section)
            self.put(index, (Group(head, 0.0, down),) if down and not number else head, stack, () if number else first)

    def put(self, index: int, head: tuple[Item, ...], stack: Stack, first: tuple[Bookmark, ...]) -> None:
        """On the page that is begun, or on a new one."""
        page = self.begun = self.begun or _Begun([], [], [], [], 0.0)
        page.sections.append(index)
        page.titles.append(stack.head.title if stack.head is not None and stack.head.own else self.sections[index].title)
        page.items += [*head, *_placed_items(stack.placed, self.page.binding)]
        page.bookmarks += [*first, *_marks(stack)]
        page.end = stack.end

    def below(self, section: Section) -> tuple[float, list[Stack]] | None:
        """The section below the one before it, and how far its head is moved down; None where it begins a page.

        Not all of it need be on that page if a page is saved so and its last one is no fuller; but nothing begins low, or for little.
        """
        if self.begun is None or self.sections[self.begun.sections[-1]].numbered != section.numbered or not section.blocks:
            return None
        page, room = self.page, self.page.content_to - self.page.content_from
        for gap in (TO_STRIP, LEAST):
            down = self.begun.end + gap - self.layout.furniture.strip_from
            start = page.content_from + down
            if start + section.blocks[0].height <= page.content_to:
                found = stacks(section.blocks, page, section.title, start)
                if len(found) == 1:
                    return down, found
        down = self.begun.end + TO_STRIP - self.layout.furniture.strip_from
        if down > LOWEST * room:
            return None
        found = stacks(section.blocks, page, section.title, page.content_from + down)
        filled = found[0].end - page.content_from - down
        if filled < EMPTY * room:
            return None
        alone = stacks(section.blocks, page, section.title)
        saves = len(found) <= len(alone) and found[-1].end <= alone[-1].end + SLACK
        return (down, found) if saves else None

    def first_head(self, section: Section) -> tuple[Item, ...]:
        first = section.first or PageHead(section.title, section.scope)
        return self.furnisher.section_head(first.title, first.scope)

    def later_head(self, section: Section, stack: Stack) -> tuple[Item, ...]:
        """Of a page in the middle of a section."""
        if stack.head is None:
            return self.furnisher.page_head(section.title)
        return self.furnisher.page_head(stack.head.title, stack.head.scope, "H2" if stack.head.begins else "")

    def finish(self) -> None:
        """The page with its furniture; a section without numbers has only its head."""
        if self.begun is None:
            return
        begun, self.begun = self.begun, None
        here = [self.sections[index] for index in begun.sections]
        numbered = here[0].numbered
        label = _label(numbered, self.counts)
        titles = " · ".join(begun.titles)
        dressed = (self.furnisher.running_head(titles), self.furnisher.foot(begun.sections, label)) if numbered != "none" else ()
        items = (*dressed, *begun.items)
        self.pages.append(Page(self.page.width, self.page.height, items, label, tuple(begun.bookmarks)))


def flow(sections: Sequence[Section], layout: PageLayout, page: PageSize, ruler: TextRuler, pack_title: str) -> tuple[Page, ...]:
    """All pages of the pack. ProblemsFound if a block is taller than a page holds."""
    return _Flow(sections, layout, page, ruler, pack_title).run()


def _marks(stack: Stack) -> list[Bookmark]:
    return [mark for placed in stack.placed for mark in placed.block.bookmarks]


def _placed_items(stack: Sequence[Placed], left: float) -> tuple[Item, ...]:
    """The blocks' items in the frame of the page; neighbours of one `within` in one structure element."""
    items: list[Item] = []
    k = 0
    while k < len(stack):
        within, run = stack[k].block.within, [stack[k]]
        k += 1
        while within and k < len(stack) and stack[k].block.within == within:
            run.append(stack[k])
            k += 1
        groups = tuple(Group(placed.block.items, left, placed.top) for placed in run)
        items.extend([Tagged(within.split()[0], groups)] if within else groups)
    return tuple(items)


def _label(numbered: str, counts: dict[str, int]) -> str:
    """The next page number of its kind; counts it."""
    if numbered == "none":
        return ""
    counts[numbered] = counts.get(numbered, 0) + 1
    return f"{'' if numbered == 'pages' else numbered}{counts[numbered]}"
