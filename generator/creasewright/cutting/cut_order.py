"""The order of the cuts of one sheet, as a person at a trimmer makes them.

A cut can be made once its part is in hand. Among those that can, the stop stays where it is as long as any cut wants that
setting; otherwise cuts that free strips come before cuts within strips, the widest setting first. The strips lost at the margins
come off before anything.
"""

from typing import NamedTuple

from creasewright.cutting.cut_tree import CutKnot, Leaf, Tree
from creasewright.cutting.trimmer_limits import found_at
from creasewright.cutting.whole_numbers import Reach


class Cost(NamedTuple):
    """What there is to compare between two ways of cutting one sheet; less is better, the first that differs decides."""

    faults: int
    settings: int
    moves: int
    """How often the stop moves."""
    largest_offcut: int
    """Its area, negative."""


def ordered_cuts(tree: Tree) -> list[CutKnot]:
    """Every cut of the tree, in order."""
    ready = [tree] if isinstance(tree, CutKnot) else []
    order: list[CutKnot] = []
    setting = -1
    while ready:
        place = min(range(len(ready)), key=lambda i: _urgency(ready[i], setting))
        knot = ready.pop(place)
        order.append(knot)
        setting = knot.setting
        ready += [side for side in (knot.kept, knot.other) if isinstance(side, CutKnot)]
    return order


def _urgency(knot: CutKnot, setting: int) -> tuple[bool, bool, int, int, int, int]:
    return knot.level >= 0, knot.setting != setting, knot.level, -knot.setting, knot.part.y, knot.part.x


def leaves(tree: Tree) -> list[Leaf]:
    """The finished parts, in no particular order."""
    found: list[Leaf] = []
    open_sides: list[Tree] = [tree]
    while open_sides:
        side = open_sides.pop()
        if isinstance(side, Leaf):
            found.append(side)
        else:
            open_sides += [side.kept, side.other]
    return found


def cost_of(tree: Tree, reach: Reach) -> Cost:
    cuts = ordered_cuts(tree)
    settings = [cut.setting for cut in cuts]
    moves = sum(1 for before, now in zip([-1, *settings], settings, strict=False) if before != now)
    offcuts = [leaf.part.width * leaf.part.height for leaf in leaves(tree) if leaf.kind == "offcut"]
    return Cost(sum(len(found_at(cut, reach)) for cut in cuts), len(set(settings)), moves, -max(offcuts, default=0))


def stages_of(tree: Tree) -> int:
    """How often the cuts change their direction on the way to a piece, the first cuts counting as one. The strips lost at the
    margins and the last trim of a piece do not count."""
    return _stages(tree, "", 0)


def _stages(tree: Tree, direction: str, stage: int) -> int:
    if isinstance(tree, Leaf):
        return stage if tree.kind == "pieces" else 0
    if tree.level < 0:
        return _stages(tree.kept, direction, stage)
    trims = isinstance(tree.kept, Leaf) and isinstance(tree.other, Leaf) and "offcut" in (tree.kept.kind, tree.other.kind)
    if trims and tree.direction != direction:
        return stage
    here = stage + (tree.direction != direction)
    return max(_stages(tree.kept, tree.direction, here), _stages(tree.other, tree.direction, here))
