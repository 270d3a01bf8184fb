"""The known name nearest to one that was not found, for a hint."""

from collections.abc import Iterable

LISTED = 8
"""Up to this many known names are told in full when none is near."""

LONGEST = 60
"""Longer names are not compared: nobody mistypes a sentence."""


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name with the fewest slips of the pen from `name`; None when none is near. Of equals, the first in order."""
    wanted = _plain(name)
    allowed = max(1, len(wanted) // 3)
    best: tuple[int, str] | None = None
    for candidate in sorted(set(known)):
        slips = _slips(wanted, _plain(candidate), allowed)
        if slips <= allowed and (best is None or slips < best[0]):
            best = (slips, candidate)
    return best[1] if best else None


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """A hint: the nearest known name, or else the known names when they are few; empty when nothing is known."""
    names = sorted(set(known))
    near = nearest(name, names)
    if near is not None:
        return f"did you mean `{near}`?"
    if not names:
        return ""
    listed = ", ".join(f"`{each}`" for each in names[:LISTED])
    more = f" and {len(names) - LISTED} more" if len(names) > LISTED else ""
    return f"write one of {listed}{more}" if len(names) > 1 else f"write {listed}"


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())


def _slips(a: str, b: str, allowed: int) -> int:
    """Letters to add, drop, change or swap with their neighbour between `a` and `b`; more than `allowed` is told as allowed + 1.

    The restricted edit distance with transpositions (optimal string alignment), row by row. Words in another order count one.
    """
    if a == b:
        return 0
    too_many = allowed + 1
    if max(len(a), len(b)) > LONGEST or not a or not b:
        return too_many
    if sorted(a.split()) == sorted(b.split()):
        return 1
    if abs(len(a) - len(b)) > allowed:
        return too_many
    older: list[int] = []
    row = list(range(len(b) + 1))
    for i, letter in enumerate(a, start=1):
        row, older, before = [i], row, older
        for j, other in enumerate(b, start=1):
            slips = min(older[j] + 1, row[j - 1] + 1, older[j - 1] + (letter != other))
            if i > 1 and j > 1 and letter == b[j - 2] and a[i - 2] == other:
                slips = min(slips, before[j - 2] + 1)
            row.append(slips)
        if min(row) > allowed:
            return too_many
    return min(row[-1], too_many)
