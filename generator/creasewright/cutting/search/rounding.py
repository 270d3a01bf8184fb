"""From the best mix of patterns to whole sheets: cut the whole parts of the mix, and plan what is left as a small kit.

What is left is at most about a sheet a shape, however large the class: so the work does not grow with the number of makers.
"""

from collections.abc import Callable, Iterator, Sequence
from random import Random

from creasewright.cutting.search.columns import Mix
from creasewright.cutting.search.constructions import packings
from creasewright.cutting.search.master import Column
from creasewright.cutting.search.ruin import improved
from creasewright.cutting.search.task import UNLIMITED, Packing, Task, Use, cost_of, counts_in, gathered, wanting

HELD_BACK = (0, 1, 2)
"""How many sheets of each pattern that is cut more often than this are left to the small kit, one attempt each."""


def rounded(task: Task, mix: Mix, floor: int, iterations: int, random: Random, over: Callable[[], bool]) -> Iterator[Packing]:
    """Whole packings, one for each way of holding back; ends when one costs no more than the floor."""
    for held_back in HELD_BACK:
        firm, left, stock = _firm(task, mix, held_back)
        spent = sum(task.kinds[use.kind].cost * use.times for use in firm)
        rest = Packing((), tuple(left))
        if any(left):
            kinds = tuple(kind._replace(limit=there) for kind, there in zip(task.kinds, stock, strict=True))
            small = wanting(Task(task.shapes, kinds, task.rules, task.ways), left)
            aim = max(0, floor - spent)
            *_, (rest, _) = improved(small, packings(small, aim)[0], aim, iterations // len(HELD_BACK), random, over)
        packing = Packing(gathered([*firm, *rest.uses]), rest.missing)
        yield packing
        if (packing.whole and cost_of(task, packing) <= floor) or over():
            return


def _firm(task: Task, mix: Mix, held_back: int) -> tuple[list[Use], list[int], list[int]]:
    """The whole parts of the mix, never more than is wanted or there; then what is still wanted and what stock there is."""
    left = [shape.wanted for shape in task.shapes]
    stock = [kind.limit for kind in task.kinds]
    firm: list[Use] = []
    order = sorted(range(len(mix.columns)), key=lambda i: -mix.amounts[i])
    for place in order:
        kind, pattern = mix.columns[place]
        counts = counts_in(pattern)
        wished = int(mix.amounts[place] + 1e-6)
        times = min(wished - min(held_back, wished - 1 if wished else 0), stock[kind], *(left[w] // n for w, n in counts.items()))
        if times > 0:
            firm.append(Use(kind, pattern, times))
            for which, count in counts.items():
                left[which] -= count * times
            if stock[kind] < UNLIMITED:
                stock[kind] -= times
    return firm, left, stock


def trimmed(task: Task, columns: Sequence[Column], amounts: Sequence[int]) -> Packing:
    """Sheets that give at least the demand as a packing that gives exactly that: what is too much is left out."""
    left = [shape.wanted for shape in task.shapes]
    uses: list[Use] = []
    for (kind, pattern), amount in sorted(zip(columns, amounts, strict=True), key=lambda pair: -pair[1]):
        while amount > 0 and pattern:
            times = min(amount, *(left[which] // count for which, count in counts_in(pattern).items()))
            if times:
                uses.append(Use(kind, pattern, times))
                for which, count in counts_in(pattern).items():
                    left[which] -= count * times
                amount -= times
            spare = {which: count - left[which] for which, count in counts_in(pattern).items()}
            kept = []
            for laid in pattern:
                if spare[laid.which] > 0:
                    spare[laid.which] -= 1
                else:
                    kept.append(laid)
            pattern = tuple(kept)
    return Packing(gathered(uses), tuple(left))
