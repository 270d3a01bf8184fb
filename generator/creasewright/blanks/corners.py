"""Corners of the outline cut off or rounded. `all` is every corner that stands out; a corner named by itself goes before it."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.compass import CORNERS, point_in
from creasewright.blanks.draft import CutMark, Draft
from creasewright.blanks.faults import Faults, in_mm
from creasewright.blanks.numbers import Numbers
from creasewright.geometry.corner import cut_corner, rounded, tangent_length, turns_in
from creasewright.geometry.edges import box_of, edge_middle
from creasewright.geometry.outline import Edge, Line, Outline
from creasewright.geometry.point import Number, Point
from creasewright.geometry.vector import length, minus
from creasewright.reading import design


def change_corners(draft: Draft, corners: tuple[design.Corner, ...], numbers: Numbers, faults: Faults) -> Draft:
    """Every corner change of a blank; one that does not fit is a fault and leaves the corner as it is."""
    if not corners:
        return draft
    words = {word: _nearest(draft, word) for word in CORNERS}
    changes: dict[Point, tuple[design.Corner, str]] = {}
    for corner in sorted(corners, key=lambda corner: corner.which != "all"):
        if corner.which == "all":
            for at in _standing_out(draft):
                changes[at] = (corner, next((word for word in CORNERS if words[word] == at), ""))
            continue
        nearest = words.get(corner.which)
        if nearest is None:
            faults.add(corner.where, f"`{corner.which}` is no corner", f"write {', '.join(CORNERS)} or all")
        else:
            changes[nearest] = (corner, corner.which)
    for at, (corner, word) in changes.items():
        draft = _change(draft, corner, at, word, numbers, faults)
    return draft


def _standing_out(draft: Draft) -> list[Point]:
    edges = draft.outline.edges
    return [
        after.start
        for before, after in zip(edges[-1:] + edges[:-1], edges, strict=True)
        if isinstance(before, Line) and isinstance(after, Line) and turns_in(before, after)
    ]


def _nearest(draft: Draft, word: str) -> Point | None:
    corner = point_in(box_of(draft.outline.edges), word)
    if corner is None:
        return None
    return min(_standing_out(draft), key=lambda p: float(length(minus(p, corner))), default=None)


def _change(draft: Draft, corner: design.Corner, at: Point, word: str, numbers: Numbers, faults: Faults) -> Draft:
    edges = list(draft.outline.edges)
    index = next(i for i, edge in enumerate(edges) if edge.start == at)
    before, after = edges[index - 1], edges[index]
    if not isinstance(before, Line) or not isinstance(after, Line):
        return draft
    new = _new_edge(before, after, corner, numbers, faults)
    if new is None:
        return draft
    edges[index - 1], edges[index] = Line(before.start, new.start), Line(new.end, after.end)
    edges.insert(index, new)
    outline = Outline(tuple(edge for edge in edges if edge.start != edge.end))
    marks = draft.marks
    if corner.template is not None:
        marks = (*marks, CutMark(corner.template, f"{word or corner.which} corner", edge_middle(new)))
    radii = draft.radii
    if corner.round is not None and word:
        radii = (*radii, (word, numbers.length(corner.round)))
    return replace(draft, outline=outline, marks=marks, radii=radii)


def _new_edge(before: Line, after: Line, corner: design.Corner, numbers: Numbers, faults: Faults) -> Edge | None:
    first_size, second_size = length(minus(before.end, before.start)), length(minus(after.end, after.start))
    if corner.round is not None:
        radius = numbers.length(corner.round)
        if radius <= 0:
            faults.add(corner.round.where, f"`round: {corner.round}` comes to {in_mm(radius)}", "make it more than 0")
            return None
        reach = tangent_length(before, after, radius)
        if reach > min(first_size, second_size):
            _too_big(corner, f"`round: {corner.round}`", reach, min(first_size, second_size), faults)
            return None
        return rounded(before, after, radius)
    if corner.cut is None:
        faults.add(corner.where, f"{_called(corner)} has neither a cut nor a radius", "write `cut: [a, b]` or `round: r`")
        return None
    head, side = numbers.legs(corner.cut)
    first, second = (head, side) if _levelness(before) > _levelness(after) else (side, head)
    for leg, size in ((first, first_size), (second, second_size)):
        if leg <= 0:
            faults.add(corner.where, f"the cut of {_called(corner)} comes to {in_mm(leg)}", "make it more than 0")
            return None
        if leg > size:
            _too_big(corner, f"the cut of {_called(corner)}", leg, size, faults)
            return None
    start, end = cut_corner(before, after, first, second)
    return Line(before.start if first == first_size else start, after.end if second == second_size else end)


def _called(corner: design.Corner) -> str:
    return "a corner" if corner.which == "all" else f"the {corner.which} corner"


def _too_big(corner: design.Corner, what: str, needs: Number, has: Number, faults: Faults) -> None:
    faults.add(corner.where, f"{what} needs {in_mm(needs)} of an edge that has {in_mm(has)} left", "make it smaller")


def _levelness(edge: Line) -> Number:
    along = minus(edge.end, edge.start)
    return abs(float(along.x)) / float(length(along)) if along != (0, 0) else Fraction(0)
