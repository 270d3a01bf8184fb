"""The passes of a piece as they are made on a score board: one for each set-up, as the piece lies with its edge against the stop."""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import groupby

from msgspec import Struct
from msgspec.structs import replace

from creasewright.fitting.worked import Worked
from creasewright.geometry.plane_transform import rotation, shift
from creasewright.geometry.point import Number, Point
from creasewright.scoring.lies import ON_EDGE, Lie, LieLine, Pass, Setting
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.score_board import Board, Choice, Matching, Reached, SetUp, fewest_set_ups, nearest_place
from creasewright.scoring.stop_edges import edges_that_hold


@lru_cache(maxsize=2)
def every_setting(worked: Worked, board: Board) -> tuple[Setting, ...]:
    """Of every scored piece: how each of its lines that is square to an edge is brought under the scoring tool."""
    return tuple(one for member in scored_members(worked) for each in passes_on_board(member, board) for one in each.settings)


class OffGroove(Struct, frozen=True):
    """A score that no setting of the board reaches."""

    member: Member
    lie: Lie
    place: Number
    """From the left edge as it lies."""
    nearest: Number | None
    """Where a setting would reach it; None where no edge of the piece can lie against the stop."""


def passes_on_board(member: Member, board: Board) -> tuple[Pass, ...]:
    """In the order in which they are made. What is not square to an edge stays as it is; so do places that no setting reaches, which
    are measured with a ruler in the first set-up without a spacer."""
    found: list[Pass] = []
    for _, group in groupby(member.passes, key=lambda each: each.run):
        passes = tuple(group)
        if not passes[0].measured:
            found += passes
            continue
        choice = choice_of(member, passes, board)
        before: Pass | None = None
        for each in passes:
            for one in _set_up_passes(each, choice, board):
                found.append(one if before is None else replace(one, turned=not _same_edge(before, one)))
                before = one
    return tuple(found)


def _same_edge(before: Pass, each: Pass) -> bool:
    """Whether the same edge of the piece is at the left: a piece turned over like a pad has its top the other way."""
    turn = (each.lie.quarter - before.lie.quarter) % 4
    if before.lie.up == each.lie.up:
        return turn == 0
    return turn == (2 if each.lie.quarter % 2 == 0 else 0)


def scores_off_grooves(member: Member, board: Board) -> list[OffGroove]:
    """Each once, also where both passes press it."""
    found = []
    for _, group in groupby(member.passes, key=lambda each: each.run):
        passes = tuple(group)
        if passes[0].measured:
            lie, edges = passes[0].lie, edges_that_hold(member.blank, passes[0].lie)
            for place in choice_of(member, passes, board).off:
                found.append(OffGroove(member, lie, place, nearest_place(place, lie.width, board, edges)))
    return found


def choice_of(member: Member, passes: Sequence[Pass], board: Board) -> Choice:
    """For all passes of one run together: a piece that is turned over like a pad keeps its places."""
    places: list[Number] = []
    for each in passes:
        places += [x for x in each.positions if not any(abs(float(x - known)) < ON_EDGE for known in places)]
    lie = passes[0].lie
    return fewest_set_ups(sorted(places), lie.width, board, edges_that_hold(member.blank, lie), _matching(member, passes[0].run, places))


def _matching(member: Member, run: str, places: Sequence[Number]) -> Matching:
    """What must match, of the lines of one run."""

    def own(place: Number) -> Number:
        return next(known for known in places if abs(float(place - known)) < ON_EDGE)

    turned: dict[Number, bool] = {}
    together: dict[tuple[Number, Number], None] = {}
    for match in member.matches:
        if match.own.run != run:
            continue
        if match.turned is not None:
            turned.setdefault(own(match.own.place), match.turned)
        if match.other.mark == member.mark and match.other.run == run and match.own.place < match.other.place:
            together[own(match.own.place), own(match.other.place)] = None
    return Matching(turned, tuple(together))


def _set_up_passes(each: Pass, choice: Choice, board: Board) -> list[Pass]:
    own = each.positions
    wanted: list[tuple[Reached, tuple[Number, ...]]] = []
    off = _among(choice.off, own)
    for reached in choice.reached:
        mine = tuple((place, groove) for place, groove in reached.settings if _among((place,), own))
        by_ruler = () if reached.set_up.spacer else off
        if mine or by_ruler:
            wanted.append((replace(reached, settings=mine), by_ruler))
            off = () if by_ruler else off
    if off:
        wanted.append((Reached(SetUp(), ()), off))
    return [_as_it_lies(each, reached, by_ruler, board, k, len(wanted)) for k, (reached, by_ruler) in enumerate(wanted, start=1)]


def _among(places: Iterable[Number], own: Iterable[Number]) -> tuple[Number, ...]:
    kept = tuple(own)
    return tuple(place for place in places if any(abs(float(place - known)) < ON_EDGE for known in kept))


def _as_it_lies(each: Pass, reached: Reached, by_ruler: Sequence[Number], board: Board, number: int, of: int) -> Pass:
    width = each.lie.width
    over = reached.set_up.turned != (board.stop == "right")
    settings = [*(Setting(place, groove) for place, groove in reached.settings), *(Setting(place, None) for place in by_ruler)]
    here = [setting.place for setting in settings]
    lines = [line for line in each.lines if not line.own or _among((line.start.x,), here)]
    if over:
        settings = [replace(setting, place=width - setting.place) for setting in settings]
        lines = sorted((_turned(line, each.lie) for line in lines), key=_own_first)
    return replace(
        each, lie=turned_lie(each.lie) if over else each.lie, lines=tuple(lines), spacer=reached.set_up.spacer, stop=board.stop,
        settings=tuple(sorted(settings, key=lambda setting: float(setting.place))), set_up=number, set_ups=of,
    )  # fmt: skip


def _own_first(line: LieLine) -> tuple[bool, float, float]:
    return not line.own, float(line.start.x), float(line.start.y)


def turned_lie(lie: Lie) -> Lie:
    """End for end: the same side up, what lay at the left at the right."""
    to_lie = lie.to_lie.then(rotation(180)).then(shift(lie.width, lie.height))
    return replace(lie, quarter=(lie.quarter + 2) % 4, to_lie=to_lie)


def _turned(line: LieLine, lie: Lie) -> LieLine:
    def there(spot: Point) -> Point:
        return Point(lie.width - spot.x, lie.height - spot.y)

    wide, high = float(lie.width), float(lie.height)
    way = tuple((wide - x, high - y) for x, y in reversed(line.way))
    return replace(line, start=there(line.end), end=there(line.start), ends_inside=(line.ends_inside[1], line.ends_inside[0]), way=way)
