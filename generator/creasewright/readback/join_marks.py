"""What lets tiles be put together again: frames, corner crosses and combs, and the lines that run on across a join. Facts only.

Everything is found by its shape on the page: the marks are not told apart in the file. Errors are in mm at designed size.
"""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from creasewright.booklet.tiling.placing import Segment
from creasewright.booklet.tiling.registration import CROSS_IN, MIDDLE_TICK, TICK, TICKS
from creasewright.booklet.tiling.tile_templates import Rectangle, Tile
from creasewright.booklet.tiling.window import CROSS_OUT

MM = 25.4 / 72
NEAR = 2.0
"""mm; a mark farther off is not the one that was meant."""
ON_EDGE = 0.02
"""mm from the window's edge: still on it."""
PITCH = {"right": 1.0, "tail": 1.0, "left": 0.9, "head": 0.9}
ACROSS = {"right": "left", "tail": "head"}
STEP = {"right": (0, 1), "tail": (1, 0), "left": (0, -1), "head": (-1, 0)}


class MarkErrors(Struct, frozen=True):
    """Of one page, or of one join."""

    largest_mm: float
    lost: tuple[str, ...]
    """Marks that are not there: `frame`, `corner cross`, `comb right`, `line over the right join`."""


class PageLines(Struct, frozen=True):
    """The strokes of one page at designed size, in points."""

    own: tuple[Segment, ...]
    """Straight pieces drawn on the page itself."""
    boxes: tuple[Rectangle, ...]
    """Closed four-sided paths on the page itself."""
    drawing: tuple[Segment, ...]
    """What the windows show of the forms."""


def page_errors(tile: Tile, beside: Sequence[str], lines: PageLines) -> MarkErrors:
    """Frame, crosses and combs of a page with neighbours at these sides."""
    worst, lost = 0.0, []
    frame = min((max(abs(a - b) for a, b in zip(box, tile.window, strict=True)) * MM for box in lines.boxes), default=NEAR + 1)
    if frame > NEAR:
        lost.append("frame")
    else:
        worst = frame
    for error in _cross_errors(tile.window, lines.own):
        if error > NEAR:
            lost.append("corner cross")
        else:
            worst = max(worst, error)
    for side in beside:
        found = combs(tile.window, side, lines.own)
        if len(found) < 2:
            lost.append(f"comb {side}")
        worst = max([worst, *(comb.error_mm for comb in found)])
    return MarkErrors(worst, tuple(lost))


def join_errors(first: Tile, side: str, ours: PageLines, other: Tile, theirs: PageLines) -> MarkErrors:
    """How far the middle ticks of both pages, and the lines that run over the join, miss each other. `side`: right or tail."""
    worst, lost = 0.0, []
    middles = [
        [comb.middle for comb in combs(tile.window, at, lines.own)]
        for tile, at, lines in ((first, side, ours), (other, ACROSS[side], theirs))
    ]
    for one, two in zip(*middles, strict=False):
        worst = max(worst, abs(one - two) * MM)
    crossings = [
        sorted(_crossings(tile.window, at, lines.drawing))
        for tile, at, lines in ((first, side, ours), (other, ACROSS[side], theirs))
    ]
    for mine, others in (crossings, crossings[::-1]):
        for at in mine:
            miss = min((abs(at - there) for there in others), default=NEAR / MM + 1) * MM
            if miss > NEAR:
                lost.append(f"line over the {side} join")
            else:
                worst = max(worst, miss)
    return MarkErrors(worst, tuple(lost))


class FoundComb(Struct, frozen=True):
    middle: float
    """Along the edge from its start (the left, or the head), pt."""
    error_mm: float
    """How far a tick misses its place."""


def combs(window: Rectangle, side: str, lines: Sequence[Segment]) -> list[FoundComb]:
    """All whole combs along an edge, in order: a long tick with five short ones at each side."""
    ticks = list(_ticks(window, side, lines))
    short = [at for at, long in ticks if abs(long - TICK) < 0.1]
    found = []
    for middle in sorted(at for at, long in ticks if abs(long - MIDDLE_TICK) < 0.1):
        errors = []
        for k in range(-TICKS, TICKS + 1):
            if k:
                wanted = middle + k * PITCH[side] / MM
                errors.append(min((abs(at - wanted) * MM for at in short), default=1.0))
        if max(errors) < 0.3:
            found.append(FoundComb(middle, max(errors)))
    return found


def _ticks(window: Rectangle, side: str, lines: Sequence[Segment]) -> Iterator[tuple[float, float]]:
    """Place along the edge (pt) and length (mm) of each stroke that stands square on it, inward."""
    left, tail, right, head = window
    for x0, y0, x1, y1 in lines:
        if side in ("left", "right"):
            edge = left if side == "left" else right
            if abs(y0 - y1) * MM < ON_EDGE and min(abs(x0 - edge), abs(x1 - edge)) * MM < ON_EDGE:
                yield head - y0, abs(x1 - x0) * MM
        else:
            edge = head if side == "head" else tail
            if abs(x0 - x1) * MM < ON_EDGE and min(abs(y0 - edge), abs(y1 - edge)) * MM < ON_EDGE:
                yield x0 - left, abs(y1 - y0) * MM


def _cross_errors(window: Rectangle, lines: Sequence[Segment]) -> Iterator[float]:
    """Of both arms at each corner, how far the nearest stroke of a cross's length is off."""
    left, tail, right, head = window
    out, inward = CROSS_OUT / MM, CROSS_IN / MM
    for x, i in ((left, 1), (right, -1)):
        for y, k in ((tail, 1), (head, -1)):
            for wanted in ((x - i * out, y, x + i * inward, y), (x, y - k * out, x, y + k * inward)):
                yield min((_apart(wanted, line) for line in lines), default=NEAR + 1)


def _apart(one: Segment, other: Segment) -> float:
    """mm between the ends of two pieces, drawn either way."""
    same = max(abs(a - b) for a, b in zip(one, other, strict=True))
    swapped = max(abs(a - b) for a, b in zip(one, (*other[2:], *other[:2]), strict=True))
    return min(same, swapped) * MM


def _crossings(window: Rectangle, side: str, lines: Sequence[Segment]) -> Iterator[float]:
    """Where lines of the drawing end on an edge that goes on beyond it; along the edge, pt. Not at its very ends: a page shows a
    little beyond its window on sides where no neighbour follows, its neighbour may not."""
    left, tail, right, head = window
    long = head - tail if side in ("left", "right") else right - left
    inner = ON_EDGE / MM
    for at in _on_edge(window, side, lines):
        if inner < at < long - inner:
            yield at


def _on_edge(window: Rectangle, side: str, lines: Sequence[Segment]) -> Iterator[float]:
    left, tail, right, head = window
    for line in lines:
        for x, y in (line[:2], line[2:]):
            edge = left if side == "left" else right
            if side in ("left", "right") and abs(x - edge) * MM < 1e-3 and abs(line[0] - line[2]) * MM > ON_EDGE:
                yield head - y
            level = head if side == "head" else tail
            if side in ("head", "tail") and abs(y - level) * MM < 1e-3 and abs(line[1] - line[3]) * MM > ON_EDGE:
                yield x - left


def neighbours(tiles: Sequence[Tile]) -> Iterator[tuple[Tile, str, Tile]]:
    """Every join once: a tile, the side (right or tail) and the tile beyond it."""
    at = {(tile.template, tile.row, tile.column): tile for tile in tiles}
    for (template, row, column), tile in at.items():
        for side in ("right", "tail"):
            other = at.get((template, row + STEP[side][0], column + STEP[side][1]))
            if other is not None:
                yield tile, side, other
