"""Which operation makes each line of a part, and so what its place errs by.

FlatLine   a score or a straight edge in the flat frame of its part, with the way it is moved by errors: `slopes` times `normal`

A piece cut straight is measured from its left and its head edge, which therefore have no error of their own; its right and its tail edge
err by the trimmer, each score by the board. An outline that is traced errs at every edge. A board's edge makes the fold of the cover that
is wrapped round it. A bought thing errs by the ruler it is measured with. That lines are moved askew is left out.
"""

from functools import lru_cache
from math import hypot

from msgspec import Struct

from creasewright.blanks.blank import Blank, BoardPlace
from creasewright.folding.covered_boards import board_on
from creasewright.folding.state import State
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point
from creasewright.hands.carried import Cause, Slopes, added
from creasewright.hands.error_table import MEASURED, PLACED, SCORED, TRACED, TRIMMED
from creasewright.joining.glue_area import lies_on

Spot = tuple[float, float]
NEAR = 0.02
"""mm within which two lines are one."""


class FlatLine(Struct, frozen=True):
    start: Spot
    end: Spot
    normal: Spot
    """Unit vector to the right, or to the tail where the line runs straight across."""
    slopes: Slopes
    """Shift along the normal."""
    scored: bool = False
    """A score, not an edge."""

    def holds(self, a: Spot, b: Spot) -> bool:
        return lies_on((a, b), (self.start, self.end))


class Same:
    """One blank as a key: equal to nothing but itself (a blank holds what cannot be hashed)."""

    __slots__ = ("blank",)

    def __init__(self, blank: Blank) -> None:
        self.blank = blank

    def __hash__(self) -> int:
        return id(self.blank)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.blank is self.blank


def lines_of(state: State, part: str) -> tuple[FlatLine, ...]:
    """Scores first, then straight edges; curved ones are left out."""
    blank = state.blanks[part]
    if blank.wrap is None:
        return plain_lines(Same(blank), part)
    return wrapped_lines(Same(blank), part, tuple(board_on(state, part, place) for place in blank.wrap.boards))


@lru_cache(maxsize=256)
def plain_lines(same: Same, part: str) -> tuple[FlatLine, ...]:
    """Asked for again at every line of every clearance, so answers are kept."""
    blank = same.blank
    found = []
    for piece in blank.pieces:
        if piece.arc is None:
            found.append(flat_line(piece.start, piece.end, {Cause(SCORED, part, piece.score): 1.0}, True))
    straight = cut_straight(blank)
    for number, edge in enumerate(blank.outline.edges):
        if isinstance(edge, Line):
            found.append(flat_line(edge.start, edge.end, edge_slopes(blank, part, edge, number, straight)))
    return tuple(found)


def flat_line(a: Point, b: Point, slopes: Slopes, scored: bool = False) -> FlatLine:
    start, end = (float(a.x), float(a.y)), (float(b.x), float(b.y))
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = hypot(dx, dy)
    nx, ny = dy / size, -dx / size
    if nx < -1e-9 or (abs(nx) <= 1e-9 and ny < 0):
        nx, ny = -nx, -ny
    return FlatLine(start, end, (nx + 0.0, ny + 0.0), slopes, scored)


def edge_slopes(blank: Blank, part: str, edge: Line, number: int, straight: bool) -> Slopes:
    side = side_of(blank, edge)
    if straight and side in ("left", "head"):
        return {}
    if not blank.paper and side in ("right", "tail"):
        return {Cause(MEASURED, part, side): 1.0}
    if straight and side in ("right", "tail"):
        return {Cause(TRIMMED, part, side): 1.0}
    return {Cause(TRACED, part, f"edge {number + 1}"): 1.0}


def side_of(blank: Blank, edge: Line) -> str | None:
    """The side of its bounding rectangle that an edge lies on, or None."""
    sides = {"left": ("x", 0.0), "right": ("x", float(blank.width)), "head": ("y", 0.0), "tail": ("y", float(blank.height))}
    for side, (axis, at) in sides.items():
        if all(abs(float(getattr(point, axis)) - at) < NEAR for point in (edge.start, edge.end)):
            return side
    return None


def cut_straight(blank: Blank) -> bool:
    """Its bounding rectangle is trimmed: it has four straight sides, also with round corners or corners cut by a reusable template."""
    if blank.cutouts:
        return True
    lines = [edge for edge in blank.outline.edges if isinstance(edge, Line)]
    return len(lines) <= 4 and all(side_of(blank, line) is not None for line in lines)


@lru_cache(maxsize=256)
def wrapped_lines(same: Same, part: str, boards: tuple[str | None, ...]) -> tuple[FlatLine, ...]:
    """Of a wrapped cover: a fold beside a board is where that board's edge lies; the rest is drawn from its template.

    `boards` are the parts that lie at its places, in their order; None where one is still free.
    """
    blank = same.blank
    assert blank.wrap is not None
    by_boards, drawn = [], []
    for piece in blank.pieces:
        places = zip(blank.wrap.boards, boards, strict=True)
        place, board = next((pair for pair in places if pair[0].panel in (piece.first, piece.second)), (None, None))
        line = flat_line(piece.start, piece.end, {Cause(TRACED, part, piece.name): 1.0}, True)
        if place is None or board is None:
            drawn.append(line)
            continue
        axis = "x" if line.normal[0] > 0.5 else "y"
        slopes = added({Cause(PLACED, board, axis): 1.0}, board_edge(board, place, line))
        by_boards.append(FlatLine(line.start, line.end, line.normal, slopes, True))
    for edge in blank.outline.edges:
        if isinstance(edge, Line):
            drawn.append(flat_line(edge.start, edge.end, {Cause(TRACED, part, side_of(blank, edge) or "edge"): 1.0}))
    return (*by_boards, *drawn)


def board_edge(board: str, place: BoardPlace, line: FlatLine) -> Slopes:
    """The error of the board's own edge at a fold: none at its left and head, which it is laid by, the trimmer's at its right and tail."""
    middle = (line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2
    if line.normal[0] > 0.5:
        side = "right" if middle[0] > float(place.left) + float(place.width) / 2 else "left"
    else:
        side = "tail" if middle[1] > float(place.head) + float(place.height) / 2 else "head"
    return {Cause(TRIMMED, board, side): 1.0} if side in ("right", "tail") else {}
