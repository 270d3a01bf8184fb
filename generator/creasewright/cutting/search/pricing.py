"""The worthiest way to cut up one sheet, when each shape has a worth and may be taken any number of times.

Gilmore & Gomory, "Multistage cutting stock problems of two and more dimensions", Oper. Res. 13 (1965) 94-120, and Beasley,
"Algorithms for unconstrained two-dimensional guillotine cutting", J. Oper. Res. Soc. 36 (1985) 297-306:

    F(x, y) = max of  the worthiest shape that fits x by y,
                      F(a, y) + F(x - a, y)  for a cut down at a,
                      F(x, b) + F(x, y - b)  for a cut across at b,

with cuts at normal positions only. The tables are filled level by level: in one level all cuts go down, in the next across. A level is
one stage of cutting, so a limit on stages is a limit on levels; without one, levels are added until nothing gets worthier.

One set of tables serves every kind of sheet, for F is known for all smaller rectangles. Where positions are too many, all sizes
are counted in steps of a coarser grid: rounded down, the worth found is never too small (for bounds); rounded up, the patterns
found can really be cut.

numpy is loaded when the first tables are made, not before.
"""

from collections.abc import Sequence
from typing import Any, Literal, NamedTuple

from creasewright.cutting.search.positions import sums_up_to
from creasewright.cutting.search.task import Task
from creasewright.cutting.whole_numbers import Laid, Pattern

MOST_POSITIONS = 240
"""On one axis; the work grows with the third power."""
DOWN, ACROSS = 0, 1
Table = Any
"""A numpy array; the library is not imported where no table is needed."""


class _Axis(NamedTuple):
    places: Table
    """Normal positions, ascending; the last is the greatest that a sheet can use."""
    rest: Table
    """Row i, column j: the place at or below places[i] - places[j], or the number of places where there is none."""
    halves: list[int]
    """How many places are at most half of places[i]."""


class _Spot(NamedTuple):
    """One way of a shape in the tables."""

    which: int
    x: int
    y: int
    width: int
    """As it is, not in steps of the grid."""
    height: int
    turned: bool


_Part = tuple[int, int, int, int, int, int]
"""Level, what may be taken once (bits), the place on each axis, and where the part lies, left and head."""


class Prices:
    """Tables for one task; `grid` 1 is exact. `value_of` and `pattern_of` speak of the last call of `set_worths`."""

    def __init__(self, task: Task, side: Literal["bound", "pattern"]) -> None:
        import numpy as np

        self.np, self.stages = np, task.rules.stages if task.rules is not None else None
        ways = [list(dict.fromkeys(way for kind in task.ways for way in kind[which])) for which in range(len(task.shapes))]
        self.counts = [shape.wanted for shape in task.shapes]
        self.grid = 0
        while True:
            self.grid += 1
            self.spans = [(kind.width // self.grid, kind.height // self.grid) for kind in task.kinds]
            sizes = [[(self._steps(w, side), self._steps(h, side), turned) for w, h, turned in group] for group in ways]
            across = self._places(max(span[0] for span in self.spans), sizes, 0)
            down = self._places(max(span[1] for span in self.spans), sizes, 1)
            if max(len(across), len(down)) <= MOST_POSITIONS or self.grid >= max(max(span) for span in self.spans):
                break
        self.x, self.y = self._axis(across), self._axis(down)
        self.spots = [
            self._spot(which, step, way)
            for which, group in enumerate(ways)
            for step, way in zip(sizes[which], group, strict=True)
            if step[0] > 0 and step[1] > 0
        ]
        self.spots = [spot for spot in self.spots if spot.x < len(across) and spot.y < len(down)]
        self.counted = {spot.which for spot in self.spots}
        """Shapes that the tables know; on a coarse grid the tiniest are unknown and must be worth nothing."""

    def _steps(self, size: int, side: str) -> int:
        return size // self.grid if side == "bound" else -(-size // self.grid)

    def _places(self, length: int, sizes: list[list[tuple[int, int, bool]]], axis: int) -> list[int]:
        pairs = [(way[axis], count) for group, count in zip(sizes, self.counts, strict=True) for way in group if way[axis] > 0]
        return sums_up_to(length, pairs)

    def _axis(self, places: list[int]) -> _Axis:
        np = self.np
        at = np.array(places, dtype=np.int64)
        rest = np.searchsorted(at, at[:, None] - at[None, :], side="right") - 1
        rest[rest < 0] = len(places)
        halves = [int(n) for n in np.searchsorted(at, at // 2, side="right")]
        return _Axis(at, rest, halves)

    def _spot(self, which: int, steps: tuple[int, int, bool], way: tuple[int, int, bool]) -> _Spot:
        x, y = (int(self.np.searchsorted(axis.places, size)) for axis, size in ((self.x, steps[0]), (self.y, steps[1])))
        return _Spot(which, x, y, *way)

    def set_worths(self, worths: Sequence[int], once: Sequence[int] = ()) -> None:
        """`once`: shapes that a sheet may hold at most once; each triples the work."""
        np = self.np
        self.worths, self.once = worths, tuple(once)
        bases = np.zeros((1 << len(once), len(self.x.places), len(self.y.places)), dtype=np.int64)
        for spot in self.spots:
            bit = 1 << self.once.index(spot.which) if spot.which in self.once else 0
            for allowed in range(len(bases)):
                if allowed & bit == bit:
                    bases[allowed, spot.x, spot.y] = max(int(bases[allowed, spot.x, spot.y]), worths[spot.which])
        bases = np.maximum.accumulate(np.maximum.accumulate(bases, axis=1), axis=2)
        firsts = (DOWN,) if self.stages is None else (DOWN, ACROSS)
        self.chains = [self._levels(bases, first) for first in firsts]

    def _levels(self, bases: Table, first: int) -> list[tuple[int, Table]]:
        """Tables from no cut to all cuts, each with the direction of its last cuts."""
        levels, direction, unchanged = [(-1, bases)], first, 0
        while unchanged < 2 and (self.stages is None or len(levels) <= self.stages):
            before = levels[-1][1]
            if direction == DOWN:
                tables = self._closed(before, self.x)
            else:
                tables = self._closed(before.swapaxes(1, 2), self.y).swapaxes(1, 2)
            unchanged = unchanged + 1 if self.np.array_equal(tables, before) else 0
            levels.append((direction, tables))
            direction = 1 - direction
        return levels

    def _closed(self, tables: Table, axis: _Axis) -> Table:
        """The tables when rectangles may be divided along their first index, as often as wished; the two parts share out what may
        be taken once."""
        np = self.np
        length = len(axis.places)
        full = np.zeros((tables.shape[0], length + 1, tables.shape[2]), dtype=np.int64)
        full[:, :length] = tables
        shared = [(allowed, part, allowed ^ part) for allowed in range(len(full)) for part in range(allowed + 1) if part & allowed == part]
        for place in range(length):
            half = axis.halves[place]
            if half:
                rest = axis.rest[place, :half]
                for allowed, here, there in shared:
                    divided = (full[here, :half] + full[there, rest]).max(axis=0)
                    np.maximum(full[allowed, place], divided, out=full[allowed, place])
        return full[:, :length]

    def _corner(self, kind: int) -> tuple[int, int]:
        across, down = self.spans[kind]
        return (
            int(self.np.searchsorted(self.x.places, across, side="right")) - 1,
            int(self.np.searchsorted(self.y.places, down, side="right")) - 1,
        )

    def value_of(self, kind: int) -> int:
        """The greatest worth that one sheet of a kind can hold."""
        x, y = self._corner(kind)
        return max(int(chain[-1][1][-1, x, y]) for chain in self.chains) if x >= 0 and y >= 0 else 0

    def pattern_of(self, kind: int) -> Pattern:
        """A pattern of that worth."""
        x, y = self._corner(kind)
        if x < 0 or y < 0:
            return ()
        chain = max(self.chains, key=lambda levels: int(levels[-1][1][-1, x, y]))
        laid: list[Laid] = []
        open_parts = [(len(chain) - 1, (1 << len(self.once)) - 1, x, y, 0, 0)]
        while open_parts:
            level, allowed, x, y, left, head = open_parts.pop()
            if x < len(self.x.places) and y < len(self.y.places) and chain[level][1][allowed, x, y] > 0:
                open_parts += self._step(chain, level, allowed, x, y, left, head, laid)
        return tuple(sorted(laid, key=lambda piece: (piece.y, piece.x)))

    def _step(
        self, chain: list[tuple[int, Table]], level: int, allowed: int, x: int, y: int, left: int, head: int, laid: list[Laid]
    ) -> list[_Part]:
        """Lays the piece of this part, or gives the two parts into which it is cut."""
        direction, tables = chain[level]
        value = tables[allowed, x, y]
        if level == 0:
            spot = next(s for s in self.spots if s.x <= x and s.y <= y and self.worths[s.which] == value and self._may(s, allowed))
            laid.append(Laid(spot.which, left * self.grid, head * self.grid, spot.width, spot.height, spot.turned))
            return []
        if chain[level - 1][1][allowed, x, y] == value:
            return [(level - 1, allowed, x, y, left, head)]
        axis, place = (self.x, x) if direction == DOWN else (self.y, y)
        half, rest = axis.halves[place], axis.rest[place, : axis.halves[place]]
        for here in range(allowed + 1):
            if here & allowed == here:
                lines = [self._line(tables[part], direction, x, y) for part in (here, allowed ^ here)]
                cuts = self.np.flatnonzero(lines[0][:half] + lines[1][rest] == value)
                if len(cuts):
                    cut, beyond, at = int(cuts[0]), int(rest[cuts[0]]), int(axis.places[cuts[0]])
                    if direction == DOWN:
                        return [(level, here, cut, y, left, head), (level, allowed ^ here, beyond, y, left + at, head)]
                    return [(level, here, x, cut, left, head), (level, allowed ^ here, x, beyond, left, head + at)]
        raise AssertionError("a value in the tables has no cut that gives it")

    def _may(self, spot: _Spot, allowed: int) -> bool:
        return spot.which not in self.once or bool(allowed >> self.once.index(spot.which) & 1)

    def _line(self, table: Table, direction: int, x: int, y: int) -> Table:
        """The values along the axis that is cut, and a nothing for what is too small to have a place."""
        return self.np.append(table[:, y] if direction == DOWN else table[x, :], 0)
