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


def whole_mix(task: Task, columns: Sequence[Column], nodes: int, seconds: float | None = None) -> list[int] | None:
    """How many sheets of each column cover the demand most cheaply, as far as `nodes` of the search tree tell; None: found none."""
    import numpy as np

    model = _silent()
    model.setOptionValue("mip_max_nodes", nodes)
    if seconds is not None:
        model.setOptionValue("time_limit", max(0.01, seconds))
    none = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
    for shape in task.shapes:
        model.addRow(float(shape.wanted), float("inf"), 0, *none)
    for kind in task.kinds:
        model.addRow(-float("inf"), float(kind.limit) if kind.limit < UNLIMITED else float("inf"), 0, *none)
    for column in columns:
        entries = {which: float(count) for which, count in counts_in(column.pattern).items()}
        entries[len(task.shapes) + column.kind] = 1.0
        rows, values = np.array(list(entries), dtype=np.int32), np.array(list(entries.values()), dtype=np.float64)
        model.addCol(float(task.kinds[column.kind].cost), 0.0, float("inf"), len(rows), rows, values)
    whole = model.getVariables()
    model.setInteger(whole)
    model.run()
    amounts = [round(float(amount)) for amount in model.getSolution().col_value]
    return amounts if len(amounts) == len(columns) and any(amounts) else None
