"""All pieces of one paper to sheet plans: the entrance of this folder.

A class of N is first tried as N times one kit, then as fewer, larger shares, then as a whole, so that it never takes more than N
times the sheets of one kit. Likewise pieces that may turn are also tried unturned.
"""

from collections.abc import Iterator, Sequence
from math import gcd

from creasewright.cutting.arranging import Arranger, pieces_in
from creasewright.cutting.cut_order import leaves, ordered_cuts
from creasewright.cutting.cut_tree import CutKnot, Part, Sheet, Tree
from creasewright.cutting.demand import Piece, Stock, Trimmer
from creasewright.cutting.guillotine import Packing, packings, sheets_in, task_of
from creasewright.cutting.lower_bound import fewest_possible
from creasewright.cutting.plan import Box, Cut, Offcut, PaperPlan, Placement, SheetPlan, Side, TooLarge, TrimmerFault
from creasewright.cutting.trimmer_limits import found_at
from creasewright.cutting.whole_numbers import Grid, Reach, Shape, grid_of, lies

COMPARED = 8
"""Packings with equally few sheets whose cuts are worked out and compared."""


def plan_sheets(pieces: Sequence[Piece], stock: Stock, trimmer: Trimmer) -> PaperPlan:
    """Edge-to-edge cutting plans that give exactly these pieces, on as few sheets as were found.

    Pieces that fit no sheet are listed in the plan and left out of it; nothing is raised for them. The same input gives the same
    plan. Ties in sheets go to fewer trimmer faults, then fewer settings, then fewer different sheets, then the largest offcut.
    """
    grid = grid_of(pieces, stock, trimmer)
    cuttable = [piece for piece in pieces if piece.count > 0 and _fits(piece, stock)]
    width, height = grid.whole(stock.usable_width), grid.whole(stock.usable_height)
    shapes = [Shape(grid.whole(piece.width), grid.whole(piece.height), piece.count, piece.may_turn) for piece in cuttable]
    floor = fewest_possible(shapes, width, height)
    reach = grid.reach(trimmer)
    sheet = Sheet(grid.whole(stock.width), grid.whole(stock.height), *(grid.whole(strip) for strip in stock.usable))
    arranged = Arranger(sheet, reach).easiest(_fewest(shapes, width, height, floor)) if shapes else ()
    sheets = tuple(_sheet_plan(tree, count, cuttable, stock, grid) for tree, count in arranged)
    needed = sum(plan.count for plan in sheets)
    faults = tuple(fault for place, (tree, _) in enumerate(arranged) for fault in _trimmer_faults(tree, place, reach, grid))
    too_large = tuple(_too_large(piece, stock) for piece in pieces if piece.count > 0 and not _fits(piece, stock))
    return PaperPlan(stock.paper, sheets, needed, floor, needed == floor, too_large, faults)


def _fits(piece: Piece, stock: Stock) -> bool:
    width, height = stock.usable_width, stock.usable_height
    unturned = piece.width <= width and piece.height <= height
    return unturned or (piece.may_turn and piece.height <= width and piece.width <= height)


def _too_large(piece: Piece, stock: Stock) -> TooLarge:
    return TooLarge(piece.key, piece.width, piece.height, piece.may_turn, stock.usable_width, stock.usable_height)


def _fewest(shapes: Sequence[Shape], width: int, height: int, floor: int) -> list[Packing]:
    """Packings with the fewest sheets found; the search ends when `floor` is reached."""
    best: list[Packing] = []
    for share, times in _shares(shapes):
        if best and -(-floor // times) * times > sheets_in(best[0]):
            continue
        for variant in _turnings(share, width, height):
            found = [_repeated(packing, times) for packing in packings(task_of(variant, width, height), -(-floor // times))]
            if not best or sheets_in(found[0]) < sheets_in(best[0]):
                best = found
            elif sheets_in(found[0]) == sheets_in(best[0]):
                best += found
            if sheets_in(best[0]) == floor:
                return best[:COMPARED]
    return best[:COMPARED]


def _shares(shapes: Sequence[Shape]) -> Iterator[tuple[list[Shape], int]]:
    """The demand as equal shares, with the number of shares: the smallest share, the whole demand, then those between."""
    common = gcd(*(shape.wanted for shape in shapes))
    between = [times for times in range(common - 1, 1, -1) if common % times == 0]
    for times in dict.fromkeys((common, 1, *between)):
        yield [shape._replace(wanted=shape.wanted // times) for shape in shapes], times


def _turnings(shapes: list[Shape], width: int, height: int) -> Iterator[list[Shape]]:
    """The shapes as they may lie; then, if some may turn and none must, all unturned."""
    yield shapes
    unturned = [shape._replace(may_turn=False) for shape in shapes]
    if unturned != shapes and all(lies(shape, width, height) for shape in unturned):
        yield unturned


def _repeated(packing: Packing, times: int) -> Packing:
    return tuple((pattern, count * times) for pattern, count in packing)


def _sheet_plan(tree: Tree, count: int, pieces: Sequence[Piece], stock: Stock, grid: Grid) -> SheetPlan:
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


def _trimmer_faults(tree: Tree, place: int, reach: Reach, grid: Grid) -> list[TrimmerFault]:
    return [
        TrimmerFault(found.kind, place, number, grid.mm(found.figure), grid.mm(found.limit))
        for number, cut in enumerate(ordered_cuts(tree), start=1)
        for found in found_at(cut, reach)
    ]
