"""The faults of one file, collected so that one run tells all of them."""

from creasewright.problems import Problem, ProblemsFound, Where

MOST = 100
"""Faults told in one run. A file with more is another kind of file, and looking up names for each would take long."""


class Faults:
    def __init__(self) -> None:
        self._problems: list[Problem] = []

    def note(self, where: Where, what: str, hint: str) -> None:
        """Keep one fault; raises ProblemsFound when there are too many to go on."""
        self._problems.append(Problem(where, what, hint))
        if len(self._problems) >= MOST:
            raise ProblemsFound(
                [*self._problems, Problem(where, f"{MOST} faults were found, and reading ended here", "mend these first")]
            )

    def stop(self, where: Where, what: str, hint: str) -> ProblemsFound:
        """The error to raise when nothing more can be read; it holds the faults so far as well."""
        return ProblemsFound([*self._problems, Problem(where, what, hint)])

    def raise_if_any(self) -> None:
        if self._problems:
            raise ProblemsFound(self._problems)


def shown(text: str) -> str:
    """A value as written, in back quotes, short enough for one line."""
    words = " ".join(text.split())
    return f"`{words}`" if len(words) <= 60 else f"`{words[:57]}…`"


def any_of(words: tuple[str, ...]) -> str:
    """`a, b or c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"
