"""Items of the drawing list to the operators of one content stream: translates, decides nothing.

The stream works in pt with y down: its first operator turns the page over (`1 0 0 -1 0 height cm`), so that a path becomes
the same text wherever it stands, and a form may be used on pages of any height. An operator that would change nothing is left
out. What is tagged is put in marked content of the structure tree, all else in artifacts; a form carries no tags.
"""

from collections.abc import Callable, Iterable
from typing import Any

from msgspec import Struct

from creasewright.booklet.drawing import FormUse, Group, Item, Mark, Path, Pen, Picture, Shape, Tagged, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.pdf.extent import extent
from creasewright.pdf.fonts import Composed, Piece, composed
from creasewright.pdf.paths import PT_PER_MM, Extent, PathOperators
from creasewright.pdf.pdf_syntax import number, numbers, text_string
from creasewright.pdf.tags import Box, Element, StructureTree

Letters = Callable[[str, str], tuple[tuple[str, str], ...]]
"""Text and face to (font resource, string in PDF syntax), one for each subset of the face that the text needs."""

TEXT_MATRIX = {0: "1 0 0 -1", 90: "0 1 1 0", -90: "0 -1 -1 0"}
"""Letters upright in a frame with y down; turned clockwise as seen."""

ARTIFACT = Element("Artifact")
PHOTOGRAPH = "photograph"
"""Its name in the file."""
DOT = 0.1
"""pt; a dash up to this length is a dot."""
PAINT = {(True, False): "S", (False, True): "f", (True, True): "B"}


class Inks:
    """Colours to the operands of colour operators. A colour is a palette name, maybe shaded: `paper 1 front*0.93`."""

    def __init__(self, palette: dict[str, str]) -> None:
        self._channels = {name: tuple(int(value[k : k + 2], 16) / 255 for k in (1, 3, 5)) for name, value in palette.items()}

    def __call__(self, colour: str) -> str:
        name, _, factor = colour.partition("*")
        if name not in self._channels:
            raise ValueError(f"no colour {name!r} in the palette; it has {', '.join(sorted(self._channels))}")
        return numbers(tuple(min(1.0, channel * float(factor or 1)) for channel in self._channels[name]))


class Shared(Struct, frozen=True):
    """What all streams of one document share."""

    inks: Inks
    letters: Letters
    paths: PathOperators
    ruler: TextRuler
    form_names: dict[str, str]
    """The document's form names to the file's."""


class Sheet(Struct, frozen=True):
    """A page's size in mm, and how many times as wide and as high it is drawn, about its middle."""

    width: float
    height: float
    across: float = 1.0
    along: float = 1.0

    def opening(self) -> str:
        """The operator that turns the page over, and stretches it. A scale has nine decimals: over 500 mm they are 0.0000005 mm."""
        if self.across == 1.0 and self.along == 1.0:
            return f"1 0 0 -1 0 {number(self.height * PT_PER_MM)} cm"
        x, y = self.in_file(0.0, 0.0)
        return f"{self.across:.9f} 0 0 {-self.along:.9f} {x:.6f} {y:.6f} cm"

    def in_file(self, x: float, y: float) -> tuple[float, float]:
        """mm of the page, y down, to pt of the file, y up."""
        x, y = self.width / 2 + (x - self.width / 2) * self.across, self.height / 2 + (y - self.height / 2) * self.along
        return x * PT_PER_MM, (self.height - y) * PT_PER_MM


class ContentStream:
    """One page's or one form's operators, written item by item."""

    def __init__(self, shared: Shared, sheet: Sheet | None, tree: StructureTree | None) -> None:
        """`sheet`: the page; None in a form, which works in the frame of its page. `tree` None: no tags."""
        self.code: list[str] = []
        self.forms_used: list[str] = []
        self._shared, self._sheet, self._tree = shared, sheet or Sheet(0.0, 0.0), tree
        self._open: Element | None = None
        self._dx = self._dy = 0.0
        self._in_plain_group = False
        """Nothing inside it is tagged, so its own groups need not be looked through."""
        self._fill = self._pen = self._font = ""
        self._pens: dict[Pen, str] = {}
        self._fills: dict[str, str] = {}
        if sheet is not None:
            self.code.append(sheet.opening())
        self.code.append("1 j")

    def finished(self) -> bytes:
        """The whole stream."""
        self._close()
        return ("\n".join(self.code) + "\n").encode("latin-1")

    def draw(self, items: Iterable[Item], owner: Element) -> None:
        """Draws items in order; those that bring no meaning of their own belong to `owner`."""
        for item in items:
            WAYS[type(item)](self, item, owner)

    def _shape(self, shape: Shape, owner: Element) -> None:
        pen, fill = shape.pen, shape.fill
        if not shape.path or (pen is None and fill is None):
            return
        if owner is not self._open:
            self._enter(owner)
        self._take_colours(shape)
        self.code.append(f"{self._shared.paths(shape.path)} {_paint_of(shape)}")

    def _take_colours(self, shape: Shape) -> None:
        if shape.pen is not None:
            self._take_pen(shape.pen)
        if shape.fill is not None:
            self._take_fill(shape.fill)

    def _take_pen(self, pen: Pen) -> None:
        wanted = self._pens.get(pen)
        if wanted is None:
            wanted = self._pens[pen] = self._pen_operators(pen)
        if wanted != self._pen:
            self.code.append(wanted)
            self._pen = wanted

    def _pen_operators(self, pen: Pen) -> str:
        """Dashes end square, dots (dashes of next to no length) round; a solid line ends as its pen says."""
        round_ends = pen.cap == "round" and (not pen.dash or max(pen.dash[::2]) <= DOT)
        return f"{self._shared.inks(pen.colour)} RG {number(pen.width)} w {1 if round_ends else 0} J [{numbers(pen.dash)}] 0 d"

    def _take_fill(self, colour: str) -> None:
        wanted = self._fills.get(colour)
        if wanted is None:
            wanted = self._fills[colour] = f"{self._shared.inks(colour)} rg"
        if wanted != self._fill:
            self.code.append(wanted)
            self._fill = wanted

    def _words(self, words: Words, owner: Element) -> None:
        runs = [(run, composed(run.text, run.face, run.size)) for run in words.runs if run.text]
        if not runs:
            return
        if owner is not self._open:
            self._enter(owner)
        x, y = words.x * PT_PER_MM, words.y * PT_PER_MM
        if words.anchor != "start":
            width = sum(part.width for _, parts in runs for part in parts)
            back = width if words.anchor == "end" else width / 2
            along, down = {0: (1, 0), 90: (0, 1), -90: (0, -1)}[words.turned]
            x, y = x - back * along, y - back * down
        self.code.append(f"BT {TEXT_MATRIX[words.turned]} {x:.4f} {y:.4f} Tm")
        for run, parts in runs:
            self._take_fill(run.colour)
            for part in parts:
                self._part(part)
        self.code.append("ET")

    def _part(self, part: Composed) -> None:
        if not part.actual:
            self._piece(part.pieces[0])
            return
        self.code.append(f"/Span <</ActualText {text_string(part.actual)}>> BDC")
        for piece in part.pieces:
            self._piece(piece)
        self.code.append("EMC")

    def _piece(self, piece: Piece) -> None:
        strings = self._shared.letters(piece.text, piece.face)
        if piece.rise:
            self.code.append(f"{number(piece.rise)} Ts")
        for k, (resource, string) in enumerate(strings):
            font = f"{resource} {number(piece.size)} Tf"
            if font != self._font:
                self.code.append(font)
                self._font = font
            if piece.kern_after and k == len(strings) - 1:
                self.code.append(f"[{string} {number(-1000 * piece.kern_after / piece.size)}] TJ")
            else:
                self.code.append(f"{string} Tj")
        if piece.rise:
            self.code.append("0 Ts")

    def _group(self, group: Group, owner: Element) -> None:
        if group.role == "motifs":
            self._stamps(group, owner)
            return
        if not (group.dx or group.dy or group.clip is not None):
            self.draw(group.items, owner)
            return
        mixed = self._tree is not None and not self._in_plain_group and _holds_tags(group.items)
        if mixed:
            self._close()
        else:
            self._enter(owner)
        if len(group.items) == 1 and isinstance(group.items[0], Shape):
            self._take_colours(group.items[0])  # outside of the group, where it holds for the next one like it
        before = self._fill, self._pen, self._font, self._dx, self._dy, self._in_plain_group
        self._in_plain_group = not mixed
        self.code.append(f"q 1 0 0 1 {number(group.dx * PT_PER_MM)} {number(group.dy * PT_PER_MM)} cm")
        if group.clip is not None:
            self._clip(group.clip)
        self._dx, self._dy = self._dx + group.dx, self._dy + group.dy
        self.draw(group.items, owner)
        if mixed:
            self._close()
        self.code.append("Q")
        self._fill, self._pen, self._font, self._dx, self._dy, self._in_plain_group = before

    def _stamps(self, motifs: Group, owner: Element) -> None:
        """Groups of one shape each, all of one colour, seen through the motifs' clip (even-odd): each is moved to from the one before."""
        self._enter(owner)
        groups = [item for item in motifs.items if isinstance(item, Group)]
        shapes = [(one.dx, one.dy, shape) for one in groups for shape in one.items if isinstance(shape, Shape)]
        self._take_colours(shapes[0][2])
        paint = _paint_of(shapes[0][2])
        at_x = at_y = 0.0
        self.code.append(f"q {self._shared.paths(motifs.clip)} W* n" if motifs.clip is not None else "q")
        for x, y, shape in shapes:
            move = f"{number((x - at_x) * PT_PER_MM)} {number((y - at_y) * PT_PER_MM)}"
            self.code.append(f"1 0 0 1 {move} cm {self._shared.paths(shape.path)} {paint}")
            at_x, at_y = x, y
        self.code.append("Q")

    def _mark(self, mark: Mark, owner: Element) -> None:
        self.draw(mark.items, ARTIFACT)

    def _form_use(self, use: FormUse, owner: Element) -> None:
        if use.name not in self._shared.form_names:
            raise ValueError(f"no form {use.name!r} in the document")
        self._enter(owner)
        self.code.append("q")
        self._clip(use.clip)
        name = self._shared.form_names[use.name]
        self.code.append(f"1 0 0 1 {number(use.dx * PT_PER_MM)} {number(use.dy * PT_PER_MM)} cm /FormXob.{name} Do Q")
        if name not in self.forms_used:
            self.forms_used.append(name)

    def _picture(self, picture: Picture, owner: Element) -> None:
        """The unit square of an image has y up: it is turned over once more."""
        self._enter(owner)
        width, height = number(picture.width * PT_PER_MM), number(-picture.height * PT_PER_MM)
        place = f"{number(picture.x * PT_PER_MM)} {number((picture.y + picture.height) * PT_PER_MM)}"
        self.code.append(f"q {width} 0 0 {height} {place} cm /FormXob.{PHOTOGRAPH} Do Q")
        if PHOTOGRAPH not in self.forms_used:
            self.forms_used.append(PHOTOGRAPH)

    def _clip(self, path: Path) -> None:
        self.code.append(f"{self._shared.paths(path)} W n")

    def _tagged(self, tagged: Tagged, owner: Element) -> None:
        if self._tree is None:
            self.draw(tagged.items, owner)
            return
        if tagged.kind == "Figure" and not tagged.alt:
            raise ValueError("a figure without an alternative text")
        element = Element(tagged.kind, tagged.alt, tagged.scope)
        siblings = (self._tree.root if owner is ARTIFACT else owner).kids
        siblings.append(element)
        if tagged.kind == "Figure":
            element.box = self._box(extent(tagged.items, self._shared.ruler))
        self.draw(tagged.items, self._link(tagged, element) if tagged.link else element)
        if not element.kids:
            siblings.remove(element)

    def _link(self, tagged: Tagged, element: Element) -> Element:
        """The link element that holds the words to click: the element itself, or one inside it."""
        assert self._tree is not None
        place = self._box(extent(tagged.items, self._shared.ruler))
        if place is None:
            raise ValueError(f"a link to {tagged.link!r} with nothing to click")
        holder = element
        if element.kind != "Link":
            holder = Element("Link")
            element.kids.append(holder)
        self._tree.link(holder, place, tagged.link, tagged.alt or _words_in(tagged.items))
        return holder

    def _box(self, reach: Extent | None) -> Box | None:
        """In the file's frame: pt, y up."""
        if reach is None:
            return None
        left, top, right, bottom = reach
        x0, y0 = self._sheet.in_file(left + self._dx, bottom + self._dy)
        x1, y1 = self._sheet.in_file(right + self._dx, top + self._dy)
        return x0, y0, x1, y1

    def _enter(self, owner: Element) -> None:
        if self._tree is None or owner is self._open:
            return
        self._close()
        if owner is ARTIFACT:
            self.code.append("/Artifact BMC")
        else:
            self.code.append(f"/{owner.kind} <</MCID {self._tree.mark(owner)}>> BDC")
        self._open = owner

    def _close(self) -> None:
        if self._open is not None:
            self.code.append("EMC")
            self._open = None


WAYS: dict[type[Item], Callable[[ContentStream, Any, Element], None]] = {
    Shape: ContentStream._shape,
    Words: ContentStream._words,
    Group: ContentStream._group,
    Tagged: ContentStream._tagged,
    Mark: ContentStream._mark,
    FormUse: ContentStream._form_use,
    Picture: ContentStream._picture,
}
"""How each kind of item is written."""


def _paint_of(shape: Shape) -> str:
    paint = PAINT[shape.pen is not None, shape.fill is not None]
    return f"{paint}*" if shape.even_odd and shape.fill is not None else paint


def _holds_tags(items: Iterable[Item]) -> bool:
    return any(isinstance(item, (Tagged, Mark)) or (isinstance(item, Group) and _holds_tags(item.items)) for item in items)


def _words_in(items: Iterable[Item]) -> str:
    """The text of all words, for a link that has no alternative text."""
    found: list[str] = []
    for item in items:
        if isinstance(item, Words):
            found.append("".join(run.text for run in item.runs))
        elif isinstance(item, (Group, Tagged, Mark)):
            found.append(_words_in(item.items))
    return " ".join(text for text in found if text)
