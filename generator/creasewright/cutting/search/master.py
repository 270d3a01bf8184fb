"""The door to HiGHS: linear and whole-number programs of patterns. Nothing else imports highspy.

A column is a pattern on a kind of sheet; the rows are the demand for each shape (at least) and the stock of each limited kind (at
most). Prices come from the kinds. The library is loaded when the first program is made, not before.
"""

from collections.abc import Sequence
from typing import Any, NamedTuple

from creasewright.cutting.search.task import UNLIMITED, Task, counts_in
from creasewright.cutting.whole_numbers import Pattern


class Column(NamedTuple):
    kind: int
    pattern: Pattern


class Priced(NamedTuple):
    """The best mix of the columns there are: what it costs, and what one more of each shape or sheet would change."""

    value: float
    worths: list[float]
    """Of each shape, not negative."""
    rents: list[float]
    """Of each kind, not negative: what one more sheet of a limited kind would save."""
    amounts: list[float]
    """Of each column, in the order of adding."""


def _silent() -> Any:
    import highspy

    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("threads", 1)
    return model


class Master:
    """The linear program, solved anew from where it stood each time columns are added."""

    def __init__(self, task: Task) -> None:
        import numpy as np

        self.task, self.np, self.model = task, np, _silent()
        self.columns: list[Column] = []
        self._known: set[tuple[int, tuple[tuple[int, int], ...]]] = set()
        none = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
        for shape in task.shapes:
            self.model.addRow(float(shape.wanted), float("inf"), 0, *none)
        self.limited = [kind for kind, there in enumerate(task.kinds) if there.limit < UNLIMITED]
        for kind in self.limited:
            self.model.addRow(-float("inf"), float(task.kinds[kind].limit), 0, *none)
        dear = 100.0 * max(kind.cost for kind in task.kinds)
        for which in range(len(task.shapes)):
            self._add(dear, {which: 1.0})

    def _add(self, cost: float, entries: dict[int, float]) -> None:
        np = self.np
        rows, values = np.array(list(entries), dtype=np.int32), np.array(list(entries.values()), dtype=np.float64)
        self.model.addCol(cost, 0.0, float("inf"), len(rows), rows, values)

    def add(self, column: Column) -> bool:
        """False: it was there already, as far as its counts go."""
        counts = counts_in(column.pattern)
        likeness = column.kind, tuple(sorted(counts.items()))
        if likeness in self._known:
            return False
        self._known.add(likeness)
        entries = {which: float(count) for which, count in counts.items()}
        if column.kind in self.limited:
            entries[len(self.task.shapes) + self.limited.index(column.kind)] = 1.0
        self._add(float(self.task.kinds[column.kind].cost), entries)
        self.columns.append(column)
        return True

    def solved(self) -> Priced:
        self.model.run()
        solution = self.model.getSolution()
        shapes = len(self.task.shapes)
        duals = [float(dual) for dual in solution.row_dual]
        rents = [0.0] * len(self.task.kinds)
        for place, kind in enumerate(self.limited):
            rents[kind] = max(0.0, -duals[shapes + place])
        amounts = [float(amount) for amount in solution.col_value][shapes:]
        return Priced(float(self.model.getInfo().objective_function_value), [max(0.0, d) for d in duals[:shapes]], rents, amounts)


class _Whole:
    """A program of whole sheets: columns cover the demand, within the stock."""

    def __init__(self, task: Task, columns: Sequence[Column], nodes: int, seconds: float | None) -> None:
        import numpy as np

        self.np, self.model, self.columns = np, _silent(), columns
        self.model.setOptionValue("mip_max_nodes", nodes)
        if seconds is not None:
            self.model.setOptionValue("time_limit", max(0.01, seconds))
        for shape in task.shapes:
            self.row(float(shape.wanted), float("inf"), {})
        for there in task.kinds:
            self.row(-float("inf"), float(there.limit) if there.limit < UNLIMITED else float("inf"), {})
        for kind, pattern in columns:
            entries = {which: float(count) for which, count in counts_in(pattern).items()}
            self.column(float(task.kinds[kind].cost), float("inf"), entries | {len(task.shapes) + kind: 1.0})

    def column(self, cost: float, most: float, entries: dict[int, float]) -> None:
        rows, values = self._pair(entries)
        self.model.addCol(cost, 0.0, most, len(rows), rows, values)

    def row(self, least: float, most: float, entries: dict[int, float]) -> None:
        places, values = self._pair(entries)
        self.model.addRow(least, most, len(places), places, values)

    def _pair(self, entries: dict[int, float]) -> tuple[Any, Any]:
        return self.np.array(list(entries), dtype=self.np.int32), self.np.array(list(entries.values()), dtype=self.np.float64)

    def solved(self) -> list[int] | None:
        """How many sheets of each column; None where none was found."""
        self.model.setInteger(self.model.getVariables())
        self.model.run()
        amounts = [round(float(amount)) for amount in self.model.getSolution().col_value][: len(self.columns)]
        return amounts if any(amounts) else None


def whole_mix(task: Task, columns: Sequence[Column], nodes: int, seconds: float | None = None) -> list[int] | None:
    """How many sheets of each column cover the demand most cheaply, as far as `nodes` of the search tree tell; None: found none."""
    return _Whole(task, columns, nodes, seconds).solved()


def easiest_mix(
    task: Task, columns: Sequence[Column], settings: Sequence[frozenset[int]], setting_cost: float, most_cost: int, nodes: int
) -> list[int] | None:
    """The same where each column used, and each of its settings, weighs too, the sheets together costing at most `most_cost`.

    `setting_cost` 0: among the mixes of that cost the one with fewest settings, then fewest columns, counts alone.
    """
    program = _Whole(task, columns, nodes, None)
    program.row(-float("inf"), float(most_cost), {place: float(task.kinds[column.kind].cost) for place, column in enumerate(columns)})
    distances = sorted(frozenset[int]().union(*settings))
    weight = setting_cost or 1 / (2 * len(distances) + len(columns))
    for _ in columns:
        program.column(weight / 4, 1.0, {})
    for _ in distances:
        program.column(weight, 1.0, {})
    used, set_to = len(columns), {distance: 2 * len(columns) + place for place, distance in enumerate(distances)}
    for place, (kind, pattern) in enumerate(columns):
        enough = max(-(-task.shapes[which].wanted // count) for which, count in counts_in(pattern).items())
        most = float(min(enough, task.kinds[kind].limit, most_cost))
        program.row(-float("inf"), 0.0, {place: 1.0, used + place: -most})
        for distance in settings[place]:
            program.row(-float("inf"), 0.0, {used + place: 1.0, set_to[distance]: -1.0})
    return program.solved()
