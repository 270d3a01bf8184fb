"""How many sheets any plan needs at least.

A dual-feasible function f for a length C never lets parts that fit side by side in C exceed f(C) together:
    sum of x <= C   implies   sum of f(x) <= f(C).
With such an f along the width W and a g along the height H, each sheet holds at most f(W) * g(H) of the sum of f(w) * g(h),
whatever the arrangement (Fekete & Schepers, "A general framework for bounds for higher-dimensional orthogonal packing problems",
Math. Methods Oper. Res. 60 (2004) 311-329). Hence sheets >= sum of f(w) g(h) / (f(W) g(H)), rounded up. A piece that may be
turned counts with the lesser of its two ways. f(x) = x gives the area bound; the step at half the sheet counts pieces of which
no two share a sheet, as the bound of Martello & Vigo (Management Science 44 (1998) 388-399) does.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import ceil

from creasewright.cutting.search.task import Task
from creasewright.cutting.whole_numbers import Shape, lies

Measure = Callable[[int], int]
FUNCTIONS_PER_AXIS = 18
"""Enough for a kit; the cost grows with its square."""


def large_counts_whole(length: int, step: int) -> Measure:
    """Parts longer than length - step count as the whole length, parts shorter than step not at all (Fekete & Schepers, U)."""

    def measure(part: int) -> int:
        if part > length - step:
            return length
        return 0 if part < step else part

    return measure


def whole_steps(length: int, step: int) -> Measure:
    """Counts whole steps, in a part over half the length by what it leaves for others.

    Carlier, Clautiaux & Moukrim, Comput. Oper. Res. 34 (2007) 2223-2250, f1: 2 floor(x/k) below C/2, floor(C/k) at C/2,
    2 (floor(C/k) - floor((C-x)/k)) above.
    """
    most = length // step

    def measure(part: int) -> int:
        if 2 * part > length:
            return 2 * (most - (length - part) // step)
        return most if 2 * part == length else 2 * (part // step)

    return measure


def measures(length: int, parts: Sequence[int]) -> list[Measure]:
    """Dual-feasible functions for a length, worth trying with these parts."""
    half = length - length // 2
    wanted = {part if 2 * part <= length else length - part + 1 for part in parts}
    steps = sorted((step for step in wanted if 2 * step <= length), reverse=True)
    made: list[Measure] = [lambda part: part, large_counts_whole(length, half)]
    for step in steps:
        made += [large_counts_whole(length, step), whole_steps(length, step)]
    for number in (2, 3, 4):
        made.append(whole_steps(length, length // (number + 1) + 1))
    return made[:FUNCTIONS_PER_AXIS]


def least_cost(task: Task) -> int:
    """No plan costs less. Several kinds: by area alone, the kinds that give most area for their cost first, as far as they go."""
    if len(task.kinds) == 1:
        kind = task.kinds[0]
        return fewest_possible(task.shapes, kind.width, kind.height) * kind.cost
    area = sum(shape.width * shape.height * shape.wanted for shape in task.shapes)
    cost = Fraction(0)
    for kind in sorted(task.kinds, key=lambda kind: Fraction(kind.cost, kind.width * kind.height)):
        taken = min(Fraction(area, kind.width * kind.height), Fraction(kind.limit))
        cost += taken * kind.cost
        area -= int(taken * kind.width * kind.height)
        if area <= 0:
            break
    return ceil(cost)


def fewest_sheets(task: Task) -> int:
    """No plan takes fewer sheets, of whatever kinds."""
    if len(task.kinds) == 1:
        return fewest_possible(task.shapes, *task.kinds[0][:2])
    area = sum(shape.width * shape.height * shape.wanted for shape in task.shapes)
    return -(-area // max(kind.width * kind.height for kind in task.kinds))


def fewest_possible(shapes: Sequence[Shape], width: int, height: int) -> int:
    """A number of sheets that no plan can go below; every shape fits the usable width x height in some way."""
    ways = [(shape.wanted, lies(shape, width, height)) for shape in shapes if shape.wanted]
    if not ways:
        return 0
    along = [way[0] for _, group in ways for way in group]
    down = [way[1] for _, group in ways for way in group]
    tables_across = [(f(width), [[f(way[0]) for way in group] for _, group in ways]) for f in measures(width, along)]
    tables_down = [(g(height), [[g(way[1]) for way in group] for _, group in ways]) for g in measures(height, down)]
    counts = [count for count, _ in ways]
    best = 1
    for whole_across, across in tables_across:
        for whole_down, below in tables_down:
            room = whole_across * whole_down
            if room:
                best = max(best, -(-_least_sum(counts, across, below) // room))
    return best


def _least_sum(counts: list[int], across: list[list[int]], below: list[list[int]]) -> int:
    total = 0
    for count, first, second in zip(counts, across, below, strict=True):
        if len(first) == 1:
            total += count * first[0] * second[0]
        else:
            total += count * min(first[0] * second[0], first[1] * second[1])
    return total
