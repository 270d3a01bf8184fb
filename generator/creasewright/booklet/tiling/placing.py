"""A template laid out for its pages, in the grid frame: windows side by side, mm, origin at the head-left corner of
tile A1, y down.

Placed   one template: turned and moved into the grid frame
Layout   what is tiled together: one template over several windows, or several in one window

Window (row, column), counted from 0, covers x from column * width and y from row * height of a window.
"""

from itertools import pairwise

from msgspec import Struct

from creasewright.booklet.tiling.spots import moved, spot
from creasewright.booklet.tiling.template import Template
from creasewright.geometry.outline import chain_of, flattened
from creasewright.geometry.plane_transform import Affine, shift

Segment = tuple[float, float, float, float]
"""x0, y0, x1, y1 in mm."""
Cell = tuple[int, int]
"""Row and column, counted from 0."""


class Placed(Struct, frozen=True):
    template: Template
    turn: int
    """0 or 90 degrees clockwise."""
    to_grid: Affine
    """Blank mm to the grid frame."""
    left: float
    head: float
    width: float
    height: float
    """The box around it, in the grid frame."""


class NearJoin(Struct, frozen=True):
    """A join that could not keep its distance from fine detail."""

    template: str
    clearance: float
    """mm from the nearest parallel edge or score, or curve."""


class Layout(Struct, frozen=True):
    placed: tuple[Placed, ...]
    printed: tuple[Cell, ...]
    """In reading order."""
    near_joins: tuple[NearJoin, ...] = ()

    @property
    def rows(self) -> int:
        return max(row for row, _ in self.printed) + 1

    @property
    def columns(self) -> int:
        return max(column for _, column in self.printed) + 1


def tile_name(cell: Cell) -> str:
    """Row letter (A … Z, AA …) and column digit, counted from 1: (0, 1) is A2."""
    row, letters = cell[0], ""
    while row >= 0:
        letters = chr(ord("A") + row % 26) + letters
        row = row // 26 - 1
    return f"{letters}{cell[1] + 1}"


def turned_size(template: Template, turn: int) -> tuple[float, float]:
    xs, ys = [x for x, _ in template.polygon], [y for _, y in template.polygon]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    return (height, width) if turn else (width, height)


def place(template: Template, turn: int, left: float, head: float) -> Placed:
    """With the head-left corner of its box, after the turn, at (left, head)."""
    xs, ys = [x for x, _ in template.polygon], [y for _, y in template.polygon]
    to_corner = shift(-min(xs), -min(ys))
    # a quarter turn clockwise takes (x, y) to (-y, x); moved right by the height, the box starts at 0 again
    turning = Affine(0.0, 1.0, -1.0, 0.0, max(ys) - min(ys), 0.0) if turn else shift(0.0, 0.0)
    width, height = turned_size(template, turn)
    return Placed(template, turn, to_corner.then(turning).then(shift(left, head)), left, head, width, height)


class DrawnLines(Struct, frozen=True):
    """Every line of a template as straight pieces, in the grid frame."""

    cuts: tuple[Segment, ...]
    scores: tuple[Segment, ...]

    @property
    def all(self) -> tuple[Segment, ...]:
        return self.cuts + self.scores


COARSE = 0.2
"""mm; arcs as chords, for keeping labels and marks clear."""


def drawn_lines(placed: tuple[Placed, ...]) -> DrawnLines:
    cuts: list[Segment] = []
    scores: list[Segment] = []
    for one in placed:
        template, to_grid = one.template, one.to_grid
        corners = [moved(to_grid, corner) for corner in flattened(template.outline.edges, COARSE)]
        cuts.extend((*a, *b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
        for slit in template.slits:
            cuts.append((*moved(to_grid, spot(slit.start)), *moved(to_grid, spot(slit.end))))
        for hole in template.holes:
            x, y = moved(to_grid, spot(hole.centre))
            r = float(hole.across) / 2
            cuts.extend(((x - r, y - r, x + r, y - r), (x + r, y - r, x + r, y + r)))
            cuts.extend(((x + r, y + r, x - r, y + r), (x - r, y + r, x - r, y - r)))
        for score in template.scores:
            chain = [moved(to_grid, place) for place in chain_of(score.edge, COARSE)]
            scores.extend((*a, *b) for a, b in pairwise(chain))
    return DrawnLines(tuple(cuts), tuple(scores))


def clipped(segment: Segment, left: float, head: float, right: float, tail: float) -> Segment | None:
    """The part of a segment within a box, or None (Liang and Barsky's parametric clipping, 1984)."""
    x0, y0, x1, y1 = segment
    dx, dy = x1 - x0, y1 - y0
    low, high = 0.0, 1.0
    for step, room in ((-dx, x0 - left), (dx, right - x0), (-dy, y0 - head), (dy, tail - y0)):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if low > high:
        return None
    return x0 + low * dx, y0 + low * dy, x0 + high * dx, y0 + high * dy
