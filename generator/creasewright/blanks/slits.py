"""Slits and holes, and scores bounded by outline and slits."""

from msgspec.structs import replace

from creasewright.blanks.blank import Hole, Slit
from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, in_mm, listed
from creasewright.blanks.limits import boxes_over, inside, limited, part_at
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.places import point_of
from creasewright.blanks.references import expanded
from creasewright.blanks.rulings import endless, every_band_line
from creasewright.geometry.crossing import meetings
from creasewright.geometry.edges import box_of
from creasewright.geometry.loops import gap_to, holds
from creasewright.geometry.outline import Line, Polygon, flattened
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import one_place
from creasewright.problems import Where
from creasewright.reading import design


def cut_slits(draft: Draft, written: design.Blank, runs: list[Run], numbers: Numbers, faults: Faults) -> Draft:
    """The slits inside the outline; one on a score over bands takes that part of the score's place."""
    reach = box_of(draft.outline.edges)
    polygon = flattened(draft.outline.edges)
    slits = list(draft.slits)
    for slit in written.slits:
        drawn = _on_scores(slit, runs, draft, faults) if slit.on else _between_points(slit, draft, runs, numbers, faults)
        if slit.over:
            boxes = boxes_over(slit.over, draft, reach, faults)
            drawn = [part for run in drawn for part in limited(run, boxes)]
        kept = [part for run in drawn for part in inside(run, draft.outline.edges, polygon)]
        if drawn and not kept:
            faults.add(slit.where, f"the slit `{slit.name}` has no part inside the blank", "move it onto the blank")
        slits += [Slit(slit.name, run.start, run.end) for run in kept]
    return replace(draft, slits=tuple(slits))


def _on_scores(slit: design.SlitWritten, runs: list[Run], draft: Draft, faults: Faults) -> list[Run]:
    known = [*runs, *every_band_line(draft)]
    drawn: list[Run] = []
    for text in slit.on:
        names = expanded(text.text, [run.name for run in known])
        if not names:
            score_names = list(dict.fromkeys(run.name for run in known))
            faults.add(text.where, f"`{text}` is no score of this blank", f"known here: {listed(score_names) or 'none'}")
        if any(run.arc is not None for run in runs if run.name in names):
            faults.add(text.where, f"`{text}` is a curved score; slits are straight", "draw the slit with `line: [p, q]`")
            continue
        for name in names:
            whole = [run for run in every_band_line(draft) if run.name == name]
            drawn += [Run(slit.name, run.start, run.end) for run in whole or runs if run.name == name]
    return drawn


def _between_points(
    slit: design.SlitWritten, draft: Draft, runs: list[Run], numbers: Numbers, faults: Faults
) -> list[Run]:
    if slit.line is None:
        faults.add(slit.where, f"`{slit.name}` has no place", "write `line: [p, q]`, or `on` a score")
        return []
    start, end = (point_of(place, draft, numbers, runs, faults) for place in slit.line)
    if start is None or end is None:
        return []
    if one_place(start, end):
        faults.add(slit.where, f"both ends of the slit `{slit.name}` are one place", "give it two different points")
        return []
    return [Run(slit.name, start, end)]


def punch_holes(draft: Draft, written: design.Blank, runs: list[Run], numbers: Numbers, faults: Faults) -> Draft:
    """The round holes; each must lie on the blank."""
    polygon = flattened(draft.outline.edges)
    holes = list(draft.holes)
    for hole in written.holes:
        centre, across = point_of(hole.at, draft, numbers, runs, faults), numbers.length(hole.across)
        if centre is None:
            continue
        x, y = float(centre.x), float(centre.y)
        if across <= 0:
            faults.add(hole.across.where, f"`across: {hole.across}` comes to {in_mm(across)}", "make it more than 0")
        elif not holds(polygon, x, y) or gap_to(polygon, x, y) < float(across) / 2:
            faults.add(hole.where, f"the hole `{hole.name}`, {in_mm(across)} across, runs over an edge", "move it further in")
        holes.append(Hole(hole.name, centre, across))
    return replace(draft, holes=tuple(holes))


def bounded(draft: Draft, runs: list[Run], wheres: dict[str, Where], where: Where, faults: Faults) -> list[Run]:
    """Every score inside the outline. One written by two points keeps to them where they rest on an edge, a score or a
    slit; an end that rests on nothing runs on to the next edge or slit."""
    polygon = flattened(draft.outline.edges)
    cuts = [Line(slit.start, slit.end) for slit in draft.slits]
    found: list[Run] = []
    for run in runs:
        if run.grows:
            rests = [Line(other.start, other.end) for other in runs if other is not run and other.arc is None] + cuts
            kept = _grown(run, draft, polygon, rests, cuts)
        else:
            kept = inside(run, draft.outline.edges, polygon)
        found += kept
        if not kept and run.name in wheres and not any(other.name == run.name and other is not run for other in runs):
            faults.add(wheres.get(run.name, where), f"score `{run.name}` has no part inside the blank", "move it onto the blank")
    return found


def _grown(run: Run, draft: Draft, polygon: Polygon, rests: list[Line], cuts: list[Line]) -> list[Run]:
    line = endless(run, box_of(draft.outline.edges))
    low, high = float(part_at(line, run.start)), float(part_at(line, run.end))
    found: list[Run] = []
    for whole in inside(line, draft.outline.edges, polygon):
        a, b = float(part_at(line, whole.start)), float(part_at(line, whole.end))
        if b <= low or a >= high:
            continue
        start = run.start if a < low and _rests(run.start, rests) else whole.start
        end = run.end if b > high and _rests(run.end, rests) else whole.end
        stops = [p for cut in cuts for p in meetings(Line(line.start, line.end), cut)]
        for p in stops:
            at = float(part_at(line, p))
            if float(part_at(line, start)) < at <= low:
                start = p
            if high <= at < float(part_at(line, end)):
                end = p
        found.append(Run(run.name, start, end))
    return found


def _rests(p: Point, lines: list[Line]) -> bool:
    """Whether a point lies on one of the lines."""
    x, y = float(p.x), float(p.y)
    return any(
        gap_to(((float(a.x), float(a.y)), (float(b.x), float(b.y))), x, y) <= SAME for a, b in ((c.start, c.end) for c in lines)
    )
