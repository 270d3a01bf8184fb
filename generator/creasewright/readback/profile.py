"""How far the ink of a printed line lies beside where it should: the dark run of a profile across the line. mm."""

from collections.abc import Callable, Sequence
from math import hypot

REACH = 0.8
"""mm looked at to each side."""
STEP = 25.4 / 600
"""mm between the readings of a profile: a dot at 600 dpi."""
BASE, FOOT = 0.25, 0.2
"""The share of readings taken as bare paper, and the share of the peak under which there is no ink."""
FAINT = 12.0
"""Ink of 255 under which there is no line: anti-aliased hairlines of 0.3 pt in grey reach 60."""
Ink = Callable[[float, float], float]
Place = tuple[float, float]
COUNT = round(REACH / STEP)


def offset_of_ink(ink: Ink, places: Sequence[Place], normal: Place) -> tuple[float, float] | None:
    """The middle of the ink across a line, averaged over places of it, and how wide it is at half its depth; None: none is there."""
    nx, ny = normal
    readings = []
    for k in range(-COUNT, COUNT + 1):
        dx, dy = nx * k * STEP, ny * k * STEP
        readings.append(sum(ink(x + dx, y + dy) for x, y in places) / len(places))
    bare = sorted(readings)[int(len(readings) * BASE)]
    peak = max(readings) - bare
    if peak < FAINT:
        return None
    weights = [max(0.0, value - bare - FOOT * peak) for value in readings]
    best = max(range(len(weights)), key=lambda k: (weights[k] > 0, weights[k] / (1 + abs(k - COUNT) / COUNT)))
    low = high = best
    while low and weights[low - 1]:
        low -= 1
    while high + 1 < len(weights) and weights[high + 1]:
        high += 1
    total = sum(weights[low : high + 1])
    middle = sum((k - COUNT) * weights[k] for k in range(low, high + 1)) / total * STEP
    wide = sum(value - bare > peak / 2 for value in readings[low : high + 1]) * STEP
    return middle, wide


def along(start: Place, end: Place) -> tuple[Place, Place, float]:
    """Unit vectors along and across (to the right of the way), and the length."""
    length = hypot(end[0] - start[0], end[1] - start[1])
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    return (ux, uy), (-uy, ux), length
