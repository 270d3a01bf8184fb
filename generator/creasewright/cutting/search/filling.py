"""One sheet filled with pieces, in one way: free rectangles, each split edge to edge when a piece goes into it.

A method says which free rectangle takes a piece, which way what is left of that rectangle is split, and whether equal pieces go
in one by one or in runs. Each split is a cut right through a rectangle, so the sheet can be cut up edge to edge.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from creasewright.cutting.search.task import Ways
from creasewright.cutting.whole_numbers import Laid

Split = Literal["shorter", "longer", "largest", "across", "down"]
Fit = Literal["area", "side"]
Run = Literal["single", "row", "column"]


class Method(NamedTuple):
    """How a sheet is filled.

    split  where the leftover right of a piece and the one below it part: along the "shorter" or the "longer" of both, so that the
           "largest" rectangle stays whole, or always "across" or "down"
    fit    the free rectangle with least "area" left, or the one whose tighter "side" is tightest
    run    equal pieces one by one, or as many as go in a "row" or a "column" of the free rectangle
    """

    split: Split
    fit: Fit
    run: Run


class _Block(NamedTuple):
    """Equal pieces, columns x rows, in one free rectangle."""

    free: int
    width: int
    height: int
    turned: bool
    columns: int
    rows: int


def fill_sheet(
    order: Sequence[int], ways: Sequence[Ways], left: Sequence[int], width: int, height: int, method: Method
) -> list[Laid]:
    """Pieces on one sheet.

    order  indexes in the order they are tried
    ways   for each index, the ways it may lie on the sheet
    left   for each index, how many are still wanted
    """
    free = [(0, 0, width, height)]
    laid: list[Laid] = []
    for index in order:
        wanted = left[index]
        while wanted and free:
            block = _best_block(free, ways[index], wanted, method)
            if block is None:
                break
            x, y, free_width, free_height = free.pop(block.free)
            for row in range(block.rows):
                for column in range(block.columns):
                    laid.append(
                        Laid(index, x + column * block.width, y + row * block.height, block.width, block.height, block.turned)
                    )
            taken_width, taken_height = block.columns * block.width, block.rows * block.height
            free += _split(x, y, free_width, free_height, taken_width, taken_height, method.split)
            wanted -= block.columns * block.rows
    return laid


def _best_block(free: list[tuple[int, int, int, int]], ways: Ways, wanted: int, method: Method) -> _Block | None:
    best: _Block | None = None
    least = -1
    by_area, run = method.fit == "area", method.run
    for place, (_, _, free_width, free_height) in enumerate(free):
        for width, height, turned in ways:
            if width > free_width or height > free_height:
                continue
            columns = min(wanted, free_width // width) if run == "row" else 1
            rows = min(wanted, free_height // height) if run == "column" else 1
            right, below = free_width - columns * width, free_height - rows * height
            if by_area:
                waste = free_width * free_height - columns * width * rows * height
            else:
                waste = right if right < below else below
            if best is None or waste < least:
                best, least = _Block(place, width, height, turned, columns, rows), waste
    return best


def _split(
    x: int, y: int, free_width: int, free_height: int, width: int, height: int, split: Split
) -> list[tuple[int, int, int, int]]:
    """What is left of a free rectangle when its head-left corner is taken: what lies right of it, and what lies below."""
    right, below = free_width - width, free_height - height
    if split == "shorter":
        across = right < below
    elif split == "longer":
        across = right >= below
    elif split == "largest":
        across = free_width * below >= right * free_height
    else:
        across = split == "across"
    parts: list[tuple[int, int, int, int]] = []
    if right:
        parts.append((x + width, y, right, height if across else free_height))
    if below:
        parts.append((x, y + height, free_width if across else width, below))
    return parts
