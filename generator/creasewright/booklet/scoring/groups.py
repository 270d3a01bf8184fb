"""Which pieces share a drawing: parts of one letter that lie and fold alike, and a mirror image measured from the same edge.

The mirror image of a piece, with the image of its edge at the left, lies as its reflection about a line from left to right:
the same distances, its top the other way.
"""

from collections.abc import Mapping

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.scoring.lies import Pass, passes_of
from creasewright.booklet.scoring.scored_lines import Folds, folds_of, scored_lines
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked

Signature = tuple[object, ...]


class Member(Struct, frozen=True):
    """Parts of one letter that are scored alike."""

    letter: str
    parts: tuple[str, ...]
    of: int
    """How many parts have the letter."""
    blank: Blank
    passes: tuple[Pass, ...]


class ScoreGroup(Struct, frozen=True):
    """What one row of drawings shows: the first member is drawn, a second one is its mirror image."""

    members: tuple[Member, ...]

    @property
    def drawn(self) -> Member:
        return self.members[0]


def score_groups(worked: Worked) -> tuple[ScoreGroup, ...]:
    """In the order of the letters; pieces without a score are left out."""
    folds = folds_of(worked)
    members = [member for piece in worked.pieces for member in _members(piece, worked, folds)]
    groups: list[ScoreGroup] = []
    taken: set[int] = set()
    for number, member in enumerate(members):
        if number in taken:
            continue
        own = _reflected(member.passes)
        mirror = _mirror_letter(worked, member.letter)
        later = [k for k in range(number + 1, len(members)) if k not in taken and members[k].letter == mirror]
        partner = next((k for k in later if _seen(members[k].passes) == own), None)
        if partner is None or not all(each.measured for each in member.passes):
            groups.append(ScoreGroup((member,)))
            continue
        taken.add(partner)
        pair = (member, members[partner])
        groups.append(ScoreGroup(tuple(sorted(pair, key=lambda each: each.passes[0].lie.quarter == 2))))
    return tuple(groups)


def _mirror_letter(worked: Worked, letter: str) -> str | None:
    return next(piece.mirror for piece in worked.pieces if piece.letter == letter)


def _members(piece: Piece, worked: Worked, folds: Mapping[str, Folds]) -> list[Member]:
    before = worked.pieces[: worked.pieces.index(piece)]
    earlier = next((each for each in before if each.letter == piece.mirror), None)
    found: dict[Signature, tuple[list[str], Blank, tuple[Pass, ...]]] = {}
    for part in piece.parts:
        blank = _blank(worked, part, piece)
        if blank.pieces and blank.wrap is None:
            passes = passes_of(blank, scored_lines(blank, folds.get(part, {})), earlier.blank if earlier else None)
            found.setdefault(_seen(passes), ([], blank, passes))[0].append(part)
    return [Member(piece.letter, tuple(parts), piece.count, blank, passes) for parts, blank, passes in found.values()]


def _blank(worked: Worked, part: str, piece: Piece) -> Blank:
    """The part's own blank, whose score names the folds are told by."""
    if worked.finished is not None and part in worked.finished.state.blanks:
        return worked.finished.state.blanks[part]
    return piece.blank


def _seen(passes: tuple[Pass, ...]) -> Signature:
    return _signature(passes, reflect=False)


def _reflected(passes: tuple[Pass, ...]) -> Signature:
    return _signature(passes, reflect=True)


def _signature(passes: tuple[Pass, ...], reflect: bool) -> Signature:
    """What two parts must share to have one drawing; `reflect`: as the reflection about a line from left to right lies."""

    def spot(x: float, y: float, height: float) -> tuple[float, float]:
        return round(x, 3) + 0.0, round(height - y if reflect else y, 3) + 0.0

    def line_key(each: Pass, k: int) -> tuple[object, ...]:
        line, height = each.lines[k], float(each.lie.height)
        ends = sorted(spot(x, y, height) for x, y in (line.way[0], line.way[len(line.way) // 2], line.way[-1]))
        return (line.own, line.folds, *ends)

    return tuple(
        (each.lie.up, each.run, each.number, tuple(sorted(line_key(each, k) for k in range(len(each.lines))))) for each in passes
    )
