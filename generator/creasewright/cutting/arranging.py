"""Which of equally good packings is easiest to cut: each of its sheets cut the best way, then all of them weighed together."""

from collections.abc import Iterable

from msgspec import Struct, field

from creasewright.cutting.blocks import blocks_of
from creasewright.cutting.cut_order import Cost, cost_of, leaves, ordered_cuts
from creasewright.cutting.cut_tree import Sheet, Tree, trees_of
from creasewright.cutting.guillotine import Packing, sheets_in
from creasewright.cutting.whole_numbers import Pattern, Reach

Arranged = tuple[tuple[Tree, int], ...]
"""Ways to cut a sheet, each with the number of sheets cut so."""


class Arranger(Struct, frozen=True):
    """Arranges patterns on sheets of one kind; the same pattern is worked out once."""

    sheet: Sheet
    reach: Reach
    _known: dict[Pattern, tuple[Cost, Tree]] = field(default_factory=dict)

    def easiest(self, packings: Iterable[Packing]) -> Arranged:
        """The packing with the fewest sheets, then trimmer faults, settings, different sheets, moves of the stop, then the
        largest offcut; of equals the first."""
        return self._arranged(min(packings, key=self._burden))

    def _arranged(self, packing: Packing) -> Arranged:
        counts: dict[Tree, int] = {}
        for pattern, count in packing:
            tree = self._best(pattern)[1]
            counts[tree] = counts.get(tree, 0) + count
        return tuple(counts.items())

    def _burden(self, packing: Packing) -> tuple[int, int, int, int, int, int]:
        costs = [self._best(pattern)[0] for pattern, _ in packing]
        settings = {cut.setting for pattern, _ in packing for cut in ordered_cuts(self._best(pattern)[1])}
        return (
            sheets_in(packing),
            sum(cost.faults for cost in costs),
            len(settings),
            len(packing),
            sum(cost.moves for cost in costs),
            min(cost.largest_offcut for cost in costs),
        )

    def _best(self, pattern: Pattern) -> tuple[Cost, Tree]:
        if pattern not in self._known:
            trees = [tree for block in blocks_of(pattern) for tree in trees_of(block, self.sheet)]
            costs = [cost_of(tree, self.reach) for tree in trees]
            place = min(range(len(trees)), key=lambda i: costs[i])
            self._known[pattern] = costs[place], trees[place]
        return self._known[pattern]


def pieces_in(tree: Tree) -> tuple[int, ...]:
    """The indexes of the pieces still in this part, by y, then x."""
    found = [leaf for leaf in leaves(tree) if leaf.kind == "pieces"]
    return tuple(leaf.index for leaf in sorted(found, key=lambda leaf: (leaf.part.y, leaf.part.x)))
