"""A blank written as a list of points, clockwise from the front, with arcs by their rise and cubic curves by their handles."""

from fractions import Fraction

from creasewright.blanks.draft import Draft
from creasewright.blanks.faults import Faults, in_mm
from creasewright.blanks.numbers import Numbers
from creasewright.geometry.crossing import meetings
from creasewright.geometry.cubic import cubic_edges
from creasewright.geometry.edges import arc_with_rise, box_of
from creasewright.geometry.loops import loop_area
from creasewright.geometry.outline import Edge, Line, Outline
from creasewright.geometry.plane_transform import shift
from creasewright.geometry.point import Point
from creasewright.geometry.vector import length, minus, one_place
from creasewright.reading import design

MOST_CURVED = 600
"""Arcs that the curves of one outline may come to: a stranger's file shall be quick."""


def outline_draft(written: design.Blank, shape: design.OutlineShape, numbers: Numbers, faults: Faults) -> Draft:
    """The outline moved so that its rectangle starts at the head-left corner; later points move with it."""
    points = [_typed(point.place, numbers, faults) for point in shape.points]
    faults.stop_if_any()
    starts = [points[-1], *points[:-1]]
    ways = [
        _way_to(entry, start, end, numbers, faults) for entry, start, end in zip(shape.points, starts, points, strict=True)
    ]
    faults.stop_if_any()
    ways = [*ways[1:], ways[0]]
    edges = [edge for way in ways for edge in way]
    if len(edges) > len(ways) + MOST_CURVED:
        faults.add(written.where, f"the curves of the outline of `{written.name}` come to {len(edges)} arcs", "draw it with fewer curves")
        faults.stop_if_any()
    _check(written, edges, faults)
    faults.stop_if_any()
    left, head, right, tail = box_of(edges)
    to_frame = shift(-left, -head)
    loop = to_frame.loop(tuple(edges))
    entries = [*shape.points[1:], shape.points[0]]
    names = tuple(
        (entry.edge.text, Line(to_frame.point(way[0].start), to_frame.point(way[-1].end)))
        for entry, way in zip(entries, ways, strict=True)
        if entry.edge is not None
    )
    return Draft(right - left, tail - head, Outline(loop), edge_names=names, origin=Point(-left, -head))


def _typed(place: design.Place, numbers: Numbers, faults: Faults) -> Point:
    if place.xy is None:
        faults.add(place.where, f"`{place.word}` is no point of an outline yet", "write the point as [x, y]")
        return Point(Fraction(0), Fraction(0))
    return Point(numbers.length(place.xy[0]), numbers.length(place.xy[1]))


def _way_to(entry: design.OutlinePoint, start: Point, end: Point, numbers: Numbers, faults: Faults) -> tuple[Edge, ...]:
    """The edge to a point of the outline; a cubic curve as arcs no farther than 0.005 mm from it."""
    if entry.by is None or one_place(start, end):
        return (_edge_to(entry, start, end, numbers, faults),)
    first, second = (_typed(place, numbers, faults) for place in entry.by)
    curve = cubic_edges(start, first, second, end)
    if curve is None:
        what = "the curve to this point of the outline has a kink"
        faults.add(entry.place.where, what, "move its handles apart, or make two curves of it")
        return (Line(start, end),)
    return curve


def _edge_to(entry: design.OutlinePoint, start: Point, end: Point, numbers: Numbers, faults: Faults) -> Edge:
    if one_place(start, end):
        faults.add(entry.place.where, "two points of the outline that follow each other are one place", "leave one out")
        return Line(start, end)
    if entry.rise is None:
        return Line(start, end)
    rise, chord = numbers.length(entry.rise), length(minus(end, start))
    if 2 * abs(float(rise)) > float(chord):
        faults.add(
            entry.rise.where, f"`rise: {entry.rise}` comes to {in_mm(rise)} over a chord of {in_mm(chord)}",
            "keep a rise to half its chord",
        )  # fmt: skip
    return arc_with_rise(start, end, rise)


def _check(written: design.Blank, edges: list[Edge], faults: Faults) -> None:
    if len(edges) < 3 and all(isinstance(edge, Line) for edge in edges):
        faults.add(written.where, f"the outline of `{written.name}` has {len(edges)} points", "give at least 3")
        return
    for later, edge in enumerate(edges):
        for earlier in range(later):
            shared = {index for index in (later, earlier) if (index + 1) % len(edges) in (later, earlier)}
            for p in meetings(edges[earlier], edge):
                if not (shared and any(one_place(p, end) for end in (edge.start, edge.end))):
                    faults.add(
                        written.where,
                        f"the outline of `{written.name}` crosses itself at [{in_mm(p.x)}, {in_mm(p.y)}]",
                        "list its points in the order they follow round the edge",
                    )
                    return
    if loop_area(edges) < 0:
        faults.add(written.where, f"the outline of `{written.name}` runs anticlockwise", "list its points the other way round")
