"""Angles that close every loop of panels: true states of a ring or a vertex, and of scores that follow others.

A chain of rigid panels hangs on the root over a spanning tree of scores and bonds. Every link off the tree closes a loop; its
error is the distance of three points of the far panel, gone to both ways. A score that turns by dt moves every point p behind it
by w x (p - a) dt (w along the score, a on it), so the derivative of each error is known exactly. The errors are brought to nothing
by Levenberg's damped least squares (K. Levenberg, "A method for the solution of certain non-linear problems in least squares",
Quarterly of Applied Mathematics 2 (1944) 164-168): of all angles that close the loops it finds some near the first guess.
"""

from math import degrees

from msgspec import Struct

from creasewright.folding.panel_graph import Link, neighbours
from creasewright.folding.state import PanelKey, PieceKey, State
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import Placed, over_link, turns_clockwise
from creasewright.geometry.rigid_transform import Vector, apply, compose, cross, minus, norm, rotate

CLOSED = 1e-7
"""mm: loops closer than this are closed."""
ROUNDS = 40
Angles = dict[PieceKey, float]


class Branch(Struct, frozen=True):
    """How a panel hangs on the root: its neighbour towards it, and the score between if that one is free."""

    towards: PanelKey
    free: PieceKey | None
    axis: Vector
    """In the world, a unit vector about which the panel turns as the angle grows."""
    on: Vector


class Loop(Struct, frozen=True):
    """A link that closes a loop, with the points of its second panel that tell whether it does."""

    link: Link
    points: tuple[Vector, ...]


class Linkage:
    """Panels with the scores that may turn; everything else is locked."""

    def __init__(self, state: State, root: PanelKey, all_links: list[Link], free: list[PieceKey]) -> None:
        self.state, self.root, self.free = state, root, free
        self.tree: list[tuple[PanelKey, PanelKey, Link]] = []
        around = neighbours(all_links)
        seen, used, queue = {root}, set(), [root]
        for panel in queue:
            for link in around.get(panel, ()):
                other = link.other(panel)
                if other not in seen:
                    seen.add(other)
                    used.add(id(link))
                    self.tree.append((panel, other, link))
                    queue.append(other)
        off = [link for link in all_links if id(link) not in used and link.first in seen]
        self.loops = [Loop(link, points_of(state, link)) for link in off]

    def placed(self, angles: Angles) -> Placed:
        found = {self.root: self.state.placed[self.root]}
        for near, far, link in self.tree:
            found[far] = compose(found[near], over_link(self.state, link, near, angles))
        return found

    def errors(self, placed: Placed, angles: Angles) -> list[float]:
        found: list[float] = []
        for loop in self.loops:
            link = loop.link
            there = placed[link.second]
            here = compose(placed[link.first], over_link(self.state, link, link.first, angles))
            for point in loop.points:
                found.extend(minus(apply(there, point), apply(here, point)))
        return found

    def closed(self, guess: Angles) -> Angles | None:
        """All angles with the free ones changed, from the guess on, so that every loop closes; None where none is found."""
        angles = dict(guess)
        placed = self.placed(angles)
        errors = self.errors(placed, angles)
        size, damping = norm_of(errors), 1e-6
        for _ in range(ROUNDS):
            if size < CLOSED:
                return angles
            rows = self.slopes(placed, angles)
            for _ in range(12):
                step = least_squares(rows, errors, damping)
                tried = {**angles, **{key: angles[key] - degrees(by) for key, by in zip(self.free, step, strict=True)}}
                there = self.placed(tried)
                left = self.errors(there, tried)
                if norm_of(left) < size:
                    break
                damping *= 10
            else:
                return angles if size < CLOSED * 100 else None
            angles, placed, errors = tried, there, left
            size, damping = norm_of(left), max(damping / 10, 1e-12)
        return angles if size < CLOSED * 100 else None

    def slopes(self, placed: Placed, angles: Angles) -> list[list[float]]:
        """Derivative of every error by every free angle, mm for each radian."""
        column = {key: number for number, key in enumerate(self.free)}
        branch: dict[PanelKey, Branch] = {}
        for near, far, link in self.tree:
            free = link.piece_key if link.piece_key in column else None
            axis, on = axis_of(self.state, placed, link, near) if free is not None else ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
            branch[far] = Branch(near, free, axis, on)
        rows: list[list[float]] = []
        for loop in self.loops:
            link = loop.link
            mine = [(key, axis, on, 1.0) for key, axis, on in self.way(link.second, branch)]
            mine += [(key, axis, on, -1.0) for key, axis, on in self.way(link.first, branch)]
            if link.piece_key in column:
                axis, on = axis_of(self.state, placed, link, link.first)
                mine.append((link.piece_key, axis, on, -1.0))
            for point in loop.points:
                spot = apply(placed[link.second], point)
                three = [[0.0] * len(self.free) for _ in range(3)]
                for key, axis, on, sign in mine:
                    speed = cross(axis, minus(spot, on))
                    for k in range(3):
                        three[k][column[key]] += sign * speed[k]
                rows.extend(three)
        return rows

    def way(self, panel: PanelKey, branch: dict[PanelKey, Branch]) -> list[tuple[PieceKey, Vector, Vector]]:
        found = []
        while panel != self.root:
            step = branch[panel]
            if step.free is not None:
                found.append((step.free, step.axis, step.on))
            panel = step.towards
        return found


def axis_of(state: State, placed: Placed, link: Link, near: PanelKey) -> tuple[Vector, Vector]:
    """The line about which the panel beyond `near` turns as the score's angle grows: direction and a point of it."""
    assert link.piece is not None
    start, end = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
    along = minus(end, start)
    size = norm(along)
    sign = -1.0 if turns_clockwise(state, near[0], link.piece, near[1]) else 1.0
    unit = (along[0] / size * sign, along[1] / size * sign, 0.0)
    return rotate(placed[near].turn, unit), apply(placed[near], start)


def points_of(state: State, link: Link) -> tuple[Vector, ...]:
    """Three points of the second panel that do not lie on one line: for a score its ends and the panel's middle."""
    if link.piece is not None:
        a, b = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
        return a, b, centre_of(state, link.second)
    polygon = state.blanks[link.second[0]].panel(link.second[1]).polygon
    box = min(x for x, _ in polygon), min(y for _, y in polygon), max(x for x, _ in polygon), max(y for _, y in polygon)
    return (box[0], box[1], 0.0), (box[2], box[1], 0.0), (box[0], box[3], 0.0)


def norm_of(values: list[float]) -> float:
    return max((abs(v) for v in values), default=0.0)


def least_squares(rows: list[list[float]], errors: list[float], damping: float) -> list[float]:
    """The step x that makes rows x = errors as nearly as can be, with `damping` times the mean square of the rows on x itself."""
    n = len(rows[0])
    square = [[0.0] * n for _ in range(n)]
    right = [0.0] * n
    for row, error in zip(rows, errors, strict=True):
        filled = [(k, v) for k, v in enumerate(row) if v]
        for i, v in filled:
            right[i] += v * error
            line = square[i]
            for j, w in filled:
                line[j] += v * w
    mean = sum(square[k][k] for k in range(n)) / n or 1.0
    for k in range(n):
        square[k][k] += damping * mean
    return solved(square, right)


def solved(square: list[list[float]], right: list[float]) -> list[float]:
    """x of square x = right, by Cholesky's decomposition (the matrix is symmetric and positive)."""
    n = len(right)
    low = [[0.0] * n for _ in range(n)]
    for i in range(n):
        for j in range(i + 1):
            rest = square[i][j] - sum(low[i][k] * low[j][k] for k in range(j))
            low[i][j] = max(rest, 1e-300) ** 0.5 if i == j else rest / low[j][j]
    y = [0.0] * n
    for i in range(n):
        y[i] = (right[i] - sum(low[i][k] * y[k] for k in range(i))) / low[i][i]
    x = [0.0] * n
    for i in reversed(range(n)):
        x[i] = (y[i] - sum(low[k][i] * x[k] for k in range(i + 1, n))) / low[i][i]
    return x

