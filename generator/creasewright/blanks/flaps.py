"""A base and the flaps that grow from it: a net. Each seam is a score with the flap's name."""

import re
from fractions import Fraction

from creasewright.blanks.draft import Draft, Region, Run
from creasewright.blanks.faults import Faults, in_mm, listed
from creasewright.blanks.flap_curves import curves_fit
from creasewright.blanks.flap_parts import Part, cotangent, flap_on, polygon_base, rectangle_base
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.references import expanded
from creasewright.geometry.clip import intersection, total_area
from creasewright.geometry.edges import box_of
from creasewright.geometry.outline import Arc, Line, Outline, flattened
from creasewright.geometry.plane_transform import shift
from creasewright.geometry.point import Number
from creasewright.geometry.vector import length, minus
from creasewright.reading import design
from creasewright.reading.design import Text

LEAST_OVERLAP = 1e-3
"""mm²: two flaps that share less only touch."""

PLACE = re.compile(r"^(each edge|ends|first end|last end|far edge|head|tail|left|right) of (.+)$")

Place = tuple[Part, int, str]
"""A part, one of its edges, and the word for it."""


def flaps_draft(written: design.Blank, shape: design.FlapsShape, numbers: Numbers, half: Fraction, faults: Faults) -> Draft:
    """The net laid flat, or faults. For inside or outside sizes, see `bands.py`: a base changes by `half` for each flap
    on it, a flap by `half` for its seam."""
    base = _base(written, shape, numbers, half, faults)
    faults.stop_if_any()
    parts = {base.name: base}
    failed: set[str] = set()
    waiting = list(shape.flaps)
    while waiting:
        ready = [flap for flap in waiting if not _waits_for(flap, waiting)]
        if not ready:
            faults.add(waiting[0].where, f"`{waiting[0].name}` grows from a flap that grows from it", "start a flap at the base")
            break
        for flap in ready:
            before = len(faults.found)
            if not failed.intersection(_parent(text) for text in flap.at):
                _grow(flap, parts, numbers, half, faults)
            if len(faults.found) > before or failed.intersection(_parent(text) for text in flap.at):
                failed.add(flap.name)
        waiting = [flap for flap in waiting if flap not in ready]
    faults.stop_if_any()
    _check_room(list(parts.values()), shape, faults)
    return _drawn(base, list(parts.values()))


def _base(written: design.Blank, shape: design.FlapsShape, numbers: Numbers, half: Fraction, faults: Faults) -> Part:
    name = shape.base or "base"
    if shape.sides is not None and shape.side is not None:
        sides, side = numbers.count(shape.sides), numbers.length(shape.side)
        if sides < 3:
            faults.add(shape.sides.where, f"`sides: {shape.sides}` comes to {sides}", "give a base at least 3 sides")
        if side <= 0:
            faults.add(shape.side.where, f"`side: {shape.side}` comes to {in_mm(side)}", "make it more than 0")
        faults.stop_if_any()
        lean = 2 * float(half) * float(cotangent(Fraction(90) - Fraction(180, sides))) if half else 0
        return polygon_base(name, sides, side + lean if half else side)
    if shape.width is None or shape.height is None:
        faults.add(written.where, f"the base of `{written.name}` has no size", "give `width` and `height`, or `sides` and `side`")
        return rectangle_base(name, Fraction(1), Fraction(1))
    sizes = []
    for word, text, ends in (("width", shape.width, ("left", "right")), ("height", shape.height, ("head", "tail"))):
        size = numbers.length(text) + half * sum(_has_flap(shape, end, name) for end in ends)
        if size <= 0:
            faults.add(text.where, f"the {word} of the base, `{text}`, comes to {in_mm(size)}", "make it more than 0")
        sizes.append(size)
    return rectangle_base(name, sizes[0], sizes[1])


def _has_flap(shape: design.FlapsShape, side: str, base: str) -> bool:
    places = {text.text for flap in shape.flaps for text in flap.at}
    ends = side in ("left", "right") and f"ends of {base}" in places
    return f"{side} of {base}" in places or f"each edge of {base}" in places or ends


def _parent(text: Text) -> str:
    found = PLACE.match(text.text)
    return re.sub(r"^(each|last) | \d+( to (\d+|last))?$", "", found.group(2)) if found else ""


def _waits_for(flap: design.Flap, waiting: list[design.Flap]) -> bool:
    names = {other.name for other in waiting}
    return any(_parent(text) in names for text in flap.at)


def _grow(flap: design.Flap, parts: dict[str, Part], numbers: Numbers, half: Fraction, faults: Faults) -> None:
    depth = numbers.length(flap.depth) + half
    far_rise, seam_rise = (numbers.length(text) if text is not None else Fraction(0) for text in (flap.far_rise, flap.seam_rise))
    angle = numbers.number(flap.ends) if flap.ends is not None else Fraction(90)
    if depth < 0 or (depth == 0 and far_rise == seam_rise):
        what = f"the depth of `{flap.name}`, `{flap.depth}`, comes to {in_mm(depth)}"
        faults.add(flap.depth.where, what, "make it more than 0")
        return
    if not 0 < angle < 180 and flap.ends is not None:
        what = f"`ends: {flap.ends}` of `{flap.name}` is {float(angle):g}°"
        faults.add(flap.ends.where, what, "give an angle between 0 and 180")
        return
    places = [place for text in flap.at for place in _places(flap, text, parts, faults)]
    for number, (part, index, words) in enumerate(places, 1):
        name = f"{flap.name} {number}" if len(places) > 1 else flap.name
        edge = part.edge(index)
        start, end = _stretch(flap, edge, numbers)
        size = length(minus(edge.end, edge.start))
        if not 0 <= start < end <= size:
            faults.add(
                flap.where, f"`{name}` is to lie over {in_mm(start)} to {in_mm(end)} of an edge {in_mm(size)} long",
                "keep `over` within the edge, the smaller length first",
            )  # fmt: skip
            continue
        corners = flap_on(edge, start, end, depth, cotangent(angle))
        if corners is None:
            faults.add(
                flap.where, f"the ends of `{name}` at {float(angle):g}° meet before its depth of {in_mm(depth)} ({words})",
                "make it less deep, or its ends steeper",
            )  # fmt: skip
            continue
        grown = Part(name, corners, True, far_rise, seam_rise)
        if not curves_fit(flap, grown, part, index, faults):
            continue
        parts[name] = grown
        part.grown.append((index, start, end, parts[name]))


def _stretch(flap: design.Flap, edge: Line, numbers: Numbers) -> tuple[Number, Number]:
    """From the left end of the edge (the head end of an upright one), as the author counts; here from the edge's start."""
    size = length(minus(edge.end, edge.start))
    if flap.over is None:
        return size * 0, size
    start, end = numbers.length(flap.over[0]), numbers.length(flap.over[1])
    along = minus(edge.end, edge.start)
    level = abs(float(along.x)) > 1e-6
    forward = float(along.x) > 0 if level else float(along.y) > 0
    return (start, end) if forward else (size - end, size - start)


def _places(flap: design.Flap, text: Text, parts: dict[str, Part], faults: Faults) -> list[Place]:
    found = PLACE.match(text.text)
    if found is None:
        faults.add(
            text.where, f"`{text}` names no edge for `{flap.name}`",
            "write for example `tail of base`, `each edge of base` or `ends of front`",
        )  # fmt: skip
        return []
    names = expanded(found.group(2), list(parts))
    if not names:
        faults.add(text.where, f"`{found.group(2)}` is no base or flap of this blank", f"known here: {listed(list(parts))}")
        return []
    places = []
    for name in names:
        edges = parts[name].edges_meant(found.group(1))
        if not edges:
            faults.add(text.where, f"`{name}` has no free edge at its {found.group(1)}", "name another edge")
        places += [(parts[name], index, f"{found.group(1)} of {name}") for index in edges]
    return places


def _check_room(parts: list[Part], shape: design.FlapsShape, faults: Faults) -> None:
    wheres = {flap.name: flap.where for flap in shape.flaps}
    polygons = [flattened(part.own_rim()) for part in parts]
    boxes = [(min(p[0] for p in g), min(p[1] for p in g), max(p[0] for p in g), max(p[1] for p in g)) for g in polygons]
    for later, part in enumerate(parts):
        for earlier in range(later):
            a, b = boxes[later], boxes[earlier]
            if part.seam_rise and any(child is part for _, _, _, child in parts[earlier].grown):
                continue
            if min(a[2], b[2]) - max(a[0], b[0]) < 1e-3 or min(a[3], b[3]) - max(a[1], b[1]) < 1e-3:
                continue
            if total_area(intersection([polygons[later]], [polygons[earlier]])) > LEAST_OVERLAP:
                where = wheres.get(part.name) or wheres.get(part.name.rsplit(" ", 1)[0])
                if where is not None:
                    faults.add(
                        where, f"flap `{part.name}` lies over `{parts[earlier].name}` on the flat sheet",
                        "make it less deep, or its `ends` smaller",
                    )  # fmt: skip


def _drawn(base: Part, parts: list[Part]) -> Draft:
    lines = tuple(base.rim())
    left, head, right, tail = box_of(lines)
    to_frame = shift(-left, -head)
    regions, runs = [], []
    for part in parts:
        rim = to_frame.loop(part.own_rim())
        regions.append(Region(part.name, box_of(rim), flattened(rim)))
        if part.flap:
            seam = to_frame.edge(part.seam)
            runs.append(Run(part.name, seam.start, seam.end, arc=seam if isinstance(seam, Arc) else None))
    return Draft(right - left, tail - head, Outline(to_frame.loop(lines)), tuple(regions), (), tuple(runs))
