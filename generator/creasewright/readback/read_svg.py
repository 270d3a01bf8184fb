"""The lines of an SVG file of ours, layer by layer, back as edges: paths of M, L, A and Z, and circles. mm, y down."""

import re
from math import hypot, sqrt
from xml.etree import ElementTree

from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Point
from creasewright.readback.found_lines import FoundLines, FoundStroke

NAMESPACE = "{http://www.w3.org/2000/svg}"
TOKEN = re.compile(r"[MLAZ]|-?[0-9.]+(?:e-?[0-9]+)?")
COUNTS = {"M": 2, "L": 2, "A": 7, "Z": 0}


def read_svg(data: bytes) -> FoundLines:
    """ValueError where the file is not in millimetres."""
    root = ElementTree.fromstring(data)
    _, _, wide, high = map(float, root.get("viewBox", "0 0 0 0").split())
    if (root.get("width"), root.get("height")) != (f"{wide:g}mm", f"{high:g}mm") and not _same_size(root, wide, high):
        raise ValueError("the drawing's unit is not the millimetre")
    strokes: list[FoundStroke] = []
    rings: list[tuple[str, float, float, float]] = []
    for group in root.iter(f"{NAMESPACE}g"):
        layer = (group.get("id") or "").replace("-", " ")
        for path in group.iter(f"{NAMESPACE}path"):
            strokes += [FoundStroke(layer, edges, closed) for edges, closed in paths(path.get("d") or "")]
        for circle in group.iter(f"{NAMESPACE}circle"):
            x, y, radius = (float(circle.get(key) or 0) for key in ("cx", "cy", "r"))
            rings.append((layer, x, y, 2 * radius))
    return FoundLines(wide, high, tuple(strokes), tuple(rings))


def _same_size(root: ElementTree.Element, wide: float, high: float) -> bool:
    sizes = [root.get(key) or "" for key in ("width", "height")]
    return all(
        text.endswith("mm") and abs(float(text[:-2]) - true) < 1e-9 for text, true in zip(sizes, (wide, high), strict=True)
    )


def paths(data: str) -> list[tuple[tuple[Edge, ...], bool]]:
    """Each subpath with whether it is closed; what closes it is an edge of its own where the ends are apart."""
    tokens = TOKEN.findall(data)
    found: list[tuple[tuple[Edge, ...], bool]] = []
    edges: list[Edge] = []
    first = at = Point(0.0, 0.0)
    k = 0
    while k < len(tokens):
        command = tokens[k]
        values = [float(token) for token in tokens[k + 1 : k + 1 + COUNTS[command]]]
        k += 1 + COUNTS[command]
        if command == "Z":
            if hypot(at.x - first.x, at.y - first.y) > 1e-6:
                edges.append(Line(at, first))
            found.append((tuple(edges), True))
            edges, at = [], first
            continue
        to = Point(*values[-2:])
        if command == "M":
            if edges:
                found.append((tuple(edges), False))
            edges, first = [], to
        elif command == "L":
            edges.append(Line(at, to))
        else:
            edges.append(arc_of(at, to, values[0], bool(values[3]), bool(values[4])))
        at = to
    if edges:
        found.append((tuple(edges), False))
    return found


def arc_of(start: Point, end: Point, radius: float, large: bool, clockwise: bool) -> Arc:
    """From the two ends to the centre (W3C SVG 1.1, F.6.5, for circles)."""
    half_x, half_y = (float(end.x) - float(start.x)) / 2, (float(end.y) - float(start.y)) / 2
    half = hypot(half_x, half_y)
    off = sqrt(max(0.0, radius * radius - half * half)) / half
    side = -off if large == clockwise else off
    centre = Point(float(start.x) + half_x - side * half_y, float(start.y) + half_y + side * half_x)
    return Arc(start, end, centre, clockwise)
