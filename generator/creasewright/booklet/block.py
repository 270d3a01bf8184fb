"""A block: what is never parted by a page's end. Blocks are stacked down a page between its margins.

The origin of a block's items is its top left corner at the left end of the measure; mm, y down.
"""

from msgspec import Struct

from creasewright.booklet.drawing import Bookmark, Item


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
    """Set once more above this block where it begins a page in the middle of its `within`: the head row of a table."""
    bookmarks: tuple[Bookmark, ...] = ()
