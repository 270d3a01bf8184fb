"""How much shorter what is folded in must be: the trade's rules, and what the caliper takes.

Letter and roll folds: a panel folded inside is made narrower than the one it lies on by at least 1/16 in, by 1/8 in for cover weight (seven
print-trade guides agree on 1/16 in as the least, two of them ask 1/8 in for heavier stock); in a roll fold each further inner panel is
smaller again by 1/16 to 3/32 in (two trade guides). A closed gate has its narrow panels 1/16 in under the wide ones (two trade guides),
so its free edges end as far short of the middle fold. An open gate leaves 1/8 in in all where the doors meet (one trade guide).
Metric packs ask the same in round numbers: 1.5 and 3 mm.

Caliper: a fold that closes over k layers of caliper t is a half circle about them. Its middle line has the length
pi (k t / 2 + t / 2), the bend allowance for 180 degrees with the neutral line in the middle of the sheet (engineering tables of sheet
bending: BA = pi / 180 A (R + K T), here A = 180, R = k t / 2, K = 1 / 2). Half of it lies on either side of the score, so what lies inside
must end pi (k + 1) t / 4 short of the score to lie flat; hands err by 0.8 mm besides (trimmed edge; common practice, no source).
The larger of the two counts.
"""

from math import pi

COVER_WEIGHT = 200
"""g/m² from which stock counts as cover weight."""
TRADE = {"in": (1.5875, 3.175), "mm": (1.5, 3.0)}
"""mm: text weight, cover weight."""
DOORS = {"in": 3.175, "mm": 3.0}
"""mm between the two doors of an open gate."""
HANDS = 0.8


def bight(layers: int, caliper: float) -> float:
    """mm of sheet, on either side of its score, that a fold takes to go round so many layers."""
    return pi * (layers + 1) * caliper / 4


def least_short(layers: int, caliper: float, heavy: bool, system: str) -> float:
    """mm by which a panel must end short of the fold that closes over it and what lies with it."""
    return max(TRADE[system][1 if heavy else 0], bight(layers, caliper) + HANDS)
