"""A class cut with fewer settings and fewer different sheets: patterns found on the way, mixed anew with settings in the balance.

Only for demands that are cut in batches; a kit for one is made easier sheet by sheet, in `polishing.py`.
"""

from collections.abc import Iterator
from fractions import Fraction

from creasewright.cutting.arranging import Arranger
from creasewright.cutting.demand import Effort
from creasewright.cutting.search.master import easiest_mix
from creasewright.cutting.search.rounding import trimmed
from creasewright.cutting.search.search import Found
from creasewright.cutting.search.task import Packing, Task, cost_of, sheets_in

MOST_COLUMNS = 60
"""More patterns than that are not weighed against each other."""
FEW = 2
"""So many different sheets, or fewer, are few enough."""
STEPS_A_NODE = 300
"""Of polishing, for which one node of the search tree is looked at: at usual effort one, which takes about a second."""


def mixed_anew(task: Task, arranger: Arranger, found: Found, unit: Fraction, effort: Effort) -> Iterator[Packing]:
    """Perhaps an easier packing. `unit` is the price of a cost of 1.

    Where settings have no price the sheets cost no more than before; where they have one, a sheet more may save settings.
    """
    best = found.packings[0]
    batches = best.whole and sheets_in(best) > 2 * len(best.uses)
    if not batches or len(best.uses) <= FEW or not len(found.pool) >= 2 or found.stopped:
        return
    columns = found.pool[:MOST_COLUMNS]
    settings = [arranger.settings_of(kind, pattern) for kind, pattern in columns]
    price = Fraction(arranger.wishes.setting_price)
    spare = 0
    if price and unit:
        distinct = frozenset[int]().union(*(arranger.settings_of(use.kind, use.pattern) for use in best.uses))
        spare = int(price * len(distinct) / unit)
    tries = {(0.0, 0), (float(price / unit) if unit else 0.0, spare)}
    for setting_cost, more in sorted(tries):
        amounts = easiest_mix(task, columns, settings, setting_cost, cost_of(task, best) + more, effort.polish // STEPS_A_NODE)
        if amounts is not None:
            packing = trimmed(task, columns, amounts)
            if packing.whole:
                yield packing
