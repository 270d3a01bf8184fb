"""Panels folded in under another fold, in letter, roll and closed gate folds: they must end short of it, or they buckle.

How far is told by `fold_allowances`. In a roll fold it is not a free edge that comes near the next fold but one folded before.
"""

from math import hypot

from creasewright.checks.facts import Facts
from creasewright.checks.fold_allowances import COVER_WEIGHT, least_short
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.heights import thickness
from creasewright.folding.overlaps import COVERED, overlap_area, seen_corners
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey
from creasewright.joining.compass import point_in_view, polygon_in_view
from creasewright.joining.glue_area import lies_on
from creasewright.joining.run_step import StepRun
from creasewright.problems import WARNS, Finding
from creasewright.reading import design

Edge = tuple[tuple[float, float], tuple[float, float]]

NEAR = 12.0
"""Only a free edge within this many mm of the fold line can be meant to lie in it."""


def inner_panels(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        if isinstance(run.written.action, design.Fold) and run.refused is None and run.targets:
            found += of_one(facts, run)
    return found


def of_one(facts: Facts, run: StepRun) -> list[Finding]:
    """Free edges that lie between the two panels of a fold, close to its line."""
    found = []
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
                found += too_near(facts, run, inner, (start, end), ends, layers)
    return found


def hangs_on(run: StepRun, inner: PanelKey, ends: tuple[PanelKey, PanelKey]) -> bool:
    """A panel folded in from the same blank, over one of the two."""
    return any(
        {inner[1], end[1]} == {p.first, p.second} and abs(run.after.angles.get((inner[0], p.name), 0.0)) > 179
        for p in run.after.blanks[inner[0]].pieces
        for end in ends
    )


def too_near(
    facts: Facts, run: StepRun, inner: PanelKey, line: Edge, ends: tuple[PanelKey, PanelKey], layers: int
) -> list[Finding]:
    body = run.after.body_of(inner[0])
    shape = polygon_in_view(run.after, body, inner)
    if not any(overlap_area(shape, polygon_in_view(run.after, body, end)) > COVERED for end in ends):
        return []
    room = min((distance(edge, line) for edge in edges_inside(run, inner, ends) if runs_along(edge, line)), default=NEAR + 1)
    paper = facts.worked.paper_of(run.after.blanks[inner[0]])
    heavy = paper is None or paper.grammage is None or paper.grammage >= COVER_WEIGHT
    least = least_short(layers, thickness(run.after, inner), heavy, facts.worked.system)
    if room > NEAR or room >= least - 0.01:
        return []
    return [
        Finding(
            WARNS, "inner panel", run.written.where,
            f"{called(inner)} ends {facts.said(room)} short of the fold that closes over it, where {facts.said(least)} is wanted",
            f"make {inner[1]} at least {facts.at_least(least - room)} narrower",
        )
    ]  # fmt: skip


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
