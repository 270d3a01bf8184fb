"""What a trimmer cannot do well, cut by cut: facts, no words.

- "cut too long": the blade would have to run farther than it can.
- "strip too narrow": the part to keep is narrower than the trimmer holds against the stop.
- "trim too thin": the part that comes off the kept one is thinner than comes off clean.
"""

from typing import NamedTuple

from creasewright.cutting.cut_tree import CutKnot, Part
from creasewright.cutting.plan import FaultKind
from creasewright.cutting.whole_numbers import Reach


class Found(NamedTuple):
    """One limit overstepped, in whole units."""

    kind: FaultKind
    figure: int
    limit: int


def found_at(cut: CutKnot, reach: Reach) -> list[Found]:
    length = cut.part.width if cut.direction == "across" else cut.part.height
    comes_off = _thickness(cut.other.part, cut)
    found: list[Found] = []
    if length > reach.longest_cut:
        found.append(Found("cut too long", length, reach.longest_cut))
    if cut.setting < reach.narrowest_strip:
        found.append(Found("strip too narrow", cut.setting, reach.narrowest_strip))
    if comes_off < reach.least_trim:
        found.append(Found("trim too thin", comes_off, reach.least_trim))
    return found


def _thickness(part: Part, cut: CutKnot) -> int:
    return part.height if cut.direction == "across" else part.width
