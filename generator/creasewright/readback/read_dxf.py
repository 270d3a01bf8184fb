"""The lines of a DXF file, layer by layer, back as edges, from its group codes alone: LINE, ARC, CIRCLE and LWPOLYLINE.

Source: DXF Reference for release 2010, group codes of entities. y runs up in the file; `height` turns it over. mm.
"""

from collections.abc import Iterator
from math import atan, cos, hypot, radians, sin, tan

from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Point
from creasewright.readback.found_lines import FoundLines, FoundStroke

MILLIMETRES = "4"
Entity = list[tuple[int, str]]


def read_dxf(data: bytes, height: float) -> FoundLines:
    """ValueError where the file is not in millimetres."""
    pairs = _pairs(data.decode())
    if _header(pairs, "$INSUNITS") != MILLIMETRES:
        raise ValueError("the drawing's unit is not the millimetre")
    strokes: list[FoundStroke] = []
    rings: list[tuple[str, float, float, float]] = []
    for entity in _entities(pairs):
        kind, values = entity[0][1], dict(entity)
        layer = values.get(8, "")
        if kind == "LINE":
            line = Line(_at(values[10], values[20], height), _at(values[11], values[21], height))
            strokes.append(FoundStroke(layer, (line,), False))
        elif kind == "ARC":
            strokes.append(FoundStroke(layer, (_arc(values, height),), False))
        elif kind == "CIRCLE":
            centre = _at(values[10], values[20], height)
            rings.append((layer, float(centre.x), float(centre.y), 2 * float(values[40])))
        elif kind == "LWPOLYLINE":
            closed = bool(int(values.get(70, "0")) & 1)
            strokes.append(FoundStroke(layer, tuple(_polyline(entity, closed, height)), closed))
    return FoundLines(0.0, 0.0, tuple(strokes), tuple(rings))


def _pairs(text: str) -> Entity:
    lines = text.splitlines()
    return [(int(code), value.strip()) for code, value in zip(lines[::2], lines[1::2], strict=False)]


def _header(pairs: Entity, name: str) -> str:
    """The value that follows a variable's name."""
    return next((pairs[k + 1][1] for k, pair in enumerate(pairs[:-1]) if pair == (9, name)), "")


def _entities(pairs: Entity) -> Iterator[Entity]:
    """Each from its group 0 on, of the section ENTITIES alone."""
    inside, current = False, Entity()
    for k, (code, value) in enumerate(pairs):
        if code == 0:
            if inside and current:
                yield current
            current = []
            inside = inside and value != "ENDSEC"
        if (code, value) == (2, "ENTITIES") and pairs[k - 1] == (0, "SECTION"):
            inside, current = True, []
        elif inside:
            current.append((code, value))


def _at(x: str, y: str, height: float) -> Point:
    return Point(float(x), height - float(y))


def _arc(values: dict[int, str], height: float) -> Arc:
    """Anticlockwise in the file, so anticlockwise as seen."""
    x, y, radius = (float(values[code]) for code in (10, 20, 40))
    first, last = (radians(float(values[code])) for code in (50, 51))
    ends = [Point(x + radius * cos(angle), height - (y + radius * sin(angle))) for angle in (first, last)]
    return Arc(ends[0], ends[1], Point(x, height - y), clockwise=False)


def _polyline(entity: Entity, closed: bool, height: float) -> Iterator[Edge]:
    corners: list[list[float]] = []
    for code, value in entity:
        if code == 10:
            corners.append([float(value), 0.0, 0.0])
        elif code in (20, 42) and corners:
            corners[-1][1 if code == 20 else 2] = float(value)
    following = corners[1:] + corners[:1] if closed else corners[1:]
    for (x0, y0, bulge), (x1, y1, _) in zip(corners, following, strict=False):
        start, end = Point(x0, height - y0), Point(x1, height - y1)
        yield Line(start, end) if bulge == 0 else _bulged(start, end, bulge)


def _bulged(start: Point, end: Point, bulge: float) -> Arc:
    """A bulge is the tangent of a quarter of the angle, positive anticlockwise; the centre lies c / (2 tan(angle/2)) off the chord."""
    dx, dy = float(end.x) - float(start.x), float(end.y) - float(start.y)
    chord = hypot(dx, dy)
    off = chord / (2 * tan(2 * atan(bulge)))
    middle_x, middle_y = (float(start.x) + float(end.x)) / 2, (float(start.y) + float(end.y)) / 2
    # y down: left of the way, seen with y up, is (dy, -dx)
    return Arc(start, end, Point(middle_x + dy / chord * off, middle_y - dx / chord * off), bulge < 0)
