"""Edges bent to an arc, and notches."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.compass import SIDES, side_of
from creasewright.blanks.draft import CutMark, Draft
from creasewright.blanks.faults import Faults, in_mm, listed
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.places import point_of
from creasewright.geometry.corner import notch
from creasewright.geometry.edges import arc_with_rise, box_of, edge_middle
from creasewright.geometry.outline import Edge, Line, Outline
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import cross, dot, length, minus, moved, unit
from creasewright.reading import design


def change_edges(draft: Draft, changes: tuple[design.EdgeChange, ...], numbers: Numbers, faults: Faults) -> Draft:
    """Each edge named made a circular arc of that rise, outward positive."""
    for change in changes:
        index = _edge_named(draft, change.which)
        if index is None:
            known = listed([*SIDES, *dict(draft.edge_names)])
            faults.add(change.where, f"`{change.which}` is no straight edge of the outline", f"known here: {known}")
            continue
        edge = draft.outline.edges[index]
        rise, chord = numbers.length(change.rise), length(minus(edge.end, edge.start))
        if 2 * abs(float(rise)) > float(chord):
            faults.add(
                change.rise.where, f"`rise: {change.rise}` comes to {in_mm(rise)} over an edge of {in_mm(chord)}",
                "keep a rise to half its edge",
            )  # fmt: skip
            continue
        arc = arc_with_rise(edge.start, edge.end, rise)
        draft = _with(draft, index, (arc,), change.template, f"{change.which} edge", edge_middle(arc))
    return draft


def _with(draft: Draft, index: int, edges: tuple[Edge, ...], template: str | None, what: str, at: Point) -> Draft:
    old = draft.outline.edges
    marks = draft.marks if template is None else (*draft.marks, CutMark(template, what, at))
    return replace(draft, outline=Outline((*old[:index], *edges, *old[index + 1 :])), marks=marks)


def _edge_named(draft: Draft, which: str) -> int | None:
    """The longest straight edge on that side of the rectangle, or on the line of a named edge."""
    named = dict(draft.edge_names)
    straight = [(index, edge) for index, edge in enumerate(draft.outline.edges) if isinstance(edge, Line)]
    if which in named:
        on = [(index, edge) for index, edge in straight if _on(named[which], edge.start) and _on(named[which], edge.end)]
    elif which in SIDES:
        at = side_of(box_of(draft.outline.edges), which) or Fraction(0)
        axis = 0 if which in ("left", "right") else 1
        on = [(i, edge) for i, edge in straight if all(abs(float(p[axis] - at)) <= SAME for p in (edge.start, edge.end))]
    else:
        return None
    return max(on, key=lambda item: float(length(minus(item[1].end, item[1].start))), default=(None, None))[0]


def _on(line: Line, p: Point) -> bool:
    along = minus(line.end, line.start)
    return abs(float(cross(along, minus(p, line.start)))) <= SAME * float(length(along))


def cut_notches(draft: Draft, notches: tuple[design.Notch, ...], numbers: Numbers, faults: Faults) -> Draft:
    """Each notch cut into the straight edge nearest its point."""
    for written in notches:
        at = point_of(written.at, draft, numbers, draft.runs, faults)
        if at is not None:
            draft = _notched(draft, written, at, numbers, faults)
    return draft


def _notched(draft: Draft, written: design.Notch, at: Point, numbers: Numbers, faults: Faults) -> Draft:
    width, depth = numbers.length(written.width), numbers.length(written.depth)
    for word, size, text in (("width", width, written.width), ("depth", depth, written.depth)):
        if size <= 0:
            faults.add(text.where, f"the {word} of the notch, `{text}`, comes to {in_mm(size)}", "make it more than 0")
            return draft
    index, way, off = min(_ways(draft, at), key=lambda item: item[2])
    edge = draft.outline.edges[index]
    along = minus(edge.end, edge.start)
    long = float(length(along))
    if off > SAME or not float(width) / 2 <= way <= long - float(width) / 2:
        faults.add(
            written.where, f"a notch {in_mm(width)} wide does not fit there on a straight edge",
            "put it on an edge, at least half its width from the ends",
        )  # fmt: skip
        return draft
    foot = moved(edge.start, unit(along), dot(minus(at, edge.start), unit(along)))
    cut = notch(Line(edge.start, edge.end), foot, width, depth, written.round)
    edges = [Line(edge.start, cut[0].start), *cut, Line(cut[-1].end, edge.end)]
    kept = tuple(one for one in edges if one.start != one.end)
    return _with(draft, index, kept, written.template, "notch", edge_middle(cut[len(cut) // 2]))


def _ways(draft: Draft, at: Point) -> list[tuple[int, float, float]]:
    """For each straight edge: its place, how far along it the point is, how far off, mm."""
    found = []
    for index, edge in enumerate(draft.outline.edges):
        if not isinstance(edge, Line):
            continue
        along = unit(minus(edge.end, edge.start))
        to = minus(at, edge.start)
        way, long = float(dot(to, along)), float(length(minus(edge.end, edge.start)))
        beyond = max(0.0, -way, way - long)
        found.append((index, way, abs(float(cross(along, to))) + beyond))
    return found or [(0, 0.0, float("inf"))]
