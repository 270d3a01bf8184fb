"""Column generation: patterns worth having, and from their prices a bound that holds.

The linear program mixes the patterns it has; its prices say what each shape is worth; the pricing tables then give the worthiest
pattern of all at these prices. While it is worth more than a sheet costs, it is added and the program solved again.

The bound holds at every step, and is worked in whole numbers. Let the shapes be worth p, together T = sum of p * wanted, and let no
pattern on kind k be worth more than V(k). For every scale s with s V(k) <= cost(k) on kinds of which there is no end,
    cost of any plan >= s T - sum over limited kinds of max(0, s V(k) - cost(k)) * limit(k)
(Farley, "A note on bounding a class of linear programming problems", Oper. Res. 38 (1990) 922-923, for one kind; with limits it is
the Lagrangian bound). The right side bends only where s = cost(k) / V(k), so these scales are all that need be tried.
"""

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct

from creasewright.cutting.search.master import Column, Master
from creasewright.cutting.search.pricing import Prices
from creasewright.cutting.search.task import UNLIMITED, Kind, Task

FINE = 10**6
"""Worths are rounded down to this part of the dearest sheet's cost, so that the tables add up exactly."""


class Mix(Struct, frozen=True):
    """Patterns found, how much of each the best mix takes, and the bound on the cost of any plan."""

    columns: tuple[Column, ...]
    amounts: tuple[float, ...]
    bound: int
    rounds: int


def best_mix(
    task: Task, start: Iterable[Column], enough: int, rounds: int, over: Callable[[], bool], say: Callable[[int], None] = lambda bound: None
) -> Mix:
    """Goes on until the bound is `enough`, no pattern is worth adding, the rounds are used up or time is over."""
    master = Master(task)
    for column in start:
        master.add(column)
    tight, loose = Prices(task, "pattern"), None
    dearest = max(kind.cost for kind in task.kinds)
    bound, made, priced = 0, 0, master.solved()
    while made < rounds and not over():
        made += 1
        worths = [int(worth * FINE / dearest) for worth in priced.worths]
        tight.set_worths(worths)
        if tight.grid == 1:
            bound = max(bound, _bound(task, worths, [tight.value_of(kind) for kind in range(len(task.kinds))], dearest))
        say(bound)
        if bound >= enough or bound >= ceil(priced.value - 1e-7):
            break
        new = [
            Column(kind, tight.pattern_of(kind))
            for kind, there in enumerate(task.kinds)
            if tight.value_of(kind) * dearest > (there.cost + priced.rents[kind]) * FINE * (1 + 1e-7)
        ]
        if not [column for column in new if master.add(column)]:
            break
        priced = master.solved()
    if tight.grid > 1 and not over():
        loose = Prices(task, "bound")
        worths = [int(worth * FINE / dearest) if which in loose.counted else 0 for which, worth in enumerate(priced.worths)]
        loose.set_worths(worths)
        bound = _bound(task, worths, [loose.value_of(kind) for kind in range(len(task.kinds))], dearest)
    return Mix(tuple(master.columns), tuple(priced.amounts), bound, made)


def _bound(task: Task, worths: Sequence[int], values: Sequence[int], dearest: int) -> int:
    total = sum(worth * shape.wanted for worth, shape in zip(worths, task.shapes, strict=True))
    scales = [Fraction(kind.cost, value) for kind, value in zip(task.kinds, values, strict=True) if value]
    endless = [Fraction(k.cost, v) for k, v in zip(task.kinds, values, strict=True) if v and k.limit >= UNLIMITED]
    allowed = [scale for scale in scales if not endless or scale <= min(endless)]
    return max((ceil(_at(scale, total, task.kinds, values)) for scale in allowed), default=0)


def _at(scale: Fraction, total: int, kinds: Sequence[Kind], values: Sequence[int]) -> Fraction:
    saved = [
        max(Fraction(0), scale * value - kind.cost) * kind.limit
        for kind, value in zip(kinds, values, strict=True)
        if kind.limit < UNLIMITED
    ]
    return scale * total - sum(saved, Fraction(0))
