"""A section of a pack as the pages take it: blocks to be stacked, or sheets that are whole pages already."""

from msgspec import Struct

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.drawing import Bookmark, Item


class Sheet(Struct, frozen=True):
    """A page laid out whole, furniture and number as well: a cover, a template page. mm of the page, y down."""

    items: tuple[Item, ...]
    bookmarks: tuple[Bookmark, ...] = ()


class Section(Struct, frozen=True):
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
    first: PageHead | None = None
    """Stands in the head of its first page in place of its title and scope."""
