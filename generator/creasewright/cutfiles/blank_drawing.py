"""One piece as a drawing for a machine: its front up, outline and slits to cut, each score on the layer that says how it folds.

How a score folds comes from the states of all steps: a positive angle brings the fronts together, a valley as the front is seen.
"""

from collections.abc import Iterable, Mapping

from creasewright.blanks.blank import Blank, Score, ScorePiece
from creasewright.cutfiles.cut_drawing import (
    BOTH_WAYS,
    CUT,
    HOLE,
    MARK,
    MOUNTAIN,
    TURNED_OVER,
    UNFOLDED,
    VALLEY,
    CutDrawing,
    Ring,
    Stroke,
)
from creasewright.cutfiles.unshared import edge_between, left_free, place_on, unshared
from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Edge, Line
from creasewright.geometry.plane_transform import Affine
from creasewright.geometry.point import Point

Folds = Mapping[str, tuple[float, ...]]
"""Score piece to the angles it is folded to over all steps, degrees."""
ARM = 1.5
"""mm; half a cross where a needle goes through."""
SAME = 1e-6


def blank_drawing(blank: Blank, folds: Folds, pricks: Iterable[Point] = (), title: str = "") -> CutDrawing:
    """`pricks`: where a needle goes through, in the blank's frame."""
    lines: list[tuple[str, Edge]] = [(CUT, Line(slit.start, slit.end)) for slit in blank.slits]
    if blank.wrap is None:
        lines += [line for score in blank.scores for line in score_lines(score, blank.pieces_by_score.get(score.name, []), folds)]
    else:
        # a wrapped cover folds over its boards' edges: their places are marked, and nothing is scored
        for place in blank.wrap.boards:
            left, head, right, tail = place.left, place.head, place.left + place.width, place.head + place.height
            corners = [Point(left, head), Point(right, head), Point(right, tail), Point(left, tail)]
            lines += [(MARK, Line(a, b)) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    for at in pricks:
        lines.append((MARK, Line(Point(at.x - ARM, at.y), Point(at.x + ARM, at.y))))
        lines.append((MARK, Line(Point(at.x, at.y - ARM), Point(at.x, at.y + ARM))))
    rings = tuple(Ring(HOLE, hole.centre, float(hole.across)) for hole in blank.holes)
    strokes = (Stroke(CUT, blank.outline.edges, closed=True), *drawn_once(lines, list(blank.outline.edges)))
    return CutDrawing(title or blank.name, float(blank.width), float(blank.height), strokes, rings)


def drawn_once(lines: Iterable[tuple[str, Edge]], drawn: list[Edge]) -> list[Stroke]:
    """Open strokes, each but for what lies on those before it; `drawn` is what has been drawn already."""
    strokes: list[Stroke] = []
    for layer, edge in lines:
        strokes += [Stroke(layer, (part,)) for part in unshared(edge, drawn)]
        drawn.append(edge)
    return strokes


def look(angles: Iterable[float]) -> str:
    """The layer of a score piece that is folded to these angles."""
    ways = {VALLEY if angle > 0 else MOUNTAIN for angle in angles}
    return BOTH_WAYS if len(ways) > 1 else next(iter(ways), UNFOLDED)


def score_lines(score: Score, pieces: list[ScorePiece], folds: Folds) -> list[tuple[str, Edge]]:
    """The whole score on one layer where all its pieces fold alike; else each stretch by itself, and what is between none unfolded."""
    edge = score.edge
    # a score limited to bands apart from each other is several lines of one name
    placed = [(piece, (place_on(edge, piece.start), place_on(edge, piece.end))) for piece in pieces]
    placed = [(piece, ends) for piece, ends in placed if min(ends) > -SAME and max(ends) < 1 + SAME]
    looks = [look(folds.get(piece.name, ())) for piece, _ in placed]
    places = [ends for _, ends in placed]
    if len(set(looks)) <= 1:
        return [(looks[0] if looks else UNFOLDED, edge)]
    runs: list[tuple[float, float, str]] = []
    for low, high, one in sorted((min(ends), max(ends), one) for ends, one in zip(places, looks, strict=True)):
        if runs and runs[-1][2] == one and low - runs[-1][1] < SAME:
            runs[-1] = (runs[-1][0], high, one)
        else:
            runs.append((low, high, one))
    free = left_free([(low, high) for low, high, _ in runs], 0.01 / edge_length(edge))
    return [(one, edge_between(edge, _end(low), _end(high))) for low, high, one in (*runs, *((a, b, UNFOLDED) for a, b in free))]


def _end(place: float) -> float:
    """A place within rounding of an end is the end."""
    return 0.0 if abs(place) < SAME else 1.0 if abs(place - 1) < SAME else place


def moved_strokes(drawing: CutDrawing, move: Affine) -> tuple[tuple[Stroke, ...], tuple[Ring, ...]]:
    """By a move without stretching; one that turns the piece over turns valleys to mountains."""
    over = float(move.determinant) < 0
    strokes = tuple(
        Stroke(
            TURNED_OVER.get(stroke.layer, stroke.layer) if over else stroke.layer,
            move.loop(stroke.edges) if stroke.closed else tuple(move.edge(edge) for edge in stroke.edges),
            stroke.closed,
        )
        for stroke in drawing.strokes
    )
    return strokes, tuple(Ring(ring.layer, move.point(ring.centre), ring.across) for ring in drawing.rings)
