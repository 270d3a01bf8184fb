"""A block: what is never parted by a page's end. Blocks are stacked down a page between its margins.

The origin of a block's items is its top left corner at the left end of the measure; mm, y down.
"""

from msgspec import Struct

from creasewright.booklet.drawing import Bookmark, Item


class PageHead(Struct, frozen=True):
    """What stands in the head of a page that a block begins, where no section does."""

    title: str
    scope: str = ""
    begins: bool = False
    """The block is the head itself of what begins here, and left out where the page's head stands for it."""
    own: bool = False
    """The running head says this title too, not the section's: what stands here is no part of what that promises."""


class Block(Struct, frozen=True):
    height: float
    items: tuple[Item, ...]
    keep_with_next: bool = False
    """Not the last on a page."""
    space_before: float = 0.0
    """Left out at the head of a page."""
    within: str = ""
    """`Table cut list`: blocks that follow one another with equal words are parts of one structure element, whose kind is
    the first word."""
    repeat: "Block | None" = None
    """Set above this block where it begins a page: the head row of its table once more."""
    bookmarks: tuple[Bookmark, ...] = ()
    loosely: bool = False
    """Kept with the next, but parted from it before a large part of a page is left empty."""
    head: PageHead | None = None
    """Of a page that it begins; None: the section's title."""
