"""The cuts of a sheet plan as rows to be read: neighbours that are made alike are one row. Numbers and kinds only, no words."""

from collections import Counter
from collections.abc import Sequence

from msgspec import Struct

from creasewright.cutting.plan import Cut, Offcut, SheetPlan, Side

RUN = 3
"""So many equal cuts in a row, or more, are told in one row."""


class CutRow(Struct, frozen=True):
    cuts: tuple[Cut, ...]

    @property
    def first(self) -> Cut:
        return self.cuts[0]

    @property
    def last(self) -> Cut:
        return self.cuts[-1]


def cut_rows(plan: SheetPlan) -> tuple[CutRow, ...]:
    """Each cut with its own row, but runs of cuts that leave the stop alone and free one finished, equal piece each."""
    runs: list[list[Cut]] = []
    for cut in plan.cuts:
        if runs and _alike(runs[-1][-1], cut, plan):
            runs[-1].append(cut)
        else:
            runs.append([cut])
    rows: list[CutRow] = []
    for run in runs:
        rows += [CutRow(tuple(run))] if len(run) >= RUN else [CutRow((cut,)) for cut in run]
    return tuple(rows)


def _alike(before: Cut, cut: Cut, plan: SheetPlan) -> bool:
    if not cut.same_setting or before.direction != cut.direction or before.from_edge != cut.from_edge:
        return False
    return before.kept.keys == cut.kept.keys and is_finished(before.kept, plan) and is_finished(cut.kept, plan)


def is_finished(side: Side, plan: SheetPlan) -> bool:
    """One piece, with no cut left to make."""
    return side.kind == "pieces" and any((p.x, p.y, p.width, p.height) == side.box for p in plan.placements)


def counted_keys(keys: Sequence[str]) -> tuple[tuple[str, int], ...]:
    """Letters in alphabetical order, each with how often it comes."""
    return tuple(sorted(Counter(keys).items(), key=lambda one: (len(one[0]), one[0])))


def offcut_at(side: Side, plan: SheetPlan) -> Offcut | None:
    return next((each for each in plan.offcuts if (each.x, each.y, each.width, each.height) == side.box), None)


def pieces_freed(row: CutRow, plan: SheetPlan) -> int:
    """How many finished pieces the row's cuts give, on either side."""
    return sum(is_finished(side, plan) for cut in row.cuts for side in (cut.kept, cut.other))


def left_by(row: CutRow, plan: SheetPlan) -> tuple[Side, ...]:
    """What the row's cuts leave that is no finished piece and is not cut up by the row itself."""
    cut_up = {cut.piece_rect for cut in row.cuts}
    return tuple(cut.other for cut in row.cuts if cut.other.box not in cut_up and not is_finished(cut.other, plan))
