"""Problems, findings and measures as lines for a terminal."""

import sys
from collections.abc import Callable, Iterable

from creasewright.exit_codes import CANNOT_BE_USED
from creasewright.problems import BLOCKS, NOTES, NOWHERE, WARNS, Finding, Problem, ProblemsFound
from creasewright.progress import Progress

WORDS = {BLOCKS: "cannot be built", WARNS: "warning", NOTES: "note"}


def tell_problems(problems: Iterable[Problem]) -> None:
    for problem in problems:
        print(problem, file=sys.stderr)


def ended_well(
    work: Callable[[], int], place: str, hint: str = "choose another folder with `--out`", progress: Progress | None = None
) -> int:
    """The exit status of a command's work; what cannot be used is told, and so is a `place` that cannot be written to.

    `progress` is wiped off the line before anything is told.
    """
    try:
        return work()
    except ProblemsFound as found:
        problems = list(found.problems)
    except OSError as fault:
        problems = [Problem(NOWHERE, f"{fault.filename or place}: {fault.strerror}", hint)]
    if progress is not None:
        progress.done()
    tell_problems(problems)
    return CANNOT_BE_USED


def finding_line(finding: Finding) -> str:
    place = f"{finding.where}: " if finding.where.file else ""
    return f"{place}{WORDS[finding.severity]} ({finding.check}): {finding.what}; {finding.hint}"
