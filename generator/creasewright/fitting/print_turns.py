"""How each blank lies on its sheet so that the wished faces read upright, the most important first; or which of them cannot.

Wish     a face that should read upright in a stage
Lie      a turn of the blank on its sheet, with the paper's front or back up
Choice   the lie of a blank that keeps its wishes best: compared one after the other in rank order, so that no number of lesser
         wishes outweighs a greater one; of equals the first of `Lie`'s order

Parts decide apart from each other, but all parts of one blank take the same side of the paper.
"""

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.lies import BACK, EVERY_LIE, FRONT, Lie, allowed_lies, forbidden_by
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import print_turn
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import Vector, rotate


class Wish(Struct, frozen=True, eq=False):
    """A panel that should read upright, in a state and the view of its body there."""

    panel: PanelKey
    stage: str
    state: State
    body: Body
    side: str | None
    """The side of the panel that shows there, `front` or `back`; None where neither does."""


class WishResult(Struct, frozen=True, eq=False):
    wish: Wish
    turn: int | None
    """How the print stands there with the chosen lie: 0 upright; None where any way is right."""
    upright: bool
    """It reads upright, or any way is right."""
    ways: tuple[Lie, ...]
    """The lies, allowed or not, in which it would be upright."""
    forbidden: tuple[str, ...]
    """What forbids each of them, in the same order (`fits` says the words); empty where nothing does."""
    outranked_by: tuple[int, ...]
    """Where it is not upright though some lie would allow it: the wishes of higher rank, by number, that would not be then."""

    @property
    def side(self) -> str | None:
        return self.wish.side

    @property
    def can_be(self) -> bool:
        """With the paper's side as it is some turn makes it upright, if no wish of higher rank, sheet or grain spoke against it."""
        return any(why != "side" for why in self.forbidden)


class Solved(Struct, frozen=True):
    lies: dict[str, Lie]
    """By part path."""
    results: tuple[WishResult, ...]
    """In the order of the wishes."""


def solved_lies(state: State, papers: dict[str, PaperFacts], wishes: list[Wish]) -> Solved:
    by_part: dict[str, list[int]] = {}
    for number, wish in enumerate(wishes):
        by_part.setdefault(wish.panel[0], []).append(number)
    by_blank: dict[str, list[str]] = {}
    for path, blank in state.blanks.items():
        if blank.paper in papers:
            by_blank.setdefault(blank.name, []).append(path)
    lies: dict[str, Lie] = {}
    for paths in by_blank.values():
        lies |= best_side([best_turns(state.blanks[path], papers, wishes, path, by_part.get(path, [])) for path in paths])
    return Solved(lies, tuple(result(number, wishes, papers, lies) for number in range(len(wishes))))


Kept = tuple[tuple[int, bool], ...]
"""Wishes by number and whether they are upright, in rank order."""


def best_turns(
    blank: Blank, papers: dict[str, PaperFacts], wishes: list[Wish], path: str, numbers: list[int]
) -> dict[bool, tuple[Kept, str, Lie]]:
    """For each side of the paper that may be up the best lie of a part, with the wishes it keeps."""
    paper = papers[blank.paper]
    found: dict[bool, tuple[Kept, str, Lie]] = {}
    for lie in sorted(allowed_lies(blank, paper)):
        kept = tuple((number, upright(wishes[number], paper, lie)) for number in numbers)
        if lie.back_up not in found or [k for _, k in kept] > [k for _, k in found[lie.back_up][0]]:
            found[lie.back_up] = kept, path, lie
    return found


def best_side(parts: list[dict[bool, tuple[Kept, str, Lie]]]) -> dict[str, Lie]:
    """The same side of the paper for all parts of a blank: the one that keeps the most important wishes of all of them."""

    def kept(side: bool) -> list[bool]:
        return [upright for _, upright in sorted(pair for part in parts for pair in part[side][0])]

    side = max(sorted(parts[0]), key=lambda side: (kept(side), not side))
    return {part[side][1]: part[side][2] for part in parts}


def looked_at(wish: Wish) -> tuple[str, Vector]:
    """The side of the panel that the reader looks at, and its normal in the view.

    Where neither shows: the one towards the maker, or the front of a panel that stands.
    """
    normal = rotate(wish.body.view, front_normal(wish.state.placed[wish.panel]))
    away = (-normal[0], -normal[1], -normal[2])
    side = wish.side if wish.side is not None else (BACK if normal[2] > 0.05 else FRONT)
    return (side, normal) if side == FRONT else (side, away)


def stands(wish: Wish, paper: PaperFacts, lie: Lie) -> int | None:
    """Clockwise turn of the print on the face that is looked at; None where any way is right."""
    side, normal = looked_at(wish)
    return print_turn(wish.state, wish.body, wish.panel, side, normal, paper.with_up(lie.back_up), lie.turn)


def upright(wish: Wish, paper: PaperFacts, lie: Lie) -> bool:
    """A print that is drawn on panel by panel is upright by being drawn so."""
    side, _ = looked_at(wish)
    return paper.with_up(lie.back_up).print_of(side) == "by panel" or stands(wish, paper, lie) in (0, None)


def result(number: int, wishes: list[Wish], papers: dict[str, PaperFacts], lies: dict[str, Lie]) -> WishResult:
    wish = wishes[number]
    part = wish.panel[0]
    blank = wish.state.blanks[part]
    paper = papers.get(blank.paper)
    if paper is None:
        return WishResult(wish, None, True, EVERY_LIE, ("",) * len(EVERY_LIE), ())
    ways = tuple(lie for lie in EVERY_LIE if upright(wish, paper, lie))
    forbidden = tuple(forbidden_by(blank, paper, lie) for lie in ways)
    here = lies[part]
    outranked: tuple[int, ...] = ()
    if here not in ways:
        above = [k for k in range(number) if wishes[k].panel[0] == part and upright(wishes[k], paper, here)]
        lost = [tuple(k for k in above if not upright(wishes[k], paper, lie)) for lie, why in zip(ways, forbidden, strict=True) if not why]
        outranked = min(lost, key=lambda some: (-some[0], len(some)) if some else (0, 0), default=())
    return WishResult(wish, stands(wish, paper, here), here in ways, ways, forbidden, outranked)
