"""Tips as the maker sees them: where a panel ends along an axis of the view in a corner or a rounding, and how that place errs.

A corner of two lines with normals m and n that err by d and e along them is moved by the vector s with s m = d and s n = e; along a way
w = a m + b n that is a d + b e. A corner rounded on a piece cut straight moves as the corner does; a rounding drawn from a template errs by
itself, along the way that it faces.
"""

from math import hypot

from creasewright.blanks.blank import Blank
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.outline import Arc, Edge, arc_sweep, chain_of
from creasewright.geometry.point import Point
from creasewright.geometry.rigid_transform import apply, rotate, transposed
from creasewright.hands.carried import Cause, Slopes, added
from creasewright.hands.error_table import TRACED
from creasewright.hands.made_lines import FlatLine, Spot, cut_straight, lines_of
from creasewright.hands.seen_lines import SeenLine, in_world

FLAT = 1e-6
"""Lines that meet at less of an angle (its sine) make no corner."""


def seen_tips(state: State, body: Body, panel: PanelKey, axis: int) -> list[SeenLine]:
    """The least and the greatest place of a panel along an axis of the view, where no straight line but a tip ends it there."""
    blank = state.blanks[panel[0]]
    if blank.wrap is not None or panel in state.curved:
        return []  # a wrapped cover has no tips; how a bend moves its edges is not followed
    edges = blank.panel(panel[1]).outline.edges
    placed = state.placed[panel]
    x, y, _ = rotate(transposed(placed.turn), in_world(body, axis))
    way = (x, y)
    found = []
    for outwards in (-1.0, 1.0):
        spot, edge = max(((spot, edge) for edge in edges for spot in chain_of(edge)), key=lambda one: outwards * _dot(one[0], way))
        slopes = _of_arc(state, panel[0], edge, way) if isinstance(edge, Arc) else _of_corner(_through(state, panel[0], edges, spot), way)
        if slopes is not None:
            found.append(SeenLine(panel, rotate(body.view, apply(placed, (*spot, 0.0)))[axis], slopes))
    return found


def _of_arc(state: State, part: str, arc: Arc, way: Spot) -> Slopes | None:
    """Along `way`, mm for each mm of its causes; None for an arc that is no part of the outline (a curved score)."""
    blank = state.blanks[part]
    number = next((k for k, edge in enumerate(blank.outline.edges) if isinstance(edge, Arc) and _same_circle(edge, arc)), None)
    if number is None:
        return None
    if not cut_straight(blank):
        return {Cause(TRACED, part, f"edge {number + 1}"): hypot(*way)}
    return _of_corner(_beside(blank, number, lines_of(state, part)), way)


def _of_corner(lines: list[FlatLine], way: Spot) -> Slopes | None:
    if len(lines) != 2:
        return None
    (mx, my), (nx, ny) = (line.normal for line in lines)
    size = mx * ny - my * nx
    if abs(size) < FLAT:
        return None
    x, y = way
    return added(added({}, lines[0].slopes, (x * ny - y * nx) / size), lines[1].slopes, (mx * y - my * x) / size)


def _through(state: State, part: str, edges: tuple[Edge, ...], spot: Spot) -> list[FlatLine]:
    """The lines of the two edges of a panel that meet in one of its corners."""
    meeting = [ends for edge in edges for ends in [(_spot(edge.start), _spot(edge.end))] if spot in ends]
    lines = lines_of(state, part)
    return [line for ends in meeting for line in [next((each for each in lines if each.holds(*ends)), None)] if line is not None]


def _beside(blank: Blank, number: int, lines: tuple[FlatLine, ...]) -> list[FlatLine]:
    """The lines that a rounding of the outline joins."""
    edges = blank.outline.edges
    beside = [edges[number - 1], edges[(number + 1) % len(edges)]]
    return [line for edge in beside for line in lines if line.holds(_spot(edge.start), _spot(edge.end))][:2]


def _same_circle(first: Arc, second: Arc) -> bool:
    return first.centre == second.centre and abs(_radius(first) - _radius(second)) < FLAT


def _radius(arc: Arc) -> float:
    return arc_sweep(arc)[0]


def _spot(point: Point) -> Spot:
    return float(point.x), float(point.y)


def _dot(a: Spot, b: Spot) -> float:
    return a[0] * b[0] + a[1] * b[1]
