"""Names of panels: from the flap, band or cell they lie in; then from the name map or an anchor, which go before."""

from bisect import bisect_left, bisect_right
from collections import Counter
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
    for name in sorted(name for name, count in Counter(names).items() if count > 1):
        where = written.panels.where if written.panels is not None else written.where
        faults.add(where, f"two panels are called `{name}`", "give one of them another name under `panels`")
    return names


def _from_regions(draft: Draft, faces: Faces) -> list[str]:
    """The region each face has the greatest part of; faces that share one are told apart by where they lie in it."""
    index = RegionIndex(draft.regions)
    regions = [index.of(polygon) for polygon in faces.polygons]
    names = [region.name if region is not None else "" for region in regions]
    sharing: dict[int, list[int]] = {}
    for number, own in enumerate(regions):
        sharing.setdefault(id(own), []).append(number)
    for region in draft.regions:
        shared = sharing.get(id(region), [])
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


class RegionIndex:
    """Regions by their left sides, so that those near a face are found without asking all."""

    def __init__(self, regions: Sequence[Region]) -> None:
        found = []
        for number, region in enumerate(regions):
            left, head, right, tail = (float(value) for value in region.box)
            found.append((left, head, right, tail, number))
        self.boxes = sorted(found)
        self.lefts = [left for left, *_ in self.boxes]
        self.widest = max((right - left for left, _, right, _, _ in self.boxes), default=0.0)
        self.regions = regions

    def of(self, polygon: Polygon) -> Region | None:
        """The region that a face has the greatest part of; of equals the first."""
        left, head = min(p[0] for p in polygon), min(p[1] for p in polygon)
        right, tail = max(p[0] for p in polygon), max(p[1] for p in polygon)
        low, high = bisect_left(self.lefts, left - self.widest - LEAST_SHARE), bisect_right(self.lefts, right)
        near = sorted(
            number
            for x0, y0, x1, y1, number in self.boxes[low:high]
            if min(right, x1) - max(left, x0) > LEAST_SHARE and min(tail, y1) - max(head, y0) > LEAST_SHARE
        )
        if len(near) < 2:
            return self.regions[near[0]] if near else None
        best = max(near, key=lambda number: total_area(intersection([polygon], [self.regions[number].polygon])))
        return self.regions[best]


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
    lines = [(score.start, score.end) for score in faces.scores if score.arc is None] + [(slit.start, slit.end) for slit in draft.slits]
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
