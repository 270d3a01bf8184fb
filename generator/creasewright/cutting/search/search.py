"""The whole search for one task: quick packings, bounds, ruin and recreate, column generation, in the order in which they pay.

Each step is left out once a packing costs what the bound says. Nothing hangs on the clock unless a time is given.
"""

from collections.abc import Callable, Iterator
from math import gcd
from random import Random
from time import perf_counter

from msgspec import Struct

from creasewright.cutting.demand import Effort
from creasewright.cutting.search.columns import best_mix
from creasewright.cutting.search.constructions import packings
from creasewright.cutting.search.lower_bound import fewest_sheets, least_cost
from creasewright.cutting.search.master import Column, whole_mix
from creasewright.cutting.search.rounding import rounded, trimmed
from creasewright.cutting.search.ruin import improved
from creasewright.cutting.search.task import (
    MOST_SINGLE,
    UNLIMITED,
    Packing,
    Task,
    burden,
    cost_of,
    is_single,
    pieces_in,
    repeated,
    sheets_in,
    wanting,
)

FIRST_SHARE = 12
"""A twelfth of the iterations comes before column generation, which takes a tenth of a second to load and as much to run."""
KEPT = 8
"""Packings of the same cost that are handed on."""

NODES = 200
"""Of the search tree of a whole-number program."""

Say = Callable[[int, int], None]
"""Told the sheets of the best packing and the bound, whenever either gets better."""


class Found(Struct, frozen=True):
    packings: tuple[Packing, ...]
    """The cheapest found, all of the same cost; the best known first."""
    floor: int
    """No plan costs less."""
    fewest: int
    """No plan takes fewer sheets."""
    pool: tuple[Column, ...]
    """Patterns that came up on the way, cheap or easy, for whoever would mix them anew."""
    stopped: bool
    """Time was over, or someone stopped it."""


class _Run:
    """The best packings so far and the bound, while the search goes on."""

    def __init__(self, task: Task, effort: Effort, over: Callable[[], bool], say: Say, useful: int = 1 << 60) -> None:
        self.task, self.effort, self.over, self.say = task, effort, over, say
        self.useful = useful
        """Only packings that cost less than this are of use."""
        self.floor = least_cost(task)
        self.fewest = fewest_sheets(task)
        self.kept: list[Packing] = []
        self.pool: dict[Column, None] = {}
        self.random = Random(effort.seed)

    @property
    def settled(self) -> bool:
        """Nothing cheaper, or nothing of use, can be found."""
        return self.floor >= self.useful or (bool(self.kept) and self.kept[0].whole and cost_of(self.task, self.kept[0]) <= self.floor)

    def keep(self, packing: Packing) -> None:
        if not self.kept or burden(self.task, packing) < burden(self.task, self.kept[0]):
            self.kept = [packing]
            self.tell()
        elif burden(self.task, packing) == burden(self.task, self.kept[0]) and packing not in self.kept and len(self.kept) < KEPT:
            self.kept.append(packing)

    def raise_floor(self, floor: int) -> None:
        if floor > self.floor:
            self.floor = floor
            if len(self.task.kinds) == 1:
                self.fewest = max(self.fewest, -(-floor // self.task.kinds[0].cost))
            self.tell()

    def tell(self) -> None:
        self.say(sheets_in(self.kept[0]) if self.kept else 0, self.fewest)


def search(task: Task, effort: Effort, say: Say) -> Found:
    """Deterministic for a given effort; KeyboardInterrupt ends it with the best so far, once there is one."""
    end = None if effort.seconds is None else perf_counter() + effort.seconds

    def over() -> bool:
        return end is not None and perf_counter() > end

    run = _Run(task, effort, over, say)
    stopped = False
    try:
        _steps(run)
    except KeyboardInterrupt:
        if not run.kept:
            raise
        stopped = True
    used = (Column(use.kind, use.pattern) for packing in run.kept for use in packing.uses)
    return Found(tuple(run.kept), run.floor, run.fewest, tuple(dict.fromkeys((*used, *run.pool))), stopped or over())


def _steps(run: _Run, divide: bool = True) -> None:
    for packing in _quick(run.task, run.floor):
        run.pool |= dict.fromkeys(Column(use.kind, use.pattern) for use in packing.uses)
        run.keep(packing)
        if run.settled:
            return
    steps = [_first_ruin, _mix, _last_ruin] if is_single(run.task) else [_mix]
    steps += [_shares, _unturned] if divide else [_unturned]
    for step in steps:
        step(run)
        if run.settled or run.over():
            return


def _quick(task: Task, floor: int) -> Iterator[Packing]:
    """Constructions for the smallest share repeated, and for the whole; the same with nothing turned."""
    common = gcd(*(shape.wanted for shape in task.shapes))
    for times in dict.fromkeys((common, 1)):
        share = wanting(task, [shape.wanted // times for shape in task.shapes])
        if all(kind.limit >= times for kind in task.kinds):
            lent = tuple(kind._replace(limit=kind.limit // times) for kind in task.kinds)
            for packing in packings(Task(share.shapes, lent, share.rules, share.ways), -(-floor // times)):
                yield repeated(packing, times)


def _first_ruin(run: _Run) -> None:
    _ruin(run, run.effort.iterations // FIRST_SHARE)


def _last_ruin(run: _Run) -> None:
    _ruin(run, run.effort.iterations - run.effort.iterations // FIRST_SHARE)


def _ruin(run: _Run, iterations: int) -> None:
    for packing, _ in improved(run.task, run.kept[0], run.floor, iterations, run.random, run.over):
        run.keep(packing)


def _mix(run: _Run) -> None:
    """The bound by column generation; for large demands also whole packings from the mix."""
    start = [Column(use.kind, use.pattern) for packing in run.kept for use in packing.uses]
    best = min(run.useful, cost_of(run.task, run.kept[0])) if run.kept[0].whole else 1 << 60
    mix = best_mix(run.task, start, best, run.effort.rounds, run.over)
    run.raise_floor(mix.bound)
    run.pool |= dict.fromkeys(mix.columns)
    if run.settled:
        return
    if not is_single(run.task):
        for packing in rounded(run.task, mix, run.floor, run.effort.iterations, run.random, run.over):
            run.keep(packing)
        if run.settled or run.over():
            return
        amounts = whole_mix(run.task, mix.columns, NODES, run.effort.seconds)
        if amounts is not None:
            run.keep(trimmed(run.task, mix.columns, amounts))


def _shares(run: _Run) -> None:
    """Equal shares, each searched like a demand of its own, where the bound leaves room for a gain: so N makers never take more
    than N times what one takes."""
    common = gcd(*(shape.wanted for shape in run.task.shapes))
    for times in (n for n in range(common, 1, -1) if common % n == 0):
        if times < common and pieces_in(run.task) // times > MOST_SINGLE:
            return
        useful = -(-cost_of(run.task, run.kept[0]) // times)
        if -(-run.floor // times) < useful and all(kind.limit >= UNLIMITED for kind in run.task.kinds):
            share = wanting(run.task, [shape.wanted // times for shape in run.task.shapes])
            _also(run, share, useful, times)


def _unturned(run: _Run) -> None:
    """The plan with nothing turned, where some may turn and none must, and the bound leaves room for a gain."""
    shapes = tuple(shape._replace(may_turn=False) for shape in run.task.shapes)
    if shapes == run.task.shapes:
        return
    ways = tuple(tuple(tuple(way for way in group if not way[2]) for group in kind) for kind in run.task.ways)
    if all(any(kind[which] for kind in ways) for which in range(len(shapes))):
        _also(run, Task(shapes, run.task.kinds, run.task.rules, ways), cost_of(run.task, run.kept[0]), 1)


def _also(run: _Run, task: Task, useful: int, times: int) -> None:
    """Searches another task whose packings, repeated, serve this one too."""
    other = _Run(task, run.effort, run.over, _silent, useful)
    _steps(other, divide=times == 1)
    run.keep(repeated(other.kept[0], times))


def _silent(sheets: int, bound: int) -> None:
    return None
