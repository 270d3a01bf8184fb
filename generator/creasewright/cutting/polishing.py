"""From a cheap packing to one that is also easy to cut: fewer settings, fewer different sheets, a larger leftover, no sheet more.

Sheets that are cut equally often are emptied together and filled anew; the change stays if every piece finds a place again and the
plan is no harder to cut. Steps are counted, so the result hangs on nothing but the packing, the effort and the seed.
"""

from collections.abc import Sequence
from random import Random

from creasewright.cutting.arranging import Arranger, Burden
from creasewright.cutting.demand import Effort
from creasewright.cutting.search.refilling import FITS, SPLITS, refill_for
from creasewright.cutting.search.task import Packing, Task, Use, gathered
from creasewright.cutting.whole_numbers import Laid

MOST_SHEETS = 60
"""Above so many different sheets, nothing is changed: a sheet more or less easy is no matter then."""
PLENTY = 60
"""Pieces in the drawings up to which every step is made; with more, a step takes longer, and there are fewer."""
USUAL = 80
"""So many changes in a row that were all met before: there are no others."""
STRAY = 0.4
"""How far an order strays from strictly largest first, as a share of the largest size."""


def polished(task: Task, arranger: Arranger, packings: Sequence[Packing], effort: Effort) -> Packing:
    """The easiest of the packings, made easier still."""
    best = arranger.easiest(packings)
    if not best.whole or len(best.uses) > MOST_SHEETS or sum(len(use.pattern) for use in best.uses) < 2:
        return best
    random = Random(effort.seed)
    least = arranger.burden(best)
    pieces = sum(len(use.pattern) for use in best.uses)
    known: dict[tuple[Use, ...] | None, Burden | None] = {None: None}
    again = 0
    for _ in range(effort.polish * PLENTY // max(PLENTY, pieces)):
        uses = _changed(task, best.uses, random)
        again += 1
        if uses not in known:
            known[uses], again = arranger.burden_of(uses) if uses is not None else None, 0
        burden = known[uses]
        if uses is not None and burden is not None and burden <= least:
            best, least = Packing(uses, best.missing), burden
        if again == USUAL:
            break  # a few pieces go together in a few ways only
    return best


def _changed(task: Task, uses: tuple[Use, ...], random: Random) -> tuple[Use, ...] | None:
    """The packing with one to three of its sheets filled anew; None where a piece finds no place."""
    first = uses[int(random.random() * len(uses))]
    alike = [place for place, use in enumerate(uses) if use.times == first.times]
    chosen = random.sample(alike, min(len(alike), 1 + int(random.random() * 3)))
    left = [laid.which for place in chosen for laid in uses[place].pattern]
    shapes, side = task.shapes, int(random.random() * 4)
    rank = [(s.width * s.height, s.width, s.height, max(s.width, s.height))[side] for s in shapes]
    stray = STRAY * random.random() * max(rank[which] for which in left)
    chance = [stray * random.random() for _ in shapes]
    left.sort(key=lambda which: (chance[which] - rank[which], which))
    split, fit, refill = int(random.random() * SPLITS), int(random.random() * FITS), refill_for(task.rules)
    new: list[Use] = []
    for place in chosen:
        kind = uses[place].kind
        put, left = refill(left, task.ways[kind], task.kinds[kind].width, task.kinds[kind].height, split, fit)
        if put:
            laid = sorted((Laid(which, x, y, *way) for which, x, y, way in put), key=lambda piece: (piece.y, piece.x))
            new.append(Use(kind, tuple(laid), first.times))
    if left:
        return None
    kept = [use for place, use in enumerate(uses) if place not in chosen]
    return gathered([*kept, *new])
