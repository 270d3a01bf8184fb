"""Where a free part lands: its contact panel against the target, as both lie before the maker.

Rotation: heads agree, or `turned`. Position: pairs of lines made collinear, one in each direction; or centres; or nothing
for equal outlines.
"""

from msgspec import Struct

from creasewright.folding.fold_scores import piece_of
from creasewright.folding.references import panels_named, pieces_named
from creasewright.folding.refused import called
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import (
    Matrix,
    Rigid,
    about_vertical,
    compose,
    inverse,
    rotate,
    times,
    transposed,
)
from creasewright.joining.compass import SIDES, Box, box, point_in_view, polygon_in_view, side_value
from creasewright.joining.refused import JoinRefused

EQUAL = 0.02
"""Outlines that differ by less than this (mm) are equal."""


class LineWish(Struct, frozen=True):
    """A line by its words, moved inwards by `by` mm."""

    words: str
    by: float


class PlaceWish(Struct, frozen=True):
    pairs: tuple[tuple[LineWish, LineWish], ...]
    centre: bool
    reveal: float | None
    turned: float


def line_value(state: State, body: Body, panels: list[PanelKey], wish: LineWish) -> tuple[str, float]:
    """("x" or "y", value in the view) of a line: a side of these panels, a side `of` another panel, or a score."""
    words = wish.words
    side, _, owner = words.partition(" of ")
    if side in SIDES:
        shown = panels if not owner else panels_named(state, owner)
        value = side_value(box([polygon_in_view(state, body, p) for p in shown]), side)
        inward = 1.0 if side in ("head", "left") else -1.0
        return ("x" if side in ("left", "right") else "y"), value + inward * wish.by
    return score_value(state, body, panels, wish)


def middle_value(state: State, body: Body, panels: list[PanelKey], wish: LineWish, axis: str) -> tuple[str, float] | None:
    """`middle of spine`: half-way across that panel, the way the other line of the pair runs; None for any other line."""
    if not wish.words.startswith("middle of "):
        return None
    owner = wish.words.removeprefix("middle of ")
    named = [panel for panel in panels if panel[1] == owner] or panels_named(state, owner)
    left, head, right, tail = box([polygon_in_view(state, body, panel) for panel in named])
    return axis, ((left + right) / 2 if axis == "x" else (head + tail) / 2) + wish.by


def score_value(state: State, body: Body, panels: list[PanelKey], wish: LineWish) -> tuple[str, float]:
    key = pieces_named(state, wish.words)[0]
    piece = piece_of(state, key)
    (ax, ay), (bx, by) = (
        point_in_view(state, body, (key[0], piece.first), float(p.x), float(p.y)) for p in (piece.start, piece.end)
    )
    here = box([polygon_in_view(state, body, p) for p in panels])
    if abs(ax - bx) < EQUAL:
        inward = 1.0 if (here[0] + here[2]) / 2 > ax else -1.0
        return "x", ax + inward * wish.by
    if abs(ay - by) < EQUAL:
        inward = 1.0 if (here[1] + here[3]) / 2 > ay else -1.0
        return "y", ay + inward * wish.by
    raise JoinRefused(f"the score `{wish.words}` runs aslant here", "meet an edge or a score that runs straight up or across")


def shift_for(
    state: State, thing: Body, by: list[PanelKey], turn: Matrix, body: Body, onto: list[PanelKey], wish: PlaceWish
) -> tuple[float, float]:
    """How far the thing moves in the view, after it was turned."""
    turned = Body(thing.parts, thing.stacks, times(turn, thing.view))
    mine = box([polygon_in_view(state, turned, p) for p in by])
    theirs = box([polygon_in_view(state, body, p) for p in onto])
    if wish.pairs:
        return shift_by_pairs(state, turned, by, body, onto, wish)
    if wish.centre or wish.reveal is not None or equal(mine, theirs):
        if wish.reveal is not None:
            check_reveal(mine, theirs, wish.reveal, by, onto)
        return (
            (theirs[0] + theirs[2] - mine[0] - mine[2]) / 2,
            (theirs[1] + theirs[3] - mine[1] - mine[3]) / 2,
        )
    raise JoinRefused(
        f"{called(by[0])} and {called(onto[0])} differ in size, so their place is open",
        "add `meet:` with one pair of lines in each direction, or `meet: centre`",
    )


def equal(a: Box, b: Box) -> bool:
    return abs((a[2] - a[0]) - (b[2] - b[0])) < EQUAL and abs((a[3] - a[1]) - (b[3] - b[1])) < EQUAL


def check_reveal(mine: Box, theirs: Box, reveal: float, by: list[PanelKey], onto: list[PanelKey]) -> None:
    wide = ((theirs[2] - theirs[0]) - (mine[2] - mine[0])) / 2
    high = ((theirs[3] - theirs[1]) - (mine[3] - mine[1])) / 2
    if abs(wide - reveal) > 0.1 or abs(high - reveal) > 0.1:
        raise JoinRefused(
            f"{called(by[0])} leaves {wide:.2f} mm at the sides and {high:.2f} mm at head and tail of {called(onto[0])}, "
            f"not {reveal:.2f} mm all round",
            "change its size, or the reveal",
        )


def shift_by_pairs(
    state: State, turned: Body, by: list[PanelKey], body: Body, onto: list[PanelKey], wish: PlaceWish
) -> tuple[float, float]:
    found: dict[str, float] = {}
    for mine, theirs in wish.pairs:
        axis, from_ = line_value(state, turned, by, mine)
        other, to = middle_value(state, body, onto, theirs, axis) or line_value(state, body, onto, theirs)
        if axis != other:
            raise JoinRefused(f"`{mine.words}` and `{theirs.words}` run in different directions", "pair lines that run alike")
        if axis in found:
            way = "left-right" if axis == "x" else "head-tail"
            raise JoinRefused(f"`meet` fixes the {way} place twice", "give one pair in each direction")
        found[axis] = to - from_
    missing = [words for axis, words in (("x", "left to right"), ("y", "head to tail")) if axis not in found]
    if missing:
        raise JoinRefused(f"`meet` leaves the place open {missing[0]}", "add a pair of lines in that direction")
    return found["x"], found["y"]


def motion_onto(state: State, thing: Body, by: list[PanelKey], body: Body, onto: list[PanelKey], wish: PlaceWish) -> Rigid:
    """The move of the thing's body in the world that lays `by` on `onto` (mid-planes agree; thickness is a matter of layers)."""
    turn = about_vertical(wish.turned)
    return motion_by(state, thing, by, turn, body, onto, shift_for(state, thing, by, turn, body, onto, wish))


def motion_by(
    state: State, thing: Body, by: list[PanelKey], turn: Matrix, body: Body, onto: list[PanelKey], shift: tuple[float, float]
) -> Rigid:
    """The move in the world of a thing that is turned and then shifted in the view, down to the plane of its target."""
    dx, dy = shift
    view = times(turn, thing.view)
    mine = rotate(view, state.placed[by[0]].shift)[2]
    theirs = rotate(body.view, state.placed[onto[0]].shift)[2]
    in_view = Rigid(view, (dx, dy, theirs - mine))
    return compose(Rigid(transposed(body.view), (0.0, 0.0, 0.0)), in_view)


def cover_of(state: State, board: str, cover: str) -> str | None:
    """The part made of the blank `cover` that a board is held by."""
    for bond in state.bonds:
        for mine, other in ((bond.first[0], bond.second[0]), (bond.second[0], bond.first[0])):
            wrap = state.blanks[other].wrap
            if mine == board and wrap is not None and state.blanks[other].name == cover:
                return other
    return None


def source_motion(state: State, part: str, target: str) -> Rigid | None:
    """For a blank made like another's panels and put onto just those, or onto boards that lie on them: it goes where they are."""
    blank = state.blanks[part]
    if blank.source is None:
        return None
    below = target if state.blanks[target].name == blank.source.blank else cover_of(state, target, blank.source.blank)
    if below is None:
        return None
    target = below
    a, b, c, d, e, f = blank.source.to_source
    det = a * d - b * c
    into = Rigid((a, c, 0.0, b, d, 0.0, 0.0, 0.0, 1.0 if det > 0 else -1.0), (e, f, 0.0))
    home = state.placed[(target, blank.source.panels[0])]
    mine = state.placed[(part, blank.panels[0].name)]
    return compose(compose(home, into), inverse(mine))
