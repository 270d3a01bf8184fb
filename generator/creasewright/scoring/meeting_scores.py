"""Scores that must match: those that lie on one another in space once two parts are joined, or in the folded thing.

Line    a score of one part, all its pieces, by part path and the score's name
Meet    two lines that run along one another there for `MEETS` and more

Only straight scores square to an edge of their blank, as only those are set on a score board. Found by a sweep: lines that coincide are
equally far from the origin.
"""

from collections.abc import Iterable
from itertools import combinations

from msgspec import Struct

from creasewright.fitting.worked import Worked
from creasewright.folding.state import State
from creasewright.geometry.rigid_transform import Vector, apply, dot, minus
from creasewright.scoring.runs_seen import runs_seen

TOUCHES = 0.05
"""mm between two lines that lie on one another."""
MEETS = 1.0
"""mm for which they do."""
LineKey = tuple[str, str]
"""Part path and score."""


class Meet(Struct, frozen=True):
    first: LineKey
    second: LineKey
    joined: bool
    """By a step that joins the two; else only folded onto one another."""


class Seen(Struct, frozen=True):
    """A score piece where it lies in space."""

    key: LineKey
    off: float
    """How far its line is from the origin, mm."""
    start: Vector
    along: Vector
    length: float


def meeting_scores(worked: Worked) -> tuple[Meet, ...]:
    """Each pair once, those joined first."""
    found: dict[tuple[LineKey, LineKey], Meet] = {}
    for assembly in worked.assemblies:
        for run in runs_seen(worked, assembly):
            fresh = run.new_bonds
            parts = {key[0] for bond in fresh for key in (bond.first, bond.second)}
            for (part, score), (other, second) in coinciding(run.after, parts):
                for prefix in assembly.prefixes:
                    pair = (prefix + part, score), (prefix + other, second)
                    found.setdefault(pair, Meet(*pair, True))
    if worked.finished is not None:
        for pair in coinciding(worked.finished.state, worked.finished.body.parts):
            found.setdefault(pair, Meet(*pair, False))
    return tuple(found.values())


def coinciding(state: State, parts: Iterable[str]) -> list[tuple[LineKey, LineKey]]:
    lines = sorted((line for part in sorted(parts) for line in seen_lines(state, part)), key=lambda line: line.off)
    found: dict[tuple[LineKey, LineKey], None] = {}
    for group in close_together(lines):
        for one, other in combinations(group, 2):
            if one.key != other.key and other.off - one.off <= TOUCHES and shared(one, other) > MEETS:
                first, second = sorted((one.key, other.key))
                found[first, second] = None
    return list(found)


def close_together(lines: list[Seen]) -> list[list[Seen]]:
    """Runs of lines each of which is as far from the origin as the one before it, or nearly."""
    groups: list[list[Seen]] = []
    for line in lines:
        if groups and line.off - groups[-1][-1].off <= TOUCHES:
            groups[-1].append(line)
        else:
            groups.append([line])
    return groups


def seen_lines(state: State, part: str) -> list[Seen]:
    found = []
    blank = state.blanks[part]
    for piece in blank.pieces if blank.wrap is None else ():
        (ax, ay), (bx, by) = ((float(end.x), float(end.y)) for end in (piece.start, piece.end))
        if piece.arc is not None or (ax != bx and ay != by):
            continue
        placed = state.placed[part, piece.first]
        start, end = apply(placed, (ax, ay, 0.0)), apply(placed, (bx, by, 0.0))
        way = minus(end, start)
        length = dot(way, way) ** 0.5
        along = (way[0] / length, way[1] / length, way[2] / length)
        near = dot(start, along)
        found.append(Seen((part, piece.score), max(0.0, dot(start, start) - near * near) ** 0.5, start, along, length))
    return found


def shared(one: Seen, other: Seen) -> float:
    """mm along which two pieces run on one another; below 0 or 0 where they do not."""
    ends = []
    for reach in (0.0, other.length):
        x, y, z = (start + reach * way for start, way in zip(other.start, other.along, strict=True))
        spot = minus((x, y, z), one.start)
        at = dot(spot, one.along)
        if dot(spot, spot) - at * at > TOUCHES * TOUCHES:
            return 0.0
        ends.append(at)
    return min(one.length, max(ends)) - max(0.0, min(ends))
