"""Angles that close every loop of panels: true states of a ring or a vertex, and of scores that follow others.

Panels that no turning score parts are one rigid party. The parties hang on the root's over a spanning tree of scores; every other
score closes a loop, whose error is the distance of three points of the far party, gone to both ways. A score that turns by dt moves
every point p behind it by w x (p - a) dt (w along the score, a on it), so the derivative of each error is known exactly. The errors
are brought to nothing by Levenberg's damped least squares (K. Levenberg, "A method for the solution of certain non-linear problems
in least squares", Quarterly of Applied Mathematics 2 (1944) 164-168): of all angles that close the loops it finds some near the
first guess.
"""

from math import degrees, hypot

from msgspec import Struct

from creasewright.folding.panel_graph import Link, clusters, neighbours
from creasewright.folding.state import Bond, PanelKey, PieceKey, State
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import Placed, turns_clockwise
from creasewright.geometry.rigid_transform import Rigid, Vector, about_line, apply, compose, cross, inverse, minus, norm, rotate

CLOSED = 1e-6
"""mm: loops closer than this are closed."""
NEARLY = 1e-4
"""mm: as near as rounding lets some loops come."""
ROUNDS = 40
Angles = dict[PieceKey, float]


class Hinge(Struct, frozen=True):
    """A score that may turn, between two rigid parties: where it lies in the frame of each."""

    key: PieceKey
    near: int
    """Party."""
    far: int
    before: Rigid
    """From the frame of the near party to that of its panel beside the score."""
    start: tuple[float, float]
    end: tuple[float, float]
    sign: float
    """+1 where the far panel turns by the right-hand rule along the score as the angle grows, else -1; half of that at a sewn line,
    about which either half of the fold turns half as far."""
    after: Rigid
    """From the far panel to the frame of its party."""
    points: tuple[Vector, ...]
    """Three points of the far party, in its frame, that tell whether a loop closes: the score's ends and the panel's middle."""

    def over(self, angle: float) -> Rigid:
        return compose(self.before, compose(about_line(self.start, self.end, self.sign * angle), self.after))

    def axis(self, placed: Rigid) -> tuple[Vector, Vector]:
        """The line in the world about which the far party turns as the angle grows: direction, as long as it turns fast, and a point
        of it."""
        here = compose(placed, self.before)
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        size = hypot(dx, dy) / self.sign
        return rotate(here.turn, (dx / size, dy / size, 0.0)), apply(here, (self.start[0], self.start[1], 0.0))


class Linkage:
    """Rigid parties of panels with the scores between them that may turn."""

    def __init__(self, state: State, root: PanelKey, all_links: list[Link], turning: list[PieceKey], free: list[PieceKey]) -> None:
        """`turning`: every score that is not locked; `free`: those of them whose angles are sought."""
        self.state, self.free = state, free
        self.column = {key: number for number, key in enumerate(free)}
        self.party: dict[PanelKey, int] = {}
        self.home: list[Rigid] = []
        around = neighbours(all_links, frozenset(turning))
        for number, group in enumerate(clusters(dict.fromkeys(p for link in all_links for p in (link.first, link.second)), around)):
            self.party.update(dict.fromkeys(group, number))
            self.home.append(state.placed[min(group)])
        self.root = self.party[root]
        self.members = [(key, number, compose(inverse(self.home[number]), state.placed[key])) for key, number in self.party.items()]
        self.tree, self.loops = self.spanned([link for link in all_links if link.turns_with in set(turning)])

    def spanned(self, hinges: list[Link]) -> tuple[list[Hinge], list[Hinge]]:
        """The hinges over which the parties hang on the root's, nearest first, and those that close loops."""
        left = [link for link in hinges if self.party[link.first] != self.party[link.second]]
        around: dict[int, list[Link]] = {}
        for link in left:
            around.setdefault(self.party[link.first], []).append(link)
            around.setdefault(self.party[link.second], []).append(link)
        seen, used, queue = {self.root}, set(), [self.root]
        tree = []
        for party in queue:
            for link in around.get(party, ()):
                near = link.first if self.party[link.first] == party else link.second
                other = self.party[link.other(near)]
                if other not in seen:
                    seen.add(other)
                    used.add(id(link))
                    tree.append(self.hinge(link, near))
                    queue.append(other)
        loops = [self.hinge(link, link.first) for link in left if id(link) not in used and self.party[link.first] in seen]
        return tree, loops

    def hinge(self, link: Link, near: PanelKey) -> Hinge:
        if link.bond is not None:
            return self.sewn(link.bond, near)
        assert link.piece is not None and link.piece_key is not None
        far = link.other(near)
        a, b = ((float(p.x), float(p.y)) for p in (link.piece.start, link.piece.end))
        one, two = self.party[near], self.party[far]
        into = compose(inverse(self.state.placed[far]), self.home[two])
        points = tuple(apply(inverse(into), p) for p in ((*a, 0.0), (*b, 0.0), centre_of(self.state, far)))
        sign = -1.0 if turns_clockwise(self.state, near[0], link.piece, near[1]) else 1.0
        return Hinge(link.piece_key, one, two, compose(inverse(self.home[one]), self.state.placed[near]), a, b, sign, into, points)

    def sewn(self, bond: Bond, near: PanelKey) -> Hinge:
        """The line along which `second` of a bond is sewn to `first` (see `transforms.held_at`), from either side."""
        assert bond.hinge is not None
        part, name = bond.hinge
        piece = next(p for p in self.state.blanks[part].pieces if p.name == name)
        other = piece.second if bond.second[1] == piece.first else piece.first
        a, b = ((float(p.x), float(p.y)) for p in (piece.start, piece.end))
        sign = -0.5 if turns_clockwise(self.state, part, piece, other) else 0.5
        far = bond.second if near == bond.first else bond.first
        one, two = self.party[near], self.party[far]
        before = compose(inverse(self.home[one]), self.state.placed[near])
        into = compose(inverse(self.state.placed[far]), self.home[two])
        spots: list[Vector] = [(*a, 0.0), (*b, 0.0)]
        if near == bond.first:
            before = compose(before, bond.relative)
            points = tuple(apply(inverse(into), p) for p in (*spots, centre_of(self.state, far)))
            return Hinge(bond.hinge, one, two, before, a, b, sign, into, points)
        points = tuple(apply(inverse(into), p) for p in (*(apply(bond.relative, s) for s in spots), centre_of(self.state, far)))
        return Hinge(bond.hinge, one, two, before, a, b, -sign, compose(inverse(bond.relative), into), points)

    def parties(self, angles: Angles) -> list[Rigid]:
        found = list(self.home)
        for hinge in self.tree:
            found[hinge.far] = compose(found[hinge.near], hinge.over(angles.get(hinge.key, 0.0)))
        return found

    def placed(self, angles: Angles) -> Placed:
        """Where every panel is; the root's party stays."""
        parties = self.parties(angles)
        return {key: compose(parties[number], within) for key, number, within in self.members}

    def errors(self, parties: list[Rigid], angles: Angles) -> list[float]:
        found: list[float] = []
        for hinge in self.loops:
            there = parties[hinge.far]
            here = compose(parties[hinge.near], hinge.over(angles.get(hinge.key, 0.0)))
            for point in hinge.points:
                found.extend(minus(apply(there, point), apply(here, point)))
        return found

    def closed(self, guess: Angles) -> Angles | None:
        """All angles with the free ones changed, from the guess on, so that every loop closes; None where none is found."""
        angles = dict(guess)
        parties = self.parties(angles)
        errors = self.errors(parties, angles)
        size, damping = norm_of(errors), 1e-6
        for _ in range(ROUNDS):
            if size < CLOSED:
                return angles
            rows = self.slopes(parties, angles)
            for _ in range(12):
                step = least_squares(rows, errors, damping)
                tried = {**angles, **{key: angles.get(key, 0.0) - degrees(by) for key, by in zip(self.free, step, strict=True)}}
                there = self.parties(tried)
                left = self.errors(there, tried)
                if norm_of(left) < size:
                    break
                damping *= 10
            else:
                return angles if size < NEARLY else None
            angles, parties, errors = tried, there, left
            size, damping = norm_of(left), max(damping / 10, 1e-12)
        return angles if size < NEARLY else None

    def slopes(self, parties: list[Rigid], angles: Angles) -> list[list[float]]:
        """Derivative of every error by every free angle, mm for each radian."""
        way: dict[int, list[tuple[int, Vector, Vector]]] = {self.root: []}
        for hinge in self.tree:
            way[hinge.far] = way[hinge.near]
            if hinge.key in self.column:
                way[hinge.far] = [*way[hinge.near], (self.column[hinge.key], *hinge.axis(parties[hinge.near]))]
        rows: list[list[float]] = []
        for hinge in self.loops:
            turns = [(*turn, 1.0) for turn in way[hinge.far]] + [(*turn, -1.0) for turn in way[hinge.near]]
            if hinge.key in self.column:
                turns.append((self.column[hinge.key], *hinge.axis(parties[hinge.near]), -1.0))
            for point in hinge.points:
                spot = apply(parties[hinge.far], point)
                three = [[0.0] * len(self.free) for _ in range(3)]
                for column, axis, on, sign in turns:
                    speed = cross(axis, minus(spot, on))
                    for k in range(3):
                        three[k][column] += sign * speed[k]
                rows.extend(three)
        return rows


def axis_of(state: State, placed: Placed, link: Link, near: PanelKey) -> tuple[Vector, Vector]:
    """The line about which the panel beyond `near` turns as the score's angle grows: direction and a point of it."""
    assert link.piece is not None
    start, end = ((float(p.x), float(p.y), 0.0) for p in (link.piece.start, link.piece.end))
    along = minus(end, start)
    size = norm(along)
    sign = -1.0 if turns_clockwise(state, near[0], link.piece, near[1]) else 1.0
    unit = (along[0] / size * sign, along[1] / size * sign, 0.0)
    return rotate(placed[near].turn, unit), apply(placed[near], start)


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

