"""Fold lines give way to what is cut on the same place: of two lines that lie on one another only the cut could not be told else. mm."""

from collections.abc import Iterable, Sequence
from math import hypot

from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point

NEAR = 0.05
"""mm that two lines lie apart at most, to be one on paper."""
SHORTEST = 0.5
"""mm: less of a fold line is not worth drawing."""


def left_of(line: Line, cuts: Iterable[Line]) -> list[Line]:
    """The stretches of a straight fold line that no cut lies on, from its start to its end."""
    found = [line]
    for cut in cuts:
        found = [rest for one in found for rest in _without(one, cut)]
    return found


def _without(line: Line, cut: Line) -> Sequence[Line]:
    x, y = float(line.start.x), float(line.start.y)
    dx, dy = float(line.end.x) - x, float(line.end.y) - y
    length = hypot(dx, dy)

    def along(at: Point) -> float:
        return ((float(at.x) - x) * dx + (float(at.y) - y) * dy) / length

    def off(at: Point) -> float:
        return abs((float(at.x) - x) * dy - (float(at.y) - y) * dx) / length

    first, last = sorted((cut.start, cut.end), key=along)
    if max(off(first), off(last)) > NEAR or min(along(last), length) - max(along(first), 0.0) <= NEAR:
        return (line,)
    before = (Line(line.start, first),) if along(first) > SHORTEST else ()
    after = (Line(last, line.end),) if length - along(last) > SHORTEST else ()
    return (*before, *after)
