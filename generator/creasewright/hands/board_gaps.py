"""The gaps between the boards of a wrapped cover: the next board must come past the edge of the one before it.

A cover turned up at the edge of one board brings the next one alongside it; that takes as much of the gap as the board is thick (plain
geometry of two boards at a right angle; how much more is wanted is a matter of the cloth, common practice, no source).
"""

from collections.abc import Iterator
from itertools import pairwise

from creasewright.folding.covered_boards import board_on
from creasewright.hands.carried import Carried, Cause, Slopes, added
from creasewright.hands.clearance import Clearance, Making
from creasewright.hands.error_table import PLACED, TRIMMED


def board_gaps(making: Making) -> Iterator[Clearance]:
    seen: set[str] = set()
    for _, run in making.original_runs():
        state = run.after
        for cover, blank in state.blanks.items():
            if blank.wrap is None or len(blank.wrap.boards) < 2 or blank.name in seen:
                continue
            for left, right in pairwise(blank.wrap.boards):
                parts = board_on(state, cover, left), board_on(state, cover, right)
                if parts[0] is None or parts[1] is None:
                    continue
                seen.add(blank.name)
                gap = float(right.left) - float(left.left) - float(left.width)
                slopes: Slopes = added({Cause(PLACED, parts[1], "x"): 1.0}, {Cause(PLACED, parts[0], "x"): 1.0}, -1.0)
                slopes = added(slopes, {Cause(TRIMMED, parts[0], "right"): 1.0}, -1.0)
                yield Clearance(
                    "board gap", left.board, right.board, "", blank.where,
                    Carried(gap - float(blank.wrap.thick), slopes), "make the gap {more} wider", cover, run.number,
                )  # fmt: skip
