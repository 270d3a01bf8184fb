"""A design read, worked out, planned and checked: what both commands begin with. Knows no page and no PDF."""

from collections.abc import Callable, Iterator
from pathlib import Path

from msgspec import Struct

from creasewright.booklet.drawing import Photograph
from creasewright.checks.every_check import every_finding
from creasewright.checks.facts import Facts
from creasewright.cutting.demand import EFFORTS, Effort, Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.cutting.plan import PaperPlan
from creasewright.fitting.worked import Worked
from creasewright.hands.error_table import HandErrors, hand_errors
from creasewright.photograph import photograph
from creasewright.problems import BLOCKS, Finding, Problem, ProblemsFound
from creasewright.reading.read_design import read_design
from creasewright.reading.settings import MakerSettings, Tools
from creasewright.scoring.score_board import Board
from creasewright.size_range import ends_of_ranges
from creasewright.supplies import supplies_of
from creasewright.units.ruler import Ruler
from creasewright.work_out import work_out


class Checked(Struct, frozen=True):
    worked: Worked
    plans: tuple[PaperPlan, ...]
    findings: tuple[Finding, ...]
    tools: Tools
    errors: HandErrors
    """What hands err by."""
    board: Board
    """The maker's score board."""
    photograph: Photograph | None
    """For the cover, where the design names one."""

    @property
    def blocked(self) -> bool:
        return any(finding.severity == BLOCKS for finding in self.findings)


class AtEnd(Struct, frozen=True):
    """What is found against a design at one end of its range of sizes."""

    end: str
    """In words: `page width 4 1/2 in`."""
    findings: tuple[Finding, ...]
    problems: tuple[Problem, ...]
    """Why it could not even be worked out; else empty."""

    @property
    def blocked(self) -> bool:
        return bool(self.problems) or any(finding.severity == BLOCKS for finding in self.findings)


def checked_at_ends(
    design: Path, done: Checked, makers: int, measures: dict[str, str], settings: MakerSettings
) -> Iterator[AtEnd]:
    """The design again at both ends of every measure's range, and at all ends together; `measures` hold throughout."""
    for words, values in ends_of_ranges(done.worked):
        try:
            again = checked(design, done.worked.system, makers, {**measures, **values}, settings, done.tools)
        except ProblemsFound as found:
            yield AtEnd(words, (), tuple(found.problems))
        else:
            yield AtEnd(words, again.findings, ())


def checked(
    design: Path,
    units: str,
    makers: int,
    measures: dict[str, str],
    settings: MakerSettings,
    tools: Tools,
    effort: Effort = EFFORTS["usual"],
    say: Callable[[str, int, int], None] | None = None,
) -> Checked:
    """Raises ProblemsFound with every fault of the input. `say(paper, sheets, bound)` tells how the cutting plans come on."""
    written = read_design(design)
    picture, missing = None, ProblemsFound(())
    if written.photo is not None:
        try:
            picture = photograph(design, written.photo)
        except ProblemsFound as found:
            missing = found
    ruler = Ruler(units, settings.ruler.mm(units))
    try:
        worked = work_out(written, units, makers, measures, ruler)
    except ProblemsFound as found:
        raise ProblemsFound(found.problems + missing.problems) from None
    if missing.problems:
        raise missing
    trimmer = Trimmer(tools.longest_cut.mm(units), tools.narrowest_strip.mm(units), tools.least_trim.mm(units))
    plans = plans_of(worked, trimmer, supplies_of(tools, worked, effort), say)
    errors = hand_errors({operation: length.mm(units) for operation, length in tools.hand_errors.items()})
    board = Board(tools.grooves.mm(units), tools.board.mm(units), tuple(each.mm(units) for each in tools.spacers), tools.stop)
    return Checked(worked, plans, every_finding(Facts(worked, plans, trimmer, errors, board)), tools, errors, board, picture)
