"""Which of equally good packings is easiest to cut: each of its sheets cut the best way, then all of them weighed together."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct, field

from creasewright.cutting.blocks import blocks_of
from creasewright.cutting.cut_order import Cost, cost_of, leaves, ordered_cuts, stages_of
from creasewright.cutting.cut_tree import Sheet, Tree, trees_of
from creasewright.cutting.demand import Wishes
from creasewright.cutting.search.task import Packing, Use
from creasewright.cutting.whole_numbers import Pattern, Reach

Arranged = tuple[tuple[int, Tree, int], ...]
"""Kinds of sheet, ways to cut one, and the number of sheets cut so."""


class Burden(NamedTuple):
    """What there is to compare between two whole plans; less is better, the first that differs decides."""

    worth: Fraction
    """The price of the sheets, and of the settings where they have one."""
    sheets: int
    faults: int
    settings: int
    patterns: int
    """Different ways to cut a sheet."""
    moves: int
    largest_offcut: int
    """Its area, negative."""


class _Cut(NamedTuple):
    cost: Cost
    tree: Tree
    settings: frozenset[int]


class Arranger(Struct, frozen=True):
    """Arranges patterns; the same pattern is worked out once."""

    sheets: Sequence[Sheet]
    """Of each kind."""
    prices: Sequence[Fraction]
    """Of each kind."""
    reach: Reach
    wishes: Wishes
    _known: dict[tuple[int, Pattern], _Cut] = field(default_factory=dict)

    def easiest(self, packings: Iterable[Packing]) -> Packing:
        """The packing with the least burden; of equals the first."""
        return min(packings, key=self.burden)

    def arranged(self, packing: Packing) -> Arranged:
        counts: dict[tuple[int, Tree], int] = {}
        for kind, pattern, count in packing.uses:
            key = kind, self._best(kind, pattern).tree
            counts[key] = counts.get(key, 0) + count
        return tuple((kind, tree, count) for (kind, tree), count in counts.items())

    def burden(self, packing: Packing) -> Burden:
        return self.burden_of(packing.uses)

    def burden_of(self, uses: Sequence[Use]) -> Burden:
        cuts = [self._best(use.kind, use.pattern) for use in uses]
        settings = frozenset[int]().union(*(cut.settings for cut in cuts))
        price = sum((self.prices[use.kind] * use.times for use in uses), Fraction(0))
        return Burden(
            price + self.wishes.setting_price * len(settings),
            sum(use.times for use in uses),
            sum(cut.cost.faults for cut in cuts),
            len(settings),
            len({(use.kind, cut.tree) for use, cut in zip(uses, cuts, strict=True)}),
            sum(cut.cost.moves for cut in cuts),
            min((cut.cost.largest_offcut for cut in cuts), default=0),
        )

    def settings_of(self, kind: int, pattern: Pattern) -> frozenset[int]:
        """The distances to set for the best way to cut this pattern."""
        return self._best(kind, pattern).settings

    def _best(self, kind: int, pattern: Pattern) -> _Cut:
        key = kind, pattern
        if key not in self._known:
            stages = self.wishes.stages
            blocks = blocks_of(pattern, gather=stages is None)
            trees = [tree for block in blocks for tree in trees_of(block, self.sheets[kind], stages is not None)]
            trees = [tree for tree in trees if stages is None or stages_of(tree) <= stages] or trees
            costs = [cost_of(tree, self.reach) for tree in trees]
            place = min(range(len(trees)), key=lambda i: costs[i])
            settings = frozenset(cut.setting for cut in ordered_cuts(trees[place]))
            self._known[key] = _Cut(costs[place], trees[place], settings)
        return self._known[key]


def pieces_in(tree: Tree) -> tuple[int, ...]:
    """The indexes of the pieces still in this part, by y, then x."""
    found = [leaf for leaf in leaves(tree) if leaf.kind == "pieces"]
    return tuple(leaf.index for leaf in sorted(found, key=lambda leaf: (leaf.part.y, leaf.part.x)))
