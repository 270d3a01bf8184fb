"""Scores that no setting of the score board reaches: each can be made with a ruler, so this is a note, with the sizes that would do."""

from collections.abc import Sequence
from itertools import groupby

from creasewright.checks.facts import Facts
from creasewright.problems import NOTES, Finding
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.on_board import OffGroove, scores_off_grooves
from creasewright.scoring.score_board import Board
from creasewright.scoring.stop_edges import edge_at_left

CHECK = "score setting"


def scores_on_grooves(facts: Facts) -> list[Finding]:
    """One for each piece and direction; a mirror image, or a piece scored at the same places, is not told again."""
    if facts.board is None:
        return []
    found: dict[str, Finding] = {}
    for member in scored_members(facts.worked):
        off = scores_off_grooves(member, facts.board)
        for edge, group in groupby(off, key=lambda one: edge_at_left(one.lie)):
            finding = told(facts, facts.board, member, edge, tuple(group))
            found.setdefault(finding.what.split(": ", 1)[1], finding)
    return list(found.values())


def told(facts: Facts, board: Board, member: Member, edge: str, off: Sequence[OffGroove]) -> Finding:
    places, there = listed([facts.said(one.place) for one in off]), [one.nearest for one in off if one.nearest is not None]
    scores = "the score" if len(off) == 1 else "the scores"
    if not there:
        what = f"neither edge beside {scores} at {places} from the {edge} is straight enough to lie against the stop of the score board"
        hint = "score along a ruler, as the score guide tells, or give the piece a straight edge there"
    else:
        every, (are, them) = facts.said(board.grooves), ("is", "it") if len(off) == 1 else ("are", "them")
        what = f"{scores} at {places} from the {edge} {are} on no setting of a score board with grooves every {every}"
        nearest = listed([facts.said(place) for place in there])
        hint = f"score along a ruler, as the score guide tells, or choose sizes that bring {them} to {nearest}"
    return Finding(NOTES, CHECK, member.blank.where, f"{member.mark}, {member.blank.name}: {what}", hint)


def listed(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
