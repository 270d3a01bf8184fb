"""A score board, and the fewest ways of putting a piece to its stop that bring every score over a groove. Knows nothing of paper. mm.

Place      how far a score lies from the piece's first edge, along the board
Set-up     which of its two edges lies against the stop (turned end for end: the other one), and a spacer between the stop and it
Groove     how far from the stop a score lies then; a setting is a groove that the board has

Turned, never flipped: a place p from the first edge lies length - p from the other. With a spacer s against the stop p lies over the
groove p + s.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations

from msgspec import Struct, field

from creasewright.geometry.point import Number

ON_GROOVE = 0.1
"""mm between a score and a groove that count as one: what the eye sees of a groove's width (common practice, no source)."""


class Board(Struct, frozen=True):
    grooves: Number
    """From groove to groove, and from the stop to the first one."""
    reach: Number
    """From the stop to the last groove."""
    spacers: tuple[Number, ...] = ()
    """Strips that may lie against the stop, one at a time."""
    stop: str = "left"
    """`left` or `right` of the board, as it lies before the maker."""

    @property
    def last(self) -> int:
        """How many grooves there are."""
        return int(float(self.reach) / float(self.grooves) + 1e-6)


class SetUp(Struct, frozen=True):
    turned: bool = False
    """End for end: the other edge lies against the stop."""
    spacer: Number = 0
    """0: none."""


class Reached(Struct, frozen=True):
    """What is pressed in one set-up."""

    set_up: SetUp
    settings: tuple[tuple[Number, Number], ...]
    """Place and groove, rising by groove."""


class Choice(Struct, frozen=True):
    reached: tuple[Reached, ...]
    off: tuple[Number, ...]
    """Places that no setting reaches."""


class Matching(Struct, frozen=True):
    """What some places are to have in common with others, where it costs no further set-up, edge or spacer."""

    turned: dict[Number, bool] = field(default_factory=dict)
    """From which edge, for places that match one of another piece."""
    together: tuple[tuple[Number, Number], ...] = ()
    """Pairs that are measured from one edge."""


Able = dict[SetUp, frozenset[Number]]
"""The places that a set-up reaches."""


def from_stop(place: Number, length: Number, set_up: SetUp) -> Number:
    return (length - place if set_up.turned else place) + set_up.spacer


def groove_at(place: Number, length: Number, board: Board, set_up: SetUp) -> Number | None:
    """The groove under a place; None where there is none within `ON_GROOVE`."""
    distance = from_stop(place, length, set_up)
    count = round(float(distance) / float(board.grooves))
    groove = count * board.grooves
    return groove if 1 <= count <= board.last and abs(float(distance - groove)) <= ON_GROOVE else None


def every_set_up(board: Board, edges: tuple[bool, bool]) -> list[SetUp]:
    """Those that the piece allows; `edges`: whether its first edge and its other one can lie against the stop."""
    return [SetUp(turned, spacer) for spacer in (0, *board.spacers) for turned, able in zip((False, True), edges, strict=True) if able]


def fewest_set_ups(
    places: Sequence[Number], length: Number, board: Board, edges: tuple[bool, bool] = (True, True), matching: Matching | None = None
) -> Choice:
    """As many places as can be over grooves, in the fewest set-ups; then from one edge if it can be, with fewest spacers; then so that most
    of what must match does; then not turned."""
    wanted = matching or Matching()
    able: Able = {set_up: frozenset(p for p in places if groove_at(p, length, board, set_up)) for set_up in every_set_up(board, edges)}
    within_reach = frozenset[Number]().union(*able.values())
    useful = [set_up for set_up, found in able.items() if found and not _outdone(set_up, able)]
    for count in range(len(within_reach) + 1):
        full = [some for some in combinations(useful, count) if within_reach == frozenset[Number]().union(*(able[one] for one in some))]
        if full:
            best = min(full, key=lambda some: _burden_with(some, able, wanted))
            return _told(best, _spread(best, able, wanted), places, length, board)
    return Choice((), tuple(places))


def _outdone(set_up: SetUp, able: Able) -> bool:
    """Whether one that is no more work, from the same edge, reaches all the same and more."""
    return any(
        able[set_up] < able[other] or (able[set_up] == able[other] and _burden((other,)) < _burden((set_up,)))
        for other in able
        if other.turned == set_up.turned and bool(other.spacer) <= bool(set_up.spacer)
    )


def _burden(some: Iterable[SetUp]) -> tuple[float, ...]:
    """Edges used, spacers, how many are turned, the spacers' sizes."""
    each = tuple(some)
    spacers = [one for one in each if one.spacer]
    return len({one.turned for one in each}), len(spacers), sum(one.turned for one in each), sum(float(one.spacer) for one in spacers)


def _burden_with(some: Sequence[SetUp], able: Able, matching: Matching) -> tuple[float, ...]:
    edges, spacers, *rest = _burden(some)
    return edges, spacers, -_met(_spread(some, able, matching), matching), *rest


def _spread(some: Iterable[SetUp], able: Able, matching: Matching) -> dict[Number, SetUp]:
    """Which of these set-ups each place is pressed in: the first that reaches it, but for what must match."""
    order = sorted(some, key=lambda one: (bool(one.spacer), one.turned, one.spacer))
    ways: dict[Number, list[SetUp]] = {}
    for set_up in order:
        for place in able[set_up]:
            ways.setdefault(place, []).append(set_up)
    found = {place: next((one for one in mine if one.turned == matching.turned.get(place)), mine[0]) for place, mine in ways.items()}
    for pair in matching.together:
        for turned in (False, True):
            there = {place: one for place in pair for one in reversed(ways.get(place, ())) if one.turned == turned}
            if len(there) == len(set(pair)) and _met({**found, **there}, matching) > _met(found, matching):
                found |= there
    return found


def _met(spread: dict[Number, SetUp], matching: Matching) -> int:
    """How much of what must match does."""
    alone = sum(place in spread and spread[place].turned == turned for place, turned in matching.turned.items())
    pairs = [[spread[place].turned for place in pair if place in spread] for pair in matching.together]
    return alone + sum(len(pair) == 2 and pair[0] == pair[1] for pair in pairs)


def _told(
    some: Sequence[SetUp], spread: dict[Number, SetUp], places: Sequence[Number], length: Number, board: Board
) -> Choice:
    reached = []
    for set_up in sorted(some, key=lambda one: (bool(one.spacer), one.turned, one.spacer)):
        mine = ((place, groove_at(place, length, board, set_up)) for place in places if spread.get(place) == set_up)
        found = [(place, groove) for place, groove in mine if groove is not None]
        reached.append(Reached(set_up, tuple(sorted(found, key=lambda pair: float(pair[1])))))
    return Choice(tuple(reached), tuple(place for place in places if place not in spread))


def nearest_place(place: Number, length: Number, board: Board, edges: tuple[bool, bool] = (True, True)) -> Number | None:
    """The place inside the piece nearest to one that no setting reaches, at which one would; None where no set-up has any."""
    found: list[Number] = []
    for set_up in every_set_up(board, edges):
        distance = from_stop(place, length, set_up)
        middle = min(max(round(float(distance) / float(board.grooves)), 1), board.last)
        for count in (middle - 1, middle, middle + 1):
            back = count * board.grooves - set_up.spacer
            there = length - back if set_up.turned else back
            if 1 <= count <= board.last and 0 < float(there) < float(length):
                found.append(there)
    return min(found, key=lambda there: abs(float(there - place)), default=None)
