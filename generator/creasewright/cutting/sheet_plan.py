"""A way to cut one sheet, in whole units, as a sheet plan in the lengths that were given."""

from collections.abc import Sequence

from creasewright.cutting.arranging import pieces_in
from creasewright.cutting.cut_order import leaves, ordered_cuts
from creasewright.cutting.cut_tree import CutKnot, Part, Tree
from creasewright.cutting.demand import Piece, Stock
from creasewright.cutting.plan import Box, Cut, Offcut, Placement, SheetPlan, Side, TrimmerFault
from creasewright.cutting.trimmer_limits import found_at
from creasewright.cutting.whole_numbers import Grid, Reach


def sheet_plan(tree: Tree, count: int, pieces: Sequence[Piece], stock: Stock, grid: Grid) -> SheetPlan:
    finished = sorted(leaves(tree), key=lambda leaf: (leaf.part.y, leaf.part.x))
    placements = tuple(
        Placement(pieces[leaf.index].key, *_box(leaf.part, grid), leaf.turned) for leaf in finished if leaf.kind == "pieces"
    )
    offcuts = [Offcut(*_box(leaf.part, grid)) for leaf in finished if leaf.kind == "offcut"]
    largest_first = tuple(sorted(offcuts, key=lambda offcut: offcut.width * offcut.height, reverse=True))
    return SheetPlan(stock, count, placements, _cuts(tree, pieces, grid), largest_first)


def _cuts(tree: Tree, pieces: Sequence[Piece], grid: Grid) -> tuple[Cut, ...]:
    made: list[Cut] = []
    for number, knot in enumerate(ordered_cuts(tree), start=1):
        far = knot.from_edge in ("right", "tail")
        whole = knot.part.width if knot.direction == "down" else knot.part.height
        setting = grid.mm(knot.setting)
        made.append(
            Cut(
                number=number,
                direction=knot.direction,
                position=grid.mm(whole - knot.setting if far else knot.setting),
                piece_rect=_box(knot.part, grid),
                from_edge=knot.from_edge,
                setting=setting,
                same_setting=bool(made) and made[-1].setting == setting,
                kept=_side(knot.kept, pieces, grid),
                other=_side(knot.other, pieces, grid),
            )
        )
    return tuple(made)


def _side(tree: Tree, pieces: Sequence[Piece], grid: Grid) -> Side:
    kind = "pieces" if isinstance(tree, CutKnot) else tree.kind
    return Side(kind, _box(tree.part, grid), tuple(pieces[index].key for index in pieces_in(tree)))


def _box(part: Part, grid: Grid) -> Box:
    return grid.mm(part.x), grid.mm(part.y), grid.mm(part.width), grid.mm(part.height)


def trimmer_faults(tree: Tree, place: int, reach: Reach, grid: Grid) -> list[TrimmerFault]:
    return [
        TrimmerFault(found.kind, place, number, grid.mm(found.figure), grid.mm(found.limit))
        for number, cut in enumerate(ordered_cuts(tree), start=1)
        for found in found_at(cut, reach)
    ]
