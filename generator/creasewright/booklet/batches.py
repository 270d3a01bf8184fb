"""Cutting for a class as figures: how often each setting is cut over all equal sheets, and how many pieces each person gets.

Batch  cuts of one sheet that follow one another with the stop in one place, made on every sheet that is cut alike
"""

from collections import Counter

from msgspec import Struct

from creasewright.booklet.context import PackContext
from creasewright.booklet.cut_rows import is_finished
from creasewright.cutting.plan import Cut, Offcut, PaperPlan, SheetPlan
from creasewright.fitting.pieces import Piece

AT_A_TABLE = 6
"""People who share a table; common practice, no source."""
TABLES_FROM = 12
"""Makers from which counting by tables is worth while."""


class Batch(Struct, frozen=True):
    cuts: tuple[Cut, ...]
    sheets: int
    """How many sheets are cut alike."""
    pieces: tuple[tuple[str, int], ...]
    """Finished pieces that the batch frees on all sheets, by letter."""
    strips: int
    """Parts of all sheets that are cut further; the sheet itself, where only its margin came off, is none."""
    margins: int
    """Strips of all sheets that are lost at the edges."""

    @property
    def total(self) -> int:
        """Cuts in all."""
        return len(self.cuts) * self.sheets


def batches_of(plan: SheetPlan) -> tuple[Batch, ...]:
    """In the order of the cuts."""
    runs: list[list[Cut]] = []
    for cut in plan.cuts:
        if runs and cut.same_setting and cut.from_edge == runs[-1][-1].from_edge:
            runs[-1].append(cut)
        else:
            runs.append([cut])
    return tuple(_batch(tuple(run), plan) for run in runs)


def _batch(cuts: tuple[Cut, ...], plan: SheetPlan) -> Batch:
    cut_up = {cut.piece_rect for cut in cuts}
    sides = [side for cut in cuts for side in (cut.kept, cut.other) if side.box not in cut_up]
    freed = Counter(side.keys[0] for side in sides if is_finished(side, plan))
    margins = sum(side.kind == "margin" for side in sides)
    strips = sum(side.kind == "pieces" and not is_finished(side, plan) for side in sides) if not margins else 0
    pieces = tuple((key, count * plan.count) for key, count in sorted(freed.items()))
    return Batch(cuts, plan.count, pieces, strips * plan.count, margins * plan.count)


def spares_of(context: PackContext, piece: Piece) -> int:
    """More of a piece than the makers need, as the maker's tool file says."""
    wished = context.tools.cutting
    return {str(name): count for name, count in wished.spares_of}.get(piece.blank.name, wished.spares)


def to_cut(context: PackContext, piece: Piece) -> int:
    return piece.count * context.worked.makers + spares_of(context, piece)


def takers(plan: PaperPlan, offcut: Offcut, context: PackContext) -> tuple[tuple[str, int], ...]:
    """Pieces of the same paper that a leftover has room for, and how many of each, the most paper used first.

    They are laid in rows, turned only as pieces of the plan are.
    """
    found: dict[str, tuple[int, float]] = {}
    for sheet in plan.sheets:
        for one in sheet.placements:
            count = int(offcut.width // one.width) * int(offcut.height // one.height)
            used = float(count * one.width * one.height)
            if count and used > found.get(one.key, (0, 0.0))[1]:
                found[one.key] = count, used
    best = sorted(found.items(), key=lambda item: (-item[1][1], item[0]))
    letters = {piece.letter for piece in context.worked.pieces}
    return tuple((key, count) for key, (count, _) in best if key in letters)
