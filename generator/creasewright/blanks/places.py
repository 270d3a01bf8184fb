"""Points as the author writes them: `[x, y]`, a compass word, `WORD of NAME`, `crossing of A and B`."""

from collections.abc import Sequence

from creasewright.blanks.compass import POINTS, point_in
from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, listed
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.references import expanded
from creasewright.geometry.crossing import lines_cross
from creasewright.geometry.edges import Box
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Point
from creasewright.reading.design import Place, Text


def point_of(
    place: Place, draft: Draft, numbers: Numbers, runs: Sequence[Run], faults: Faults, box: Box | None = None
) -> Point | None:
    """The point in the blank's frame; with `box` (a cell) words and lengths are taken in that. None after a fault."""
    if place.xy is not None:
        origin = draft.origin if box is None else Point(box[0], box[1])
        return Point(origin.x + numbers.length(place.xy[0]), origin.y + numbers.length(place.xy[1]))
    assert place.word is not None
    text = place.word.text
    if text.startswith("crossing of "):
        return _crossing(place.word, runs, faults)
    word, _, of = text.partition(" of ")
    around = box if box is not None and not of else draft.box
    if of:
        found = draft.box_named(of)
        if found is None:
            names = listed(draft.names()) or "none"
            faults.add(place.where, f"`{of}` is no band or panel of this blank", f"known here: {names}")
            return None
        around = found
    point = point_in(around, word)
    if point is None:
        faults.add(place.where, f"`{text}` is no point", f"write [x, y] or one of {', '.join(POINTS)}")
    return point


def _crossing(text: Text, runs: Sequence[Run], faults: Faults) -> Point | None:
    names = text.text.removeprefix("crossing of ").split(" and ")
    lines = [line_named(name, runs) for name in names]
    for name, line in zip(names, lines, strict=True):
        if line is None:
            known = listed(list(dict.fromkeys(run.name for run in runs))) or "none"
            faults.add(text.where, f"`{name}` is no score of this blank", f"known here: {known}")
    if len(lines) != 2 or lines[0] is None or lines[1] is None:
        return None
    point = lines_cross(lines[0], lines[1])
    if point is None:
        faults.add(text.where, f"`{names[0]}` and `{names[1]}` run alike and do not cross", "name two scores that cross")
    return point


def line_named(name: str, runs: Sequence[Run]) -> Line | None:
    """The line of the first straight score of that name, either way round."""
    names = expanded(name, [run.name for run in runs])
    return next((Line(run.start, run.end) for run in runs if run.name in names[:1] and run.arc is None), None)
