"""Visible edges into pen strokes: the outer silhouette heavier than inner edges, pieces in one line joined, so that dashes stay whole.

A *body* is what hangs together in space; each body has a silhouette of its own, so that a piece held over another keeps a heavy outline.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin

from creasewright.booklet.diagrams.face_view import Face
from creasewright.booklet.diagrams.space_edges import Interval, VisibleEdge, left_over
from creasewright.booklet.diagrams.scene import Spot
from creasewright.geometry.clip import union
from creasewright.geometry.outline import Polygon

TOUCHING = 3.5
"""Boxes of two facets in space closer than this, in mm, belong to one body: more than the thickness of a board, whose layers lie that far apart."""
ON_SILHOUETTE = 0.01
"""An edge no farther than this from the silhouette, in mm, is part of it."""
STYLES = ("silhouette", "inner", "valley", "mountain", "crease")
"""From the strongest to the weakest: where two lie on each other, the stronger is drawn."""
_STYLE_OF_KIND = {"valley": "valley", "mountain": "mountain", "crease": "crease", "score": "crease"}


@dataclass(frozen=True)
class Stroke:
    """A line on the page in one style, mm of the model. The last place equals the first when it is closed."""

    places: tuple[Spot, ...]
    style: str


def strokes_of(edges: tuple[VisibleEdge, ...], faces: tuple[Face, ...]) -> tuple[Stroke, ...]:
    body_of, silhouettes = _silhouettes(faces)
    lines: dict[str, list[tuple[Spot, Spot]]] = {style: [] for style in STYLES}
    for edge in edges:
        heavy = _on_silhouette(edge, silhouettes[body_of[edge.owners[0]]])
        style = _STYLE_OF_KIND.get(edge.kind, "inner")
        for piece in edge.seen:
            for low, high in _within(piece, heavy):
                lines["silhouette"].append((_place(edge, low), _place(edge, high)))
            for low, high in left_over(piece, heavy):
                lines[style].append((_place(edge, low), _place(edge, high)))
    return tuple(_joined(lines))


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
    found = []
    for ring in rings:
        px, py = ring[-1]
        for qx, qy in ring:
            if abs(dx * (py - qy) - dy * (px - qx)) <= ON_SILHOUETTE * max(size, hypot(px - qx, py - qy)):
                off_p, off_q = abs(dx * (py - y0) - dy * (px - x0)), abs(dx * (qy - y0) - dy * (qx - x0))
                if min(off_p, off_q) <= ON_SILHOUETTE * size:
                    s, t = (dx * (px - x0) + dy * (py - y0)) / size**2, (dx * (qx - x0) + dy * (qy - y0)) / size**2
                    low, high = max(0.0, min(s, t)), min(1.0, max(s, t))
                    if (high - low) * size > ON_SILHOUETTE:
                        found.append((low, high))
            px, py = qx, qy
    return found


def _within(piece: Interval, parts: Iterable[Interval]) -> list[Interval]:
    return _merged((max(piece[0], low), min(piece[1], high)) for low, high in parts if min(piece[1], high) > max(piece[0], low))


def _place(edge: VisibleEdge, t: float) -> Spot:
    return edge.start[0] + t * (edge.end[0] - edge.start[0]), edge.start[1] + t * (edge.end[1] - edge.start[1])


def _joined(lines: dict[str, list[tuple[Spot, Spot]]]) -> list[Stroke]:
    """Each stretch of each straight line once, in its strongest style; solid ones chained into long strokes."""
    kept: dict[str, list[tuple[Spot, Spot]]] = {style: [] for style in STYLES}
    for angle, offset, spans in _straight_lines(lines):
        c, s = cos(angle), sin(angle)
        taken: list[Interval] = []
        for style in STYLES:
            for whole in _merged(spans[style]):
                for low, high in left_over(whole, taken, least=ON_SILHOUETTE):
                    kept[style].append(((c * low - s * offset, s * low + c * offset), (c * high - s * offset, s * high + c * offset)))
            taken += spans[style]
    strokes = []
    for style in reversed(STYLES):
        solid = style in ("silhouette", "inner")
        strokes += [Stroke(places, style) for places in (_chained(kept[style]) if solid else kept[style])]
    return strokes


def _straight_lines(lines: dict[str, list[tuple[Spot, Spot]]]) -> list[tuple[float, float, dict[str, list[Interval]]]]:
    """Pieces sorted by the endless line they lie on: its angle, its distance from the origin, stretches along it by style."""
    pieces = []
    for style, segments in lines.items():
        for (x0, y0), (x1, y1) in segments:
            angle = atan2(y1 - y0, x1 - x0) % pi
            pieces.append((angle if angle < pi - 1e-6 else angle - pi, style, x0, y0, x1, y1))
    found: list[tuple[float, float, dict[str, list[Interval]]]] = []
    for angle, style, x0, y0, x1, y1 in sorted(pieces):
        c, s = cos(angle), sin(angle)
        for known, offset, spans in reversed(found):
            if angle - known > 1e-5:
                known_spans = None
                break
            if abs(c * y0 - s * x0 - offset) < ON_SILHOUETTE / 2:
                known_spans, c, s = spans, cos(known), sin(known)
                break
        else:
            known_spans = None
        if known_spans is None:
            known_spans = {name: [] for name in STYLES}
            found.append((angle, c * y0 - s * x0, known_spans))
        ends = c * x0 + s * y0, c * x1 + s * y1
        known_spans[style].append((min(ends), max(ends)))
    return found


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
        if index in used:
            continue
        used.add(index)
        start, end = segments[index]
        if len(meeting[_node(end)]) % 2 and not len(meeting[_node(start)]) % 2:
            start, end = end, start
        chain = [start, end]
        while True:
            following = next((i for i in meeting[_node(chain[-1])] if i not in used), None)
            if following is None:
                break
            used.add(following)
            first, second = segments[following]
            chain.append(second if _node(first) == _node(chain[-1]) else first)
        chains.append(tuple(chain))
    return chains


def _node(place: Spot) -> tuple[int, int]:
    return round(place[0] * 50), round(place[1] * 50)
