"""Faults and findings: where, what, and what to do.

Problem    something in an input file that cannot be used; the run stops after all of one stage are collected
Finding    something about the thing designed: it blocks, warns or notes

Wording: the value as written, then what was expected; the hint is one thing to do.
"""

from msgspec import Struct


class Where(Struct, frozen=True, order=True):
    """A place in a file; line and column count from 1 (0: the whole file)."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


NOWHERE = Where("")


class Problem(Struct, frozen=True, order=True):
    """One fault, told to the person who wrote the file."""

    where: Where
    what: str
    hint: str

    def __str__(self) -> str:
        place = f"{self.where}: " if self.where.file else ""
        return f"{place}{self.what}; {self.hint}" if self.hint else f"{place}{self.what}"


class CreasewrightError(Exception):
    """The base of every error of our own."""


class ProblemsFound(CreasewrightError):
    """Carries every problem of one stage, in reading order."""

    def __init__(self, problems: list[Problem] | tuple[Problem, ...]) -> None:
        self.problems = tuple(sorted(set(problems)))
        super().__init__("\n".join(str(problem) for problem in self.problems))


BLOCKS = "blocks"
WARNS = "warns"
NOTES = "notes"


class Finding(Struct, frozen=True):
    """What a check found. `severity` is BLOCKS (cannot be built), WARNS or NOTES."""

    severity: str
    check: str
    """The check's own short name, as in `known:` of a design file."""
    where: Where
    what: str
    hint: str
