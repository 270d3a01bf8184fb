"""The way of the thread: which holes it passes, in which order, and how long it is.

The needle passes every hole named in the order, one after the other, once from this side to that and once back: between two passes the
thread runs along the line on the side where it came out. Its length is therefore the sum of these runs, plus the thickness of what is sewn
for every pass, plus the two free ends. Derived, not measured: a drawn stitch lies flat and straight between its holes.
"""

from itertools import pairwise

from creasewright.joining.refused import JoinRefused


def even_stations(count: int, length: float, margin: float) -> tuple[float, ...]:
    """`count` holes, the first and the last `margin` mm from the ends of the line. Raises JoinRefused."""
    if count < 2:
        raise JoinRefused(f"{count} hole holds no thread", "give two stations or more; three and five are usual")
    if not 0 <= 2 * margin < length:
        raise JoinRefused(
            f"a margin of {margin:.1f} mm at either end leaves nothing of a line of {length:.1f} mm", "make the margin smaller"
        )
    step = (length - 2 * margin) / (count - 1)
    return tuple(margin + k * step for k in range(count))


def usual_order(count: int) -> tuple[int, ...]:
    """From the middle hole to one end and back, over the middle to the other end and back: both ends of the thread come out at the
    middle, on one side, and are tied there. For three holes the pamphlet stitch, 2 1 3 2. Common practice, no source."""
    low = (count + 1) // 2
    high = low if count % 2 else low + 1
    to_head = [*range(low, 0, -1), *range(2, low)]
    if count % 2 == 0:
        to_head += [low] if low > 1 else []
        return (*to_head, *range(high, count + 1), *range(count - 1, high - 1, -1))
    return (*to_head, *range(high + 1, count + 1), *range(count - 1, high - 1, -1))


def check_order(order: tuple[int, ...], count: int) -> None:
    """Raises JoinRefused where the needle cannot take this way, or leaves a hole empty."""
    wrong = next((hole for hole in order if not 1 <= hole <= count), None)
    if wrong is not None:
        raise JoinRefused(f"`order` names hole {wrong}, and there are {count}", "count the holes from 1 at the head")
    twice = next((a for a, b in pairwise(order) if a == b), None)
    if twice is not None:
        raise JoinRefused(f"`order` goes through hole {twice} and straight back", "the thread would pull out: go on to another hole")
    missed = next((hole for hole in range(1, count + 1) if hole not in order), None)
    if missed is not None:
        raise JoinRefused(f"`order` never passes hole {missed}", "take it into the way of the thread, or make a hole less")
    if len(order) % 2:
        raise JoinRefused(
            f"the thread passes {len(order)} holes, so it ends on the other side of the fold from where it began",
            "let it pass an even number, so that its two ends can be tied",
        )


def thread_way(stations: tuple[float, ...], order: tuple[int, ...], thick: float) -> float:
    """mm of thread between its two free ends."""
    runs = sum(abs(stations[a - 1] - stations[b - 1]) for a, b in pairwise(order))
    return runs + thick * len(order)
