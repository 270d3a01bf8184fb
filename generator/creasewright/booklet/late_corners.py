"""Corners that a step cuts: until then the piece is square there. The cut list leaves them to the step, the score guide draws it so.

A line that a corner will be cut along is a chain of places in the blank's frame, mm.
"""

from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.blanks.spare_parts import ROUND, TRIM, rectangle_of, spare_parts
from creasewright.fitting.worked import Worked
from creasewright.geometry.clip import union
from creasewright.geometry.outline import Line, Outline, Polygon, flattened
from creasewright.geometry.point import Point

ON_RIM = 0.01
"""mm"""
Chain = tuple[tuple[float, float], ...]


class Uncut(Struct, frozen=True):
    """A blank as it is before the steps cut its corners."""

    blank: Blank
    later: tuple[Chain, ...]
    """Where they will be cut."""


@lru_cache(maxsize=64)
def late_work(worked: Worked, parts: tuple[str, ...]) -> frozenset[str]:
    """What a step does to corners of any of the parts: TRIM, ROUND, both or neither. Leaves cut even at the fore edge keep theirs."""
    state = worked.finished.state if worked.finished else None
    if state is None:
        return frozenset()
    made = [(part, verb) for part, verb in state.made if part in parts and verb in (ROUND, TRIM)]
    return frozenset(verb for part, verb in made if any(spare.how == verb for spare in spare_parts(state.blanks[part])))


def uncut(blank: Blank, late: frozenset[str]) -> Uncut:
    """The blank with the corners that come late still square; itself where none does."""
    waiting = [part.polygon for part in spare_parts(blank) if part.how in late]
    if not waiting:
        return Uncut(blank, ())
    ring = max(union((flattened(blank.outline.edges), *waiting)), key=len)
    corners = [Point(x, y) for x, y in _without_middles(ring)]
    edges = tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    later = tuple(chain for part in waiting for chain in _inner_chains(part, rectangle_of(blank)))
    return Uncut(replace(blank, outline=Outline(edges)), later)


def _without_middles(ring: Polygon) -> list[tuple[float, float]]:
    """Corners only: places on a straight line between their neighbours are left out."""
    found = []
    for k, (x, y) in enumerate(ring):
        (ax, ay), (bx, by) = ring[k - 1], ring[(k + 1) % len(ring)]
        if abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) > ON_RIM * (abs(bx - ax) + abs(by - ay)):
            found.append((x, y))
    return found


def _inner_chains(part: Polygon, rectangle: Polygon) -> list[Chain]:
    """The runs of a part's rim that lie inside the rectangle."""
    (left, head), (right, tail) = rectangle[0], rectangle[2]

    def on_rim(a: tuple[float, float], b: tuple[float, float]) -> bool:
        rim = ((0, left), (0, right), (1, head), (1, tail))
        return any(abs(a[axis] - side) < ON_RIM and abs(b[axis] - side) < ON_RIM for axis, side in rim)

    sides = list(zip(part, part[1:] + part[:1], strict=True))
    start = next((k for k, side in enumerate(sides) if on_rim(*side)), 0)
    chains: list[Chain] = []
    for a, b in sides[start:] + sides[:start]:
        if on_rim(a, b):
            continue
        chains = [*chains[:-1], (*chains[-1], b)] if chains and chains[-1][-1] == a else [*chains, (a, b)]
    return chains
