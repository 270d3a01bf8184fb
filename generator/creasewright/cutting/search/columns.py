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

from creasewright.cutting.search.master import Column, Master, Priced
from creasewright.cutting.search.pricing import Prices
from creasewright.cutting.search.task import UNLIMITED, Kind, Task, counts_in, is_single

FINE = 10**6
"""Worths are rounded down to this part of the dearest sheet's cost, so that the tables add up exactly."""

MOST_ONCE = 3
"""Shapes that are held to one a sheet."""


class Mix(Struct, frozen=True):
    """Patterns found, how much of each the best mix takes, and the bound on the cost of any plan."""

    columns: tuple[Column, ...]
    amounts: tuple[float, ...]
    bound: int
    rounds: int


def best_mix(
    task: Task, start: Iterable[Column], enough: int, rounds: int, over: Callable[[], bool], say: Callable[[int], None] = lambda bound: None
) -> Mix:
    """Goes on until the bound is `enough`, no pattern is worth adding, the rounds are used up or time is over.

    When no pattern is worth adding any more, a shape that is wanted once and yet lies twice on a sheet of the mix may from then on
    lie there once at most, and the search goes on with what is left of the patterns: the mix gets dearer, the bound better. Each
    such shape makes a round three times as long, and so it counts (a decremental relaxation as in Righini & Salani, Networks 51
    (2008) 155-170, there for paths).
    """
    master, tables = _started(task, start), Prices(task, "pattern")
    dearest = max(kind.cost for kind in task.kinds)
    once: tuple[int, ...] = ()
    bound, made, priced = 0, 0, master.solved()
    while made < rounds and not over():
        made += 3 ** len(once)
        worths = [int(worth * FINE / dearest) for worth in priced.worths]
        tables.set_worths(worths, once)
        if tables.grid == 1:
            bound = max(bound, _bound(task, worths, [tables.value_of(kind) for kind in range(len(task.kinds))], dearest))
        say(bound)
        if bound >= enough or (not once and not is_single(task) and bound >= ceil(priced.value - 1e-7)):
            break
        if not _added(master, tables, priced, dearest):
            again = _twice(task, master, priced, once) if tables.grid == 1 else None
            if again is None:
                break
            once = (*once, again)
            master = _started(task, (c for c in master.columns if all(counts_in(c.pattern).get(shape, 0) < 2 for shape in once)))
        priced = master.solved()
    if tables.grid > 1 and not over():
        bound = max(bound, _coarse_bound(task, priced, dearest))
    return Mix(tuple(master.columns), tuple(priced.amounts), bound, made)


def _started(task: Task, columns: Iterable[Column]) -> Master:
    master = Master(task)
    for column in columns:
        master.add(column)
    return master


def _added(master: Master, tables: Prices, priced: Priced, dearest: int) -> bool:
    """Adds for each kind of sheet its worthiest pattern, if it is worth more than the sheet; whether any was."""
    added = False
    for kind, there in enumerate(master.task.kinds):
        if tables.value_of(kind) * dearest > (there.cost + priced.rents[kind]) * FINE * (1 + 1e-7):
            added = master.add(Column(kind, tables.pattern_of(kind))) or added
    return added


def _twice(task: Task, master: Master, priced: Priced, once: tuple[int, ...]) -> int | None:
    """The shape that is wanted once and that sheets of the mix hold twice most often; None if there is none or enough are bound."""
    surplus: dict[int, float] = {}
    for column, amount in zip(master.columns, priced.amounts, strict=True):
        if amount > 1e-6:
            for which, count in counts_in(column.pattern).items():
                if count > 1 and task.shapes[which].wanted == 1 and which not in once:
                    surplus[which] = surplus.get(which, 0.0) + amount * (count - 1)
    return max(surplus, key=lambda which: surplus[which]) if surplus and len(once) < MOST_ONCE else None


def _coarse_bound(task: Task, priced: Priced, dearest: int) -> int:
    tables = Prices(task, "bound")
    worths = [int(worth * FINE / dearest) if which in tables.counted else 0 for which, worth in enumerate(priced.worths)]
    tables.set_worths(worths)
    return _bound(task, worths, [tables.value_of(kind) for kind in range(len(task.kinds))], dearest)


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
