"""What every check is given, and how lengths are said in its findings."""

from fractions import Fraction

from msgspec import Struct

from creasewright.cutting.demand import Trimmer
from creasewright.cutting.plan import PaperPlan
from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.hands.error_table import HandErrors
from creasewright.joining.run_step import StepRun
from creasewright.problems import BLOCKS, Finding
from creasewright.scoring.score_board import Board
from creasewright.units.ruler import DOWN, UP, length_in_words, mark_in_words


class Facts(Struct, frozen=True):
    worked: Worked
    plans: tuple[PaperPlan, ...]
    trimmer: Trimmer
    errors: HandErrors = HandErrors()
    """What hands err by."""
    board: Board | None = None
    """The score board; None: there is none to hold scores against."""

    def said(self, mm: float | Fraction) -> str:
        """A length as it is, in the pack's units: `0.04 in`, `1.2 mm`."""
        return length_in_words(mm if mm >= 0 else -mm, self.worked.system)

    def at_least(self, mm: float | Fraction) -> str:
        """The mark on the maker's ruler that is not below a length."""
        return mark_in_words(mm if mm >= 0 else -mm, self.worked.ruler, UP).text

    def at_most(self, mm: float | Fraction) -> str:
        """The mark on the maker's ruler that is not above a length."""
        return mark_in_words(mm if mm >= 0 else -mm, self.worked.ruler, DOWN).text

    def original_runs(self) -> list[tuple[AssemblyRun, StepRun]]:
        """Every step once; a mirrored assembly has the same faults as its original and is left out."""
        seen: set[str] = set()
        found = []
        for assembly in self.worked.assemblies:
            if assembly.assembly in seen:
                continue
            seen.add(assembly.assembly)
            found += [(assembly, run) for run in assembly.runs]
        return found


def earlier(assembly: AssemblyRun, run: StepRun, by: StepRun, what: str, severity: str = BLOCKS, check: str = "order") -> Finding:
    """A fault that is cured by putting this step before the other: it names both."""
    of = f" of {assembly.assembly}" if assembly.assembly else ""
    return Finding(severity, check, run.written.where, what, f"put step {run.number}{of} before step {by.number}")


def part_words(path: str) -> str:
    """`seed card of front block` for the path `front block/seed card`."""
    return " of ".join(reversed(path.split("/")))
