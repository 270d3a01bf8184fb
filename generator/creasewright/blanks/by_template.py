"""Whether a blank is cut along a printed template, or by ruler and trimmer alone."""

from creasewright.blanks.blank import Blank
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point


def needs_template(blank: Blank) -> bool:
    """Straight pieces, also with rounded corners, scores and slits that run straight up or across, need none."""
    if blank.holes or any(s.arc is not None or not straight(s.start, s.end) for s in blank.scores):
        return True
    if any(not straight(s.start, s.end) for s in blank.slits):
        return True
    lines = [edge for edge in blank.outline.edges if isinstance(edge, Line)]
    arcs = len(blank.outline.edges) - len(lines)
    return any(not straight(line.start, line.end) for line in lines) or arcs > len(blank.corner_radius or {}) or len(lines) > 4


def has_own_template(blank: Blank) -> bool:
    """It is not shaped in the steps along a template that serves several pieces."""
    return needs_template(blank) and not blank.cutouts


def straight(a: Point, b: Point) -> bool:
    """Straight up or straight across."""
    return abs(float(a.x) - float(b.x)) < 1e-6 or abs(float(a.y) - float(b.y)) < 1e-6
