"""The numbered discs of a sheet plan's cuts, and where each stands. mm on the page, from the sheet's head-left corner."""

from collections.abc import Iterator, Sequence
from math import hypot

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_about, circle, polyline, segment_meets
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Item, Path, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.cutting.plan import Cut, SheetPlan
from creasewright.reading.page_layout import PageLayout

RADIUS = 2.4
"""Of a disc for a number of 9.5 pt."""
OUT = 2.3
"""From the sheet to the rim of a disc; the line runs 4.7 mm out to its middle."""
BEND = 0.9
"""How far out of the sheet a line bends towards a disc that makes way for another."""
ASIDE = (0.0, *(sign * 0.9 * k for k in range(1, 8) for sign in (1, -1)))
"""mm that a disc may make way."""
BESIDE = 3.4
"""From a line to the middle of a disc that has no room on it."""
STEP, MOST_ON_LINE = 1.8, 60
"""mm along a line from one place to the next, and how many of them there are."""
Segment = tuple[Spot, Spot]


class DiscPlace(Struct, frozen=True):
    centre: Spot
    runs_out: bool
    """It stands outside the sheet, and the line runs on to it."""
    at_entry: bool
    """At the line's start: its left or head end."""
    bend: Spot | None = None
    """Where the line leaves its own direction for the disc; of a disc beside the line, the place on the line that it belongs to."""


def cut_line(cut: Cut, scale: float) -> Segment:
    """From left to right, or from head to tail."""
    x, y, wide, high = (float(value) * scale for value in cut.piece_rect)
    at = float(cut.position) * scale
    return ((x, y + at), (x + wide, y + at)) if cut.direction == "across" else ((x + at, y), (x + at, y + high))


def drawn_line(line: Segment, place: DiscPlace) -> Path:
    """The cut's line out to the rim of its disc, or in two pieces on either side of it."""
    near, far = line if place.at_entry else (line[1], line[0])
    if place.runs_out:
        start = place.bend or near
        return polyline((_towards(place.centre, start, RADIUS), *((start,) if place.bend else ()), far))
    if place.bend:
        return (*polyline((near, far)), *polyline((_towards(place.centre, place.bend, RADIUS), place.bend)))
    return (*polyline((near, _towards(place.centre, near, RADIUS))), *polyline((_towards(place.centre, far, RADIUS), far)))


def _towards(start: Spot, end: Spot, by: float) -> Spot:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy) or 1.0
    return start[0] + by * dx / length, start[1] + by * dy / length


def disc(number: int, centre: Spot, layout: PageLayout, ruler: TextRuler) -> tuple[Item, ...]:
    style = layout.types["cut number"]
    radius = RADIUS * style.size / 9.5
    baseline = centre[1] + ruler.cap_height(style.face, style.size) / 2
    run = Run(str(number), style.face, style.size, style.colour)
    words = Words(centre[0], baseline, (run,), "middle", role="cut number")
    return Shape(circle(centre, radius), None, "INK", role="cut disc"), words


def disc_place(cut: Cut, plan: SheetPlan, scale: float, others: Sequence[Segment], taken: Sequence[Box]) -> DiscPlace:
    """The first clear place: outside at the entry, on the line, outside at its far end, beside the line."""
    places = list(_places(cut, plan, scale))
    clear = (place for place in places if _is_clear(place, others, taken))
    return next(clear, places[0])


def _is_clear(place: DiscPlace, others: Sequence[Segment], taken: Sequence[Box]) -> bool:
    box = box_about(place.centre, 2 * RADIUS, 2 * RADIUS)
    return not any(box.overlaps(other) for other in taken) and not any(segment_meets(a, b, box) for a, b in others)


def _places(cut: Cut, plan: SheetPlan, scale: float) -> Iterator[DiscPlace]:
    (x0, y0), (x1, y1) = cut_line(cut, scale)
    across = cut.direction == "across"
    start, end = (x0, x1) if across else (y0, y1)
    level = y0 if across else x0
    whole = float(plan.stock.width if across else plan.stock.height) * scale
    lost = plan.stock.usable[0::2] if across else plan.stock.usable[1::2]
    reaches = (start <= float(lost[0]) * scale + 1e-6, end >= whole - float(lost[1]) * scale - 1e-6)

    def spot(along: float, aside: float = 0.0) -> Spot:
        return (along, level + aside) if across else (level + aside, along)

    def outside(rim: float, out: int, at_entry: bool) -> Iterator[DiscPlace]:
        for aside in ASIDE if reaches[0 if at_entry else 1] else ():
            bend = spot(rim + out * BEND) if aside else None
            yield DiscPlace(spot(rim + out * (OUT + RADIUS), aside), True, at_entry, bend)

    on_line = [DiscPlace(spot(start + RADIUS + 1.2 + k * STEP), False, True) for k in range(MOST_ON_LINE)]
    on_line = [place for place in on_line if place.centre[0 if across else 1] <= end - RADIUS - 0.6]
    far = list(outside(whole, 1, at_entry=False))
    yield from outside(0.0, -1, at_entry=True)
    # a disc at the right would make the picture wider than its half of the page, one at the tail only taller
    yield from (*on_line, *far) if across else (*far, *on_line)
    for place in on_line:
        along = place.centre[0 if across else 1]
        yield from (DiscPlace(spot(along, side * BESIDE), False, True, place.centre) for side in (-1, 1))
    yield DiscPlace(spot((start + end) / 2), False, True)
