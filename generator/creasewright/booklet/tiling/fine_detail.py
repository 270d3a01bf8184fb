"""Where a join between tiles would cut through fine detail.

That is along an edge or a score that runs the same way, through a small curve or a hole, or along that part of a long
curve which runs the same way.
"""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from creasewright.booklet.tiling.bands import Span, merged
from creasewright.booklet.tiling.placing import Placed
from creasewright.booklet.tiling.spots import Spot, moved, moved_outline, spot
from creasewright.geometry.outline import Arc, Edge, Outline, chain_of
from creasewright.geometry.plane_transform import Affine

NEARLY_PARALLEL = 0.36
"""Of a line's length, how far it may lean aside and still count as running along the join (20 degrees)."""
SHORT = 15.0
"""mm; every line shorter than this is detail, whichever way it runs."""
SMALL_CURVE = 30.0
"""mm; a curve no larger than this either way is detail as a whole."""
CHORD = 0.2
"""mm between a curve and its chords here."""


def fine_detail(placed: Placed) -> tuple[list[Span], list[Span]]:
    """Spans of x that joins running down the page should avoid, and spans of y for joins running across; grid frame."""
    outline = moved_outline(placed.to_grid, placed.template.outline)
    whole: list[tuple[Spot, Spot]] = []
    leaning: list[tuple[Spot, Spot]] = []
    for start, end in _straight_lines(placed, outline):
        (whole if hypot(end[0] - start[0], end[1] - start[1]) < SHORT else leaning).append((start, end))
    scores = [Affine(*placed.to_grid.floats()).edge(score.edge) for score in placed.template.scores]
    for box_start, box_end, chords in _curves((*outline.edges, *scores)):
        if max(box_end[0] - box_start[0], box_end[1] - box_start[1]) <= SMALL_CURVE:
            whole.append((box_start, box_end))
        else:
            leaning.extend(chords)
    whole.extend(_holes(placed))
    across = [_span(line, 0) for line in whole] + [_span(line, 0) for line in leaning if _runs_along(line, 0)]
    down = [_span(line, 1) for line in whole] + [_span(line, 1) for line in leaning if _runs_along(line, 1)]
    return merged(across), merged(down)


def _span(line: tuple[Spot, Spot], axis: int) -> Span:
    return min(line[0][axis], line[1][axis]), max(line[0][axis], line[1][axis])


def _runs_along(line: tuple[Spot, Spot], axis: int) -> bool:
    """Whether a line runs much the same way as joins at one value of this axis."""
    (x0, y0), (x1, y1) = line
    return abs((x1 - x0, y1 - y0)[axis]) <= NEARLY_PARALLEL * hypot(x1 - x0, y1 - y0)


def _straight_lines(placed: Placed, outline: Outline) -> list[tuple[Spot, Spot]]:
    template = placed.template
    lines = [(spot(edge.start), spot(edge.end)) for edge in outline.edges if not isinstance(edge, Arc)]
    ends = [(score.start, score.end) for score in template.scores if score.arc is None]
    ends += [(slit.start, slit.end) for slit in template.slits]
    return lines + [(moved(placed.to_grid, spot(start)), moved(placed.to_grid, spot(end))) for start, end in ends]


def _curves(edges: Iterable[Edge]) -> list[tuple[Spot, Spot, list[tuple[Spot, Spot]]]]:
    """Of each arc its box and its chords."""
    found = []
    for edge in edges:
        if isinstance(edge, Arc):
            corners = chain_of(edge, CHORD)
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            chords = list(pairwise(corners))
            found.append(((min(xs), min(ys)), (max(xs), max(ys)), chords))
    return found


def _holes(placed: Placed) -> list[tuple[Spot, Spot]]:
    boxes = []
    for hole in placed.template.holes:
        x, y = moved(placed.to_grid, spot(hole.centre))
        r = float(hole.across) / 2
        boxes.append(((x - r, y - r), (x + r, y + r)))
    return boxes
