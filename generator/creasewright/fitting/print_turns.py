"""The turn of each blank on its sheet that keeps the wished faces upright, or the faces that cannot be."""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import print_turn
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import rotate

TURNS = (0, 90, 180, 270)


class Wish(Struct, frozen=True):
    """A panel that should read upright, in a state and the view of its body there."""

    panel: PanelKey
    stage: str
    state: State
    body: Body


class WishResult(Struct, frozen=True):
    wish: Wish
    side: str | None
    """The side of the paper that is looked at; None where the panel does not face the reader in that stage."""
    turn: int | None
    """How the print stands there with the chosen turn: 0 upright; None where any way is right."""
    can_be: bool
    """Some turn of the blank would make it upright, if no wish of higher rank spoke against it."""
    upright: bool
    """It reads upright, or any way is right."""


def sheet_turns(blank: Blank, paper: PaperFacts) -> list[int]:
    """The turns at which a blank fits its sheet and its grain runs right; all four where none fits (that is another check's)."""
    wide, high = paper.usable
    found = []
    for turn in TURNS:
        across, down = (blank.width, blank.height) if turn % 180 == 0 else (blank.height, blank.width)
        if across <= wide + 1e-6 and down <= high + 1e-6 and grain_runs(blank, paper, turn):
            found.append(turn)
    return found or list(TURNS)


def grain_runs(blank: Blank, paper: PaperFacts, turn: int) -> bool:
    if blank.grain is None or paper.grain in ("none", "unknown"):
        return True
    return (blank.grain == paper.grain) == (turn % 180 == 0)


def looked_at(wish: Wish) -> tuple[str, tuple[float, float, float]] | None:
    """The side of the panel that faces the reader and its normal in the view: towards the maker, or on a standing thing outwards."""
    normal = rotate(wish.body.view, front_normal(wish.state.placed[wish.panel]))
    if abs(normal[2]) > 0.05:
        return ("front", normal) if normal[2] < 0 else ("back", (-normal[0], -normal[1], -normal[2]))
    return "front", normal


def stands(wish: Wish, paper: PaperFacts, turn: int, side: str, normal: tuple[float, float, float]) -> int | None:
    return print_turn(wish.state, wish.body, wish.panel, side, normal, paper, turn)


def solved_turns(
    state: State, papers: dict[str, PaperFacts], wishes: list[Wish], visible: dict[int, str]
) -> tuple[dict[str, int], list[WishResult]]:
    """The turn of each part's blank, and how each wish came out, in rank order.

    `visible` gives, for a wish's number, the side of its panel that shows; the side looked at is that one.
    Blanks decide apart from each other; for each the first turn that keeps the most important wishes is taken.
    """
    turns: dict[str, int] = {}
    by_part: dict[str, list[int]] = {}
    for number, wish in enumerate(wishes):
        by_part.setdefault(wish.panel[0], []).append(number)
    for path, blank in state.blanks.items():
        paper = papers.get(blank.paper)
        if paper is None:
            continue
        allowed = [blank.turn] if blank.turn is not None else sheet_turns(blank, paper)
        turns[path] = max(
            allowed, key=lambda t: ([upright(wishes[n], paper, t, visible.get(n)) for n in by_part.get(path, [])], -t)
        )
    return turns, [result(wish, papers, turns, visible.get(number)) for number, wish in enumerate(wishes)]


def faced(wish: Wish, side: str | None) -> tuple[str, tuple[float, float, float]]:
    own = looked_at(wish)
    assert own is not None
    if side is None or side == own[0]:
        return own
    normal = own[1]
    return side, (-normal[0], -normal[1], -normal[2])


def upright(wish: Wish, paper: PaperFacts, turn: int, side: str | None) -> bool:
    """A print that is drawn on panel by panel is upright by being drawn so."""
    seen, normal = faced(wish, side)
    if (paper.front if seen == "front" else paper.back) == "by panel":
        return True
    return stands(wish, paper, turn, seen, normal) in (0, None)


def result(wish: Wish, papers: dict[str, PaperFacts], turns: dict[str, int], side: str | None) -> WishResult:
    paper = papers.get(wish.state.blanks[wish.panel[0]].paper)
    if paper is None:
        return WishResult(wish, side, None, True, True)
    seen, normal = faced(wish, side)
    now = stands(wish, paper, turns.get(wish.panel[0], 0), seen, normal)
    can = any(upright(wish, paper, turn, side) for turn in TURNS)
    return WishResult(wish, side, now, can, upright(wish, paper, turns.get(wish.panel[0], 0), side))
