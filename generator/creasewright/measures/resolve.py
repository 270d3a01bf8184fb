"""Values that need one another, each worked out once and only when asked for: measures, blanks, states of an assembly.

Node    something with a value: a key that is its own, and a name to tell it by
Ring    nodes that need one another in a circle; told once, as its path
Stopped the value cannot be had, and why has been told already

Use: whoever wants a value calls `graph.get(key, compute)`. If `compute` itself calls `get` for what it needs, order takes care of
itself. A fault of a node (ProblemsFound) is kept in `problems` and turned into Stopped for all who need the node, so that one
fault is told once and the others still are: ask for each wanted value through `attempt`, then call `raise_if_any`.

    graph = Graph()
    values = {name: graph.attempt(lambda: graph.get(name, work_out(name))) for name in names}
    graph.raise_if_any()
"""

import sys
from collections.abc import Callable
from typing import TypeVar, cast

from creasewright.problems import NOWHERE, CreasewrightError, Problem, ProblemsFound, Where

T = TypeVar("T")

LONGEST_CHAIN = 200
"""Nodes that wait for one another; a design has some tens."""

FRAMES_PER_NODE = 50
"""Calls between one `get` and the next that it leads to, as a rule: a formula takes three for each bracket within a bracket."""

SHOWN_OF_A_RING = 8


class Stopped(CreasewrightError):
    """A value cannot be had because of a fault that has been told already; there is nothing to add."""


class Ring(ProblemsFound):
    """Nodes that need one another; `path` holds their names, the first again at the end."""

    def __init__(self, path: tuple[str, ...], where: Where) -> None:
        self.path = path
        names = list(path)
        if len(names) > SHOWN_OF_A_RING:
            names[SHOWN_OF_A_RING - 2 : -1] = ["…"]
        what = f"{names[0]} needs " + ", which needs ".join(names[1:])
        own = "of its own" if path[0] == path[1] else f"that does not need {path[1]}"
        super().__init__([Problem(where, what, f"give {path[0]} a size {own}")])


class Graph:
    """Values by key, with those in progress and those that failed."""

    def __init__(self, longest_chain: int = LONGEST_CHAIN) -> None:
        self._longest_chain = longest_chain
        self._values: dict[str, object] = {}
        self._failed: set[str] = set()
        self._in_progress: dict[str, tuple[str, Where]] = {}
        self._problems: set[Problem] = set()
        sys.setrecursionlimit(max(sys.getrecursionlimit(), longest_chain * FRAMES_PER_NODE))

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All faults so far, in reading order."""
        return tuple(sorted(self._problems))

    def get(self, key: str, compute: Callable[[], T], where: Where = NOWHERE, called: str = "") -> T:
        """The value of a node, worked out by `compute` the first time. Raises Stopped; why is in `problems`.

        `called` is the node's name in a ring's path (default the key); `where` its place in the file.
        """
        if key in self._values:
            return cast(T, self._values[key])
        if key in self._failed:
            raise Stopped(key)
        try:
            self._refuse_ring(key)
            self._refuse_long_chain(called or key, where)
            self._in_progress[key] = (called or key, where)
            try:
                value = compute()
            except RecursionError:
                raise self._chain_too_long(called or key, where) from None
            finally:
                del self._in_progress[key]
        except ProblemsFound as found:
            self._problems.update(found.problems)
            self._failed.add(key)
            raise Stopped(key) from None
        except Stopped:
            self._failed.add(key)
            raise
        self._values[key] = value
        return value

    def attempt(self, action: Callable[[], T]) -> T | None:
        """What `action` gives, or None when it is stopped or meets a fault; the fault is kept in `problems`."""
        try:
            return action()
        except ProblemsFound as found:
            self._problems.update(found.problems)
        except Stopped:
            pass
        return None

    def raise_if_any(self) -> None:
        """Raises ProblemsFound with every fault so far."""
        if self._problems:
            raise ProblemsFound(self.problems)

    def _refuse_ring(self, key: str) -> None:
        if key not in self._in_progress:
            return
        keys = list(self._in_progress)
        members = [self._in_progress[each] for each in keys[keys.index(key) :]]
        raise Ring((*(name for name, _ in members), members[0][0]), members[0][1])

    def _refuse_long_chain(self, called: str, where: Where) -> None:
        if len(self._in_progress) >= self._longest_chain:
            raise self._chain_too_long(called, where)

    def _chain_too_long(self, called: str, where: Where) -> ProblemsFound:
        first = next(iter(self._in_progress.values()))[0]
        what = f"{called} is needed by {first} through a chain too long to follow ({len(self._in_progress)} one behind another)"
        return ProblemsFound([Problem(where, what, "give one of those between a size of its own")])
