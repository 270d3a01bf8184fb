"""The slits of a scored piece, told from the edges that its lines are measured from."""

from collections.abc import Iterable

from creasewright.blanks.by_template import straight
from creasewright.booklet.context import PackContext
from creasewright.booklet.late_slits import late_slits
from creasewright.booklet.length_words import placed_length
from creasewright.booklet.scoring.score_words import Shown
from creasewright.booklet.section_text import section_text
from creasewright.geometry.point import Number


def slit_text(context: PackContext, each: Shown) -> str:
    """After its last pass; empty before, and where there is nothing to cut then: slits aslant are shown by a template."""
    drawn, late = each.drawn, late_slits(context.worked)
    if each.number < each.of:
        return ""
    level: dict[tuple[str, str], list[Number]] = {}
    upright: dict[tuple[str, str], list[Number]] = {}
    for slit in each.member.blank.slits:
        start, end = drawn.lie.to_lie.point(slit.start), drawn.lie.to_lie.point(slit.end)
        if slit.name in late or not straight(start, end):
            continue
        if abs(float(start.y) - float(end.y)) < abs(float(start.x) - float(end.x)):
            ends, found, at = (drawn.from_stop(start.x), drawn.from_stop(end.x)), level, start.y
        else:
            ends, found, at = (start.y, end.y), upright, drawn.from_stop(start.x)
        low, high = sorted(ends)
        found.setdefault((placed_length(context, low), placed_length(context, high)), []).append(at)
    if not level and not upright:
        return ""
    count = sum(len(places) for found in (level, upright) for places in found.values())
    values = {"level": _told(context, level), "upright": _told(context, upright), "edge": drawn.stop, "count": count}
    return section_text(context, "slits", **values)


def _told(context: PackContext, found: dict[tuple[str, str], list[Number]]) -> list[dict[str, object]]:
    return [{"start": low, "end": high, "at": _places(context, places)} for (low, high), places in found.items()]


def _places(context: PackContext, places: Iterable[Number]) -> list[str]:
    return [placed_length(context, place) for place in sorted(places, key=float)]
