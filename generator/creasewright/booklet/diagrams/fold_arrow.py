"""Fold arrows in plan: a curve from a point of the moving part to where it lands, bulging to the emptier side.

front, lift   dot at the start, solid head
behind        dot; second half dashed, open head
open          solid shaft, open head
crease        solid head at the fold end, open head at the start
tuck          straight; solid up to the edge it goes under, dashed beyond, open head
"""

import itertools
from collections.abc import Sequence
from math import dist, hypot

from creasewright.booklet.diagrams.arrow_heads import (
    DOT,
    HEAD,
    NOTCH,
    arrow_head,
    casing,
    head_casing,
    shaft,
    trimmed,
)
from creasewright.booklet.diagrams.boxes import circle, cubic_spots
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.visible_lines import crossings, within
from creasewright.booklet.drawing import Item, Shape

BULGE = 0.2
"""Greatest distance of the curve from its chord, as a share of the chord."""
SHORTEST, CLOSEST, LOOP = 9.0, 4.0, 5.0
"""mm: least length along the curve; least distance of its ends; breadth of the loop that a shorter way becomes."""
LOOP_LENGTH = 11.5
"""mm along such a loop: so long that it runs nearly straight where its head sits."""
STEPS = 24
MOST_HEAD, MOST_IN_LOOP = 0.4, 0.5
"""Of an arrow's length, and of the distance of its ends: on a narrow loop a long head would stand askew."""
BEFORE_EDGE, BEYOND_EDGE, LEAST_BEYOND = 14.0, 11.0, 6.5
"""mm of a tucked part's way that are drawn at the most before the edge and beyond it, and at the least beyond."""


def fold_curve(start: Spot, end: Spot, left: bool) -> Chain:
    """Places along the curve; `left` of the way from start to end as seen with y down means the side (dy, -dx).

    A way shorter than `CLOSEST` is drawn as long as that, about its middle, so that its ends stay mirror images in the score.
    """
    start, end = _apart(start, end)
    dx, dy = end[0] - start[0], end[1] - start[1]
    chord = hypot(dx, dy)
    along = dx / chord, dy / chord
    out = (along[1], -along[0]) if left else (-along[1], along[0])
    if chord >= SHORTEST:
        # a cubic whose two handles stand off by h bulges by 3/4 h
        return _curve(start, end, along, out, 0.25 * chord, BULGE * chord / 0.75)
    # too short for a shallow curve: a loop as wide as a head asks, its handles long enough for the whole to be LOOP_LENGTH
    forward = -0.75 * max(0.0, LOOP - chord)
    low, high = 0.0, 2 * LOOP_LENGTH
    for _ in range(12):
        middle = (low + high) / 2
        if chain_length(_curve(start, end, along, out, forward, middle)) < LOOP_LENGTH:
            low = middle
        else:
            high = middle
    return _curve(start, end, along, out, forward, high)


def _apart(start: Spot, end: Spot) -> tuple[Spot, Spot]:
    dx, dy = end[0] - start[0], end[1] - start[1]
    chord = hypot(dx, dy)
    if chord >= CLOSEST:
        return start, end
    ux, uy = (dx / chord, dy / chord) if chord > 1e-6 else (0.0, -1.0)
    mx, my = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    half = CLOSEST / 2
    return (mx - half * ux, my - half * uy), (mx + half * ux, my + half * uy)


def _curve(start: Spot, end: Spot, along: Spot, out: Spot, forward: float, off: float) -> Chain:
    first = start[0] + forward * along[0] + off * out[0], start[1] + forward * along[1] + off * out[1]
    second = end[0] - forward * along[0] + off * out[0], end[1] - forward * along[1] + off * out[1]
    return tuple(cubic_spots(start, first, second, end, STEPS))


def fold_arrow(kind: str, spots: Chain, ground: str, style: PictureStyle, edge_at: float = 0.5) -> list[Item]:
    """The arrow along `spots`; `edge_at` (0 to 1) is where a tucked part passes under an edge. A short one has smaller heads."""
    size = min(HEAD, MOST_HEAD * chain_length(spots), MOST_IN_LOOP * dist(spots[0], spots[-1])) / HEAD
    neck, behind = (HEAD - NOTCH) * size, HEAD * 0.85 * size
    body = trimmed(spots, neck)
    items: list[Item] = []
    if kind == "crease":
        body = trimmed(body[::-1], neck)[::-1]
        items += [head_casing(spots[0], trimmed(spots[::-1], behind)[-1], ground, style, size)]
    back = trimmed(spots, behind)[-1]
    items += [casing(body, ground, style), head_casing(spots[-1], back, ground, style, size)]
    if kind in ("behind", "tuck"):
        near, far = split_chain(body, 0.5 if kind == "behind" else edge_at)
        items += [shaft(near, style), shaft(far, style, dashed=True)]
    else:
        items.append(shaft(body, style))
    items.append(arrow_head(spots[-1], back, kind in ("front", "lift", "crease"), style, size))
    if kind == "crease":
        items.append(arrow_head(spots[0], trimmed(spots[::-1], behind)[-1], False, style, size))
    if kind in ("front", "lift", "behind"):
        items.append(Shape(circle(spots[0], DOT * style.weight), None, "ACC", role="arrow dot"))
    return items


def split_chain(spots: Sequence[Spot], at: float) -> tuple[list[Spot], list[Spot]]:
    """The chain cut at a share of its length."""
    steps = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in itertools.pairwise(spots)]
    left = at * sum(steps)
    for k, step in enumerate(steps):
        if step >= left and step > 0:
            a, b = spots[k], spots[k + 1]
            t = left / step
            middle = a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])
            return [*spots[: k + 1], middle], [middle, *spots[k + 1 :]]
        left -= step
    return list(spots), [spots[-1], spots[-1]]


def tuck_span(start: Spot, end: Spot, edge_at: float) -> tuple[Spot, Spot, float]:
    """The stretch of a tucked part's way that is drawn, and where on it the edge is crossed: what lies about the edge, a head and a dash
    beyond it at the least."""
    way = hypot(end[0] - start[0], end[1] - start[1])
    before = min(edge_at * way, BEFORE_EDGE)
    beyond = max(min((1 - edge_at) * way, BEYOND_EDGE), LEAST_BEYOND)
    before = max(before, SHORTEST - beyond)
    ux, uy = (end[0] - start[0]) / way, (end[1] - start[1]) / way
    low, high = edge_at * way - before, edge_at * way + beyond
    first = start[0] + low * ux, start[1] + low * uy
    return first, (start[0] + high * ux, start[1] + high * uy), before / (before + beyond)


def tuck_edge(start: Spot, end: Spot, facets: Sequence[PageFacet]) -> float:
    """Where on the straight way the rim of the highest facet over its end is crossed, the start being outside; else half way."""
    for facet in reversed(facets):
        if within(end, facet.polygon) and not within(start, facet.polygon):
            found = crossings(start, end, facet.polygon)
            if found:
                return max(found)
    return 0.5


def ground_tone(start: Spot, end: Spot, facets: Sequence[PageFacet]) -> str:
    """What the casing of an accent arrow is painted in: the paper under it, if that is pale enough for the accent, else white."""
    fills = {next((f.source.fill for f in reversed(facets) if within(spot, f.polygon)), "WHITE") for spot in (start, end)}
    fill = fills.pop()
    pale = fill.endswith(" back") or fill in ("paper 1 front", "paper 4 front", "WHITE")
    return fill if not fills and pale else "WHITE"
