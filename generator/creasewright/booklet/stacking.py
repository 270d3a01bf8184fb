"""Blocks to pages: stacked down one page after the other, kept together where they ask for it, and never split. mm, y down.

Chain      Blocks that stay together: each but the last is kept with the next. One that is higher than a page is parted.
Loose      A chain may be parted after a block that is kept loosely, where a large part of the page would be left empty else.
Low        What would begin below `LOWEST` begins the next page instead, if that costs no page.
Squeezed   A page that is overrun by a little has the white above its blocks made smaller, down to `LEAST`.
"""

from collections.abc import Sequence

from msgspec import Struct

from creasewright.booklet.block import Block, PageHead
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.page_layout import PageSize

SLACK = 1e-6
"""mm by which a page may be overrun: rounding only."""
LEAST = 6.0
"""mm: white above a block is not squeezed below this; less is left as it is."""
EMPTY = 0.2
"""Share of a page: more is not left empty to hold together what is kept loosely."""


LOWEST = 2 / 3
"""Share of a page: below it nothing begins that has a head of its own, if the pages are no more for it."""


class Placed(Struct, frozen=True):
    """A block and the height of its top, from the head of the page."""

    block: Block
    top: float


class Stack(Struct, frozen=True):
    """What stands on one page."""

    placed: tuple[Placed, ...]
    end: float
    """Where the last block ends."""
    head: PageHead | None = None
    """None on the first page of a section, and where its first block asks for none."""


def stacks(blocks: Sequence[Block], page: PageSize, section: str, start: float | None = None) -> list[Stack]:
    """The blocks on page after page. `start`: where they begin on the first one; None: at its head.

    ProblemsFound if a block is taller than a page holds.
    """
    chains = chains_of(blocks)
    found = _stacked_chains(chains, page, section, start, frozenset())
    turned: frozenset[int] = frozenset()
    for number, chain in enumerate(chains):
        if number and _begins_low(found, chain[0], page):
            tried = _stacked_chains(chains, page, section, start, turned | {number})
            if len(tried) <= len(found):
                found, turned = tried, turned | {number}
    return found


def _stacked_chains(
    chains: Sequence[Sequence[Block]], page: PageSize, section: str, start: float | None, turned: frozenset[int]
) -> list[Stack]:
    """`turned`: the chains that begin a page."""
    stacker = _Stacker(page, section, page.content_from if start is None else start)
    for number, chain in enumerate(chains):
        stacker.add(chain, number in turned)
    return [stacker.stack(number) for number in range(len(stacker.pages))] if chains else []


def _begins_low(found: Sequence[Stack], block: Block, page: PageSize) -> bool:
    if block.head is None or not block.head.begins:
        return False
    low = page.content_from + LOWEST * (page.content_to - page.content_from)
    return any(placed.block is block and placed.top > low for stack in found for placed in stack.placed)


def chains_of(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks that stay together, in order."""
    chains: list[list[Block]] = []
    open_chain = False
    for block in blocks:
        if open_chain:
            chains[-1].append(block)
        else:
            chains.append([block])
        open_chain = block.keep_with_next
    return chains


def stacked(blocks: Sequence[Block]) -> float:
    """The height of blocks below each other, without the white above the first."""
    return sum(block.height for block in blocks) + sum(block.space_before for block in blocks[1:])


def white_to_give(blocks: Sequence[Block]) -> float:
    return sum(max(0.0, block.space_before - LEAST) for block in blocks[1:])


class _Stacker:
    def __init__(self, page: PageSize, section: str, start: float) -> None:
        self.page, self.section = page, section
        self.tops = [start]
        self.pages: list[list[Block]] = [[]]
        self.heads: list[PageHead | None] = [None]

    @property
    def room(self) -> float:
        return self.page.content_to - self.page.content_from

    def add(self, chain: Sequence[Block], turned: bool = False) -> None:
        """On this page what it takes of it, the rest on the next ones; `turned`: on the next page."""
        rest = self._turn_page(list(chain)) if turned else list(chain)
        while rest:
            held = self._held(rest)
            if not held:
                rest = self._turn_page(rest)
                held = self._held(rest) or self._most(rest)
            if rest and not held:
                self._refuse(rest[0])
            self.pages[-1] += held
            rest = rest[len(held) :]

    def _held(self, chain: Sequence[Block]) -> list[Block]:
        """All of it, or a part that may be parted from the rest, or nothing."""
        if self._fits(chain):
            return list(chain)
        too_high = stacked(chain) > self.room + SLACK
        left = self.page.content_to - self.tops[-1] - stacked(self.pages[-1])
        if self.pages[-1] and left < EMPTY * self.room and not too_high:
            return []
        parts = [chain[: k + 1] for k, block in enumerate(chain[:-1]) if block.loosely]
        if not parts and too_high:
            return self._most(chain)
        return list(next((part for part in reversed(parts) if self._fits(part)), ()))

    def _most(self, chain: Sequence[Block]) -> list[Block]:
        """As many of its blocks as fit."""
        return list(next((chain[:count] for count in range(len(chain), 0, -1) if self._fits(chain[:count])), ()))

    def _fits(self, more: Sequence[Block]) -> bool:
        blocks = [*self.pages[-1], *more]
        return self.tops[-1] + stacked(blocks) - white_to_give(blocks) <= self.page.content_to + SLACK

    def _turn_page(self, rest: list[Block]) -> list[Block]:
        """Begins a page for the rest; and what of it is left to place there."""
        if self.pages[-1] or self.tops[-1] > self.page.content_from:
            self.pages.append([])
            self.tops.append(self.page.content_from)
            self.heads.append(rest[0].head)
        if rest[0].repeat:
            self.pages[-1].append(rest[0].repeat)
        head = self.heads[-1]
        return rest[1:] if head is not None and head is rest[0].head and head.begins else rest

    def _refuse(self, block: Block) -> None:
        what = f"a part of “{self.section}” is {block.height:.0f} mm high, and the page {self.page.name} holds {self.room:.0f} mm"
        raise ProblemsFound([Problem(NOWHERE, what, "shorten its text, or print on larger paper")])

    def stack(self, number: int) -> Stack:
        """Squeezed if it must be."""
        blocks, y = self.pages[number], self.tops[number]
        over = y + stacked(blocks) - self.page.content_to
        share = over / white_to_give(blocks) if over > SLACK else 0.0
        placed: list[Placed] = []
        for block in blocks:
            y += block.space_before - share * max(0.0, block.space_before - LEAST) if placed else 0.0
            placed.append(Placed(block, y))
            y += block.height
        return Stack(tuple(placed), y, self.heads[number])
