"""What lies beyond both of two crossing scores, seen from the centre, cut away."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, listed
from creasewright.blanks.limits import inside
from creasewright.blanks.places import line_named
from creasewright.geometry.arrangement import Strand, arrange
from creasewright.geometry.crossing import lines_cross
from creasewright.geometry.loops import gap_to, holds, inner_point, tidied
from creasewright.geometry.outline import Line, Outline, flattened
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import cross, length, middle, minus, moved
from creasewright.reading.design import Text

CROSSINGS = "all crossings"


def cut_crossings(draft: Draft, written: tuple[tuple[Text, ...], ...], runs: list[Run], faults: Faults) -> Draft:
    """The outline without the wedges beyond each pair of scores; `all crossings` takes every two that cross on the sheet."""
    for pair in written:
        if pair[0].text == CROSSINGS:
            straight = [run for run in runs if run.arc is None]
            for index, run in enumerate(straight):
                for other in straight[:index]:
                    draft = _without_wedge(draft, Line(other.start, other.end), Line(run.start, run.end)) or draft
            continue
        lines = [line_named(text.text, runs) for text in pair]
        for text, line in zip(pair, lines, strict=True):
            if line is None:
                known = listed(list(dict.fromkeys(run.name for run in runs))) or "none"
                faults.add(text.where, f"`{text}` is no score of this blank", f"known here: {known}")
        if len(lines) == 2 and lines[0] is not None and lines[1] is not None:
            new = _without_wedge(draft, lines[0], lines[1])
            if new is None:
                faults.add(pair[0].where, f"`{pair[0]}` and `{pair[1]}` do not cross on the sheet", "name two scores that cross")
            draft = new or draft
    return draft


def _without_wedge(draft: Draft, a: Line, b: Line) -> Draft | None:
    """None where the lines do not cross inside the outline."""
    crossing = lines_cross(a, b)
    centre = middle(Point(draft.box[0], draft.box[1]), Point(draft.width, draft.height))
    if crossing is None or _side(a, centre) == 0 or _side(b, centre) == 0:
        return None
    x, y = float(crossing.x), float(crossing.y)
    if not (0 < x < float(draft.width) and 0 < y < float(draft.height)):
        return None
    polygon = flattened(draft.outline.edges)
    if not holds(polygon, x, y) or gap_to(polygon, x, y) <= SAME:
        return None
    strands = [Strand(edge, 0) for edge in draft.outline.edges]
    for along, other in ((a, b), (b, a)):
        ray = _ray(along, other, crossing, centre, draft)
        strands += [Strand(Line(run.start, run.end), 1) for run in inside(ray, draft.outline.edges, polygon)[:1]]
    for face in arrange(strands).faces:
        inner = Point(*inner_point(flattened(face.edges)))
        if not (_beyond(a, centre, inner) and _beyond(b, centre, inner)):
            return replace(draft, outline=Outline(tidied(face.edges)))
    return None


def _side(line: Line, p: Point) -> int:
    """1 clockwise of the line, -1 anticlockwise, 0 on it."""
    along = minus(line.end, line.start)
    off = float(cross(along, minus(p, line.start))) / float(length(along))
    return 0 if abs(off) <= SAME else 1 if off > 0 else -1


def _beyond(line: Line, centre: Point, p: Point) -> bool:
    return _side(line, p) == -_side(line, centre)


def _ray(along: Line, other: Line, crossing: Point, centre: Point, draft: Draft) -> Run:
    """From the crossing along one score, on the side of the other that is away from the centre, past the outline."""
    step = minus(along.end, along.start)
    times = Fraction(int(2 * float(draft.width + draft.height) / float(length(step))) + 1)
    ends = (moved(crossing, step, times), moved(crossing, step, -times))
    return Run("", crossing, next(end for end in ends if _beyond(other, centre, end)))
