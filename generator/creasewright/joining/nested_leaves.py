"""Leaves folded inside one another: how far each stands out at the fore edge.

Creep    Nested leaves of one width do not end even: each is pushed out by the paper that lies outside it at the fold. The innermost of n
         leaves of caliper t stands out by (n - 1) t (two imposition manuals agree on this; one of them takes 1.2 to 1.4 times as much for
         thick stapled signatures). It follows from folds that lie back on back: each fold begins one caliper further in than the one it
         lies in. A fold as round as a half circle, its middle line kept in length, would give pi / 2 = 1.57 times as much, so a signature
         that is folded loosely creeps more than is said here, and never more than that.
"""

from math import hypot

from msgspec import Struct

from creasewright.folding.carried_along import on_line
from creasewright.folding.heights import thickness
from creasewright.folding.state import PanelKey, PieceKey, State
from creasewright.geometry.rigid_transform import Vector, apply
from creasewright.joining.bodies import stack_of

FLAT_SHUT = 179.0
"""Degrees from which a fold counts as closed."""


class Leaf(Struct, frozen=True):
    part: str
    line: PieceKey
    reach: float
    """From its fold to its fore edge, mm: the shorter of its two halves."""
    pushed: float
    """By the leaves outside it, mm."""

    @property
    def ends_at(self) -> float:
        return self.reach + self.pushed


def nests(state: State) -> list[tuple[Leaf, ...]]:
    """Every set of two or more leaves folded shut on one line, the outermost first. What is glued down is no leaf: it cannot creep."""
    stuck = {key for bond in state.bonds if bond.kind == "glue" for key in (bond.first, bond.second)}
    shut = [key for key, angle in state.angles.items() if abs(angle) > FLAT_SHUT and is_leaf(state, key, stuck)]
    found: list[tuple[Leaf, ...]] = []
    left = dict.fromkeys(shut)
    while left:
        first = next(iter(left))
        body = state.body_of(first[0])
        line = ends_of(state, first)
        together = [key for key in left if key[0] in body.parts and on_line(line, ends_of(state, key))]
        for key in together:
            left.pop(key)
        inside = nested(state, together)
        if len(inside) > 1:
            found.append(inside)
    return found


def is_leaf(state: State, key: PieceKey, stuck: set[PanelKey]) -> bool:
    """Whether a score has one panel on either side, free to move."""
    blank = state.blanks[key[0]]
    return len(blank.panels) == 2 and not any((key[0], panel.name) in stuck for panel in blank.panels)


def ends_of(state: State, key: PieceKey) -> tuple[Vector, Vector]:
    piece = next(p for p in state.blanks[key[0]].pieces if p.name == key[1])
    placed = state.placed[(key[0], piece.first)]
    a, b = (apply(placed, (float(p.x), float(p.y), 0.0)) for p in (piece.start, piece.end))
    return a, b


def nested(state: State, keys: list[PieceKey]) -> tuple[Leaf, ...]:
    """Those of these folds that lie in one another, from the outside in."""
    spans: list[tuple[int, int, PieceKey]] = []
    for key in keys:
        piece = next(p for p in state.blanks[key[0]].pieces if p.name == key[1])
        order = stack_of(state.body_of(key[0]), (key[0], piece.first)).order
        if (key[0], piece.second) in order:
            low, high = sorted((order.index((key[0], piece.first)), order.index((key[0], piece.second))))
            spans.append((low, high, key))
    spans.sort(key=lambda span: span[0] - span[1])
    chain: list[tuple[int, int, PieceKey]] = []
    for span in spans:
        if not chain or (chain[-1][0] < span[0] and span[1] < chain[-1][1]):
            chain.append(span)
    leaves = []
    pushed = 0.0
    for _, _, key in chain:
        leaves.append(Leaf(key[0], key, reach_of(state, key), pushed))
        pushed += thickness(state, (key[0], ""))
    return tuple(leaves)


def reach_of(state: State, key: PieceKey) -> float:
    blank = state.blanks[key[0]]
    piece = next(p for p in blank.pieces if p.name == key[1])
    (ax, ay), (bx, by) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
    size = hypot(bx - ax, by - ay)
    return min(
        max(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / size for x, y in blank.panel(name).polygon)
        for name in (piece.first, piece.second)
    )


def fore_edge_step(leaves: tuple[Leaf, ...]) -> float:
    """mm between the leaf that ends first and the one that stands out farthest."""
    ends = [leaf.ends_at for leaf in leaves]
    return max(ends) - min(ends)
