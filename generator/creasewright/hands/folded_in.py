"""Panels folded in between the two panels of another fold, and how far short of its line they end."""

from collections.abc import Iterator
from math import hypot

from msgspec import Struct

from creasewright.folding.fold_scores import piece_of
from creasewright.folding.overlaps import COVERED, overlap_area, seen_corners
from creasewright.folding.state import PanelKey, PieceKey
from creasewright.joining.compass import point_in_view, polygon_in_view
from creasewright.joining.glue_area import lies_on
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

Edge = tuple[tuple[float, float], tuple[float, float]]

NEAR = 12.0
"""Only a free edge within this many mm of the fold line can be meant to lie in it."""


class FoldedIn(Struct, frozen=True):
    panel: PanelKey
    score: PieceKey
    """The fold that closes over it."""
    line: Edge
    """That fold as seen."""
    edge: Edge
    """The edge that ends near it, as seen."""
    layers: int
    """That lie between the two panels of the fold where this one lies."""
    short: float
    """mm from the edge to the line."""


def folded_in(run: StepRun) -> Iterator[FoldedIn]:
    """Free edges that lie between the two panels of a fold, close to its line."""
    if not isinstance(run.written.action, design.Fold) or run.refused is not None:
        return
    for key, angle in run.targets.items():
        if abs(angle) < 179:
            continue
        piece = piece_of(run.after, key)
        ends = (key[0], piece.first), (key[0], piece.second)
        body = run.after.body_of(key[0])
        stack = next((s for s in body.stacks if ends[0] in s.order and ends[1] in s.order), None)
        if stack is None:
            continue
        low, high = sorted(stack.order.index(panel) for panel in ends)
        start, end = (point_in_view(run.after, body, ends[0], float(p.x), float(p.y)) for p in (piece.start, piece.end))
        between = stack.order[low + 1 : high]
        for inner in between:
            if inner[0] == key[0] and hangs_on(run, inner, ends):
                shape = polygon_in_view(run.after, body, inner)
                layers = sum(overlap_area(shape, polygon_in_view(run.after, body, other)) > COVERED for other in between)
                yield from near_line(run, inner, key, (start, end), ends, layers)


def hangs_on(run: StepRun, inner: PanelKey, ends: tuple[PanelKey, PanelKey]) -> bool:
    """A panel folded in from the same blank, over one of the two."""
    return any(
        {inner[1], end[1]} == {p.first, p.second} and abs(run.after.angles.get((inner[0], p.name), 0.0)) > 179
        for p in run.after.blanks[inner[0]].pieces
        for end in ends
    )


def near_line(
    run: StepRun, inner: PanelKey, score: PieceKey, line: Edge, ends: tuple[PanelKey, PanelKey], layers: int
) -> Iterator[FoldedIn]:
    body = run.after.body_of(inner[0])
    shape = polygon_in_view(run.after, body, inner)
    if not any(overlap_area(shape, polygon_in_view(run.after, body, end)) > COVERED for end in ends):
        return
    edges = [edge for edge in edges_inside(run, inner, ends) if runs_along(edge, line)]
    if edges:
        nearest = min(edges, key=lambda edge: distance(edge, line))
        if distance(nearest, line) <= NEAR:
            yield FoldedIn(inner, score, line, nearest, layers, distance(nearest, line))


def edges_inside(run: StepRun, panel: PanelKey, ends: tuple[PanelKey, PanelKey]) -> list[Edge]:
    """Edges of a panel as seen, but for the scores on which it hangs on the fold that closes, and those that close with it."""
    body = run.after.body_of(panel[0])
    blank = run.after.blanks[panel[0]]
    flat = blank.panel(panel[1]).polygon
    shape = seen_corners(run.after, panel, body.view)
    closing = {end[1] for end in ends if end[0] == panel[0]}
    scored = [
        ((float(p.start.x), float(p.start.y)), (float(p.end.x), float(p.end.y)))
        for p in blank.pieces
        if panel[1] in (p.first, p.second) and (closing & {p.first, p.second} or (panel[0], p.name) in run.targets)
    ]
    return [
        (shape[k], shape[(k + 1) % len(shape)])
        for k in range(len(shape))
        if not any(lies_on((flat[k], flat[(k + 1) % len(flat)]), segment) for segment in scored)
    ]


def runs_along(edge: Edge, line: Edge) -> bool:
    """An edge at least half as long as the line, within a few degrees of its direction."""
    (ax, ay), (bx, by) = edge
    (cx, cy), (dx, dy) = line
    length, other = hypot(bx - ax, by - ay), hypot(dx - cx, dy - cy)
    return length > other / 2 and abs((bx - ax) * (dy - cy) - (by - ay) * (dx - cx)) < 0.1 * length * other


def distance(edge: Edge, line: Edge) -> float:
    (ax, ay), (bx, by) = line
    length = hypot(bx - ax, by - ay)
    return min(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length for x, y in edge)
