"""Whether a cut piece looks the same after it is turned over, or end for end."""

from creasewright.blanks.blank import Blank
from creasewright.geometry.outline import flattened


def same_turned_over(blank: Blank) -> bool:
    """Its outline, before it is scored: turned like a page or like a pad."""
    wide, high = float(blank.width), float(blank.height)
    ring = flattened(blank.outline.edges)
    own = {_place(x, y) for x, y in ring}
    return own in ({_place(wide - x, y) for x, y in ring}, {_place(x, high - y) for x, y in ring})


def same_end_for_end(blank: Blank) -> bool:
    """Its outline, before it is scored, turned by 180 degrees."""
    wide, high = float(blank.width), float(blank.height)
    ring = flattened(blank.outline.edges)
    return {_place(x, y) for x, y in ring} == {_place(wide - x, high - y) for x, y in ring}


def has_no_sides(blank: Blank) -> bool:
    """Nothing is in it that being turned over would change: of paper alike on both sides it may lie either way."""
    return not (blank.scores or blank.slits or blank.holes) and same_turned_over(blank)


def _place(x: float, y: float) -> tuple[float, float]:
    return round(x, 2) + 0.0, round(y, 2) + 0.0
