"""Searches for the fewest sheets: many constructions, all repeatable, the best few kept.

Pattern    the pieces of one sheet
Packing    patterns, each with the number of sheets cut that way, that together give exactly the demand

A construction fills a sheet, cuts as many sheets alike as the demand allows, and goes on with what is still wanted; so the work
grows with the number of different sheets, hardly with the number of makers. There is no clock and no chance in it.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import cycle, product
from typing import NamedTuple

from creasewright.cutting.filling import Method, Ways, fill_sheet
from creasewright.cutting.whole_numbers import Laid, Pattern, Shape, lies

Packing = tuple[tuple[Pattern, int], ...]
Fill = Callable[[Sequence[int]], list[Laid]]
"""From how many of each shape are wanted to one sheet."""

KEPT = 6
"""Packings with equally few sheets that are handed on, to be compared by their cuts."""
PIECES_LAID = 2000
"""Work spent on looking for fewer sheets than the first constructions found."""
WORTH = 1.4
"""A sheet is worth its pieces' areas to this power: large pieces, hard to place later, count for more. Of 1 to 2 this took fewest
sheets on classes of 30."""
METHODS = (
    Method("longer", "side", "column"),
    Method("across", "area", "row"),
    Method("down", "area", "column"),
    Method("largest", "side", "single"),
    Method("longer", "side", "single"),
    Method("shorter", "side", "row"),
    Method("shorter", "area", "single"),
    Method("largest", "area", "single"),
)
"""The most fruitful first."""
OTHER_ORDERS = 4
"""So many methods are tried with orders other than the largest area first."""
SIZES: tuple[Callable[[Shape], tuple[int, ...]], ...] = (
    lambda shape: (shape.width * shape.height,),
    lambda shape: (max(shape.width, shape.height), min(shape.width, shape.height)),
    lambda shape: (shape.height, shape.width),
    lambda shape: (shape.width, shape.height),
    lambda shape: (shape.width + shape.height,),
)
"""What makes a piece large; larger pieces are laid first."""


class Task(NamedTuple):
    """A demand on the usable width x height; every shape fits it in some way."""

    shapes: tuple[Shape, ...]
    ways: tuple[Ways, ...]
    width: int
    height: int


def task_of(shapes: Sequence[Shape], width: int, height: int) -> Task:
    return Task(tuple(shapes), tuple(lies(shape, width, height) for shape in shapes), width, height)


def sheets_in(packing: Packing) -> int:
    return sum(count for _, count in packing)


def packings(task: Task, floor: int) -> list[Packing]:
    """The best few packings found, all with the same number of sheets. Nothing can go below `floor` sheets."""
    kept: list[Packing] = []
    for packing in _constructions(task):
        kept = _keep(kept, packing)
    if sheets_in(kept[0]) > floor:
        for packing in _reweighted(task):
            kept = _keep(kept, packing)
            if sheets_in(kept[0]) <= floor:
                break
    return sorted(kept, key=_different_sizes)[:KEPT]


def _keep(kept: list[Packing], packing: Packing) -> list[Packing]:
    if not kept or sheets_in(packing) < sheets_in(kept[0]):
        return [packing]
    if sheets_in(packing) == sheets_in(kept[0]) and packing not in kept:
        return [*kept, packing]
    return kept


def _different_sizes(packing: Packing) -> tuple[int, int]:
    """A quick guess at the trimmer settings: sizes as they lie, then different sheets."""
    return len({size for pattern, _ in packing for laid in pattern for size in laid[3:5]}), len(packing)


def _constructions(task: Task) -> Iterator[Packing]:
    """The largest area first with each method, the other orders with some; then, sheet by sheet, the worthiest filling."""
    orders = _orders(task)
    choices = [*product(orders[:1], METHODS), *product(orders[1:], METHODS[:OTHER_ORDERS])]
    for order, method in choices:
        yield _pack(task, partial(_fill, task, order, method))
    worth = [float(shape.width * shape.height) ** WORTH for shape in task.shapes]
    fills = [partial(_fill, task, order, method) for order, method in product(orders[:2], METHODS)]
    yield _pack(task, partial(_worthiest, fills, worth))


def _orders(task: Task) -> list[tuple[int, ...]]:
    everything = range(len(task.shapes))
    orders = [sorted(everything, key=lambda i: size(task.shapes[i]), reverse=True) for size in SIZES]
    return [tuple(order) for order in dict.fromkeys(map(tuple, orders))]


def _fill(task: Task, order: Sequence[int], method: Method, left: Sequence[int]) -> list[Laid]:
    return fill_sheet(order, task.ways, left, task.width, task.height, method)


def _worthiest(fills: Sequence[Fill], worth: Sequence[float], left: Sequence[int]) -> list[Laid]:
    return max((fill(left) for fill in fills), key=lambda laid: sum(worth[piece.which] for piece in laid))


def _covered(laid: Sequence[Laid]) -> int:
    return sum(piece.width * piece.height for piece in laid)


def _pack(task: Task, fill: Fill) -> Packing:
    left = [shape.wanted for shape in task.shapes]
    packing: list[tuple[Pattern, int]] = []
    while any(left):
        pattern = tuple(fill(left))
        used = [0] * len(left)
        for piece in pattern:
            used[piece.which] += 1
        times = min(wanted // use for wanted, use in zip(left, used, strict=True) if use)
        left = [wanted - times * use for wanted, use in zip(left, used, strict=True)]
        packing.append((pattern, times))
    return tuple(packing)


def _reweighted(task: Task) -> Iterator[Packing]:
    """Constructions in which pieces that were wastefully laid the last time come earlier the next.

    Sequential value correction (Belov & Scheithauer, INFORMS J. Comput. 19 (2007) 27-35, for one dimension): a piece is worth its
    area, times more for each sheet with much waste that it lay on.
    """
    room = task.width * task.height
    worth = [float(shape.width * shape.height) for shape in task.shapes]
    spent = 0
    for method in cycle(METHODS):
        order = sorted(range(len(worth)), key=lambda i: worth[i], reverse=True)
        packing = _pack(task, partial(_fill, task, order, method))
        yield packing
        for pattern, _ in packing:
            spent += len(pattern) + 4
            waste = 1 - _covered(pattern) / room
            for index in {piece.which for piece in pattern}:
                worth[index] = 0.8 * worth[index] + 0.2 * worth[index] * (1 + 2 * waste)
        if spent > PIECES_LAID:
            return
