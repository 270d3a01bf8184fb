"""Which measure to change so that more scores come over grooves of the score board, and what else changes with it.

Every length measure is tried at the marks of the maker's ruler within one groove on both sides of its value, the others kept. A try costs
one working out of the design, so this runs only when it is asked for.
"""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

from msgspec import Struct

from creasewright.checked import Checked, checked
from creasewright.fitting.worked import MeasureValue, Worked
from creasewright.problems import Finding, ProblemsFound
from creasewright.reading.read_design import read_design
from creasewright.reading.settings import MakerSettings
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import scores_off_grooves
from creasewright.scoring.score_board import Board
from creasewright.size_range import written
from creasewright.work_out import work_out


class Tried(Struct, frozen=True):
    """The smallest change of one measure that brings the most scores over grooves."""

    measure: MeasureValue
    value: Fraction
    """In place of its own, mm."""
    off: int
    """Scores still on no setting."""
    again: Checked
    """The design with it."""
    raised: tuple[Finding, ...]
    """What is found then that is not found now, score settings aside."""


def scores_off(worked: Worked, board: Board) -> int:
    return sum(len(scores_off_grooves(member, board)) for member in scored_members(worked))


def scores_in_all(worked: Worked) -> int:
    return sum(len(each.lines) for member in scored_members(worked) for each in member.passes)


def better_sizes(design: Path, done: Checked, makers: int, measures: dict[str, str], settings: MakerSettings) -> Iterator[Tried]:
    """For each measure that helps, in the design's order; nothing where every score is on a setting. `measures` hold throughout."""
    now = scores_off(done.worked, done.board)
    if now == 0:
        return
    for measure in done.worked.measures:
        if measure.power != 1 or len(measure.values) != 1 or measure.name in measures:
            continue
        best = best_value(design, done, makers, measures, measure)
        if best is None or best[0] >= now:
            continue
        text = written(measure, best[1], done.worked.system)
        again = checked(design, done.worked.system, makers, {**measures, measure.name: text}, settings, done.tools)
        known = {(finding.check, finding.what) for finding in done.findings}
        raised = [each for each in again.findings if (each.check, each.what) not in known and each.check != "score setting"]
        yield Tried(measure, best[1], best[0], again, tuple(raised))


def best_value(
    design: Path, done: Checked, makers: int, measures: dict[str, str], measure: MeasureValue
) -> tuple[int, Fraction] | None:
    """Scores left off and the value; fewest first, then the smallest change."""
    worked, found = done.worked, []
    step = worked.ruler.step_mm
    for count in range(1, max(1, round(Fraction(done.board.grooves) / step)) + 1):
        for value in (measure.values[0] - count * step, measure.values[0] + count * step):
            low, high = measure.lowest, measure.highest
            if value <= 0 or (low is not None and value < low) or (high is not None and value > high):
                continue
            try:
                settings = {**measures, measure.name: written(measure, value, worked.system)}
                again = work_out(read_design(design), worked.system, makers, settings, worked.ruler)
            except ProblemsFound:
                continue
            if scores_in_all(again) == scores_in_all(worked):
                found.append((scores_off(again, done.board), count, value))
    if not found:
        return None
    off, _, value = min(found)
    return off, value
