"""How a piece lies on the score board: side up, the edge that is measured from at the left, its lines running away from one.

Lie frame   origin at the far left corner of the piece's box as it lies, x to the right, y towards the maker, mm.
Quarter     where the top of the piece points: 0 away from the maker, 1 to the right, 2 towards the maker, 3 to the left.
Datum       the edge of the blank that lies at the left: `left`, `right`, `head` or `tail` of the blank.

A second pass is turned over like a pad (about a line from left to right): the left edge stays, and so do all positions.
"""

from collections.abc import Iterable, Sequence
from math import atan2, degrees, hypot

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.geometry.outline import Line, Outline, Polygon, chain_of, flattened
from creasewright.geometry.plane_transform import Affine, left_for_right, rotation, shift
from creasewright.geometry.point import Number, Point
from creasewright.scoring.scored_lines import ScoredLine

SQUARE = 0.01
"""Degrees that a line may be off square to its edge."""
ON_EDGE = 0.01
"""mm"""
NEAR_RIM = 0.2
"""mm: a line that ends this near to the rim runs out to it."""
MIRRORED = {"left": "right", "right": "left"}
QUARTER_OF = {"left": 0, "right": 2, "head": 3, "tail": 1}
"""The quarter that brings an edge to the left, front up."""


class Lie(Struct, frozen=True):
    up: str
    """`front` or `back`."""
    quarter: int
    to_lie: Affine
    """From the blank's frame to the lie's, mm."""
    width: Number
    height: Number

    def chain(self, chain: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
        """Places of the blank as they lie."""
        moved = [self.to_lie.point(Point(x, y)) for x, y in chain]
        return tuple((float(spot.x), float(spot.y)) for spot in moved)


def lie_of(blank: Blank, up: str, datum: str) -> Lie:
    """The piece with that side up and that edge at the left."""
    brought = MIRRORED.get(datum, datum) if up == "back" else datum
    quarter = QUARTER_OF[brought]
    over = left_for_right(blank.width) if up == "back" else Affine()
    home = {0: shift(0, 0), 1: shift(blank.height, 0), 2: shift(blank.width, blank.height), 3: shift(0, blank.width)}
    turned = over.then(rotation(90 * quarter)).then(home[quarter])
    sides = (blank.width, blank.height) if quarter % 2 == 0 else (blank.height, blank.width)
    return Lie(up, quarter, turned, *sides)


def run_of(line: ScoredLine) -> str:
    """How a line runs on its blank: `down` (along left and right), `across` (along head and tail), `aslant` or `curved`."""
    if line.arc is not None:
        return "curved"
    turn = degrees(atan2(float(line.end.y) - float(line.start.y), float(line.end.x) - float(line.start.x))) % 180
    if abs(turn - 90) < SQUARE:
        return "down"
    return "across" if min(turn, 180 - turn) < SQUARE else "aslant"


def straight_on(blank: Blank, side: str) -> float:
    """How much of the blank's outline lies straight on that side of its box, mm."""
    return sum(abs(float(b) - float(a)) for a, b in straight_spans(blank.outline, side, blank.width, blank.height))


def straight_spans(outline: Outline, side: str, width: Number, height: Number) -> list[tuple[Number, Number]]:
    """The stretches of the outline on that side, from and to along it."""
    level: Number = {"left": 0, "head": 0, "right": width, "tail": height}[side]
    found = []
    for edge in outline.edges:
        if isinstance(edge, Line):
            ends = [(p.x, p.y) if side in ("left", "right") else (p.y, p.x) for p in (edge.start, edge.end)]
            if all(abs(float(off) - float(level)) < ON_EDGE for off, _ in ends):
                low, high = sorted(along for _, along in ends)
                found.append((low, high))
    return found


def datum_of(blank: Blank, run: str, up: str) -> str:
    """The edge that lines of that run are measured from: of the two beside them the one that is straight for longer; where there
    is no difference, the one that lies at the left with the top away from the maker. So are lines aslant."""
    first, second = ("left", "right") if up == "front" else ("right", "left")
    if run == "across":
        first, second = "head", "tail"
    if run in ("aslant", "curved"):
        return first
    return second if straight_on(blank, second) > straight_on(blank, first) + 0.5 else first


def turned_like_a_page(lie: Lie) -> Lie:
    """The other side up: what was far stays far, left and right change over."""
    up = "back" if lie.up == "front" else "front"
    return Lie(up, -lie.quarter % 4, lie.to_lie.then(left_for_right(lie.width)), lie.width, lie.height)


class LieLine(Struct, frozen=True):
    """A line in the frame of the lie."""

    start: Point
    end: Point
    own: bool
    """Pressed in this pass."""
    folds: str
    ends_inside: tuple[bool, bool]
    """Whether the start and the end lie inside the piece, not on its rim."""
    way: Polygon
    """From end to end as it is drawn; of a curved line its chords."""


class Setting(Struct, frozen=True):
    """How a line is brought under the scoring tool."""

    place: Number
    """From the left edge as the piece lies, mm."""
    groove: Number | None
    """Of the score board, from its stop, mm; None: no groove is there, it is measured and scored along a ruler."""


class Pass(Struct, frozen=True):
    """One lie of a piece and what is pressed in it."""

    lie: Lie
    run: str
    lines: tuple[LieLine, ...]
    """Of this run: those of this pass first by position; then those of the other pass."""
    number: int
    of: int
    settings: tuple[Setting, ...] = ()
    """On a score board, one for each position; none before a board is asked for."""
    spacer: Number = 0
    """Between the stop and the edge that lies against it, mm."""
    stop: str = "left"
    """Of the board, and so the edge of the piece, as it lies, that is against it: `left` or `right`."""
    set_up: int = 1
    """Of this pass: where it is made in several, each is a pass of its own."""
    set_ups: int = 1
    turned: bool = False
    """The other edge lies against the stop than in the set-up or the pass before."""

    @property
    def measured(self) -> bool:
        """Its lines are square to the edge at the left and are placed by their distance from it."""
        return self.run in ("down", "across")

    @property
    def own(self) -> tuple[LieLine, ...]:
        return tuple(line for line in self.lines if line.own)

    def from_stop(self, place: Number) -> Number:
        """How far a place, from the left edge, is from the edge that lies against the stop."""
        return self.lie.width - place if self.stop == "right" else place

    @property
    def positions(self) -> tuple[Number, ...]:
        """From the left edge, each once, rising; of lines that run square to it."""
        found: list[Number] = []
        for line in self.own:
            if not any(abs(float(line.start.x) - float(known)) < ON_EDGE for known in found):
                found.append(line.start.x)
        return tuple(sorted(found))


def passes_of(blank: Blank, lines: Sequence[ScoredLine], mirror_of: Blank | None = None) -> tuple[Pass, ...]:
    """Every pass that a piece takes: for each way its lines run, the side with more of them first.

    A mirror image (`mirror_of` its original) is measured from the image of its original's edge.
    """
    found: list[Pass] = []
    for run in ("down", "across", "aslant", "curved"):
        mine = [line for line in lines if run_of(line) == run]
        sides = [line.up for line in mine]
        ups = sorted(dict.fromkeys(sides), key=lambda up: (-sides.count(up), up == "back"))
        datum = datum_of(mirror_of or blank, run, ups[0]) if ups else ""
        if mirror_of is not None:
            datum = MIRRORED.get(datum, datum)
        for number, up in enumerate(ups, start=1):
            lie = lie_of(blank, up, datum)
            found.append(Pass(lie, run, tuple(_in_lie(blank, lie, mine, up)), number, len(ups)))
    return tuple(found)


def _in_lie(blank: Blank, lie: Lie, lines: Iterable[ScoredLine], up: str) -> list[LieLine]:
    found = []
    for line in lines:
        ends = sorted(
            ((lie.to_lie.point(p), _inside(blank, p)) for p in (line.start, line.end)),
            key=lambda end: (round(float(end[0].x), 3), round(float(end[0].y), 3)),
        )
        (start, start_in), (end, end_in) = ends
        found.append(LieLine(start, end, line.up == up, line.folds, (start_in, end_in), chain_of(lie.to_lie.edge(line.edge))))
    return sorted(found, key=lambda line: (not line.own, float(line.start.x), float(line.start.y)))


def _inside(blank: Blank, spot: Point) -> bool:
    """Clear of the rim: a line that ends there is partial."""
    x, y = float(spot.x), float(spot.y)
    ring = flattened(blank.outline.edges)
    least = float("inf")
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        dx, dy = bx - ax, by - ay
        size = dx * dx + dy * dy
        t = max(0.0, min(1.0, ((x - ax) * dx + (y - ay) * dy) / size)) if size else 0.0
        least = min(least, hypot(ax + t * dx - x, ay + t * dy - y))
    return least > NEAR_RIM
