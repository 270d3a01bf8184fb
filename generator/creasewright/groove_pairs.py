"""Which two measures to change together so that more scores come over grooves, where no change of one alone brings all of them there.

Trying every pair would take an hour: each try is a working out of the design. But scores move in proportion to a measure as long as no
`max` or `up` turns over, so each measure is tried once, a mark of the ruler away, and every pair is reckoned from that; those that promise
most are worked out, best first, and the first that keeps its promise is it.
"""

from collections.abc import Callable, Mapping
from fractions import Fraction
from itertools import combinations, groupby, product

from msgspec import Struct

from creasewright.fitting.worked import MeasureValue, Worked
from creasewright.scoring.members import scored_members
from creasewright.scoring.score_board import Board, every_set_up, groove_at
from creasewright.scoring.stop_edges import edges_that_hold

WORKED_OUT = 8
"""Pairs at most that are worked out."""
Change = tuple[MeasureValue, Fraction]
"""A measure and what stands in its place, mm."""
WorkedWith = Callable[[tuple[Change, ...]], Worked | None]
"""The design with other values, if it can be worked out so and has the same scores."""


class Row(Struct, frozen=True):
    """The scores of one piece that run one way. mm."""

    length: Fraction | float
    places: tuple[Fraction | float, ...]
    edges: tuple[bool, bool]


Rows = Mapping[tuple[str, str], Row]
"""By mark and run."""


def rows_of(worked: Worked) -> dict[tuple[str, str], Row]:
    found = {}
    for member in scored_members(worked):
        for run, group in groupby(member.passes, key=lambda each: each.run):
            passes = tuple(group)
            if passes[0].measured:
                lie = passes[0].lie
                places = sorted({place for each in passes for place in each.positions})
                found[member.mark, run] = Row(lie.width, tuple(places), edges_that_hold(member.blank, lie))
    return found


def best_pair(worked: Worked, board: Board, measures: tuple[MeasureValue, ...], now: int, works: WorkedWith) -> tuple[Change, ...] | None:
    """The two changes that leave fewest of the `now` scores off, then the smallest ones; None where none helps."""
    step = worked.ruler.step_mm
    base = rows_of(worked)
    slopes = {}
    for measure in measures:
        slope = slopes_of(worked, base, measure, step, works)
        if slope is not None:
            slopes[measure.name] = slope
    count = max(1, round(Fraction(board.grooves) / step))
    ways = [k for k in range(-count, count + 1) if k]
    promising: list[tuple[int, int, int, tuple[Change, ...]]] = []
    moved = [measure for measure in measures if any(any(row.places) or row.length for row in slopes.get(measure.name, {}).values())]
    for (first, second), counts in product(combinations(moved, 2), product(ways, repeat=2)):
        changes = tuple((measure, measure.values[0] + k * step) for measure, k in zip((first, second), counts, strict=True))
        if all(allowed(*change) for change in changes):
            rows = reckoned(base, [(slopes[measure.name], k) for measure, k in zip((first, second), counts, strict=True)])
            off = sum(off_grooves(row, board) for row in rows)
            if off < now:
                promising.append((off, abs(counts[0]) + abs(counts[1]), len(promising), changes))
    for off, _, _, changes in sorted(promising)[:WORKED_OUT]:
        again = works(changes)
        if again is not None and sum(off_grooves(row, board) for row in rows_of(again).values()) <= off:
            return changes
    return None


def slopes_of(worked: Worked, base: Rows, measure: MeasureValue, step: Fraction, works: WorkedWith) -> Rows | None:
    """How far every length and place moves for one mark of the ruler; None where the scores are other ones then."""
    for way in (1, -1):
        change = measure, measure.values[0] + way * step
        again = works((change,)) if allowed(*change) else None
        rows = rows_of(again) if again is not None else {}
        if again is not None and all(key in rows and len(rows[key].places) == len(row.places) for key, row in base.items()):
            return {
                key: Row(
                    way * (rows[key].length - row.length),
                    tuple(way * (there - here) for there, here in zip(rows[key].places, row.places, strict=True)),
                    row.edges,
                )
                for key, row in base.items()
            }
    return None


def allowed(measure: MeasureValue, value: Fraction) -> bool:
    low, high = measure.lowest, measure.highest
    return value > 0 and (low is None or value >= low) and (high is None or value <= high)


def reckoned(base: Rows, changes: list[tuple[Rows, int]]) -> list[Row]:
    return [
        Row(
            row.length + sum(k * slopes[key].length for slopes, k in changes),
            tuple(place + sum(k * slopes[key].places[n] for slopes, k in changes) for n, place in enumerate(row.places)),
            row.edges,
        )
        for key, row in base.items()
    ]


def off_grooves(row: Row, board: Board) -> int:
    """Places that no setting reaches."""
    ways = every_set_up(board, row.edges)
    return sum(all(groove_at(place, row.length, board, way) is None for way in ways) for place in row.places)
