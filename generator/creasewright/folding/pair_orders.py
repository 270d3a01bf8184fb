"""An order of things from conditions on pairs: what must lie below what, and which pairs depend on one another.

Each thing knows, as bits, what is known to lie above it and below it; a new pair is carried on through the whole order at once.
Conditions say what follows from the pairs known so far; when nothing more follows, one pair that a condition still needs is tried
both ways, first as the things stand. The general problem is hard (NP-hard, M. Bern and B. Hayes 1996), so the search stops at a
limit.
"""

from collections.abc import Hashable, Iterable
from typing import TypeVar

from msgspec import Struct

LIMIT = 20_000
"""Pairs tried before the search gives up."""
Thing = TypeVar("Thing", bound=Hashable)
Pair = tuple[int, int]
"""(lower, upper)"""


class Outside(Struct, frozen=True):
    """`panel` does not lie between `low` and `high`, of which the first is below the second."""

    low: int
    high: int
    panel: int

    def follows(self, known: "Known") -> list[Pair]:
        if known.below(self.panel, self.high):
            return [(self.panel, self.low)]
        if known.below(self.low, self.panel):
            return [(self.high, self.panel)]
        return []

    def open(self, known: "Known") -> Pair | None:
        return None if known.settled(self.panel, self.low) and known.settled(self.panel, self.high) else (self.panel, self.low)


class Nested(Struct, frozen=True):
    """Two folds on one line, each with its lower and its upper panel: one holds the other, or they lie apart."""

    a: Pair
    b: Pair

    def follows(self, known: "Known") -> list[Pair]:
        found = []
        for (low, high), (other_low, other_high) in ((self.a, self.b), (self.b, self.a)):
            if known.below(low, other_low):
                if known.below(other_low, high):
                    found.append((other_high, high))
                if known.below(high, other_high):
                    found.append((high, other_low))
        return found

    def open(self, known: "Known") -> Pair | None:
        for pair in ((self.a[0], self.b[0]), (self.a[1], self.b[0]), (self.a[0], self.b[1]), (self.a[1], self.b[1])):
            if not known.settled(*pair):
                return pair
        return None


class Alike(Struct, frozen=True):
    """Two pairs that lie in the same order."""

    first: Pair
    second: Pair

    def follows(self, known: "Known") -> list[Pair]:
        found = []
        for one, other in ((self.first, self.second), (self.second, self.first)):
            if known.below(*one):
                found.append(other)
            if known.below(*one[::-1]):
                found.append((other[1], other[0]))
        return found

    def open(self, known: "Known") -> Pair | None:
        return None if known.settled(*self.first) and known.settled(*self.second) else self.first


Wish = Outside | Nested | Alike


class Known:
    """What is known of an order of `count` things."""

    def __init__(self, over: list[int], under: list[int]) -> None:
        self.over, self.under = over, under

    def below(self, a: int, b: int) -> bool:
        return bool(self.over[a] >> b & 1)

    def settled(self, a: int, b: int) -> bool:
        return a == b or self.below(a, b) or self.below(b, a)

    def add(self, low: int, high: int) -> bool:
        """Whether `low` can lie below `high`; it and all that follows by chains is then known."""
        if low == high or self.below(high, low):
            return False
        if self.below(low, high):
            return True
        beneath, above = self.under[low] | 1 << low, self.over[high] | 1 << high
        for k in bits(beneath):
            self.over[k] |= above
        for k in bits(above):
            self.under[k] |= beneath
        return True

    def copy(self) -> "Known":
        return Known(list(self.over), list(self.under))


def bits(mask: int) -> list[int]:
    found = []
    while mask:
        last = mask & -mask
        found.append(last.bit_length() - 1)
        mask ^= last
    return found


def ordered(count: int, below: list[Pair], wishes: list[Wish]) -> tuple[int, ...] | None:
    """Numbers 0 to count - 1 from the lowest to the highest, as near to counting as the conditions let them; None where none obeys.

    None also where `LIMIT` pairs were tried in vain.
    """
    known = Known([0] * count, [0] * count)
    if not all(known.add(*pair) for pair in below):
        return None
    tried = 0

    def search(known: Known) -> Known | None:
        nonlocal tried
        if not carried_on(known, wishes):
            return None
        pair = next((pair for wish in wishes if (pair := wish.open(known)) is not None), None)
        if pair is None:
            return known
        low, high = sorted(pair)
        for attempt in ((low, high), (high, low)):
            tried += 1
            if tried > LIMIT:
                return None
            further = known.copy()
            if further.add(*attempt) and (done := search(further)) is not None:
                return done
        return None

    found = search(known)
    return laid_out(found) if found is not None else None


def carried_on(known: Known, wishes: list[Wish]) -> bool:
    """Adds all that follows; whether nothing contradicts."""
    changed = True
    while changed:
        changed = False
        for wish in wishes:
            for pair in wish.follows(known):
                if not known.below(*pair):
                    if not known.add(*pair):
                        return False
                    changed = True
    return True


def laid_out(known: Known) -> tuple[int, ...]:
    """Each thing over those below it, else in counting order."""
    pairs = [(low, high) for high, under in enumerate(known.under) for low in bits(under)]
    order = sorted_by(range(len(known.under)), pairs)
    assert order is not None  # `Known` admits no ring
    return order


def sorted_by(things: Iterable[Thing], below: Iterable[tuple[Thing, Thing]]) -> tuple[Thing, ...] | None:
    """The things so that each comes after all those (lower, upper) below it, else as they were; None where they go round in a ring."""
    left = list(things)
    under: dict[Thing, set[Thing]] = {thing: set() for thing in left}
    for low, high in below:
        under[high].add(low)
    order: list[Thing] = []
    done: set[Thing] = set()
    while left:
        free = next((thing for thing in left if under[thing] <= done), None)
        if free is None:
            return None
        order.append(free)
        done.add(free)
        left.remove(free)
    return tuple(order)
