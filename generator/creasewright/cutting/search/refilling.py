"""One sheet filled with single pieces in a given order: the innermost work of ruin and recreate, so it is written for speed.

Free rectangles are split edge to edge each time a piece goes into a corner of one, so the sheet can always be cut up. `refill`
knows no rules; `refill_by_rules` also keeps count of the stages and refuses cuts the trimmer cannot make.
"""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from creasewright.cutting.search.task import Rules, Ways

Put = tuple[int, int, int, tuple[int, int, bool]]
"""A piece, its x and y, and the way it lies."""
Refill = Callable[[Sequence[int], Sequence[Ways], int, int, int, int], tuple[list[Put], list[int]]]
"""From an order of pieces, the ways of each, the sheet's width and height, a split and a fit, to what lies and what is left."""
SPLITS = 6
"""0 along the shorter leftover, 1 along the longer, 2 the largest rectangle whole, 3 the contrary, 4 across, 5 down."""
FITS = 3
"""The free rectangle 0 with the least area, 1 with the tightest side, 2 with the least left beside the piece's shorter side."""


def refill_for(rules: Rules | None) -> Refill:
    return refill if rules is None else partial(refill_by_rules, rules)


def refill(order: Sequence[int], ways: Sequence[Ways], width: int, height: int, split: int, fit: int) -> tuple[list[Put], list[int]]:
    free = [(width, height, 0, 0)]
    put: list[Put] = []
    rest: list[int] = []
    for piece in order:
        least, place, way = 1 << 60, -1, (0, 0, False)
        for number, (free_width, free_height, _, _) in enumerate(free):
            for tried in ways[piece]:
                w, h = tried[0], tried[1]
                if w <= free_width and h <= free_height:
                    if fit == 0:
                        score = free_width * free_height
                    elif fit == 1:
                        score = min(free_width - w, free_height - h)
                    else:
                        score = free_width - w if h > w else free_height - h
                    if score < least:
                        least, place, way = score, number, tried
        if place < 0:
            rest.append(piece)
            continue
        free_width, free_height, x, y = free.pop(place)
        w, h = way[0], way[1]
        put.append((piece, x, y, way))
        right, below = free_width - w, free_height - h
        if not right:
            if below:
                free.append((free_width, below, x, y + h))
        elif not below:
            free.append((right, free_height, x + w, y))
        elif _across(split, right, below, free_width, free_height):
            free += ((right, h, x + w, y), (free_width, below, x, y + h))
        else:
            free += ((right, free_height, x + w, y), (w, below, x, y + h))
        if not free:
            rest.extend(order[len(put) + len(rest) :])
            break
    return put, rest


def _across(split: int, right: int, below: int, free_width: int, free_height: int) -> bool:
    """Whether the cut below the piece comes first and runs right across."""
    if split == 0:
        return right < below
    if split == 1:
        return right >= below
    if split == 2:
        return free_width * below >= right * free_height
    if split == 3:
        return free_width * below < right * free_height
    return split == 4


ACROSS, DOWN = 1, 2


class _Free(NamedTuple):
    width: int
    height: int
    x: int
    y: int
    stage: int
    """Of the cut that freed it; 0 for the whole sheet."""
    cut: int
    """The direction of that cut, or 0."""


def refill_by_rules(
    rules: Rules, order: Sequence[int], ways: Sequence[Ways], width: int, height: int, split: int, fit: int
) -> tuple[list[Put], list[int]]:
    free = [_Free(width, height, 0, 0, 0, 0)]
    put: list[Put] = []
    rest: list[int] = []
    for piece in order:
        least, place, way, parts = 1 << 60, -1, (0, 0, False), list[_Free]()
        for number, here in enumerate(free):
            for tried in ways[piece]:
                w, h = tried[0], tried[1]
                if w > here.width or h > here.height:
                    continue
                score = (here.width * here.height, min(here.width - w, here.height - h), here.width - w if h > w else here.height - h)[fit]
                found = _allowed_parts(rules, here, w, h, split) if score < least else None
                if found is not None:
                    least, place, way, parts = score, number, tried, found
        if place < 0:
            rest.append(piece)
            continue
        here = free.pop(place)
        put.append((piece, here.x, here.y, way))
        free += parts
    return put, rest


def _allowed_parts(rules: Rules, free: _Free, w: int, h: int, split: int) -> list[_Free] | None:
    """What is left of a free rectangle when a piece takes its corner, by the split wished if it may be, else by the other."""
    first = _across(split, free.width - w, free.height - h, free.width, free.height)
    parts = _parts(rules, free, w, h, first)
    return parts if parts is not None else _parts(rules, free, w, h, not first)


def _parts(rules: Rules, free: _Free, w: int, h: int, across: bool) -> list[_Free] | None:
    right, below = free.width - w, free.height - h
    if 0 < right < rules.least_trim or 0 < below < rules.least_trim:
        return None
    below_run, right_run = (free.width, h) if across else (w, free.height)
    if (below and below_run > rules.longest_cut) or (right and right_run > rules.longest_cut):
        return None
    cuts = [(below, ACROSS), (right, DOWN)] if across else [(right, DOWN), (below, ACROSS)]
    stage, direction, stages = free.stage, free.cut, {ACROSS: 0, DOWN: 0}
    for size, cut in cuts:
        if size:
            stage, direction = stage + (direction != cut), cut
        stages[cut] = stage
    parts: list[_Free] = []
    if right:
        parts.append(_Free(right, h if across else free.height, free.x + w, free.y, stages[DOWN], DOWN))
    if below:
        parts.append(_Free(free.width if across else w, below, free.x, free.y + h, stages[ACROSS], ACROSS))
    if rules.stages is None or stage <= rules.stages:
        return parts
    last = max((part for part in parts), key=lambda part: part.stage)
    if last.stage != rules.stages + 1 or any(part.stage > rules.stages for part in parts if part is not last):
        return None
    return [part for part in parts if part is not last]
