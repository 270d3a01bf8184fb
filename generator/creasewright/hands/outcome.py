"""From room and error to how many fail, and what would have to be added.

Hand error is normal and the error given is its 95 % (1.96 standard deviations); a clearance fails on one side only, where the room is used
up. 0.5 mm of room against 1.0 mm of error is 0.98 standard deviations: 16 in 100, about 5 in 30.
"""

from math import erfc, sqrt

SIGMAS = 1.96
"""Standard deviations at 95 %, both sides (any table of the normal distribution)."""
MOST = 0.01
"""More than 1 maker in 100 is too many."""
SIGMAS_AT_MOST = 2.3263
"""Standard deviations that 1 in 100 exceed on one side (any table of the normal distribution)."""
CLASS = 30
"""Makers that are spoken of where a pack is for one."""


def failing_share(room: float, error: float) -> float:
    """0 to 1: how many of all makers have no room left. Without any error: all or none."""
    if error <= 0:
        return 0.0 if room >= 0 else 1.0
    return 0.5 * erfc(room / (error / SIGMAS) / sqrt(2))


def room_wanted(error: float) -> float:
    """mm that leave 1 maker in 100 without."""
    return SIGMAS_AT_MOST * error / SIGMAS


def too_many(room: float, error: float) -> bool:
    """Judged to a hundredth of a mm, so that a room made just so large by a round number is large enough."""
    return room < room_wanted(error) - 0.01


def of_makers(share: float, makers: int) -> tuple[str, int]:
    """("5", 30): about so many of so many; `under 1` where it is less than a half of one."""
    of = makers if makers > 1 else CLASS
    count = share * of
    return ("none" if count < 0.05 else "under 1" if count < 0.5 else f"{count:.0f}"), of


def in_words(share: float, makers: int) -> str:
    """`about 5 in 30`, `under 1 in 30`."""
    count, of = of_makers(share, makers)
    return f"about {count} in {of}" if count.isdigit() else f"{count} in {of}"
