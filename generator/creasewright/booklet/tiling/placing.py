"""A template laid out for its pages, in the grid frame: windows side by side, mm, origin at the head-left corner of
the first tile, y down.

Placed   one template: turned and moved into the grid frame
Layout   what is tiled together: one template over several windows, with small ones in its empty corners; or several in one window

Window (row, column), counted from 0, covers x from column * width and y from row * height of a window.
"""

from itertools import pairwise
from math import cos, radians, sin

from msgspec import Struct

from creasewright.booklet.tiling.bound import TOUCH
from creasewright.booklet.tiling.spots import Spot, moved, spot
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Polygon, chain_of, flattened
from creasewright.geometry.plane_transform import Affine

Segment = tuple[float, float, float, float]
"""x0, y0, x1, y1 in mm."""
Cell = tuple[int, int]
"""Row and column, counted from 0."""


class Placed(Struct, frozen=True):
    template: Template
    turn: float
    """Degrees clockwise: 0, 90, or a slant where that saves pages."""
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
    names: dict[Cell, str] = {}
    """What the page of each printed tile is called: `T-3`. Given when all pages are numbered."""
    least: int = 1
    """No arrangement takes fewer pages (by area and span)."""

    @property
    def rows(self) -> int:
        return max(row for row, _ in self.printed) + 1

    @property
    def columns(self) -> int:
        return max(column for _, column in self.printed) + 1


def placed_on(layout: Layout, cell: Cell, window: Window) -> tuple[Placed, ...]:
    """The templates of which a page shows a part."""
    left, head = cell[1] * window.width, cell[0] * window.height
    right, tail = left + window.width, head + window.height
    return tuple(
        one
        for one in layout.placed
        if one.left < right - TOUCH and one.left + one.width > left + TOUCH
        if one.head < tail - TOUCH and one.head + one.height > head + TOUCH
    )


def turned_size(template: Template, turn: float) -> tuple[float, float]:
    """Width and height of the box around it."""
    lying = turned(template.polygon, turn)
    return max(x for x, _ in lying), max(y for _, y in lying)


def turned(polygon: Polygon, turn: float) -> Polygon:
    """Turned clockwise, the head-left corner of its box at the origin."""
    c, s = turning(turn)
    corners = [(x * c - y * s, x * s + y * c) for x, y in polygon]
    left, head = min(x for x, _ in corners), min(y for _, y in corners)
    return tuple((x - left, y - head) for x, y in corners)


def turning(turn: float) -> Spot:
    """Cosine and sine; those of right angles exact."""
    quarter = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0)}
    return quarter.get(turn) or (cos(radians(turn)), sin(radians(turn)))


def place(template: Template, turn: float, left: float, head: float) -> Placed:
    """With the head-left corner of its box, after the turn, at (left, head)."""
    c, s = turning(turn)
    xs = [x * c - y * s for x, y in template.polygon]
    ys = [x * s + y * c for x, y in template.polygon]
    # clockwise with y down: x' = x cos - y sin, y' = x sin + y cos
    to_grid = Affine(c, s, -s, c, left - min(xs), head - min(ys))
    return Placed(template, turn, to_grid, left, head, max(xs) - min(xs), max(ys) - min(ys))


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
        for score in (*template.scores, *template.places):
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
