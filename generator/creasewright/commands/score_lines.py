"""What `check` prints of the score board: for each piece and pass the edge at the stop and the settings in order."""

from itertools import groupby

from creasewright.checked import Checked
from creasewright.scoring.lies import Pass
from creasewright.scoring.members import Member, scored_members
from creasewright.scoring.on_board import passes_on_board
from creasewright.scoring.stop_edges import edge_at_stop
from creasewright.units.ruler import length_in_words, mark_in_words, plain_words


def score_lines(done: Checked) -> list[str]:
    lines = []
    for member in scored_members(done.worked):
        for _, group in groupby(passes_on_board(member, done.board), key=lambda each: (each.run, each.number)):
            lines.append("  " + pass_words(done, member, tuple(group)))
    return ["", "Score settings", *lines] if lines else []


def pass_words(done: Checked, member: Member, set_ups: tuple[Pass, ...]) -> str:
    """`A, back up: left edge at the stop: 2 1/4, 6 3/8; turned, right edge: 1 1/8`."""
    first = set_ups[0]
    which = f", pass {first.number} of {first.of}" if first.of > 1 else ""
    if not first.measured:
        return f"{member.mark}, {first.lie.up} up{which}: {first.run}, on no setting"
    said = "; ".join(set_up_words(done, each) for each in set_ups)
    return f"{member.mark}, {first.lie.up} up{which}, stop at the {first.stop}: {said}"


def set_up_words(done: Checked, each: Pass) -> str:
    system = done.worked.system
    reached = sorted(float(one.groove) for one in each.settings if one.groove is not None)
    by_ruler = sorted(float(each.from_stop(one.place)) for one in each.settings if one.groove is None)
    words = [f"{'turned, ' if each.turned else ''}{edge_at_stop(each)} edge"]
    if each.spacer:
        words.append(f"with a spacer of {length_in_words(each.spacer, system)}")
    if reached:
        words.append(", ".join(plain_words(groove, system) for groove in reached) + (";" if by_ruler else ""))
    if by_ruler:
        marks = [mark_in_words(place, done.worked.ruler) for place in by_ruler]
        words.append("by ruler " + ", ".join(("" if mark.exact else "≈ ") + mark.text.removesuffix(f" {system}") for mark in marks))
    return " ".join(words)
