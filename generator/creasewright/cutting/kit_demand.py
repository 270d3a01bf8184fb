"""The pieces of a kit as rectangles to cut: counted for all makers, turned as their print and grain ask."""

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import partial

from msgspec import Struct, field

from creasewright.cutting.demand import EFFORTS, Effort, Piece, Stock, Trimmer, Wishes
from creasewright.cutting.plan import PaperPlan, Placement
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.fitting.lies import sheet_turns
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece as KitPiece
from creasewright.fitting.worked import Worked
from creasewright.geometry.point import Number


class Sheets(Struct, frozen=True):
    """Sheets of one size that the maker has, or can get, in mm."""

    width: Fraction
    height: Fraction
    limit: int | None = None
    price: Fraction | None = None


class Supplies(Struct, frozen=True):
    """What the maker brings to the cutting besides the trimmer."""

    sheets: Mapping[str, tuple[Sheets, ...]] = field(default_factory=dict)
    """By paper; a paper without an entry comes as sold, as many sheets as wished."""
    spares: int = 0
    """More of each piece, in all."""
    spares_of: Mapping[str, int] = field(default_factory=dict)
    """By blank, in place of `spares`."""
    wishes: Wishes = Wishes()
    effort: Effort = EFFORTS["usual"]


NO_SUPPLIES = Supplies()


def lies_freely(piece: KitPiece, paper: PaperFacts) -> bool:
    """Neither print nor grain minds a quarter turn."""
    directed = {"one-way", "two-way"} & {paper.front, paper.back}
    grained = piece.blank.grain is not None and paper.grain not in ("none", "unknown")
    return not directed and not grained and piece.blank.turn is None


def turn_on_sheet(piece: KitPiece, paper: PaperFacts) -> int:
    """The clockwise turn of the blank as it lies on its sheet before the planner may turn it freely."""
    directed = {"one-way", "two-way"} & {paper.front, paper.back}
    if directed or piece.blank.turn is not None:
        return piece.turn
    return sheet_turns(piece.blank, paper)[0]


def turn_as_placed(piece: KitPiece, paper: PaperFacts, placement: Placement) -> int:
    """The clockwise turn of the blank as a plan lays it."""
    return (turn_on_sheet(piece, paper) + (90 if placement.turned else 0)) % 360


def demand(worked: Worked, paper: PaperFacts, supplies: Supplies = NO_SUPPLIES) -> tuple[Piece, ...]:
    """What is wanted of one paper, spares among it; `key` is the piece's letter."""
    found = []
    for piece in worked.pieces:
        if piece.blank.paper != paper.name:
            continue
        wide, high = (exact(side) for side in (piece.blank.width, piece.blank.height))
        if turn_on_sheet(piece, paper) % 180 == 90:
            wide, high = high, wide
        count = piece.count * worked.makers + spares_of(piece, supplies)
        found.append(Piece(piece.letter, wide, high, count, lies_freely(piece, paper)))
    return tuple(found)


def spares_of(piece: KitPiece, supplies: Supplies) -> int:
    return supplies.spares_of.get(piece.blank.name, supplies.spares)


def stocks_of(paper: PaperFacts, supplies: Supplies) -> tuple[Stock, ...]:
    """The sheets of a paper that there are; where none has a price, each counts as 1."""
    there = supplies.sheets.get(paper.name) or (Sheets(*paper.sheet, None, price_of_a_sheet(paper)),)
    known = any(sheets.price is not None for sheets in there)
    return tuple(
        Stock(paper.name, one.width, one.height, paper.lost, (one.price or Fraction(0)) if known else Fraction(1), one.limit)
        for one in there
    )


def price_of_a_sheet(paper: PaperFacts) -> Fraction | None:
    """From the price of a pack, where both are known as numbers."""
    number = paper.price.partition(" ")[0].replace(",", ".")
    if not paper.pack or number.count(".") > 1 or not number.replace(".", "").isdigit():
        return None
    return Fraction(number) / paper.pack


def exact(side: Number) -> Fraction:
    """A size that geometry gave as a float, to a millionth of a mm."""
    return side if isinstance(side, Fraction) else Fraction(side).limit_denominator(10**6)


def sheets_with(worked: Worked, trimmer: Trimmer, paper: PaperFacts, instead_of: str, halves: tuple[tuple[Number, Number], ...]) -> int:
    """Sheets of a paper where pieces of these sizes, as they lie, are cut in place of each of one letter."""
    wanted = [piece for piece in demand(worked, paper) if piece.key != instead_of]
    count = next(piece.count * worked.makers for piece in worked.pieces if piece.letter == instead_of)
    wanted += [Piece(f"{instead_of}{k}", exact(wide), exact(high), count, False) for k, (wide, high) in enumerate(halves, 1)]
    return plan_rectangles(wanted, [Stock(paper.name, *paper.sheet, paper.lost)], trimmer).sheet_count


def sheets_alone(worked: Worked, trimmer: Trimmer, paper: PaperFacts, letter: str) -> int:
    """Sheets for the pieces of one letter by themselves, on a paper of this size whose print may lie any way."""
    own = next(piece for piece in worked.pieces if piece.letter == letter)
    wanted = [piece for piece in demand(worked, paper) if piece.key == letter]
    grained = own.blank.grain is not None and paper.grain not in ("none", "unknown")
    free = [Piece(piece.key, piece.width, piece.height, piece.count, not grained) for piece in wanted]
    return plan_rectangles(free, [Stock(paper.name, *paper.sheet, paper.lost)], trimmer).sheet_count


def plans_of(
    worked: Worked, trimmer: Trimmer, supplies: Supplies = NO_SUPPLIES, say: Callable[[str, int, int], None] | None = None
) -> tuple[PaperPlan, ...]:
    """A plan for each paper that something is cut from, in the design's order. `say(paper, sheets, bound)` tells of progress."""
    plans = []
    for paper in worked.papers.values():
        wanted = demand(worked, paper, supplies)
        if wanted:
            told = partial(say, paper.called) if say else None
            plans.append(plan_rectangles(wanted, stocks_of(paper, supplies), trimmer, supplies.wishes, supplies.effort, told))
    return tuple(plans)
