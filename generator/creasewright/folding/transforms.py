"""Transforms from angles: spread from one panel over scores and bonds, and every loop checked."""

from math import acos, degrees

from msgspec import Struct

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.panel_graph import Link, neighbours
from creasewright.folding.state import Bond, PanelKey, PieceKey, State
from creasewright.geometry.rigid_transform import (
    Rigid,
    Vector,
    about_line,
    apply,
    compose,
    inverse,
    minus,
    norm,
    times,
    transposed,
)

Placed = dict[PanelKey, Rigid]

LOOP_MM = 0.01
LOOP_DEGREES = 0.01


class LoopFault(Struct, frozen=True):
    """Two ways round a loop that do not meet."""

    link: Link
    gap_mm: float
    gap_degrees: float


def across(state: State, part: str, piece: ScorePiece, start: str, angle: float) -> Rigid:
    """The move from the frame of panel `start` to that of its neighbour over `piece` folded by `angle`.

    Positive angles bring the fronts together: with z down through the sheet the far panel turns towards -z. Walking down the
    page along the line, a far panel at larger x is lifted towards -z by a positive right-handed turn; on the other side the sign
    changes. One test fixes it: a strip, one valley, front inside.
    """
    a = (float(piece.start.x), float(piece.start.y))
    b = (float(piece.end.x), float(piece.end.y))
    return about_line(a, b, -angle if turns_clockwise(state, part, piece, start) else angle)


def turns_clockwise(state: State, part: str, piece: ScorePiece, start: str) -> bool:
    """Whether the panel beyond `piece`, seen from panel `start`, turns by the left-hand rule along the score as its angle grows."""
    other = piece.second if start == piece.first else piece.first
    return state.blanks[part].beyond(piece, other)


def over_link(state: State, link: Link, start: PanelKey, angles: dict[PieceKey, float]) -> Rigid:
    if link.piece is not None and link.piece_key is not None:
        return across(state, start[0], link.piece, start[1], angles.get(link.piece_key, 0.0))
    assert link.bond is not None
    relative = held_at(state, link.bond, angles)
    return relative if start == link.bond.first else inverse(relative)


def held_at(state: State, bond: Bond, angles: dict[PieceKey, float]) -> Rigid:
    """Where a bond holds its second panel in the frame of its first.

    A sewn line holds the fold of the leaf, not its two halves: what it is sewn to stays square to the plane that halves the fold,
    so each half turns about the line by half of the fold's angle, the one this way and the other that way.
    """
    if bond.hinge is None:
        return bond.relative
    part, name = bond.hinge
    piece = next(p for p in state.blanks[part].pieces if p.name == name)
    other = piece.second if bond.second[1] == piece.first else piece.first
    return compose(bond.relative, across(state, part, piece, other, angles.get(bond.hinge, 0.0) / 2))


def spread(
    state: State, root: PanelKey, all_links: list[Link], angles: dict[PieceKey, float]
) -> tuple[dict[PanelKey, Rigid], list[LoopFault]]:
    """Transforms of all panels that hang on `root` (which stays where it is), and the loops that do not close."""
    around = neighbours(all_links)
    placed = {root: state.placed[root]}
    queue = [root]
    used: set[int] = set()
    for panel in queue:
        for link in around.get(panel, ()):
            other = link.other(panel)
            if other not in placed:
                placed[other] = compose(placed[panel], over_link(state, link, panel, angles))
                used.add(id(link))
                queue.append(other)
    faults = []
    for link in all_links:
        if id(link) not in used and link.first in placed:
            fault = loop_error(state, link, placed, angles)
            if fault is not None:
                faults.append(fault)
    return placed, faults


def points_across(state: State, link: Link) -> list[Vector]:
    """Where the two panels of a link meet, in the frame of the second: the ends of a score, three corners at a bond."""
    if link.piece is not None:
        return [(float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end)]
    return [(float(x), float(y), 0.0) for x, y in state.blanks[link.second[0]].panel(link.second[1]).polygon[:3]]


def loop_error(state: State, link: Link, placed: dict[PanelKey, Rigid], angles: dict[PieceKey, float]) -> LoopFault | None:
    """Compares the two ways to `link.second` at the shared line, or at the contact of a bond."""
    mm, turned = gap(state, link, placed, angles)
    return LoopFault(link, mm, turned) if mm > LOOP_MM or turned > LOOP_DEGREES else None


def gap(state: State, link: Link, placed: Placed, angles: dict[PieceKey, float]) -> tuple[float, float]:
    """mm and degrees between where the second panel is and where the first would have it."""
    there = placed[link.second]
    here = compose(placed[link.first], over_link(state, link, link.first, angles))
    away = max(norm(minus(apply(there, p), apply(here, p))) for p in points_across(state, link))
    turn = times(transposed(there.turn), here.turn)
    return away, degrees(acos(max(-1.0, min(1.0, (turn[0] + turn[4] + turn[8] - 1) / 2))))
