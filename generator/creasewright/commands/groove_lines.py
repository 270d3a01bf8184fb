"""What `check --grooves` prints: measures that bring scores over grooves, with what else would change."""

from collections.abc import Iterable, Iterator

from creasewright.checked import Checked
from creasewright.fitting.worked import Worked
from creasewright.groove_sizes import Tried, scores_off, scores_without_edge
from creasewright.units.ruler import mark_in_words, pair_in_words


def groove_lines(done: Checked, tried: Iterable[Tried]) -> Iterator[str]:
    yield "\nGrooves"
    off = scores_off(done.worked, done.board)
    if off == 0:
        yield "  every score is on a setting of the score board"
        return
    lost = scores_without_edge(done.worked, done.board)
    if lost:
        beside = f"beside {lost} of the {off} scores that are off no edge" if lost < off else "beside the scores that are off no edge"
        yield f"  {beside} is straight enough to lie against the stop: no size brings {'them' if lost > 1 else 'it'} over a groove"
    if lost == off:
        return
    helped = False
    for each in tried:
        helped = True
        yield from tried_lines(done, each, off)
    if not helped:
        yield f"  no change of one measure or of two, within a groove, brings more of the {off} scores that are off over one"


def tried_lines(done: Checked, each: Tried, off: int) -> Iterator[str]:
    ruler = done.worked.ruler
    said = [
        f"{measure.name} {mark_in_words(value, ruler).text} in place of {mark_in_words(measure.values[0], ruler).text}"
        for measure, value in each.changes
    ]
    left = "none" if each.off == 0 else str(each.off)
    blocked = "; cannot be built then" if each.again.blocked else ""
    yield f"  {' and '.join(said)}: {left} of {off} scores stay off{blocked}"
    for line in changes(done.worked, each.again.worked):
        yield f"    {line}"
    for finding in each.raised:
        yield f"    {finding.severity} ({finding.check}): {finding.what}"


def changes(before: Worked, after: Worked) -> Iterator[str]:
    """Blanks and the finished thing whose size on the ruler changes."""
    for old, new in zip(before.blanks, after.blanks, strict=True):
        was, then = (pair_in_words(one.width, one.height, before.ruler) for one in (old, new))
        if was != then:
            yield f"{old.name} {then}, now {was}"
    if before.finished is not None and after.finished is not None:
        was, then = (pair_in_words(one.finished.size[0], one.finished.size[1], before.ruler) for one in (before, after) if one.finished)
        if was != then:
            yield f"closed {then}, now {was}"
