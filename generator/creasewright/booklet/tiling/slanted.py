"""Templates turned by any angle, where that takes fewer pages than lying straight.

A slanted template is harder to read and its joins run across its lines at an angle, so one is tried only where no straight
arrangement is as few as the bound, and taken only where it saves a page. Turns are tried in even steps and along the sides of the
hull; at each the offsets of a coarse sweep.
"""

from collections.abc import Iterator
from math import atan2, ceil, degrees

from creasewright.booklet.tiling.bound import TOUCH, hull, least_at
from creasewright.booklet.tiling.inner_point import area_and_centroid
from creasewright.booklet.tiling.placing import turned
from creasewright.booklet.tiling.rows import count_tiles, fewest_in, rows_of
from creasewright.booklet.tiling.window import Window
from creasewright.geometry.outline import Polygon

EVERY = 6.0
"""Degrees."""
SIDES = 12
"""How many of the hull's longest sides are laid along the window's."""
SWEEP = 18.0
"""mm"""
STRAIGHT = 0.05
"""Degrees; a turn so near a right angle is none."""


def fewest_slanted(polygon: Polygon, window: Window, below: int) -> tuple[float, float, float, int] | None:
    """Turn in degrees clockwise, left and head of the box about the template, and its pages, if they are fewer than `below`."""
    corners, area = hull(polygon), abs(area_and_centroid(polygon)[0])
    best: tuple[float, float, float, int] | None = None
    hopeful = sorted((least, turn) for turn in _turns(corners) if (least := least_at(corners, area, turn, window)) < below)
    for least, turn in hopeful:
        if least >= below:
            break
        found = _fewest_at(polygon, turn, window, below)
        if found is not None:
            best, below = (turn, *found), found[2]
    return best


def _turns(corners: Polygon) -> Iterator[float]:
    yield from (k * EVERY for k in range(1, ceil(180 / EVERY)) if k * EVERY % 90)
    sides = sorted(
        zip(corners, corners[1:] + corners[:1], strict=True), key=lambda ab: -abs(ab[1][0] - ab[0][0]) - abs(ab[1][1] - ab[0][1])
    )
    for (x0, y0), (x1, y1) in sides[:SIDES]:
        lies = -degrees(atan2(y1 - y0, x1 - x0))
        yield from (turn for turn in (lies % 180, (lies + 90) % 180) if STRAIGHT < turn % 90 < 90 - STRAIGHT)


def _fewest_at(polygon: Polygon, turn: float, window: Window, below: int) -> tuple[float, float, int] | None:
    lying = turned(polygon, turn)
    width, height = max(x for x, _ in lying), max(y for _, y in lying)
    best: tuple[float, float, int] | None = None
    for y in _offsets(height, window.height):
        rows = rows_of(lying, y, height, window.height)
        if fewest_in(rows, window.width) >= below:
            continue
        for x in _offsets(width, window.width):
            count = count_tiles(rows, x, window.width)
            if count < below:
                best, below = (x, y, count), count
    return best


def _offsets(size: float, period: float) -> list[float]:
    slack = ceil((size - TOUCH) / period) * period - size
    return [slack / 2, 0.0, slack, *(k * SWEEP for k in range(1, ceil(period / SWEEP)))]
