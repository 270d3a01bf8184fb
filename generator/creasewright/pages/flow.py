"""Sections to numbered pages: blocks are stacked, kept together where they ask for it, and never split. mm, y down.

A section begins a page. Pages are numbered in one pass: 1, 2, 3 … through all sections numbered `pages`, and a count of their
own for each prefix (`T-1`, `T-2` …).
"""

from collections.abc import Iterable, Sequence

from msgspec import Struct

from creasewright.booklet.block import Block
from creasewright.booklet.drawing import Bookmark, Group, Item, Page, Tagged
from creasewright.booklet.section import Section
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.typeset import plain
from creasewright.pages.furniture import Furnisher
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.page_layout import PageLayout, PageSize

SLACK = 1e-6
"""mm by which a page may be overrun: rounding only."""


class Placed(Struct, frozen=True):
    """A block and the height of its top, from the head of the page."""

    block: Block
    top: float


def flow(sections: Sequence[Section], layout: PageLayout, page: PageSize, ruler: TextRuler, pack_title: str) -> tuple[Page, ...]:
    """All pages of the pack. ProblemsFound if a block is taller than a page holds."""
    furnisher = Furnisher(layout, page, ruler, pack_title, len(sections))
    counts: dict[str, int] = {}
    pages: list[Page] = []
    for index, section in enumerate(sections):
        first: tuple[Bookmark, ...] = (Bookmark(section.key, plain(section.title)),)
        for sheet in section.sheets:
            pages.append(Page(page.width, page.height, sheet.items, _label(section.numbered, counts), first + sheet.bookmarks))
            first = ()
        for stack in stacks(section.blocks, page, section.title):
            label = _label(section.numbered, counts)
            head = furnisher.section_head(section.title, section.scope) if stack[0].block is section.blocks[0] else ()
            items = (*_dressed(furnisher, section, index, label, head), *_placed_items(stack, page.binding))
            marks = tuple(mark for placed in stack for mark in placed.block.bookmarks)
            pages.append(Page(page.width, page.height, items, label, first + marks))
            first = ()
    return tuple(pages)


def _dressed(furnisher: Furnisher, section: Section, index: int, label: str, head: tuple[Item, ...]) -> tuple[Item, ...]:
    """The page's furniture; a section without numbers has only its head."""
    if section.numbered == "none":
        return head
    return (furnisher.running_head(section.title), furnisher.foot(index, label), *head)


def stacks(blocks: Sequence[Block], page: PageSize, section: str) -> list[list[Placed]]:
    """The blocks in page after page, each with its place."""
    pages: list[list[Placed]] = []
    y, before = page.content_from, ""
    for chain in _chains(blocks):
        if _chain_height(chain) > page.content_to - page.content_from + SLACK:
            chains: Iterable[list[Block]] = ([block] for block in chain)
        else:
            chains = (chain,)
        for unit in chains:
            if not pages or y + _chain_height(unit, unit[0].space_before) > page.content_to + SLACK:
                pages.append([])
                y = page.content_from
                if unit[0].repeat and unit[0].within == before:
                    pages[-1].append(Placed(unit[0].repeat, y))
                    y += unit[0].repeat.height
            for block in unit:
                y += block.space_before if pages[-1] else 0.0
                _refuse_tall(y, block, page, section)
                pages[-1].append(Placed(block, y))
                y += block.height
                before = block.within
    return pages


def _chains(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that stay together, in order: each but the last is kept with the next."""
    chains: list[list[Block]] = []
    open_chain = False
    for block in blocks:
        if open_chain:
            chains[-1].append(block)
        else:
            chains.append([block])
        open_chain = block.keep_with_next
    return chains


def _chain_height(chain: Sequence[Block], space_before: float = 0.0) -> float:
    """With `space_before` above it."""
    return space_before + sum(block.height for block in chain) + sum(block.space_before for block in chain[1:])


def _refuse_tall(y: float, block: Block, page: PageSize, section: str) -> None:
    if y + block.height <= page.content_to + SLACK:
        return
    room = page.content_to - page.content_from
    what = f"a part of “{section}” is {block.height:.0f} mm high, and the page {page.name} holds {room:.0f} mm"
    raise ProblemsFound([Problem(NOWHERE, what, "shorten its text, or print on larger paper")])


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
