"""The numbered discs of a sheet plan's cuts, and where each stands. mm on the page, from the sheet's head-left corner."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from creasewright.booklet.diagrams.boxes import Box, box_about, circle, segment_meets
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Item, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.cutting.plan import Cut, SheetPlan
from creasewright.reading.page_layout import PageLayout

RADIUS = 2.4
"""Of a disc for a number of 9.5 pt."""
OUT = 4.0
"""How far a cut's line runs out of the sheet before its disc."""
STEP = 5.4
"""From a disc to the next one farther out, and along a line."""
Segment = tuple[Spot, Spot]


@dataclass(frozen=True)
class DiscPlace:
    centre: Spot
    runs_out: bool
    """It stands outside the sheet, and the line runs on to it."""
    at_entry: bool
    """At the line's start: its left or head end."""


def cut_line(cut: Cut, scale: float) -> Segment:
    """From left to right, or from head to tail."""
    x, y, wide, high = (float(value) * scale for value in cut.piece_rect)
    at = float(cut.position) * scale
    return ((x, y + at), (x + wide, y + at)) if cut.direction == "across" else ((x + at, y), (x + at, y + high))


def disc(number: int, centre: Spot, layout: PageLayout, ruler: TextRuler) -> tuple[Item, ...]:
    style = layout.types["cut number"]
    radius = RADIUS * style.size / 9.5
    baseline = centre[1] + ruler.cap_height(style.face, style.size) / 2
    run = Run(str(number), style.face, style.size, style.colour)
    return Shape(circle(centre, radius), None, "INK", role="cut disc"), Words(centre[0], baseline, (run,), "middle", role="cut number")


def disc_place(cut: Cut, plan: SheetPlan, scale: float, others: Sequence[Segment], taken: Sequence[Box]) -> DiscPlace:
    """The first clear place: outside at the entry, outside at the far end, then along the line from the entry on."""
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

    def spot(along: float) -> Spot:
        return (along, level) if across else (level, along)

    for ring in range(3):
        if reaches[0]:
            yield DiscPlace(spot(-OUT - RADIUS - ring * STEP), True, True)
        if reaches[1]:
            yield DiscPlace(spot(whole + OUT + RADIUS + ring * STEP), True, False)
    along = start + RADIUS + 1.2
    while along <= end - RADIUS - 0.6:
        yield DiscPlace(spot(along), False, True)
        along += STEP / 3
    yield DiscPlace(spot((start + end) / 2), False, True)
