"""Problems, findings and measures as lines for a terminal."""

import sys
from collections.abc import Iterable

from creasewright.problems import BLOCKS, NOTES, WARNS, Finding, Problem

WORDS = {BLOCKS: "cannot be built", WARNS: "warning", NOTES: "note"}


def tell_problems(problems: Iterable[Problem]) -> None:
    for problem in problems:
        print(problem, file=sys.stderr)


def finding_line(finding: Finding) -> str:
    place = f"{finding.where}: " if finding.where.file else ""
    return f"{place}{WORDS[finding.severity]} ({finding.check}): {finding.what}; {finding.hint}"
