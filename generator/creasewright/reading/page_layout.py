"""A page layout as written: paper, margins, grid, type, colours, lines and sections. Lengths are plain mm, type sizes plain pt.

A layout file decides the look and the words of a pack; nothing in it is worked out here.
"""

from msgspec import Struct

from creasewright.problems import Where


class PageSize(Struct, frozen=True):
    """One paper, held upright. All in mm, from the page's own edges."""

    name: str
    """`letter`, `a4`, `half letter`, `a5`, as in the layout file."""
    width: float
    height: float
    binding: float
    """Margin on the left, wide enough for punched holes."""
    outer: float
    """Margin on the right."""
    content_from: float
    """Where the first block of a page begins, from the head."""
    content_to: float
    """Where the last block ends at the latest, from the head."""
    columns: int
    gutter: float

    @property
    def measure(self) -> float:
        """Width between the margins."""
        return self.width - self.binding - self.outer

    @property
    def column_width(self) -> float:
        return (self.measure - (self.columns - 1) * self.gutter) / self.columns

    def column_left(self, column: int) -> float:
        """Left edge of a column counted from 0, from the left end of the measure (not of the page)."""
        return column * (self.column_width + self.gutter)

    def span(self, columns: int) -> float:
        """Width of so many columns with the gutters between them."""
        return columns * self.column_width + (columns - 1) * self.gutter


class TypeStyle(Struct, frozen=True):
    """How one kind of text is set."""

    face: str = "Regular"
    """`Regular`, `Bold`, `Italic`, `BoldItalic` or `Black`."""
    size: float = 10.5
    """pt"""
    leading: float = 14.0
    """Baseline to baseline, pt."""
    colour: str = "INK"
    """A name of the palette."""
    italic: str = "Italic"
    """The face that `*emphasis*` takes; `Regular` where a layout has no italics (large print)."""


class LineStyle(Struct, frozen=True):
    """One line of the line code: width and dashes in pt, as the drawing list takes them."""

    colour: str
    width: float
    dash: tuple[float, ...] = ()
    cap: str = "round"


class Furniture(Struct, frozen=True):
    """What stands on every page, in mm; from the head unless said."""

    running_head: float
    """Baseline of the pack's title and the section's."""
    section_head: float
    """Baseline of the section's head."""
    section_indent: float
    """From the left end of the measure to the section's head."""
    strip_from: float
    """Head end of the folded strip."""
    strip_drop: float
    """How far it runs down before it is folded."""
    strip_width: float
    strip_run: float
    """How far it runs to the right past the fold."""
    foot: float
    """The foot dashes, from the tail."""
    dash_gap: float
    """Between two foot dashes."""
    dash_short: float
    """How much the dashes leave free of the measure, for the page number."""
    dash: float
    """Width of a foot dash, pt."""
    dash_here: float
    """Width of the current section's dash, pt."""


class Template(Struct, frozen=True):
    """A text template and the place where its first line stands."""

    text: str
    where: Where


class SectionLayout(Struct, frozen=True):
    key: str
    """`cover`, `materials` …: which section of the program."""
    where: Where
    title: str
    """Set as the section's head and in the running head; may be a text template."""
    on: bool
    numbered: str
    """`pages`: 1, 2, 3 …; `none`: no number and no furniture; anything else is a prefix: `T-` gives T-1, T-2 …"""
    texts: tuple[tuple[str, Template], ...]
    """Named text templates of the section, in order."""
    words: str
    """File of the reader's words for this section, beside the layout file; empty: the layout's own."""

    def text(self, name: str) -> Template | None:
        return dict(self.texts).get(name)


class PageLayout(Struct, frozen=True):
    name: str
    where: Where
    language: str
    """BCP 47: `en-US`."""
    words: str
    """File of the reader's words, beside the layout file; empty: the design's own words."""
    pages: tuple[PageSize, ...]
    furniture: Furniture
    types: dict[str, TypeStyle]
    palette: dict[str, str]
    """Colour names to `#RRGGBB`."""
    lines: dict[str, LineStyle]
    sections: tuple[SectionLayout, ...]
    """In the order of the pack, those switched off as well."""

    def page(self, name: str) -> PageSize:
        """The page size of that name; KeyError if the layout has none."""
        return {page.name: page for page in self.pages}[name]

    @property
    def sections_on(self) -> tuple[SectionLayout, ...]:
        return tuple(section for section in self.sections if section.on)
