"""Stretches of a run: inside rectangles, between two points (straight ones), inside the outline."""

from fractions import Fraction
from itertools import pairwise

from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, listed
from creasewright.blanks.references import expanded
from creasewright.geometry.crossing import meetings
from creasewright.geometry.edges import Box, edge_middle, part_of, way_along
from creasewright.geometry.loops import gap_to, holds
from creasewright.geometry.outline import Arc, Edge, Polygon
from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import dot, minus, moved, one_place
from creasewright.reading.design import Text

Stretch = tuple[Number, Number]
"""From and to, as parts of the run's way."""

ZERO, ONE = Fraction(0), Fraction(1)


def boxes_over(texts: tuple[Text, ...], draft: Draft, reach: Box, faults: Faults) -> list[Box]:
    """The rectangles of the bands or cells named. One at the edge of the sheet goes on to the outline (a bulging edge)."""
    boxes: list[Box] = []
    for text in texts:
        names = expanded(text.text, draft.names())
        if not names:
            known = listed(draft.names()) or "none"
            faults.add(text.where, f"`{text}` is no band or panel of this blank", f"known here: {known}")
        for name in names:
            box = draft.box_named(name)
            if box is not None:
                sides = [
                    far if side == own else side for side, own, far in zip(box, draft.box, reach, strict=True)
                ]
                boxes.append((sides[0], sides[1], sides[2], sides[3]))
    return boxes


def stretch_in(run: Run, box: Box) -> Stretch | None:
    """The part of a run inside a rectangle (Liang and Barsky: each side bounds it from one end)."""
    low: Number = ZERO
    high: Number = ONE
    along = minus(run.end, run.start)
    for step, start, near, far in ((along.x, run.start.x, box[0], box[2]), (along.y, run.start.y, box[1], box[3])):
        if step == 0:
            if not float(near) - SAME <= float(start) <= float(far) + SAME:
                return None
            continue
        first, last = (near - start) / step, (far - start) / step
        low, high = max(low, min(first, last)), min(high, max(first, last))
    return (low, high) if low < high else None


def merged(stretches: list[Stretch]) -> list[Stretch]:
    """Stretches that touch as one, in order."""
    found: list[Stretch] = []
    for low, high in sorted(stretches):
        if found and float(low) <= float(found[-1][1]) + 1e-9:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def at_part(run: Run, part: Number) -> Point:
    if part == 0:
        return run.start
    if part == 1:
        return run.end
    return moved(run.start, minus(run.end, run.start), part)


def limited(run: Run, boxes: list[Box]) -> list[Run]:
    """The parts of a run in some rectangles; rectangles that touch give one part."""
    found = [stretch for box in boxes if (stretch := stretch_in(run, box)) is not None]
    return [Run(run.name, at_part(run, low), at_part(run, high)) for low, high in merged(found)]


def part_at(run: Run, p: Point) -> Number:
    """How far along the run the foot of a point is, as a part of its way."""
    along = minus(run.end, run.start)
    return dot(minus(p, run.start), along) / dot(along, along)


def between(run: Run, start: Point, end: Point) -> list[Run]:
    """The run between the feet of two points."""
    low, high = sorted((part_at(run, start), part_at(run, end)))
    low, high = max(low, ZERO), min(high, ONE)
    return [Run(run.name, at_part(run, low), at_part(run, high))] if low < high else []


def inside(run: Run, edges: tuple[Edge, ...], polygon: Polygon) -> list[Run]:
    """The parts of a run inside an outline; what lies on the outline itself is left out."""
    whole = run.edge
    points = [run.start, run.end]
    for edge in edges:
        points += meetings(whole, edge)
    order: list[Point] = []
    for p in sorted(points, key=lambda p: way_along(whole, p)):
        if not order or not one_place(order[-1], p):
            order.append(p)
    found: list[tuple[Point, Point]] = []
    for a, b in pairwise(order):
        x, y = (float(value) for value in edge_middle(part_of(whole, a, b)))
        if not holds(polygon, x, y) or gap_to(polygon, x, y) <= SAME:
            continue
        if found and found[-1][1] == a:
            found[-1] = (found[-1][0], b)
        else:
            found.append((a, b))
    return [Run(run.name, a, b, arc=arc if isinstance(arc := part_of(whole, a, b), Arc) else None) for a, b in found]
