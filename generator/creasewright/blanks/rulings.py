"""Scores as drawn: between bands, parallel to an edge, across a corner, along a line; not yet bounded by outline and slits."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.bands import band_lines
from creasewright.blanks.compass import CORNERS, side_of
from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, in_mm, listed
from creasewright.blanks.limits import between, boxes_over, limited
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.places import point_of
from creasewright.blanks.references import expanded
from creasewright.geometry.edges import Box, arc_with_rise, box_of
from creasewright.geometry.outline import Arc
from creasewright.geometry.point import Number, Point
from creasewright.geometry.vector import length, minus, moved, one_place, unit
from creasewright.reading import design
from creasewright.reading.design import Text


def ruled(draft: Draft, written: design.Blank, numbers: Numbers, faults: Faults) -> list[Run]:
    """Every score of the blank, those of its bands and flaps first."""
    reach = box_of(draft.outline.edges)
    runs = [*_between_bands(draft, reach), *draft.runs]
    for score in written.scores:
        if score.from_ is None and score.across is None and score.line is None:
            runs = _changed(score, runs, draft, reach, numbers, faults)
    for score in written.scores:
        if score.from_ is not None:
            runs += _parallel(score, runs, draft, reach, numbers, faults)
        elif score.across is not None:
            runs += _across(score, draft, reach, numbers, faults)
        elif score.line is not None:
            runs += _along_line(score, runs, draft, reach, numbers, faults)
    return runs


def _between_bands(draft: Draft, reach: Box) -> list[Run]:
    return [_straight(name, direction, at, reach) for name, direction, at in band_lines(draft)] if not draft.runs else []


def _straight(name: str, direction: str, at: Number, reach: Box) -> Run:
    left, head, right, tail = reach
    if direction == "across":
        return Run(name, Point(at, head), Point(at, tail))
    return Run(name, Point(left, at), Point(right, at))


def every_band_line(draft: Draft) -> list[Run]:
    """The scores between bands whether taken away or not: a slit may lie on one."""
    reach = box_of(draft.outline.edges)
    return [_straight(name, direction, at, reach) for name, direction, at in band_lines(draft)]


def _changed(
    score: design.ScoreWritten, runs: list[Run], draft: Draft, reach: Box, numbers: Numbers, faults: Faults
) -> list[Run]:
    names = expanded(score.name, [run.name for run in runs])
    if not names:
        known = listed(list(dict.fromkeys(run.name for run in runs))) or "none"
        faults.add(
            score.where, f"`{score.name}` is no score of the bands or flaps here ({known})",
            "say where it runs: `from` and `at`, `across` and `at`, or `line`",
        )  # fmt: skip
        return runs
    if score.removed:
        return [run for run in runs if run.name not in names]
    if any(run.arc is not None for run in runs if run.name in names):
        faults.add(score.where, f"`{score.name}` is a curved score, which runs whole from end to end", "leave `over` and `span` out")
        return runs
    kept: list[Run] = []
    for run in runs:
        kept += _limited(score, [run], draft, reach, numbers, runs, faults) if run.name in names else [run]
    return kept


def _limited(
    score: design.ScoreWritten, new: list[Run], draft: Draft, reach: Box, numbers: Numbers, known: list[Run], faults: Faults
) -> list[Run]:
    if score.over:
        boxes = boxes_over(score.over, draft, reach, faults)
        new = [part for run in new for part in limited(run, boxes)]
    if score.span is not None:
        ends = [point_of(place, draft, numbers, known, faults) for place in score.span]
        if ends[0] is not None and ends[1] is not None:
            new = [part for run in new for part in between(run, ends[0], ends[1])]
    return new


def _numbered(name: str, count: int) -> list[str]:
    return [name] if count == 1 else [f"{name} {number}" for number in range(1, count + 1)]


def _parallel(
    score: design.ScoreWritten, runs: list[Run], draft: Draft, reach: Box, numbers: Numbers, faults: Faults
) -> list[Run]:
    found: list[Run] = []
    for name, text in zip(_numbered(score.name, len(score.at)), score.at, strict=True):
        by = numbers.length(text)
        run = _parallel_to(score, name, by, runs, draft, reach, faults)
        if run is not None:
            found += _limited(score, [run], draft, reach, numbers, runs, faults)
    if not score.at:
        faults.add(score.where, f"`{score.name}` has no distance", "write `at: length`")
    return found


def _parallel_to(
    score: design.ScoreWritten, name: str, by: Number, runs: list[Run], draft: Draft, reach: Box, faults: Faults
) -> Run | None:
    text = score.from_.text if score.from_ is not None else ""
    side, _, of = text.partition(" of ")
    box = draft.box if not of else draft.box_named(of)
    at = side_of(box, side) if box is not None else None
    if at is not None:
        inward = at + by if side in ("left", "head") else at - by
        return _straight(name, "across" if side in ("left", "right") else "down", inward, reach)
    names = expanded(text, [run.name for run in runs])
    base = next((run for run in runs if run.name in names[:1]), None)
    if base is not None and base.arc is not None:
        faults.add(score.where, f"`{text}` is a curved score, to which no line runs parallel", "measure from an edge or a straight score")
        return None
    if base is None:
        faults.add(score.where, f"`{text}` is no edge or score of this blank", "write left, right, head, tail or a score's name")
        return None
    along = unit(minus(base.end, base.start))
    right = Point(-along.y, along.x) if along.y < 0 or (along.y == 0 and along.x > 0) else Point(along.y, -along.x)
    return Run(name, moved(base.start, right, by), moved(base.end, right, by))


def _across(score: design.ScoreWritten, draft: Draft, reach: Box, numbers: Numbers, faults: Faults) -> list[Run]:
    if score.across not in CORNERS:
        faults.add(score.where, f"`across: {score.across}` is no corner", "write head-left, head-right, tail-right or tail-left")
        return []
    level, upright = numbers.legs(score.at)
    if level <= 0 or upright <= 0:
        what = f"`{score.name}` cuts off {in_mm(min(level, upright))} of an edge"
        faults.add(score.where, what, "make both lengths more than 0")
        return []
    left, head, right, tail = draft.box
    x, inward_x = (left, level) if score.across.endswith("left") else (right, -level)
    y, inward_y = (head, upright) if score.across.startswith("head") else (tail, -upright)
    run = Run(score.name, Point(x + inward_x, y), Point(x, y + inward_y))
    return _limited(score, [endless(run, reach)], draft, reach, numbers, [], faults)


def _along_line(
    score: design.ScoreWritten, runs: list[Run], draft: Draft, reach: Box, numbers: Numbers, faults: Faults
) -> list[Run]:
    assert score.line is not None
    boxes = [(name, draft.box_named(name)) for name in _cells(score, draft)]
    if score.over and boxes and _all_cells(boxes, draft):
        found: list[Run] = []
        for number, (_, box) in enumerate(boxes, 1):
            ends = [point_of(place, draft, numbers, runs, faults, box) for place in score.line]
            run = _drawn(score, f"{score.name} {number}", ends, faults)
            if run is not None and box is not None:
                found += limited(endless(run, reach), [box])
        return found
    ends = [point_of(place, draft, numbers, runs, faults) for place in score.line]
    run = _drawn(score, score.name, ends, faults)
    if run is None:
        return []
    if score.rise is not None:
        return _bowed(score.rise, run, numbers, faults)
    if not score.over and score.span is None:
        return [Run(run.name, run.start, run.end, True)]
    return _limited(score, [endless(run, reach)], draft, reach, numbers, runs, faults)


def _bowed(text: Text, run: Run, numbers: Numbers, faults: Faults) -> list[Run]:
    """The run as an arc of that rise, from its own start to its own end."""
    rise, chord = numbers.length(text), length(minus(run.end, run.start))
    if 2 * abs(float(rise)) > float(chord):
        faults.add(text.where, f"`rise: {text}` comes to {in_mm(rise)} over a line of {in_mm(chord)}", "keep a rise to half its line")
        return []
    edge = arc_with_rise(run.start, run.end, rise)
    return [replace(run, arc=edge)] if isinstance(edge, Arc) else [replace(run, grows=True)]


def _cells(score: design.ScoreWritten, draft: Draft) -> list[str]:
    return [name for text in score.over for name in expanded(text.text, draft.names())]


def _all_cells(boxes: list[tuple[str, Box | None]], draft: Draft) -> bool:
    regions = {region.name for region in draft.regions}
    return all(name in regions for name, _ in boxes)


def _drawn(score: design.ScoreWritten, name: str, ends: list[Point | None], faults: Faults) -> Run | None:
    start, end = ends
    if start is None or end is None:
        return None
    if one_place(start, end):
        faults.add(score.where, f"both ends of `{score.name}` are one place", "give it two different points")
        return None
    return Run(name, start, end)


def endless(run: Run, reach: Box) -> Run:
    """The run lengthened past the blank on both sides."""
    along = minus(run.end, run.start)
    times = Fraction(int(2 * float(reach[2] - reach[0] + reach[3] - reach[1]) / float(length(along))) + 2)
    return Run(run.name, moved(run.start, along, -times), moved(run.end, along, times), run.grows)

