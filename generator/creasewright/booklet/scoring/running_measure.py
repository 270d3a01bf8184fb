"""A running measure: a ring at the zero, one line, an arrowhead and a value at each place. mm on the page, y down.

Values stand over their arrowheads; where they would touch, they are pushed outward as little as possible, and a thin line leads
from the arrowhead to a value that has moved off it.
"""

from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import circle, polyline
from creasewright.booklet.diagrams.line_code import THIN
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

RING = 1.0
"""Radius of the ring at the zero."""
HEAD, HALF_HEAD = 2.6, 0.95
"""Length and half the width of an arrowhead."""
LEAST_HEAD, HEAD_OFF = 0.8, 0.4
"""Of a head where places lie close: its least length, and how far it stays off the place before."""
APART = 1.8
"""Between two values."""
RISE, LED_RISE = 1.6, 4.2
"""From the line up to a value's baseline: over its arrowhead, and where values have been pushed aside."""
DOWN = 1.0
"""How far the extension lines stay off the piece."""
UPRIGHT_GAP = 1.9
"""From an upright line to the values beside it."""


class Mark(Struct, frozen=True):
    """A place on the line: how far from the zero, in mm on the page, and its value as set."""

    at: float
    text: str


class Measure(Struct, frozen=True):
    items: tuple[Item, ...]
    reach: float
    """How far the drawing goes from the line, away from the piece."""
    low: float
    """Extent along the line, before the zero (negative) …"""
    high: float
    """… and past it."""


def pushed_apart(wishes: Sequence[float], halves: Sequence[float], apart: float) -> list[float]:
    """Middles of intervals in the order given that do not come nearer than `apart`, each as near its wish as all allow.

    Least squares under the order: neighbours that collide are pooled about their common mean (pool adjacent violators,
    Ayer et al. 1955).
    """
    offsets = [0.0]
    for k in range(1, len(wishes)):
        offsets.append(offsets[-1] + halves[k - 1] + halves[k] + apart)
    pools: list[tuple[float, int]] = []
    for wish, offset in zip(wishes, offsets, strict=True):
        mean, count = wish - offset, 1
        while pools and pools[-1][0] > mean:
            before, many = pools.pop()
            mean, count = (before * many + mean * count) / (many + count), many + count
        pools.append((mean, count))
    means = [mean for mean, count in pools for _ in range(count)]
    return [mean + offset for mean, offset in zip(means, offsets, strict=True)]


def level_measure(
    marks: Sequence[Mark], line_y: float, piece_y: Sequence[float], ruler: TextRuler, style: PictureStyle, zero: float = 0.0
) -> Measure:
    """Above a piece; the marks follow one another away from the zero, to the right of it or to the left.

    `piece_y`: where the extension line of each mark, the zero first, ends.
    """
    way = -1.0 if marks[-1].at < zero else 1.0
    all_marks = sorted((Mark(zero, "0"), *marks), key=lambda mark: mark.at)
    widths = [ruler.width(mark.text, "Bold", style.measure) for mark in all_marks]
    wishes = [mark.at for mark in all_marks]
    centres = pushed_apart(wishes, [width / 2 for width in widths], APART)
    moved = [abs(centre - wish) > max(0.6, width / 2 - 0.9) for centre, wish, width in zip(centres, wishes, widths, strict=True)]
    rise = LED_RISE if any(moved) else RISE
    items: list[Item] = _line((zero + way * RING, line_y), (marks[-1].at, line_y), style)
    items.append(Shape(circle((zero, line_y), RING), Pen("INK", 0.7 * style.weight), "WHITE", role="measure zero"))
    for mark, end in zip((Mark(zero, "0"), *marks), piece_y, strict=True):
        top = line_y + (RING if mark.at == zero else 0.0)
        if end - DOWN > top:
            items.append(_thin((mark.at, top), (mark.at, end - DOWN), style, "extension"))
    lengths = head_lengths([zero, *(mark.at for mark in marks)])
    items += [_head((mark.at, line_y), (way, 0.0), length) for mark, length in zip(marks, lengths, strict=True)]
    for text, centre, wish in zip((mark.text for mark in all_marks), centres, wishes, strict=True):
        if rise > RISE:
            foot = (wish, line_y - (RING if wish == zero else HALF_HEAD))
            items.append(_thin(foot, (centre, line_y - rise + 0.7), style, "leader"))
        items.append(_value(centre, line_y - rise, text, "middle", style))
    tall = ruler.cap_height("Bold", style.measure)
    low, high = min(centres[0] - widths[0] / 2, wishes[0]), max(centres[-1] + widths[-1] / 2, wishes[-1])
    return Measure(tuple(items), rise + tall, low, high)


def upright_measure(
    marks: Sequence[Mark], line_x: float, piece_x: Sequence[float], ruler: TextRuler, style: PictureStyle
) -> Measure:
    """At the right of a piece, its zero at y = 0 and the values at the right of it, upright."""
    tall = ruler.cap_height("Bold", style.measure)
    wishes = [0.0, *(mark.at for mark in marks)]
    centres = pushed_apart(wishes, [tall / 2] * len(wishes), APART)
    items: list[Item] = _line((line_x, RING), (line_x, marks[-1].at), style)
    items.append(Shape(circle((line_x, 0.0), RING), Pen("INK", 0.7 * style.weight), "WHITE", role="measure zero"))
    for at, start in zip(wishes, piece_x, strict=True):
        end = line_x - (RING if at == 0.0 else 0.0)
        if end - start - DOWN > 0.3:
            items.append(_thin((start + DOWN, at), (end, at), style, "extension"))
    items += [_head((line_x, mark.at), (0.0, 1.0), length) for mark, length in zip(marks, head_lengths(wishes), strict=True)]
    texts = ("0", *(mark.text for mark in marks))
    for text, centre in zip(texts, centres, strict=True):
        items.append(_value(line_x + UPRIGHT_GAP, centre + tall / 2, text, "start", style))
    wide = max(ruler.width(text, "Bold", style.measure) for text in texts)
    return Measure(tuple(items), UPRIGHT_GAP + wide, centres[0] - tall / 2, max(centres[-1] + tall / 2, marks[-1].at))


def _value(x: float, baseline: float, text: str, anchor: str, style: PictureStyle) -> Words:
    return Words(x, baseline, (Run(text, "Bold", style.measure),), anchor, role="measure")


def _line(start: Spot, end: Spot, style: PictureStyle) -> list[Item]:
    return [Shape(polyline((start, end)), Pen("INK", THIN * style.weight, cap="butt"), role="dimension")]


def _thin(start: Spot, end: Spot, style: PictureStyle, role: str) -> Item:
    return Shape(polyline((start, end)), Pen("INK", THIN * style.weight, cap="butt"), role=role)


def head_lengths(places: Sequence[float]) -> list[float]:
    """Of the arrowhead at each place after the first: shorter where it would reach back over the place before."""
    return [min(HEAD, max(LEAST_HEAD, abs(b - a) - HEAD_OFF)) for a, b in pairwise(places)]


def _head(tip: Spot, way: Spot, length: float) -> Item:
    """A solid head in ink: the accent is for what moves."""
    x, y = tip
    ux, uy = way
    half = HALF_HEAD * min(1.0, 0.4 + 0.6 * length / HEAD)
    back = x - length * ux, y - length * uy
    corners = (tip, (back[0] - half * uy, back[1] + half * ux), (back[0] + half * uy, back[1] - half * ux))
    return Shape(polyline(corners, closed=True), None, "INK", role="measure head")
