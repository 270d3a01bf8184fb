"""Found against drawn: every line of a drawing is in the file once, on its layer, and nothing else is. Returns facts only."""

from bisect import bisect_left
from collections.abc import Iterable
from fractions import Fraction
from math import hypot

from msgspec import Struct

from creasewright.cutfiles.cut_drawing import CutDrawing
from creasewright.geometry.edges import point_on
from creasewright.geometry.outline import Edge
from creasewright.readback.found_lines import FoundLines

LIMIT = 0.01
"""mm"""
NEAR = 0.5
"""mm between the middles of two lines that may be the same."""
Spot = tuple[float, float]
Probe = tuple[Spot, Spot, Spot]
"""The middle of an edge, and its ends, the smaller first: three places tell a line or an arc."""


class DrawingReadBack(Struct, frozen=True):
    largest_error_mm: float
    missing: tuple[str, ...]
    """Lines of the drawing that the file does not have, in words: layer and place."""
    unexpected: tuple[str, ...]
    open_outlines: int
    """Outlines that should be closed, less those that are."""

    @property
    def true(self) -> bool:
        return not (self.missing or self.unexpected or self.open_outlines) and self.largest_error_mm <= LIMIT


def compare_drawing(drawing: CutDrawing, found: FoundLines) -> DrawingReadBack:
    layers = {stroke.layer for stroke in drawing.strokes} | {stroke.layer for stroke in found.strokes}
    largest = 0.0
    missing: list[str] = []
    unexpected: list[str] = []
    for layer in sorted(layers):
        wanted = [probe(edge) for stroke in drawing.strokes if stroke.layer == layer for edge in stroke.edges]
        shown = [probe(edge) for stroke in found.strokes if stroke.layer == layer for edge in stroke.edges]
        error, lost, more = paired(wanted, shown)
        largest = max(largest, error)
        missing += [in_words(layer, at) for at, _, _ in lost]
        unexpected += [in_words(layer, at) for at, _, _ in more]
    error, lost_rings, more_rings = paired_rings(drawing, found)
    closed = sum(stroke.closed for stroke in drawing.strokes) - sum(stroke.closed for stroke in found.strokes)
    return DrawingReadBack(max(largest, error), (*missing, *lost_rings), (*unexpected, *more_rings), abs(closed))


def probe(edge: Edge) -> Probe:
    ends = sorted((float(x), float(y)) for x, y in (edge.start, edge.end))
    middle = point_on(edge, Fraction(1, 2))
    return (float(middle.x), float(middle.y)), ends[0], ends[1]


def distance(one: Probe, other: Probe) -> float:
    """The largest of the three, ends the way round that fits better."""
    straight, crossed = (max(_gap(one[1], a), _gap(one[2], b)) for a, b in ((other[1], other[2]), (other[2], other[1])))
    return max(_gap(one[0], other[0]), min(straight, crossed))


def paired(wanted: Iterable[Probe], shown: Iterable[Probe]) -> tuple[float, list[Probe], list[Probe]]:
    """Each wanted line with the nearest that is still free: the largest distance, what found none, what was left."""
    free = sorted(shown)
    largest, lost = 0.0, []
    for one in sorted(wanted):
        low = bisect_left(free, one[0][0] - NEAR, key=lambda other: other[0][0])
        near = []
        for k in range(low, len(free)):
            if free[k][0][0] > one[0][0] + NEAR:
                break
            near.append((distance(one, free[k]), k))
        best = min(near, default=None)
        if best is None or best[0] > NEAR:
            lost.append(one)
        else:
            largest = max(largest, best[0])
            del free[best[1]]
    return largest, lost, free


def paired_rings(drawing: CutDrawing, found: FoundLines) -> tuple[float, list[str], list[str]]:
    free = list(found.rings)
    largest, lost = 0.0, []
    for ring in drawing.rings:
        x, y = float(ring.centre.x), float(ring.centre.y)
        near = [
            (max(_gap((x, y), (other[1], other[2])), abs(ring.across - other[3])), k)
            for k, other in enumerate(free)
            if other[0] == ring.layer
        ]
        best = min(near, default=None)
        if best is None or best[0] > NEAR:
            lost.append(in_words(ring.layer, (x, y)))
        else:
            largest = max(largest, best[0])
            del free[best[1]]
    return largest, lost, [in_words(layer, (x, y)) for layer, x, y, _ in free]


def in_words(layer: str, at: Spot) -> str:
    return f"{layer} at {at[0]:.2f}, {at[1]:.2f} mm"


def _gap(a: Spot, b: Spot) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])
