"""Which parts of a letter are scored alike, and what each is called: `A`; `A1`, `A2` where parts of one letter are scored apart."""

from collections.abc import Mapping
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.scoring.lies import Pass, passes_of
from creasewright.scoring.matches import Match, lying, matches_of
from creasewright.scoring.meeting_scores import meeting_scores
from creasewright.scoring.scored_lines import Folds, folds_of, scored_lines

Signature = tuple[object, ...]


class Member(Struct, frozen=True):
    """Parts of one letter that are scored alike."""

    mark: str
    """What is pencilled on them: the letter; with a number where the letter has several members."""
    letter: str
    parts: tuple[str, ...]
    blank: Blank
    passes: tuple[Pass, ...]
    matches: tuple[Match, ...] = ()
    """What its lines must match, those joined first."""


@lru_cache(maxsize=2)
def scored_members(worked: Worked) -> tuple[Member, ...]:
    """In the order of the letters; of a letter, in the order in which they are made. Pieces without a score are left out."""
    folds = folds_of(worked)
    members = [member for piece in worked.pieces for member in _members(piece, worked, folds)]
    pieces = {part: lie for each in members for lie in (lying(each.mark, each.blank, each.passes),) for part in each.parts}
    matches = matches_of(meeting_scores(worked), pieces)
    return tuple(replace(each, matches=matches.get(each.mark, ())) for each in members)


def _members(piece: Piece, worked: Worked, folds: Mapping[str, Folds]) -> list[Member]:
    before = worked.pieces[: worked.pieces.index(piece)]
    earlier = next((each for each in before if each.letter == piece.mirror), None)
    found: dict[Signature, tuple[list[str], Blank, tuple[Pass, ...]]] = {}
    for part in sorted(piece.parts, key=lambda part: _made_when(part, worked)):
        blank = _blank(worked, part, piece)
        if blank.pieces and blank.wrap is None:
            passes = passes_of(blank, scored_lines(blank, folds.get(part, {})), earlier.blank if earlier else None)
            found.setdefault(_seen(passes), ([], blank, passes))[0].append(part)
    letter, several = piece.letter, len(found) > 1
    return [
        Member(f"{letter}{number}" if several else letter, letter, tuple(parts), blank, passes)
        for number, (parts, blank, passes) in enumerate(found.values(), start=1)
    ]


def _made_when(part: str, worked: Worked) -> int:
    """The place of its assembly among all, in the order of making."""
    prefixes = [prefix for assembly in worked.assemblies for prefix in assembly.prefixes]
    whole = part[: part.rfind("/") + 1]
    return prefixes.index(whole) if whole in prefixes else len(prefixes)


def _blank(worked: Worked, part: str, piece: Piece) -> Blank:
    """The part's own blank, whose score names the folds are told by."""
    if worked.finished is not None and part in worked.finished.state.blanks:
        return worked.finished.state.blanks[part]
    return piece.blank


def _seen(passes: tuple[Pass, ...]) -> Signature:
    """What two parts must share to be scored alike."""

    def line_key(each: Pass, k: int) -> tuple[object, ...]:
        line = each.lines[k]
        ends = sorted((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in (line.way[0], line.way[len(line.way) // 2], line.way[-1]))
        return (line.own, line.folds, *ends)

    return tuple(
        (each.lie.up, each.run, each.number, tuple(sorted(line_key(each, k) for k in range(len(each.lines))))) for each in passes
    )
