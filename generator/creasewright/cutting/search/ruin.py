"""Ruin and recreate: a few sheets are emptied and filled anew, over and over, until one sheet fewer will do.

After Gardeyn & Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing problem with guillotine
constraints", Eur. J. Oper. Res. 301 (2022) 432-444: a goal is set (less cost than the best plan), pieces that find no place wait,
and a change stays if what waits is not more. Ours empties whole sheets rather than parts of their cut trees: a sheet of a kit
holds few pieces, and filling it anew costs no more than mending it.

Measured on every fifth instance of the published classes while choosing: orders strayed by up to a fifth of the largest size and
waiting pieces weighed by area to the power 1.3 closed most; accepting worse changes closed nothing more.
"""

from collections.abc import Callable, Iterator, Sequence
from random import Random

from creasewright.cutting.search.refilling import FITS, SPLITS, Put, refill_for
from creasewright.cutting.search.task import Packing, Task, Use, burden, cost_of, gathered, sheets_in
from creasewright.cutting.whole_numbers import Laid

STRAY = 0.2
"""How far an order strays from strictly largest first, as a share of the largest size."""
HEAVY = 1.3
"""A waiting piece weighs its area to this power."""
EMPTIED = (1, 2, 2, 2, 3, 3)
"""How many sheets are emptied at once; drawn from."""
SWAPPED = 0.3
"""How often a sheet that is filled anew may become one of another kind."""
FEW = 5
"""Pieces on a sheet up to which an iteration counts as one; fuller sheets take longer, and get fewer iterations."""
LOOK = 64
"""Iterations between two looks at the clock."""


class _Sheets:
    """The sheets in work and the pieces that wait, each piece by its shape."""

    def __init__(self, task: Task, packing: Packing) -> None:
        self.task = task
        sizes = [(shape.width, shape.height) for shape in task.shapes]
        room = max(kind.width * kind.height for kind in task.kinds)
        self.weight = [(w * h / room) ** HEAVY for w, h in sizes]
        self.ranks = [_shares(sizes, size) for size in (_area, max, min, _first, _second, sum)]
        self.kinds: list[int] = []
        self.sheets: list[list[Put]] = []
        for use in packing.uses:
            for _ in range(use.times):
                self.kinds.append(use.kind)
                self.sheets.append([(p.which, p.x, p.y, (p.width, p.height, p.turned)) for p in use.pattern])
        self.waiting = [which for which, count in enumerate(packing.missing) for _ in range(count)]

    def cost(self) -> int:
        return sum(self.task.kinds[kind].cost for kind in self.kinds)

    def drop_to(self, goal: int, random: Random) -> None:
        """Gives up sheets, the emptiest for its cost first, until they cost no more than the goal; buys others for what is over."""
        kinds = self.task.kinds
        while self.cost() > goal:
            filled = [sum(self.weight[put[0]] for put in sheet) for sheet in self.sheets]
            place = min(range(len(filled)), key=lambda i: filled[i] / kinds[self.kinds[i]].cost)
            self.waiting += [put[0] for put in self.sheets.pop(place)]
            self.kinds.pop(place)
        while len(kinds) > 1 and (choice := self.affordable(goal - self.cost())):
            self.kinds.append(choice[int(random.random() * len(choice))])
            self.sheets.append([])

    def affordable(self, money: int) -> list[int]:
        kinds = self.task.kinds
        return [k for k, kind in enumerate(kinds) if kind.cost <= money and self.kinds.count(k) < kind.limit]

    def packing(self) -> Packing:
        uses = []
        for kind, sheet in zip(self.kinds, self.sheets, strict=True):
            if sheet:
                laid = sorted((Laid(piece, x, y, *way) for piece, x, y, way in sheet), key=lambda p: (p.y, p.x))
                uses.append(Use(kind, tuple(laid), 1))
        missing = [0] * len(self.task.shapes)
        for piece in self.waiting:
            missing[piece] += 1
        return Packing(gathered(uses), tuple(missing))


def _shares(sizes: Sequence[tuple[int, int]], size: Callable[[tuple[int, int]], int]) -> list[float]:
    most = max(map(size, sizes), default=1)
    return [size(pair) / most for pair in sizes]


def _area(pair: tuple[int, int]) -> int:
    return pair[0] * pair[1]


def _first(pair: tuple[int, int]) -> int:
    return pair[0]


def _second(pair: tuple[int, int]) -> int:
    return pair[1]


def improved(
    task: Task, start: Packing, floor: int, iterations: int, random: Random, over: Callable[[], bool]
) -> Iterator[tuple[Packing, int]]:
    """Ever cheaper packings, each with the iterations used up so far; ends at the floor, at the last iteration or when time is over.

    Where the start leaves something missing, first the packings that leave less. The last pair is the best once more.
    """
    best, used = start, 0
    pieces, sheets = sum(shape.wanted for shape in task.shapes), max(1, sheets_in(start))
    iterations = min(iterations, iterations * FEW * sheets // max(1, pieces))
    while used < iterations and (not best.whole or cost_of(task, best) > floor):
        goal = cost_of(task, best) + _more(task, best)
        state = _Sheets(task, best)
        state.drop_to(goal, random)
        spent = _strive(state, goal, iterations - used, random, over)
        used += spent
        found = state.packing()
        if burden(task, found) >= burden(task, best):
            break
        best = found
        yield best, used
        if spent == 0:
            break
    yield best, used


def _more(task: Task, best: Packing) -> int:
    """One less than a whole packing costs; for one that lacks pieces, room for a sheet a piece, as far as there are any."""
    return -1 if best.whole else max(kind.cost for kind in task.kinds) * sum(best.missing)


def _strive(state: _Sheets, goal: int, iterations: int, random: Random, over: Callable[[], bool]) -> int:
    """Changes the sheets until nothing waits; how many iterations that took."""
    draw, weight, sheets, kinds = random.random, state.weight, state.sheets, state.kinds
    refill, several = refill_for(state.task.rules), len(state.task.kinds) > 1
    sizes = [(kind.width, kind.height) for kind in state.task.kinds]
    waits = sum(weight[piece] for piece in state.waiting)
    for used in range(iterations):
        if not state.waiting or not sheets or (used % LOOK == 0 and over()):
            return used
        chosen = random.sample(range(len(sheets)), min(len(sheets), EMPTIED[int(draw() * len(EMPTIED))]))
        old_kinds = [kinds[place] for place in chosen]
        new_kinds = _swapped(state, old_kinds, goal, draw) if several and draw() < SWAPPED else old_kinds
        rank, stray = state.ranks[int(draw() * len(state.ranks))], draw() * STRAY
        left = state.waiting + [put[0] for place in chosen for put in sheets[place]]
        left.sort(key=lambda piece: stray * draw() - rank[piece])
        filled: list[list[Put]] = []
        for kind in new_kinds:
            put, left = refill(left, state.task.ways[kind], *sizes[kind], int(draw() * SPLITS), int(draw() * FITS))
            filled.append(put)
        now = sum(weight[piece] for piece in left)
        if now <= waits:
            for place, put, kind in zip(chosen, filled, new_kinds, strict=True):
                sheets[place], kinds[place] = put, kind
            state.waiting, waits = left, now
    return iterations


def _swapped(state: _Sheets, old: list[int], goal: int, draw: Callable[[], float]) -> list[int]:
    """The first of the sheets as one of another kind, if the goal and the stock allow it."""
    money = goal - state.cost() + state.task.kinds[old[0]].cost
    choice = state.affordable(money)
    return [choice[int(draw() * len(choice))], *old[1:]] if choice else old
