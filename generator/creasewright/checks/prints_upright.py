"""Faces that should read upright and do not: why, and what would help at what cost."""

from creasewright.checks.facts import Facts
from creasewright.cutting.kit_demand import sheets_alone, sheets_with
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.fitting.print_turns import WishResult
from creasewright.fitting.print_ways import OtherSide, Split, alternatives
from creasewright.folding.refused import called
from creasewright.problems import WARNS, Finding

STANDS = {90: "sideways, its top to the right", 180: "upside down", 270: "sideways, its top to the left"}
FORBIDDEN = {
    "turn": "`turn` of the blank keeps it so",
    "sheet": "turned the right way the blank does not fit its sheet",
    "grain": "turned the right way the blank has its grain across",
}
PRINTS = {"plain": "the plain side", "one-way": "a one-way print", "two-way": "a two-way print", "all-over": "an all-over print"}


def prints_upright(facts: Facts) -> list[Finding]:
    found = []
    for number, result in enumerate(facts.worked.wishes):
        where = facts.worked.design.finished.upright[number].panel.where
        panel = called(result.wish.panel)
        if result.side is None:
            found.append(
                Finding(
                    WARNS, "print", where, f"{panel} does not show in stage {result.wish.stage}",
                    "name a stage in which it is seen, or take it off the list",
                )
            )  # fmt: skip
        elif not result.upright:
            found.append(Finding(WARNS, "print", where, f"{words(panel, result)}: {why(facts, result)}", remedy(facts, number, result)))
    return found


def words(panel: str, result: WishResult) -> str:
    turn = STANDS.get(result.turn or 0, f"turned by {result.turn}°")
    return f"the print on {panel} stands {turn} in stage {result.wish.stage}"


def why(facts: Facts, result: WishResult) -> str:
    if result.outranked_by:
        verb = "needs" if len(result.outranked_by) == 1 else "need"
        return f"{faces(facts, result.outranked_by)}, higher on the list, {verb} its blank the other way"
    reasons = {why for why in result.forbidden if why not in ("", "side")}
    known = [text for key, text in FORBIDDEN.items() if key in reasons]
    return known[0] if known else "no turn of its blank by quarters sets it upright"


def faces(facts: Facts, numbers: tuple[int, ...]) -> str:
    return " and ".join(dict.fromkeys(called(facts.worked.wishes[k].wish.panel) for k in numbers))


def remedy(facts: Facts, number: int, result: WishResult) -> str:
    """Every way out that was worked out, with its cost; the cheapest to write first."""
    worked = facts.worked
    part = result.wish.panel[0]
    piece = next(piece for piece in worked.pieces if part in piece.parts)
    paper = worked.papers[piece.blank.paper]
    found = alternatives(number, worked.wishes, paper, worked.lies[part], worked.system)
    ways = ["move it up the list"] if result.outranked_by else []
    if found.other_side is not None:
        ways.append(other_side(facts, piece, found.other_side))
    if found.split is not None:
        ways.append(split(facts, piece, paper, found.split))
    count = sheets_alone(worked, facts.trimmer, paper, piece.letter)
    ways.append(f"use a paper printed all over for {piece.blank.name} ({sheets(count)})")
    return ", or ".join(ways)


def other_side(facts: Facts, piece: Piece, found: OtherSide) -> str:
    side = "back" if found.lie.back_up else "front"
    way = f"write `paper up: {side}` for {piece.blank.name}: it shows {PRINTS.get(found.print, found.print)} there"
    others = faces(facts, found.changed)
    return way + (f", and {others} too" if others else "")


def split(facts: Facts, piece: Piece, paper: PaperFacts, found: Split) -> str:
    lying = tuple((h.width, h.height) if h.lie.turn % 180 == 0 else (h.height, h.width) for h in found.halves)
    after = sheets_with(facts.worked, facts.trimmer, paper, piece.letter, lying)
    before = next(plan.sheet_count for plan in facts.plans if plan.paper == paper.name)
    cost = f"{sheets(after)} of {paper.name}" + (f" in place of {before}" if after != before else " as before")
    joint = f"a strip {facts.said(found.joint)} wide along {facts.said(found.length)}"
    return f"cut {piece.blank.name} in two at {found.score} and join the halves over {joint} (one piece more, {cost})"


def sheets(count: int) -> str:
    return "1 sheet" if count == 1 else f"{count} sheets"
