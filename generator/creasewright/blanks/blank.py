"""Blanks: the flat cut pieces, and the panels between their edges, scores and slits.

Frame of a blank: origin at the head-left corner of its bounding box before any cut, front up;
x to the right, y towards the tail, in mm. (z runs down through the sheet, from front to back.)

Score       one pressed line as a name says it; which way it folds is a matter of the steps
ScorePiece  the part of a score between two neighbouring panels; what folds
Panel       a region that no score or slit crosses; it moves as one rigid piece
"""

from functools import cached_property

from msgspec import Struct

from creasewright.geometry.beside import lies_beyond
from creasewright.geometry.outline import Arc, Edge, Line, Outline, Polygon
from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME
from creasewright.problems import Where


class Score(Struct, frozen=True):
    name: str
    start: Point
    end: Point
    arc: Arc | None = None
    """Of a curved score: the arc from start to end."""

    @property
    def edge(self) -> Edge:
        return self.arc or Line(self.start, self.end)


class Slit(Struct, frozen=True):
    name: str
    start: Point
    end: Point


class Hole(Struct, frozen=True):
    name: str
    centre: Point
    across: Number
    """Diameter, mm."""


class Panel(Struct, frozen=True):
    name: str
    outline: Outline
    polygon: Polygon
    """The outline flattened, clockwise from the front: for areas, overlaps and pictures."""
    area: float
    """mm², holes not taken off."""


class ScorePiece(Struct, frozen=True):
    name: str
    """Unique in the blank: the score's own name where it has one piece, else `score 1`, `score 2` …

    from left to right, head to tail.
    """
    score: str
    start: Point
    end: Point
    first: str
    """The two panels it lies between, by name: the one more to the left (then more to the head) first."""
    second: str
    arc: Arc | None = None
    """Of a curved score: the arc from start to end."""

    @property
    def edge(self) -> Edge:
        return self.arc or Line(self.start, self.end)


class Band(Struct, frozen=True):
    """A strip of the blank from one side to the other that the author named; panels may be called differently."""

    name: str
    direction: str
    """`across`: `start` and `end` are its left and right; `down`: its head and tail. From the blank's left or head edge, mm."""
    start: Number
    end: Number


class Cutout(Struct, frozen=True):
    """An operation that is cut by a reusable template (a corner cut, a rounded edge, a notch)."""

    template: str
    what: str
    """In words: "head-left corner"."""
    panel: str
    """The panel that it shapes; the template is this panel's outline."""


class LikeSource(Struct, frozen=True):
    """A blank made from the outline of another's panels; put onto those it needs no place.

    `to_source` maps this blank's points to the source blank's: (a, b, c, d, e, f) with x' = a x + c y + e, y' = b x + d y + f.
    """

    blank: str
    panels: tuple[str, ...]
    to_source: tuple[float, float, float, float, float, float]
    seen_from: str
    """`front` or `back` of the source."""


class BoardPlace(Struct, frozen=True):
    """Where a board lies on the back of a cover that is wrapped round it: its rectangle in the cover's own frame, mm."""

    board: str
    """The board's blank."""
    panel: str
    """The cover's panel that it lies on."""
    left: Number
    head: Number
    width: Number
    height: Number

    def end(self, axis: int, outwards: float) -> float:
        """Its left or right (axis 0), its head or tail (axis 1): the one that lies outwards, -1 or +1."""
        start, size = (self.left, self.width) if axis == 0 else (self.head, self.height)
        return float(start if outwards < 0 else start + size)


class Wrap(Struct, frozen=True):
    """What a cover goes round; a board put onto it needs no place."""

    boards: tuple[BoardPlace, ...]
    """From left to right as the front is seen."""
    turn_in: Number
    """Cover beyond the boards' edges as it lies flat, mm."""
    thick: Number
    """Of the thickest board, mm."""


class TurnInLine(Struct, frozen=True):
    """A line along which a cover is folded over its boards: a side of the row of boards, in the cover's own frame."""

    axis: int
    """What is the same all along it: 0 its x, 1 its y."""
    at: float
    outwards: float
    """-1 at the left and at the head, +1 at the right and at the tail."""
    outside: float
    """How far it lies outside the boards' edge, mm."""
    pieces: tuple[str, ...]
    """The score pieces beside boards."""
    boards: tuple[BoardPlace, ...]
    """Those that it goes round."""


class Blank(Struct, frozen=True, dict=True):
    name: str
    paper: str
    where: Where
    width: Number
    height: Number
    """Of the bounding rectangle the piece is cut from, mm."""
    outline: Outline
    holes: tuple[Hole, ...]
    slits: tuple[Slit, ...]
    scores: tuple[Score, ...]
    panels: tuple[Panel, ...]
    pieces: tuple[ScorePiece, ...]
    cutouts: tuple[Cutout, ...] = ()
    corner_radius: dict[str, Number] | None = None
    """Rounded corners, mm, by compass word (for the step `round` and the cut list)."""
    source: LikeSource | None = None
    mirror_of: str | None = None
    grain: str | None = None
    """`height`, `width` or None: how the grain must run on the blank."""
    bands: tuple[Band, ...] = ()
    turn: int | None = None
    """Turn of the blank on its sheet (0, 90, 180, 270 clockwise) where the author fixed it."""
    wrap: Wrap | None = None

    paper_up: str = "front"
    """The side of the paper that becomes the blank's front: `front`, `back`, or `either` where the program may choose."""

    def panel(self, name: str) -> Panel:
        return self._panels[name]

    def piece(self, name: str) -> ScorePiece:
        return self._pieces[name]

    def beyond(self, piece: ScorePiece, panel: str) -> bool:
        """Whether a panel beside a score piece lies where (end - start) x (p - start) is positive. Kept once it is known."""
        key = piece.name, panel
        if key not in self._beyond:
            ends = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
            self._beyond[key] = lies_beyond(self.panel(panel).polygon, *ends)
        return self._beyond[key]

    @cached_property
    def _beyond(self) -> dict[tuple[str, str], bool]:
        return {}

    @cached_property
    def pieces_by_score(self) -> dict[str, list[ScorePiece]]:
        """By the name of their score, in order."""
        found: dict[str, list[ScorePiece]] = {}
        for piece in self.pieces:
            found.setdefault(piece.score, []).append(piece)
        return found

    @cached_property
    def turn_in_lines(self) -> tuple[TurnInLine, ...]:
        """Of a cover: left, right, head and tail of its boards. None where it is no cover."""
        if self.wrap is None:
            return ()
        outside = float(self.wrap.thick) / 2
        found = []
        for axis, outwards in ((0, -1.0), (0, 1.0), (1, -1.0), (1, 1.0)):
            ends = {place.panel: place.end(axis, outwards) for place in self.wrap.boards}
            edge = max(ends.values(), key=lambda end: end * outwards)
            boards = tuple(place for place in self.wrap.boards if abs(ends[place.panel] - edge) < SAME)
            at = edge + outside * outwards
            names = {place.panel for place in boards}
            pieces = tuple(
                piece.name for piece in self.pieces
                if names & {piece.first, piece.second} and all(abs(float((p.x, p.y)[axis]) - at) < SAME for p in (piece.start, piece.end))
            )  # fmt: skip
            found.append(TurnInLine(axis, at, outwards, outside, pieces, boards))
        return tuple(found)

    @cached_property
    def _panels(self) -> dict[str, Panel]:
        return {panel.name: panel for panel in self.panels}

    @cached_property
    def _pieces(self) -> dict[str, ScorePiece]:
        return {piece.name: piece for piece in self.pieces}
