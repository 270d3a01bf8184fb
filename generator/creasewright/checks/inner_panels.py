"""Panels folded in under another fold: they must end short of it, or they buckle.

A panel folded inside a letter fold is made narrower by at least 1/16 in, by 1/8 in for cover weight (seven print-trade guides agree on
1/16 in as the least, two of them ask 1/8 in for heavier stock). Thinner than 200 g/m² 1/16 in | 1.5 mm is asked for, else 1/8 in | 3 mm.
"""

from math import hypot

from creasewright.checks.facts import Facts
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.overlaps import COVERED, overlap_area, seen_corners
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey
from creasewright.joining.compass import point_in_view, polygon_in_view
from creasewright.joining.glue_area import lies_on, score_segments
from creasewright.joining.run_step import StepRun
from creasewright.problems import WARNS, Finding
from creasewright.reading import design

Edge = tuple[tuple[float, float], tuple[float, float]]

NEAR = 12.0
"""Only a free edge within this many mm of the fold line can be meant to lie in it."""
COVER_WEIGHT = 200
LEAST = {"in": (1.5875, 3.175), "mm": (1.5, 3.0)}


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
        for inner in stack.order[low + 1 : high]:
            if inner[0] == key[0] and hangs_on(run, inner, ends):
                found += too_near(facts, run, inner, (start, end), ends)
    return found


def hangs_on(run: StepRun, inner: PanelKey, ends: tuple[PanelKey, PanelKey]) -> bool:
    """A panel folded in from the same blank, over one of the two."""
    return any(
        {inner[1], end[1]} == {p.first, p.second} and abs(run.after.angles.get((inner[0], p.name), 0.0)) > 179
        for p in run.after.blanks[inner[0]].pieces
        for end in ends
    )


def too_near(facts: Facts, run: StepRun, inner: PanelKey, line: Edge, ends: tuple[PanelKey, PanelKey]) -> list[Finding]:
    body = run.after.body_of(inner[0])
    shape = polygon_in_view(run.after, body, inner)
    if not any(overlap_area(shape, polygon_in_view(run.after, body, end)) > COVERED for end in ends):
        return []
    room = min((distance(edge, line) for edge in free_edges(run, inner) if runs_along(edge, line)), default=NEAR + 1)
    paper = facts.worked.paper_of(run.after.blanks[inner[0]])
    heavy = paper is None or paper.grammage is None or paper.grammage >= COVER_WEIGHT
    least = LEAST[facts.worked.system][1 if heavy else 0]
    if room > NEAR or room >= least - 0.01:
        return []
    return [
        Finding(
            WARNS, "inner panel", run.written.where,
            f"{called(inner)} ends {facts.said(room)} short of the fold that closes over it, where {facts.said(least)} is wanted",
            f"make {inner[1]} at least {facts.at_least(least - room)} narrower",
        )
    ]  # fmt: skip


def free_edges(run: StepRun, panel: PanelKey) -> list[Edge]:
    """Edges of a panel that are no scores, as seen."""
    body = run.after.body_of(panel[0])
    flat = run.after.blanks[panel[0]].panel(panel[1]).polygon
    shape = seen_corners(run.after, panel, body.view)
    scored = score_segments(run.after, panel)
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
