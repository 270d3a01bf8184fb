"""How a blank may lie on its sheet: four turns, with the paper's front up or its back, and what forbids some of them."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.point import Number

TURNS = (0, 90, 180, 270)
FRONT, BACK = "front", "back"


class Lie(Struct, frozen=True, order=True):
    """`back_up`: the sheet's back becomes the blank's front. It is turned over so that its back print runs as its front did.

    Lies come in order of liking: front up first, then the least turn.
    """

    back_up: bool
    turn: int
    """Of the blank on the sheet as that lies, clockwise."""


EVERY_LIE = tuple(Lie(back_up, turn) for back_up in (False, True) for turn in TURNS)


def fits(width: Number, height: Number, paper: PaperFacts, turn: int) -> bool:
    wide, high = paper.usable
    across, down = (width, height) if turn % 180 == 0 else (height, width)
    return across <= wide + 1e-6 and down <= high + 1e-6


def grain_runs(blank: Blank, paper: PaperFacts, turn: int) -> bool:
    if blank.grain is None or paper.grain in ("none", "unknown"):
        return True
    return (blank.grain == paper.grain) == (turn % 180 == 0)


def sheet_turns(blank: Blank, paper: PaperFacts) -> list[int]:
    """The turns at which a blank fits its sheet and its grain runs right; all four where none fits (that is another check's)."""
    found = [turn for turn in TURNS if fits(blank.width, blank.height, paper, turn) and grain_runs(blank, paper, turn)]
    return found or list(TURNS)


def sides_up(blank: Blank) -> tuple[bool, ...]:
    """Whether the paper's back may be up, and whether its front may."""
    return {"front": (False,), "back": (True,), "either": (False, True)}[blank.paper_up]


def allowed_lies(blank: Blank, paper: PaperFacts) -> list[Lie]:
    turns = [blank.turn] if blank.turn is not None else sheet_turns(blank, paper)
    return [Lie(back_up, turn) for back_up in sides_up(blank) for turn in turns]


def forbidden_by(blank: Blank, paper: PaperFacts, lie: Lie) -> str:
    """What forbids a lie: `side`, `turn` (the author's), `sheet`, `grain`; empty where nothing does."""
    if lie.back_up not in sides_up(blank):
        return "side"
    if blank.turn is not None:
        return "" if lie.turn == blank.turn else "turn"
    if lie.turn in sheet_turns(blank, paper):
        return ""
    return "grain" if fits(blank.width, blank.height, paper, lie.turn) else "sheet"
