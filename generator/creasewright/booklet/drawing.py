"""The drawing list: the one vocabulary between what a pack shows and the paper. All in mm, x right, y down.

Shape    a path with a pen, a fill, or both
Words    one line of text in runs; the baseline starts, centres or ends at (x, y)
Group    items moved together, maybe clipped
FormUse  a form (drawn once in the file) placed on this page through a window
Picture  a photograph of the document, upright in a rectangle
Tagged   items that mean something to a screen reader: a heading, a paragraph, a figure with its alternative text
Mark     items that are layout only (rules, frames, ornaments): artifacts of the tagged file

Colours are names of the palette in the page layout (`INK`, `ACC`, `paper 1 front` ...), never values.
"""

from typing import Any

from msgspec import Struct

Command = tuple[Any, ...]
"""("M", x, y), ("L", x, y), ("C", x1, y1, x2, y2, x, y) or ("Z",)."""
Path = tuple[Command, ...]


class Pen(Struct, frozen=True):
    colour: str = "INK"
    width: float = 0.65
    """pt"""
    dash: tuple[float, ...] = ()
    """pt, on off on off …; empty: solid."""
    cap: str = "round"
    """`round` or `butt`."""


class Shape(Struct, frozen=True):
    path: Path
    pen: Pen | None = None
    fill: str | None = None
    even_odd: bool = False
    role: str = ""
    """What it stands for, for tests and read-back: `outline of left strip`, `score page/centre of left strip`, `check square` …"""


class Run(Struct, frozen=True):
    text: str
    face: str = "Regular"
    """`Regular`, `Bold`, `Italic`, `BoldItalic`, `Black`."""
    size: float = 10.5
    """pt"""
    colour: str = "INK"


class Words(Struct, frozen=True):
    """One line. In a run, digits ⁄ digits (U+2044, `3⁄16`) are set as a true fraction; a whole number before one is
    parted from it by U+2064 (invisible plus): `4\u20643⁄16 in`. Text never holds a fraction written with a plain slash."""

    x: float
    y: float
    runs: tuple[Run, ...]
    anchor: str = "start"
    """`start`, `middle` or `end`."""
    turned: int = 0
    """0, or 90 / -90 degrees clockwise, about (x, y)."""
    role: str = ""
    """`measure`, `label`, `tag`, `text` …: for the collision test."""


class Group(Struct, frozen=True):
    items: tuple["Item", ...]
    dx: float = 0.0
    dy: float = 0.0
    clip: Path | None = None
    """The items are seen through it only; those of the role `motifs` by the even-odd rule."""
    role: str = ""


class FormUse(Struct, frozen=True):
    """The form `name` of the document, its origin at (dx, dy), seen only through `clip` (page coordinates)."""

    name: str
    dx: float
    dy: float
    clip: Path


class Picture(Struct, frozen=True):
    """The document's photograph, its top left corner at (x, y)."""

    x: float
    y: float
    width: float
    height: float


class Tagged(Struct, frozen=True):
    """`kind` is a standard structure type of ISO 32000: H1, H2, P, L, LI, Lbl, LBody, Table, TR, TH, TD, Figure, Link."""

    kind: str
    items: tuple["Item", ...]
    alt: str = ""
    scope: str = ""
    """`Row` or `Column` for a TH."""
    link: str = ""
    """Key of the bookmark that a click here goes to; the items' extent is the place to click."""


class Mark(Struct, frozen=True):
    items: tuple["Item", ...]


Item = Shape | Words | Group | FormUse | Picture | Tagged | Mark


class Bookmark(Struct, frozen=True):
    """An outline entry that leads to this page."""

    key: str
    title: str
    level: int = 0


class Page(Struct, frozen=True):
    width: float
    height: float
    items: tuple[Item, ...]
    label: str
    """The page's own number as printed: ``, `1`, `T-1`."""
    bookmarks: tuple[Bookmark, ...] = ()
    stretch: tuple[float, float] = (1.0, 1.0)
    """The page is drawn so many times as wide and as high, about its middle: a printer's error put right."""


class Form(Struct, frozen=True):
    """Drawn once in the file, used on several pages (a full-size template that is tiled)."""

    name: str
    width: float
    height: float
    items: tuple[Item, ...]


class Photograph(Struct, frozen=True):
    """JPEG, in RGB, eight bits a channel; width and height in dots."""

    jpeg: bytes
    width: int
    height: int


class Document(Struct, frozen=True):
    title: str
    author: str
    subject: str
    language: str
    pages: tuple[Page, ...]
    forms: tuple[Form, ...]
    palette: dict[str, str]
    """Colour names to `#RRGGBB`."""
    both_sides: bool = False
    """Pages are asked to be printed on both sides, turned over like a page of a book; else on one side."""
    photograph: Photograph | None = None
