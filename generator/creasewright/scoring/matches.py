"""What must match on a score board: the lines that each line of a piece comes to lie on, and the edges that both are measured from.

Two lines are made alike where each lies as far from an edge of its own piece: with those edges at the stop both are pressed in one groove,
and an error of the board is the same in both. Of one piece two lines match best from one edge. Knows nothing of grooves.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import product

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.geometry.point import Number
from creasewright.scoring.lies import ON_EDGE, Lie, Pass
from creasewright.scoring.meeting_scores import LineKey, Meet
from creasewright.scoring.stop_edges import edges_that_hold


class Spot(Struct, frozen=True):
    """A line of a piece as it is pressed."""

    mark: str
    run: str
    place: Number
    """From the left edge, as the piece lies in the first pass of that run."""


class Match(Struct, frozen=True):
    """Seen from one of its two lines."""

    own: Spot
    other: Spot
    joined: bool
    """Their parts are joined; else one is only folded onto the other."""
    turned: bool | None
    """Whether it is the right edge, as the piece lies then, that is as far from it as an edge of the other piece is from the other line;
    None where no two edges are so."""


class Lying(Struct, frozen=True):
    """A piece and how it lies for each run of its lines."""

    mark: str
    blank: Blank
    lies: Mapping[str, Lie]


def lying(mark: str, blank: Blank, passes: Sequence[Pass]) -> Lying:
    return Lying(mark, blank, {each.run: each.lie for each in reversed(passes) if each.measured})


def matches_of(meets: Iterable[Meet], pieces: Mapping[str, Lying]) -> dict[str, tuple[Match, ...]]:
    """By mark; `pieces` by part path. Each pair of lines once from each side, those joined first; lines scored alike anyway left out."""
    found: dict[str, dict[tuple[Spot, Spot], Match]] = {}
    for meet in meets:
        one, other = spot_of(meet.first, pieces), spot_of(meet.second, pieces)
        if one is None or other is None or one == other:
            continue
        edges = (None, None) if one.mark == other.mark else edges_alike(one, other, pieces[meet.first[0]], pieces[meet.second[0]])
        for own, its, turned in ((one, other, edges[0]), (other, one, edges[1])):
            found.setdefault(own.mark, {}).setdefault((own, its), Match(own, its, meet.joined, turned))
    return {mark: tuple(some.values()) for mark, some in found.items()}


def spot_of(line: LineKey, pieces: Mapping[str, Lying]) -> Spot | None:
    part, name = line
    piece = pieces.get(part)
    score = next((score for score in piece.blank.scores if score.name == name), None) if piece is not None else None
    if piece is None or score is None:
        return None
    run = "down" if score.start.x == score.end.x else "across"
    return Spot(piece.mark, run, piece.lies[run].to_lie.point(score.start).x) if run in piece.lies else None


def edges_alike(one: Spot, other: Spot, mine: Lying, its: Lying) -> tuple[bool | None, bool | None]:
    """For each of two lines whether the right edge is meant, not the left one. Both left edges come first, both right ones last."""
    first, second = mine.lies[one.run], its.lies[other.run]
    for my_right, its_right in product((False, True), repeat=2):
        mine_off = first.width - one.place if my_right else one.place
        its_off = second.width - other.place if its_right else other.place
        if abs(float(mine_off - its_off)) >= ON_EDGE:
            continue
        if edges_that_hold(mine.blank, first)[my_right] and edges_that_hold(its.blank, second)[its_right]:
            return my_right, its_right
    return None, None
