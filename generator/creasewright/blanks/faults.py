"""Collects the faults of one blank, so that all of them come in one run."""

from creasewright.geometry.point import Number
from creasewright.problems import Problem, ProblemsFound, Where


class Faults:
    def __init__(self) -> None:
        self.found: list[Problem] = []

    def add(self, where: Where, what: str, hint: str) -> None:
        self.found.append(Problem(where, what, hint))

    def take(self, caught: ProblemsFound) -> None:
        self.found.extend(caught.problems)

    def stop_if_any(self) -> None:
        """Raises ProblemsFound with all so far."""
        if self.found:
            raise ProblemsFound(self.found)


def in_mm(value: Number) -> str:
    """A length for a message, to 0.01 mm."""
    return f"{float(value):.2f}".rstrip("0").rstrip(".") + " mm"


def listed(names: list[str] | tuple[str, ...]) -> str:
    """Names for a message: the first dozen."""
    return ", ".join(names[:12]) + (" …" if len(names) > 12 else "")
