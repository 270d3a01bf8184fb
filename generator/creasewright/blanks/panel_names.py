"""Names of panels: from the flap, band or cell they lie in; then from the name map or an anchor, which go before."""

from collections.abc import Sequence

from creasewright.blanks.compass import place_words
from creasewright.blanks.draft import Draft, Region, Run
from creasewright.blanks.faults import Faults, listed
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.panels import Faces
from creasewright.blanks.places import point_of
from creasewright.geometry.clip import intersection, total_area
from creasewright.geometry.loops import centroid, gap_to, holds
from creasewright.geometry.outline import Polygon
from creasewright.geometry.tolerance import SAME
from creasewright.reading import design

LEAST_SHARE = 1e-3
"""mm: a face whose box enters a region's box by less only touches it."""


def panel_names(
    draft: Draft, faces: Faces, written: design.Blank, runs: Sequence[Run], numbers: Numbers, faults: Faults
) -> list[str]:
    """One name for each face, in order; faults for two names on one panel and names that find none."""
    given: dict[int, str] = {}
    if written.panels is not None:
        if written.panels.rows:
            given = _from_map(draft, faces, written.panels, faults)
        given = _from_anchors(draft, faces, written.panels, runs, numbers, given, faults)
    names = _from_regions(draft, faces)
    unnamed = 0
    for number in range(len(names)):
        if number in given:
            names[number] = given[number]
        elif not names[number]:
            unnamed += 1
            names[number] = f"part {unnamed}" if len(names) > 1 else written.name
    for name in sorted({name for name in names if names.count(name) > 1}):
        where = written.panels.where if written.panels is not None else written.where
        faults.add(where, f"two panels are called `{name}`", "give one of them another name under `panels`")
    return names


def _from_regions(draft: Draft, faces: Faces) -> list[str]:
    """The region each face has the greatest part of; faces that share one are told apart by where they lie in it."""
    regions = [_region(polygon, draft.regions) for polygon in faces.polygons]
    names = [region.name if region is not None else "" for region in regions]
    for region in draft.regions:
        shared = [number for number, own in enumerate(regions) if own is region]
        if len(shared) < 2:
            continue
        if len(draft.regions) == 1:
            for number in shared:
                names[number] = ""
            continue
        left, head, right, tail = (float(value) for value in region.box)
        centres = [centroid(faces.polygons[number]) for number in shared]
        offsets = [((x - (left + right) / 2) / (right - left), (y - (head + tail) / 2) / (tail - head)) for x, y in centres]
        for number, word in zip(shared, place_words(offsets), strict=True):
            names[number] = f"{word} part of {region.name}"
    return names


def _region(polygon: Polygon, regions: Sequence[Region]) -> Region | None:
    left, head = min(p[0] for p in polygon), min(p[1] for p in polygon)
    right, tail = max(p[0] for p in polygon), max(p[1] for p in polygon)
    near = [
        region
        for region in regions
        if min(right, region.box[2]) - max(left, region.box[0]) > LEAST_SHARE
        and min(tail, region.box[3]) - max(head, region.box[1]) > LEAST_SHARE
    ]
    if len(near) < 2:
        return near[0] if near else None
    return max(near, key=lambda region: total_area(intersection([polygon], [region.polygon])))


def _from_map(draft: Draft, faces: Faces, panels: design.PanelNames, faults: Faults) -> dict[int, str]:
    """Names as drawn. The map's lines are the upright and level scores and slits, prolonged."""
    xs, ys = _grid(draft, faces)
    rows = panels.rows
    if len(rows) != len(ys) - 1 or any(len(row) != len(xs) - 1 for row in rows):
        widths = sorted({len(row) for row in rows})
        across = str(widths[0]) if len(widths) == 1 else f"{widths[0]} to {widths[-1]}"
        faults.add(
            panels.where,
            f"the map has {len(rows)} rows of {across} names, the scores and slits make {len(ys) - 1} rows of {len(xs) - 1}",
            "write one name for each place, `-` for none",
        )
        return {}
    given: dict[int, str] = {}
    for row, names in enumerate(rows):
        for column, name in enumerate(names):
            if name is not None:
                x, y = (xs[column] + xs[column + 1]) / 2, (ys[row] + ys[row + 1]) / 2
                face = next((number for number, polygon in enumerate(faces.polygons) if holds(polygon, x, y)), None)
                _give(face, name, panels, given, faults)
    return given


def _grid(draft: Draft, faces: Faces) -> tuple[list[float], list[float]]:
    xs, ys = {0.0, float(draft.width)}, {0.0, float(draft.height)}
    lines = [(score.start, score.end) for score in faces.scores] + [(slit.start, slit.end) for slit in draft.slits]
    for start, end in lines:
        for axis, places in ((0, xs), (1, ys)):
            at = float(start[axis])
            if abs(at - float(end[axis])) <= SAME and all(abs(at - other) > SAME for other in places):
                places.add(at)
    return sorted(xs), sorted(ys)


def _give(face: int | None, name: str, panels: design.PanelNames, given: dict[int, str], faults: Faults) -> None:
    if face is None:
        faults.add(panels.where, f"`{name}` finds no panel", "put it where there is paper")
    elif given.get(face, name) != name:
        faults.add(panels.where, f"one panel is called both `{given[face]}` and `{name}`", "leave one of the names out")
    elif name in given.values() and face not in given:
        faults.add(panels.where, f"`{name}` names two panels", "give each panel its own name")
    else:
        given[face] = name


def _from_anchors(
    draft: Draft,
    faces: Faces,
    panels: design.PanelNames,
    runs: Sequence[Run],
    numbers: Numbers,
    given: dict[int, str],
    faults: Faults,
) -> dict[int, str]:
    for name, place in panels.anchors:
        point = point_of(place, draft, numbers, runs, faults)
        if point is None:
            continue
        x, y = float(point.x), float(point.y)
        if not (-SAME <= x <= float(draft.width) + SAME and -SAME <= y <= float(draft.height) + SAME):
            faults.add(place.where, f"`{name}` finds no panel: its point lies outside the blank", "choose a point on the blank")
            continue
        face = _held(draft, faces, x, y)
        if face in given and given[face] != name:
            faults.add(place.where, f"one panel is called both `{given[face]}` and `{name}`", "leave one of the names out")
        elif name in given.values() and face not in given:
            faults.add(place.where, f"`{name}` names two panels", f"the names so far: {listed(list(given.values()))}")
        else:
            given[face] = name
    return given


def _held(draft: Draft, faces: Faces, x: float, y: float) -> int:
    """The panel that holds a point; a point on an edge belongs to what lies a little towards the middle, and one that was
    cut away to the nearest panel."""
    cx, cy = float(draft.width) / 2, float(draft.height) / 2
    nudged = (x + (cx - x) * 1e-4, y + (cy - y) * 1e-4)
    for number, polygon in enumerate(faces.polygons):
        if holds(polygon, *nudged):
            return number
    return min(range(len(faces.polygons)), key=lambda number: gap_to(faces.polygons[number], x, y))
