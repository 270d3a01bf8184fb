"""Rectangles from sheets by edge-to-edge cuts: the entrance of this folder, and all that a program needs that has nothing to do
with paper.

    from creasewright.cutting.demand import EFFORTS, Piece, Stock
    from creasewright.cutting.plan_rectangles import plan_rectangles

    plan = plan_rectangles([Piece("A", 64, 40, 12, True), Piece("B", 96, 96, 5, False)], [Stock("board", 192, 192)])
    plan.sheet_count, plan.lower_bound, plan.proved      # 3, 3, True
    [(p.key, p.x, p.y, p.turned) for sheet in plan.sheets for p in sheet.placements]

The aims, in order: the cheapest sheets (with equal prices: the fewest), with the price of settings added where one is wished; then
fewest cuts that the trimmer cannot make well, different settings, different sheets, moves of the stop; then the largest leftover in
one piece.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import ceil, lcm

from creasewright.cutting.arranging import Arranger
from creasewright.cutting.cut_tree import Sheet
from creasewright.cutting.demand import EFFORTS, NO_LIMITS, NO_WISHES, Effort, Piece, Stock, Trimmer, Wishes
from creasewright.cutting.mixing import mixed_anew
from creasewright.cutting.plan import NotLaid, PaperPlan, TooLarge
from creasewright.cutting.polishing import polished
from creasewright.cutting.search.search import Found, search
from creasewright.cutting.search.task import UNLIMITED, Kind, Packing, Rules, Task, cost_of, task_of
from creasewright.cutting.sheet_plan import sheet_plan, trimmer_faults
from creasewright.cutting.whole_numbers import Grid, Reach, Shape, grid_of

Say = Callable[[int, int], None]


def plan_rectangles(
    pieces: Sequence[Piece],
    stocks: Sequence[Stock],
    trimmer: Trimmer = NO_LIMITS,
    wishes: Wishes = NO_WISHES,
    effort: Effort = EFFORTS["usual"],
    say: Say | None = None,
) -> PaperPlan:
    """Cutting plans that give exactly these pieces, as cheaply as was found, and a bound that no plan can beat.

    Pieces that fit no sheet, and those for which there are not enough sheets, are listed in the plan and left out of it; nothing is
    raised for them. The same input, effort and seed give the same plan, unless `effort.seconds` is given. A KeyboardInterrupt ends
    the search with the best plan so far; before there is one it passes. `say(sheets, bound)` is called whenever either gets better.

    `stocks` has at least one entry; sizes are greater than nothing, counts are not negative.
    """
    grid = grid_of(pieces, stocks, trimmer)
    asked = [piece for piece in pieces if piece.count > 0]
    cuttable = [piece for piece in asked if any(_fits(piece, stock) for stock in stocks)]
    too_large = tuple(_too_large(piece, stocks) for piece in asked if piece not in cuttable)
    reach = grid.reach(trimmer)
    arranger = Arranger([_sheet(stock, grid) for stock in stocks], [Fraction(stock.price) for stock in stocks], reach, wishes)
    if not cuttable:
        return _plan(stocks, [], grid, reach, arranger, None, too_large)
    task = _task(cuttable, stocks, grid, wishes)
    found = search(task, effort, say or _silent)
    unit = _unit(stocks, task)
    packing = _easiest(task, found, arranger, effort, reach, unit)
    return _plan(stocks, cuttable, grid, reach, arranger, (task, found, packing), too_large)


def _silent(sheets: int, bound: int) -> None:
    return None


def _fits(piece: Piece, stock: Stock) -> bool:
    width, height = stock.usable_width, stock.usable_height
    unturned = piece.width <= width and piece.height <= height
    return unturned or (piece.may_turn and piece.height <= width and piece.width <= height)


def _too_large(piece: Piece, stocks: Sequence[Stock]) -> TooLarge:
    """Compared with the sheet that has most to use."""
    largest = max(stocks, key=lambda stock: stock.usable_width * stock.usable_height)
    size = Fraction(piece.width), Fraction(piece.height)
    return TooLarge(piece.key, *size, piece.may_turn, largest.usable_width, largest.usable_height)


def _sheet(stock: Stock, grid: Grid) -> Sheet:
    return Sheet(grid.whole(stock.width), grid.whole(stock.height), *(grid.whole(strip) for strip in stock.usable))


def _task(pieces: Sequence[Piece], stocks: Sequence[Stock], grid: Grid, wishes: Wishes) -> Task:
    shapes = [Shape(grid.whole(piece.width), grid.whole(piece.height), piece.count, piece.may_turn) for piece in pieces]
    prices = _whole_prices(stocks, sum(piece.count for piece in pieces))
    kinds = [
        Kind(grid.whole(stock.usable_width), grid.whole(stock.usable_height), price, UNLIMITED if stock.limit is None else stock.limit)
        for stock, price in zip(stocks, prices, strict=True)
    ]
    return task_of(shapes, kinds, None if wishes.stages is None else Rules(wishes.stages))


def _whole_prices(stocks: Sequence[Stock], pieces: int) -> list[int]:
    """Prices as whole numbers so that of two plans that cost the same the one with fewer sheets is cheaper."""
    prices = [Fraction(stock.price) for stock in stocks]
    if len(set(prices)) == 1:
        return [1] * len(prices)
    finest = lcm(*(price.denominator for price in prices))
    return [int(price * finest) * (pieces + 1) + 1 for price in prices]


def _unit(stocks: Sequence[Stock], task: Task) -> Fraction:
    """The price of a sheet by its cost in the search."""
    return Fraction(max(stock.price for stock in stocks)) / max(kind.cost for kind in task.kinds)


def _easiest(task: Task, found: Found, arranger: Arranger, effort: Effort, reach: Reach, unit: Fraction) -> Packing:
    """Of the cheapest packings, and some near them, the one that is easiest to cut. `unit` is the price of a cost of 1."""
    packing = polished(task, arranger, [*found.packings, *mixed_anew(task, arranger, found, unit, effort)], effort)
    if found.packings[0].whole and arranger.burden(packing).faults and reach.least_trim + reach.longest_cut < UNLIMITED:
        rules = Rules(task.rules.stages if task.rules else None, reach.longest_cut, reach.least_trim)
        careful = search(Task(task.shapes, task.kinds, rules, task.ways), EFFORTS["quick"], _silent).packings[0]
        if careful.whole and cost_of(task, careful) <= cost_of(task, packing):
            return arranger.easiest([packing, careful])
    return packing


def _plan(
    stocks: Sequence[Stock],
    pieces: Sequence[Piece],
    grid: Grid,
    reach: Reach,
    arranger: Arranger,
    result: tuple[Task, Found, Packing] | None,
    too_large: tuple[TooLarge, ...],
) -> PaperPlan:
    if result is None:
        return PaperPlan(stocks[0].paper, (), 0, 0, Fraction(0), Fraction(0), True, 0, too_large, (), (), False)
    task, found, packing = result
    arranged = arranger.arranged(packing)
    sheets = tuple(sheet_plan(tree, count, pieces, stocks[kind], grid) for kind, tree, count in arranged)
    faults = tuple(f for place, (_, tree, _) in enumerate(arranged) for f in trimmer_faults(tree, place, reach, grid))
    missing = tuple(NotLaid(piece.key, count) for piece, count in zip(pieces, packing.missing, strict=True) if count)
    price = sum((Fraction(sheet.stock.price) * sheet.count for sheet in sheets), Fraction(0))
    count = sum(sheet.count for sheet in sheets)
    least = _least_price(stocks, task, found, price)
    proved = packing.whole and (count == found.fewest if len({s.price for s in stocks}) == 1 else price == least)
    settings = arranger.burden(packing).settings
    return PaperPlan(
        stocks[0].paper, sheets, count, min(found.fewest, count) if packing.whole else found.fewest, price, least, proved, settings,
        too_large, missing, faults, found.stopped,
    )  # fmt: skip


def _least_price(stocks: Sequence[Stock], task: Task, found: Found, price: Fraction) -> Fraction:
    """The bound as a price.

    A plan of price p (in whole numbers, as in `_whole_prices`) with n sheets costs p * unit + n. Where the cheapest sheet is c, n is at
    most p / c, so that p >= cost / (unit + 1 / c); where sheets are free, n is less than one unit, so that p > cost / unit - 1.
    """
    prices = [Fraction(stock.price) for stock in stocks]
    if len(set(prices)) == 1:
        return prices[0] * found.floor
    finest = lcm(*(each.denominator for each in prices))
    unit = sum(shape.wanted for shape in task.shapes) + 1
    cheapest = min(prices) * finest
    least = ceil(found.floor / (unit + 1 / cheapest)) if cheapest else found.floor // unit
    return min(Fraction(least, finest), price)
