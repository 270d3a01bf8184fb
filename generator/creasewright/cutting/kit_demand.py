"""The pieces of a kit as rectangles to cut: counted for all makers, turned as their print and grain ask."""

from fractions import Fraction

from creasewright.cutting.demand import Piece, Stock, Trimmer
from creasewright.cutting.plan import PaperPlan, Placement
from creasewright.cutting.plan_sheets import plan_sheets
from creasewright.fitting.lies import sheet_turns
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece as KitPiece
from creasewright.fitting.worked import Worked
from creasewright.geometry.point import Number


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


def demand(worked: Worked, paper: PaperFacts) -> tuple[Piece, ...]:
    """What is wanted of one paper; `key` is the piece's letter."""
    found = []
    for piece in worked.pieces:
        if piece.blank.paper != paper.name:
            continue
        wide, high = (exact(side) for side in (piece.blank.width, piece.blank.height))
        if turn_on_sheet(piece, paper) % 180 == 90:
            wide, high = high, wide
        found.append(Piece(piece.letter, wide, high, piece.count * worked.makers, lies_freely(piece, paper)))
    return tuple(found)


def exact(side: Number) -> Fraction:
    """A size that geometry gave as a float, to a millionth of a mm."""
    return side if isinstance(side, Fraction) else Fraction(side).limit_denominator(10**6)


def sheets_with(worked: Worked, trimmer: Trimmer, paper: PaperFacts, instead_of: str, halves: tuple[tuple[Number, Number], ...]) -> int:
    """Sheets of a paper where pieces of these sizes, as they lie, are cut in place of each of one letter."""
    wanted = [piece for piece in demand(worked, paper) if piece.key != instead_of]
    count = next(piece.count * worked.makers for piece in worked.pieces if piece.letter == instead_of)
    wanted += [Piece(f"{instead_of}{k}", exact(wide), exact(high), count, False) for k, (wide, high) in enumerate(halves, 1)]
    return plan_sheets(wanted, Stock(paper.name, *paper.sheet, paper.lost), trimmer).sheet_count


def sheets_alone(worked: Worked, trimmer: Trimmer, paper: PaperFacts, letter: str) -> int:
    """Sheets for the pieces of one letter by themselves, on a paper of this size whose print may lie any way."""
    own = next(piece for piece in worked.pieces if piece.letter == letter)
    wanted = [piece for piece in demand(worked, paper) if piece.key == letter]
    grained = own.blank.grain is not None and paper.grain not in ("none", "unknown")
    free = [Piece(piece.key, piece.width, piece.height, piece.count, not grained) for piece in wanted]
    return plan_sheets(free, Stock(paper.name, *paper.sheet, paper.lost), trimmer).sheet_count


def plans_of(worked: Worked, trimmer: Trimmer) -> tuple[PaperPlan, ...]:
    """A plan for each paper that something is cut from, in the design's order."""
    plans = []
    for paper in worked.papers.values():
        wanted = demand(worked, paper)
        if wanted:
            plans.append(plan_sheets(wanted, Stock(paper.name, *paper.sheet, paper.lost), trimmer))
    return tuple(plans)
