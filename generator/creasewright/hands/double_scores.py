"""Folds that close over more than one score can go round, and how far apart two scores in its stead must be.

Limit: a single score goes round about 0.6 mm of layers (common practice, no source). Rule for two scores: as a spine, score to score what
lies inside is thick and one thickness of the sheet besides, for each of the two panels stands on the middle of the sheet (half a caliper at
either score). A round bend would take more, a half circle about layers of thickness h having a middle line of pi (h + t) / 2 (bend
allowance with the neutral line in the middle of the sheet); what that is over h + t comes out of the two panels, whose free edges end so
much short.

What counts lies between the two panels of the fold within 3 mm of its line. Leaves that fold along the same line with it do not.
"""

from collections.abc import Iterator

from msgspec import Struct

from creasewright.folding.fold_scores import piece_of
from creasewright.folding.heights import level_with, thickness
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.geometry.clip import intersection, total_area
from creasewright.geometry.outline import Polygon
from creasewright.joining.compass import box, facing, point_in_view, polygon_in_view
from creasewright.joining.inserting_between import thickest
from creasewright.joining.run_step import StepRun
from creasewright.problems import Where

LIMIT = 0.6
"""mm of layers. Common practice, no source."""
NEAR = 3.0
"""mm from the fold within which a layer must be gone round."""
SHUT = 179.0


class DoubleScore(Struct, frozen=True):
    part: str
    score: str
    where: Where
    inside: float
    """mm of layers that the fold closes over."""
    apart: float
    """mm between the two scores wanted."""


def two_scores_apart(inside: float, caliper: float) -> float:
    """mm, score to score."""
    return inside + caliper


def double_scores(runs: list[StepRun]) -> Iterator[DoubleScore]:
    """Each score once, at the step where it closes over most."""
    found: dict[tuple[str, str], DoubleScore] = {}
    for run in runs:
        for key, angle in run.targets.items():
            if abs(angle) < SHUT or run.refused is not None or run.after.blanks[key[0]].wrap is not None:
                continue
            inside = closed_over(run, key)
            blank = run.after.blanks[key[0]]
            name = (blank.name, piece_of(run.after, key).score)
            if inside > LIMIT + 0.01 and (name not in found or found[name].inside < inside):
                apart = two_scores_apart(inside, thickness(run.after, (key[0], "")))
                found[name] = DoubleScore(blank.name, name[1], run.written.where, inside, apart)
    yield from found.values()


def closed_over(run: StepRun, key: PieceKey) -> float:
    """mm of layers that lie between the two panels of a fold, close to its line."""
    state = run.after
    piece = piece_of(state, key)
    if piece.arc is not None:
        return 0.0
    ends = (key[0], piece.first), (key[0], piece.second)
    body = state.body_of(key[0])
    stack = next((stack for stack in body.stacks if ends[0] in stack.order and ends[1] in stack.order), None)
    if stack is None:
        return 0.0
    body = facing(state, body, ends[0])
    strip = along_fold(state, body, ends[0], key)
    layers = []
    flat = level_with(state, ends[0], stack) | level_with(state, ends[1], stack)
    for other in between(stack, ends):
        if other not in flat and not folds_along(run, other, body, strip):
            shapes = intersection([polygon_in_view(state, body, other)], [strip])
            layers += [(shape, thickness(state, other)) for shape in shapes if total_area([shape]) > 1.0]
    return thickest(layers, box([strip])) if layers else 0.0


def between(stack: Stack, ends: tuple[PanelKey, PanelKey]) -> tuple[PanelKey, ...]:
    low, high = sorted(stack.order.index(end) for end in ends)
    return stack.order[low + 1 : high]


def along_fold(state: State, body: Body, panel: PanelKey, key: PieceKey) -> Polygon:
    """The strip beside the fold, on the side where its panels lie, as seen."""
    piece = piece_of(state, key)
    (ax, ay), (bx, by) = (point_in_view(state, body, panel, float(p.x), float(p.y)) for p in (piece.start, piece.end))
    left, head, right, tail = box([polygon_in_view(state, body, panel)])
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    nx, ny = (by - ay) / size * NEAR, -(bx - ax) / size * NEAR
    if ((left + right) / 2 - ax) * nx + ((head + tail) / 2 - ay) * ny < 0:
        nx, ny = -nx, -ny
    return (ax, ay), (bx, by), (bx + nx, by + ny), (ax + nx, ay + ny)


def folds_along(run: StepRun, panel: PanelKey, body: Body, strip: Polygon) -> bool:
    """Whether a panel hangs on a fold of this same step that lies on the line: it goes round with it."""
    state = run.after
    (ax, ay), (bx, by) = strip[0], strip[1]
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    for part, name in run.targets:
        piece = state.blanks[part].piece(name)
        if part != panel[0] or panel[1] not in (piece.first, piece.second):
            continue
        spots = [point_in_view(state, body, panel, float(p.x), float(p.y)) for p in (piece.start, piece.end)]
        if all(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / size < 0.05 for x, y in spots):
            return True
    return False
