"""Adhesive that closes what must stay open: glue over the mouth of a pocket made before."""

from creasewright.checks.facts import Facts, part_words
from creasewright.folding.state import Body, GlueArea, Pocket, State
from creasewright.geometry.clip import area, clockwise, intersection
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import box, compass_word, outward, polygon_in_view
from creasewright.problems import BLOCKS, Finding

MOUTH = 1.0
"""Half the depth in mm of the strip along a pocket's free edge that must stay free."""
LEAST = 3.0
"""mm² of adhesive on that strip before it counts."""


def glue_stays_clear(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        fresh = run.after.glue[len(run.before.glue) :]
        for name, pocket in run.before.pockets.items():
            for patch in fresh:
                shut = covered_mouth(run.after, pocket, patch)
                if shut > LEAST:
                    found.append(
                        Finding(
                            BLOCKS, "glue", run.written.where,
                            f"this glue closes the opening of {part_words(name)} over {facts.said(shut / (2 * MOUTH))}",
                            "keep it off that side with `along:`, or make the pocket after this step",
                        )
                    )  # fmt: skip
                    break
    return found


def covered_mouth(state: State, pocket: Pocket, patch: GlueArea) -> float:
    """mm² of adhesive over the strip along the free edges of the pocket's flap, on the inner side of the panel behind."""
    if patch.step == pocket.step or not on_inner_side(state, pocket, patch):
        return 0.0
    body = state.body_of(pocket.front[0])
    spread = tuple(seen(state, body, patch, x, y) for x, y in patch.polygon)
    strips = [clockwise(strip) for strip in mouth_strips(state, body, pocket)]
    return sum(abs(area(piece)) for strip in strips for piece in intersection([clockwise(spread)], [strip]))


def on_inner_side(state: State, pocket: Pocket, patch: GlueArea) -> bool:
    """Adhesive on the panel behind, on the side that looks into the pocket."""
    if pocket.back not in (patch.panel, patch.onto):
        return False
    other = patch.onto if patch.panel == pocket.back else patch.panel
    order = stack_of(state.body_of(pocket.back[0]), pocket.back).order
    if pocket.front not in order or other not in order:
        return False
    back = order.index(pocket.back)
    return (order.index(other) - back) * (order.index(pocket.front) - back) > 0


def seen(state: State, body: Body, patch: GlueArea, x: float, y: float) -> tuple[float, float]:
    point = rotate(body.view, apply(state.placed[patch.panel], (x, y, 0.0)))
    return point[0], point[1]


def mouth_strips(state: State, body: Body, pocket: Pocket) -> list[Polygon]:
    """A strip 2 mm deep along each edge of the flap that looks to an open side."""
    shape = polygon_in_view(state, body, pocket.front)
    back = box([polygon_in_view(state, body, pocket.back)])
    middle = (sum(x for x, _ in shape) / len(shape), sum(y for _, y in shape) / len(shape))
    strips: list[Polygon] = []
    for start, end in zip(shape, (*shape[1:], shape[0]), strict=True):
        normal = outward(start, end, middle)
        word = compass_word(*normal)
        if not any(side in word.split("-") for side in pocket.open) or on_border(start, end, back):
            continue
        nx, ny = normal[0] * MOUTH, normal[1] * MOUTH
        strips.append(
            (
                (start[0] + nx, start[1] + ny),
                (end[0] + nx, end[1] + ny),
                (end[0] - nx, end[1] - ny),
                (start[0] - nx, start[1] - ny),
            )
        )
    return strips


def on_border(start: tuple[float, float], end: tuple[float, float], back: tuple[float, float, float, float]) -> bool:
    """An edge of the flap that lies on the edge of the panel behind: there glue beside it does not reach over a mouth."""
    return any(
        all(abs(p[axis] - value) < 0.5 for p in (start, end))
        for axis, value in ((0, back[0]), (0, back[2]), (1, back[1]), (1, back[3]))
    )
