"""What the search works on: shapes wanted, kinds of sheet there are, and what a plan of them looks like.

Kind     a usable area with what one of it costs and how many there are
Task     shapes wanted from kinds of sheet, under rules for the cuts
Use      one pattern on one kind of sheet, cut so many times
Packing  uses, and what of the demand they leave missing

All numbers are whole. A shape is known by its place in the task's list, a kind likewise.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec import Struct

from creasewright.cutting.whole_numbers import Laid, Pattern, Shape, lies

UNLIMITED = 10**9
MOST_SINGLE = 400
"""Up to so many pieces a task is searched piece by piece; above, as a mix of patterns, but where hardly any shape comes again."""
SELDOM = 3
"""Pieces a shape up to which shapes hardly come again."""
Ways = tuple[tuple[int, int, bool], ...]
"""The ways a shape may lie on a kind: (width, height, turned)."""


class Kind(NamedTuple):
    width: int
    height: int
    cost: int
    """At least 1: the aim is the least sum of these."""
    limit: int = UNLIMITED
    """How many there are."""


class Rules(NamedTuple):
    """What every cut must keep to. The margins of a sheet are off by then."""

    stages: int | None = None
    """How often the cuts may change their direction, the first cuts counting as one; the last trim of a piece is free."""
    longest_cut: int = UNLIMITED
    least_trim: int = 0
    """A cut takes off nothing thinner."""


class Use(NamedTuple):
    kind: int
    pattern: Pattern
    times: int


class Packing(NamedTuple):
    uses: tuple[Use, ...]
    missing: tuple[int, ...]
    """Of each shape, how many are still wanted."""

    @property
    def whole(self) -> bool:
        return not any(self.missing)


class Task(Struct, frozen=True):
    """Every shape fits at least one kind in some way."""

    shapes: tuple[Shape, ...]
    kinds: tuple[Kind, ...]
    rules: Rules | None = None
    """None: any edge-to-edge cut will do."""
    ways: tuple[tuple[Ways, ...], ...] = ()
    """For each kind, for each shape."""


def task_of(shapes: Iterable[Shape], kinds: Iterable[Kind], rules: Rules | None = None) -> Task:
    wanted, there = tuple(shapes), tuple(kinds)
    ways = tuple(tuple(lies(shape, kind.width, kind.height) for shape in wanted) for kind in there)
    return Task(wanted, there, rules, ways)


def wanting(task: Task, counts: Sequence[int]) -> Task:
    """The same task for other counts."""
    shapes = tuple(shape._replace(wanted=count) for shape, count in zip(task.shapes, counts, strict=True))
    return Task(shapes, task.kinds, task.rules, task.ways)


def pieces_in(task: Task) -> int:
    return sum(shape.wanted for shape in task.shapes)


def is_single(task: Task) -> bool:
    """Whether the task is searched piece by piece."""
    return pieces_in(task) <= max(MOST_SINGLE, SELDOM * len(task.shapes))


def cost_of(task: Task, packing: Packing) -> int:
    return sum(task.kinds[use.kind].cost * use.times for use in packing.uses)


def sheets_in(packing: Packing) -> int:
    return sum(use.times for use in packing.uses)


def missing_area(task: Task, packing: Packing) -> int:
    return sum(shape.width * shape.height * count for shape, count in zip(task.shapes, packing.missing, strict=True))


def burden(task: Task, packing: Packing) -> tuple[int, int]:
    """Less is better: what is missing, then what the sheets cost."""
    return missing_area(task, packing), cost_of(task, packing)


def counts_in(pattern: Sequence[Laid]) -> dict[int, int]:
    """How often each shape lies in the pattern."""
    counts: dict[int, int] = {}
    for laid in pattern:
        counts[laid.which] = counts.get(laid.which, 0) + 1
    return counts


def repeated(packing: Packing, times: int) -> Packing:
    return Packing(tuple(use._replace(times=use.times * times) for use in packing.uses), tuple(n * times for n in packing.missing))


def gathered(uses: Iterable[Use]) -> tuple[Use, ...]:
    """Equal patterns on equal sheets as one use, in the order they first come."""
    counts: dict[tuple[int, Pattern], int] = {}
    for use in uses:
        counts[use.kind, use.pattern] = counts.get((use.kind, use.pattern), 0) + use.times
    return tuple(Use(kind, pattern, count) for (kind, pattern), count in counts.items())
