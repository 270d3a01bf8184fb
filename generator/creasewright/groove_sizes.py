"""Which measure to change so that more scores come over grooves of the score board, and what else changes with it.

Every length measure is tried at the marks of the maker's ruler within one groove on both sides of its value, the others kept; where none
brings all scores over grooves, two together (`groove_pairs.py`). A try costs one working out of the design, so this runs only when it is
asked for.
"""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from msgspec import Struct

from creasewright.checked import Checked, checked
from creasewright.fitting.worked import MeasureValue, Worked
from creasewright.groove_pairs import Change, WorkedWith, allowed, best_pair
from creasewright.problems import Finding, ProblemsFound
from creasewright.reading.read_design import read_design
from creasewright.reading.settings import MakerSettings
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import scores_off_grooves
from creasewright.scoring.score_board import Board
from creasewright.size_range import written
from creasewright.work_out import work_out


class Tried(Struct, frozen=True):
    """The smallest change of one measure, or of two, that brings the most scores over grooves."""

    changes: tuple[Change, ...]
    off: int
    """Scores still on no setting."""
    again: Checked
    """The design with it."""
    raised: tuple[Finding, ...]
    """What is found then that is not found now, score settings aside."""


def scores_off(worked: Worked, board: Board) -> int:
    return sum(len(scores_off_grooves(member, board)) for member in scored_members(worked))


def scores_without_edge(worked: Worked, board: Board) -> int:
    """Those that no size helps: no edge beside them can lie against the stop."""
    return sum(one.nearest is None for member in scored_members(worked) for one in scores_off_grooves(member, board))


def scores_in_all(worked: Worked) -> int:
    return sum(len(each.lines) for member in scored_members(worked) for each in member.passes)


def better_sizes(design: Path, done: Checked, makers: int, measures: dict[str, str], settings: MakerSettings) -> Iterator[Tried]:
    """For each measure that helps, in the design's order, then two together; nothing where no size helps. `measures` hold throughout."""
    worked, board = done.worked, done.board
    now, least = scores_off(worked, board), scores_without_edge(worked, board)
    if now == least:
        return

    def works(changes: tuple[Change, ...]) -> Worked | None:
        """The design with these values; None where it cannot be worked out so, or has other scores."""
        values = {**measures, **{measure.name: written(measure, value, worked.system) for measure, value in changes}}
        try:
            again = work_out(read_design(design), worked.system, makers, values, worked.ruler)
        except ProblemsFound:
            return None
        return again if scores_in_all(again) == scores_in_all(worked) else None

    def tried(changes: tuple[Change, ...]) -> Tried:
        values = {**measures, **{measure.name: written(measure, value, worked.system) for measure, value in changes}}
        again = checked(design, worked.system, makers, values, settings, done.tools)
        known = {(finding.check, finding.what) for finding in done.findings}
        raised = [each for each in again.findings if (each.check, each.what) not in known and each.check != "score setting"]
        return Tried(changes, scores_off(again.worked, board), again, tuple(raised))

    free = tuple(one for one in worked.measures if one.power == 1 and len(one.values) == 1 and one.name not in measures)
    fewest = now
    for measure in free:
        best = best_value(done, measure, works)
        if best is not None and best[0] < now:
            yield tried(((measure, best[1]),))
            fewest = min(fewest, best[0])
    pair = best_pair(worked, board, free, fewest, works) if fewest > least else None
    if pair is not None:
        yield tried(pair)


def best_value(done: Checked, measure: MeasureValue, works: WorkedWith) -> tuple[int, Fraction] | None:
    """Scores left off and the value; fewest first, then the smallest change."""
    found = []
    step = done.worked.ruler.step_mm
    for count in range(1, max(1, round(Fraction(done.board.grooves) / step)) + 1):
        for value in (measure.values[0] - count * step, measure.values[0] + count * step):
            again = works(((measure, value),)) if allowed(measure, value) else None
            if again is not None:
                found.append((scores_off(again, done.board), count, value))
    if not found:
        return None
    off, _, value = min(found)
    return off, value
