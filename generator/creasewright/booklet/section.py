"""A section of a pack as the pages take it: blocks to be stacked, or sheets that are whole pages already."""

from dataclasses import dataclass

from creasewright.booklet.block import Block
from creasewright.booklet.drawing import Bookmark, Item


@dataclass(frozen=True)
class Sheet:
    """A page laid out whole, furniture and number as well: a cover, a template page. mm of the page, y down."""

    items: tuple[Item, ...]
    bookmarks: tuple[Bookmark, ...] = ()


@dataclass(frozen=True)
class Section:
    key: str
    """Also the bookmark of its first page."""
    title: str
    scope: str = ""
    """What the section is about, at the right of its head: `pieces A, B, C`."""
    numbered: str = "pages"
    """As in `page_layout.SectionLayout`."""
    blocks: tuple[Block, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    """Come before the blocks, if a section has both."""
