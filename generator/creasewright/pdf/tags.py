"""The structure tree, gathered while pages are painted: what each piece of marked content means.

Element   one structure element; its kids are other elements, content on a page, and links
Content   marked content number `mcid` on page `page` (both from 0)
Link      the annotation numbered `index` in `StructureTree.links`
"""

from msgspec import Struct, field

Box = tuple[float, float, float, float]
"""Left, bottom, right, top in pt, y up: the file's own frame."""


class Content(Struct, frozen=True):
    page: int
    mcid: int


class Link(Struct, frozen=True):
    """A place to click."""

    index: int
    page: int
    box: Box
    key: str
    """Of the bookmark it leads to."""
    words: str


class Element(Struct, eq=False):
    kind: str
    alt: str = ""
    scope: str = ""
    box: Box | None = None
    kids: list["Element | Content | Link"] = field(default_factory=list)


class StructureTree(Struct, eq=False):
    root: Element = field(default_factory=lambda: Element("Document"))
    content: list[list[Element]] = field(default_factory=list)
    """For each page, the element of each marked content, in the order of their numbers."""
    links: list[tuple[Link, Element]] = field(default_factory=list)

    def new_page(self) -> int:
        self.content.append([])
        return len(self.content) - 1

    def mark(self, element: Element) -> int:
        """The number of the next marked content on the current page, which belongs to `element`."""
        page = len(self.content) - 1
        mcid = len(self.content[page])
        self.content[page].append(element)
        element.kids.append(Content(page, mcid))
        return mcid

    def link(self, element: Element, box: Box, key: str, words: str) -> None:
        """A place to click on the current page."""
        link = Link(len(self.links), len(self.content) - 1, box, key, words)
        self.links.append((link, element))
        element.kids.append(link)
