"""Quick packings: many constructions, all repeatable, the best few kept.

A construction fills a sheet, cuts as many sheets alike as demand and stock allow, and goes on with what is still wanted; so the
work grows with the number of different sheets, hardly with the number of makers. There is no clock and no chance in it.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import cycle, product

from creasewright.cutting.search.filling import Method, fill_sheet
from creasewright.cutting.search.refilling import FITS, SPLITS, refill_by_rules
from creasewright.cutting.search.task import Packing, Task, Use, burden, cost_of, counts_in
from creasewright.cutting.whole_numbers import Laid, Shape

Fill = Callable[[int, Sequence[int]], list[Laid]]
"""From a kind of sheet and how many of each shape are wanted to one sheet."""

KEPT = 6
"""Packings of equal cost that are handed on, to be compared by their cuts."""
PIECES_LAID = 2000
"""Work spent on looking for cheaper packings than the first constructions found."""
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


def packings(task: Task, floor: int) -> list[Packing]:
    """The best few packings found, all of the same cost. Nothing can cost less than `floor`."""
    kept: list[Packing] = []
    for packing in _constructions(task):
        kept = _keep(task, kept, packing)
    if cost_of(task, kept[0]) > floor and task.rules is None:
        for packing in _reweighted(task):
            kept = _keep(task, kept, packing)
            if kept[0].whole and cost_of(task, kept[0]) <= floor:
                break
    return sorted(kept, key=_different_sizes)[:KEPT]


def _keep(task: Task, kept: list[Packing], packing: Packing) -> list[Packing]:
    if not kept or burden(task, packing) < burden(task, kept[0]):
        return [packing]
    if burden(task, packing) == burden(task, kept[0]) and packing not in kept:
        return [*kept, packing]
    return kept


def _different_sizes(packing: Packing) -> tuple[int, int]:
    """A quick guess at the trimmer settings: sizes as they lie, then different sheets."""
    return len({size for use in packing.uses for laid in use.pattern for size in laid[3:5]}), len(packing.uses)


def _constructions(task: Task) -> Iterator[Packing]:
    """The largest area first with each method, the other orders with some; then, sheet by sheet, the worthiest filling."""
    orders = _orders(task)
    if task.rules is not None:
        for order, split, fit in product(orders, range(SPLITS), range(FITS)):
            yield pack(task, partial(_fill_by_rules, task, order, split, fit))
        return
    choices = [*product(orders[:1], METHODS), *product(orders[1:], METHODS[:OTHER_ORDERS])]
    for order, method in choices:
        yield pack(task, partial(_fill, task, order, method))
    worth = [float(shape.width * shape.height) ** WORTH for shape in task.shapes]
    fills = [partial(_fill, task, order, method) for order, method in product(orders[:2], METHODS)]
    yield pack(task, partial(_worthiest, fills, worth))


def _orders(task: Task) -> list[tuple[int, ...]]:
    everything = range(len(task.shapes))
    orders = [sorted(everything, key=lambda i: size(task.shapes[i]), reverse=True) for size in SIZES]
    return [tuple(order) for order in dict.fromkeys(map(tuple, orders))]


def _fill(task: Task, order: Sequence[int], method: Method, kind: int, left: Sequence[int]) -> list[Laid]:
    return fill_sheet(order, task.ways[kind], left, *task.kinds[kind][:2], method)


def _fill_by_rules(task: Task, order: Sequence[int], split: int, fit: int, kind: int, left: Sequence[int]) -> list[Laid]:
    assert task.rules is not None
    width, height = task.kinds[kind][:2]
    room = width * height
    pieces = [which for which in order for _ in range(min(left[which], room // (task.shapes[which].width * task.shapes[which].height)))]
    put = refill_by_rules(task.rules, pieces, task.ways[kind], width, height, split, fit)[0]
    return [Laid(which, x, y, *way) for which, x, y, way in put]


def _worthiest(fills: Sequence[Fill], worth: Sequence[float], kind: int, left: Sequence[int]) -> list[Laid]:
    return max((fill(kind, left) for fill in fills), key=lambda laid: sum(worth[piece.which] for piece in laid))


def _covered(laid: Sequence[Laid]) -> int:
    return sum(piece.width * piece.height for piece in laid)


def pack(task: Task, fill: Fill) -> Packing:
    """Sheet after sheet, each of the kind that holds the most area for its cost, until nothing is wanted or nothing goes in."""
    left = [shape.wanted for shape in task.shapes]
    stock = [kind.limit for kind in task.kinds]
    uses: list[Use] = []
    while any(left):
        fillings = [(kind, fill(kind, left)) for kind, there in enumerate(stock) if there > 0]
        kind, laid = max(fillings, key=lambda filling: _covered(filling[1]) / task.kinds[filling[0]].cost, default=(0, []))
        if not laid:
            break
        used = counts_in(laid)
        times = min(stock[kind], *(left[which] // use for which, use in used.items()))
        for which, use in used.items():
            left[which] -= times * use
        stock[kind] -= times
        uses.append(Use(kind, tuple(laid), times))
    return Packing(tuple(uses), tuple(left))


def _reweighted(task: Task) -> Iterator[Packing]:
    """Constructions in which pieces that were wastefully laid the last time come earlier the next.

    Sequential value correction (Belov & Scheithauer, INFORMS J. Comput. 19 (2007) 27-35, for one dimension): a piece is worth its
    area, times more for each sheet with much waste that it lay on.
    """
    worth = [float(shape.width * shape.height) for shape in task.shapes]
    spent = 0
    for method in cycle(METHODS):
        order = sorted(range(len(worth)), key=lambda i: worth[i], reverse=True)
        packing = pack(task, partial(_fill, task, order, method))
        yield packing
        for use in packing.uses:
            spent += len(use.pattern) + 4
            waste = 1 - _covered(use.pattern) / (task.kinds[use.kind].width * task.kinds[use.kind].height)
            for index in {piece.which for piece in use.pattern}:
                worth[index] = 0.8 * worth[index] + 0.2 * worth[index] * (1 + 2 * waste)
        spent += 4
        if spent > PIECES_LAID:
            return
