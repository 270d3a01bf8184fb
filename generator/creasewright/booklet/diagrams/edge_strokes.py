"""Visible edges into pen strokes: the outer silhouette heavier than inner edges, pieces in one line joined, so that dashes stay
whole.

A *body* is what hangs together in space; each body has a silhouette of its own, so that a piece held over another keeps a
heavy outline.
"""

from collections.abc import Iterable
from math import atan2, cos, hypot, inf, pi, sin

from msgspec import Struct

from creasewright.booklet.diagrams.face_view import Face
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.space_edges import Interval, VisibleEdge, left_over
from creasewright.geometry.clip import union
from creasewright.geometry.outline import Polygon

TOUCHING = 3.5
"""Boxes of two facets in space closer than this, in mm, belong to one body: more than a board is thick."""
ON_SILHOUETTE = 0.01
"""An edge no farther than this from the silhouette, in mm, is part of it."""
SAME_ANGLE = 1e-5
"""radians"""
STYLES = ("silhouette", "inner", "valley", "mountain", "crease")
"""From the strongest to the weakest: where two lie on each other, the stronger is drawn."""
THINNED = ("inner", "valley", "mountain")
_STYLE_OF_KIND = {"valley": "valley", "mountain": "mountain", "crease": "crease", "score": "crease"}

Spans = dict[str, list[Interval]]
Segment = tuple[Spot, Spot, float]
"""Both ends, and its level."""


class StraightLine(Struct):
    """An endless line on the page: its angle, its distance from the origin, stretches along it by style, the nearest level."""

    angle: float
    offset: float
    spans: Spans
    nearest: float


Piece = tuple[StraightLine, str, Interval]
"""Its line, style, stretch along the line."""


class Stroke(Struct, frozen=True):
    """A line on the page in one style, mm of the model. The last place equals the first when it is closed."""

    places: tuple[Spot, ...]
    style: str


def strokes_of(
    edges: tuple[VisibleEdge, ...], faces: tuple[Face, ...], crowded: float = 0.0, least: float = 0.0
) -> tuple[Stroke, ...]:
    """Inner edges and dashed lines that run closer than `crowded` mm beside another line are left out, so that a stack never fills
    with ink, and so is every line but the outline of which less than `least` mm is seen: ends of layers between others look like specks."""
    body_of, silhouettes = _silhouettes(faces)
    lines: dict[str, list[Segment]] = {style: [] for style in STYLES}
    for edge in edges:
        heavy = _on_silhouette(edge, silhouettes[body_of[edge.owners[0]]])
        style, level = _STYLE_OF_KIND.get(edge.kind, "inner"), _level(edge)
        for piece in edge.seen:
            for low, high in _within(piece, heavy):
                lines["silhouette"].append((_place(edge, low), _place(edge, high), level))
            for low, high in left_over(piece, heavy):
                lines[style].append((_place(edge, low), _place(edge, high), level))
    return tuple(stroke for stroke in _joined(lines, crowded) if stroke.style == "silhouette" or chain_length(stroke.places) >= least)


def bodies_of(faces: tuple[Face, ...]) -> tuple[int, ...]:
    """For each face the number of its body."""
    spans = [[(min(axis) - TOUCHING, max(axis)) for axis in zip(*face.facet.polygon, strict=True)] for face in faces]
    body = list(range(len(faces)))
    for i, one in enumerate(spans):
        for j in range(i):
            other = spans[j]
            if body[i] != body[j] and all(a[0] <= b[1] and b[0] <= a[1] for a, b in zip(one, other, strict=True)):
                old, new = body[i], body[j]
                body = [new if number == old else number for number in body]
    return tuple(body)


def _silhouettes(faces: tuple[Face, ...]) -> tuple[tuple[int, ...], dict[int, list[Polygon]]]:
    body_of = bodies_of(faces)
    outlines: dict[int, list[Polygon]] = {number: [] for number in body_of}
    for face, number in zip(faces, body_of, strict=True):
        if face.outline:
            outlines[number].append(face.outline)
    return body_of, {number: union(rings) if rings else [] for number, rings in outlines.items()}


def _on_silhouette(edge: VisibleEdge, rings: list[Polygon]) -> list[Interval]:
    """The stretches of an edge that lie on the line of one of the rings."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    dx, dy = x1 - x0, y1 - y0
    size = hypot(dx, dy)
    near = ON_SILHOUETTE * size
    found = []
    for ring in rings:
        px, py = ring[-1]
        off_p = abs(dx * (py - y0) - dy * (px - x0))
        for qx, qy in ring:
            off_q = abs(dx * (qy - y0) - dy * (qx - x0))
            beside = off_p <= near or off_q <= near
            if beside and abs(dx * (py - qy) - dy * (px - qx)) <= max(near, ON_SILHOUETTE * hypot(px - qx, py - qy)):
                s, t = (dx * (px - x0) + dy * (py - y0)) / size**2, (dx * (qx - x0) + dy * (qy - y0)) / size**2
                low, high = max(0.0, min(s, t)), min(1.0, max(s, t))
                if (high - low) * size > ON_SILHOUETTE:
                    found.append((low, high))
            px, py, off_p = qx, qy, off_q
    return found


def _within(piece: Interval, parts: Iterable[Interval]) -> list[Interval]:
    return _merged((max(piece[0], low), min(piece[1], high)) for low, high in parts if min(piece[1], high) > max(piece[0], low))


def _place(edge: VisibleEdge, t: float) -> Spot:
    return edge.start[0] + t * (edge.end[0] - edge.start[0]), edge.start[1] + t * (edge.end[1] - edge.start[1])


def _level(edge: VisibleEdge) -> float:
    """The nearness of the endless line of an edge where it passes closest to the origin of the page: one for all that lies on it
    in space, so that of parallel edges the nearest layer's has the greatest.
    """
    (x0, y0), (x1, y1) = edge.start, edge.end
    dx, dy = x1 - x0, y1 - y0
    t = -(dx * x0 + dy * y0) / (dx * dx + dy * dy)
    return edge.depths[0] + t * (edge.depths[1] - edge.depths[0])


def _joined(lines: dict[str, list[Segment]], crowded: float) -> list[Stroke]:
    """Each stretch of each straight line once, in its strongest style; solid ones chained into long strokes."""
    pieces = [piece for line in _straight_lines(lines) for piece in _strongest(line)]
    if crowded:
        pieces = _thinned(pieces, crowded)
    kept: dict[str, list[tuple[Spot, Spot]]] = {style: [] for style in STYLES}
    for line, style, (low, high) in pieces:
        c, s = cos(line.angle), sin(line.angle)
        ends = [(c * at - s * line.offset, s * at + c * line.offset) for at in (low, high)]
        kept[style].append((ends[0], ends[1]))
    strokes = []
    for style in reversed(STYLES):
        solid = style in ("silhouette", "inner")
        strokes += [Stroke(places, style) for places in (_chained(kept[style]) if solid else kept[style])]
    return strokes


def _strongest(line: StraightLine) -> list[Piece]:
    """The stretches of one line, none twice."""
    pieces: list[Piece] = []
    taken: list[Interval] = []
    for style in STYLES:
        for whole in _merged(line.spans[style]):
            pieces += [(line, style, rest) for rest in left_over(whole, taken, least=ON_SILHOUETTE)]
        taken += line.spans[style]
    return pieces


def _thinned(pieces: list[Piece], crowded: float) -> list[Piece]:
    """Without the inner and dashed pieces most of whose length runs closer beside other pieces that stay; dashed ones stay first, and
    of each the nearest."""
    stay = [piece for piece in pieces if piece[1] not in THINNED]
    for line, style, whole in sorted((piece for piece in pieces if piece[1] in THINNED), key=_nearest_first):
        beside = [
            span
            for other, _, span in stay
            if abs(other.angle - line.angle) < 2 * SAME_ANGLE and ON_SILHOUETTE < abs(other.offset - line.offset) < crowded
        ]
        alone = sum(high - low for low, high in left_over(whole, beside))
        if alone > (whole[1] - whole[0]) / 2:
            stay.append((line, style, whole))
    return stay


def _nearest_first(piece: Piece) -> tuple[bool, float, float, float, Interval]:
    line, style, span = piece
    return style == "inner", -round(line.nearest, 2), line.angle, line.offset, span


def _straight_lines(lines: dict[str, list[Segment]]) -> list[StraightLine]:
    """Pieces sorted by the endless line they lie on."""
    pieces = []
    for style, segments in lines.items():
        for (x0, y0), (x1, y1), level in segments:
            angle = atan2(y1 - y0, x1 - x0) % pi
            pieces.append((angle if angle < pi - SAME_ANGLE else angle - pi, style, x0, y0, x1, y1, level))
    found: list[StraightLine] = []
    for angle, style, x0, y0, x1, y1, level in sorted(pieces):
        line = _line_through(found, angle, (x0, y0))
        c, s = cos(line.angle), sin(line.angle)
        ends = c * x0 + s * y0, c * x1 + s * y1
        line.spans[style].append((min(ends), max(ends)))
        line.nearest = max(line.nearest, level)
    return found


def _line_through(found: list[StraightLine], angle: float, place: Spot) -> StraightLine:
    """The line of that angle through the place, from those found so far (by rising angle) or new."""
    for line in reversed(found):
        if angle - line.angle > SAME_ANGLE:
            break
        if abs(cos(line.angle) * place[1] - sin(line.angle) * place[0] - line.offset) < ON_SILHOUETTE / 2:
            return line
    offset = cos(angle) * place[1] - sin(angle) * place[0]
    found.append(StraightLine(angle, offset, {name: [] for name in STYLES}, -inf))
    return found[-1]


def _merged(parts: Iterable[Interval]) -> list[Interval]:
    """Intervals that touch made one."""
    merged: list[Interval] = []
    for low, high in sorted(parts):
        if merged and low <= merged[-1][1] + ON_SILHOUETTE / 10:
            merged[-1] = merged[-1][0], max(merged[-1][1], high)
        else:
            merged.append((low, high))
    return merged


def _chained(segments: list[tuple[Spot, Spot]]) -> list[tuple[Spot, ...]]:
    """Segments that meet end to end, as long lines."""
    meeting: dict[tuple[int, int], list[int]] = {}
    for index, segment in enumerate(segments):
        for place in segment:
            meeting.setdefault(_node(place), []).append(index)
    odd = [index for index, segment in enumerate(segments) if any(len(meeting[_node(place)]) % 2 for place in segment)]
    used: set[int] = set()
    chains = []
    for index in odd + list(range(len(segments))):
        if index not in used:
            used.add(index)
            start, end = segments[index]
            forwards = len(meeting[_node(start)]) % 2 or not len(meeting[_node(end)]) % 2
            chains.append(_walked([start, end] if forwards else [end, start], segments, meeting, used))
    return chains


def _walked(
    chain: list[Spot], segments: list[tuple[Spot, Spot]], meeting: dict[tuple[int, int], list[int]], used: set[int]
) -> tuple[Spot, ...]:
    """The chain carried on over segments not yet used for as long as there are any."""
    while True:
        following = next((i for i in meeting[_node(chain[-1])] if i not in used), None)
        if following is None:
            return tuple(chain)
        used.add(following)
        first, second = segments[following]
        chain.append(second if _node(first) == _node(chain[-1]) else first)


def _node(place: Spot) -> tuple[int, int]:
    return round(place[0] * 50), round(place[1] * 50)
