"""What is pencilled on the pieces of one letter, so that those that are treated apart can be told apart: `A`, or `A1` and `A2`."""

from functools import lru_cache

from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.scoring.members import scored_members


@lru_cache(maxsize=2)
def part_marks(worked: Worked) -> dict[str, str]:
    """Part path in the finished thing to its mark."""
    found = {part: piece.letter for piece in worked.pieces for part in piece.parts}
    return found | {part: member.mark for member in scored_members(worked) for part in member.parts}


def marked_parts(worked: Worked, piece: Piece) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Each mark of a letter with its parts; one alone where all of them are treated alike."""
    marks = part_marks(worked)
    found: dict[str, list[str]] = {}
    for part in piece.parts:
        found.setdefault(marks[part], []).append(part)
    return tuple((mark, tuple(found[mark])) for mark in sorted(found))
