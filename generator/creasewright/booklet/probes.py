"""What the test page finds out a printer by: lines that step in from each edge, and a target that shows where the back lands.

mm of the page, y down.
"""

from collections.abc import Callable
from math import pi

from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.spots import Spot
from creasewright.booklet.tiling.template_form import arc_commands, line_path

STEPS = 15
"""Lines of a probe: 1 to 15 mm from the edge of the paper."""
PITCH, LINE = 4.4, 3.2
"""From one line of a probe to the next along the edge, and its length."""
BEHIND = 0.9
"""From a probe's line to its figure."""
SIZE = 9.0
PROBE_PEN, GRID_PEN, CROSS_PEN = Pen("INK", 0.5, cap="butt"), Pen("INK2", 0.3, cap="butt"), Pen("INK", 0.9, cap="butt")
REACH, ARM, DISC = 10, 14.0, 3.0
"""The target's lines to each side of its middle, mm; the cross's arm; the ring."""


def edge_probe(side: str, width: float, height: float, ruler: TextRuler, placed: Callable[[Spot], Spot]) -> list[Item]:
    """Lines 1, 2, 3 … mm from one edge (`left`, `head`, `right`, `tail`) of a page, side by side about its middle, each with its
    figure inside. `placed` takes a place of the file's page to where it is drawn."""
    high = ruler.cap_height("Regular", SIZE)
    upright = side in ("left", "right")
    inward = 1 if side in ("left", "head") else -1
    far = {"left": 0.0, "head": 0.0, "right": width, "tail": height}[side]
    items: list[Item] = []
    for k in range(1, STEPS + 1):
        along, off = (k - (STEPS + 1) / 2) * PITCH, far + inward * k
        x, y = placed((off, height / 2 + along) if upright else (width / 2 + along, off))
        path = line_path((x, y - LINE / 2), (x, y + LINE / 2)) if upright else line_path((x - LINE / 2, y), (x + LINE / 2, y))
        text = (Run(str(k), size=SIZE),)
        if upright:
            figure = Words(x + inward * BEHIND, y + high / 2, text, "start" if inward > 0 else "end", role="probe figure")
        else:
            figure = Words(x, y + inward * BEHIND + (high if inward > 0 else 0.0), text, "middle", role="probe figure")
        items += [Shape(path, PROBE_PEN, role=f"probe {side} {k}"), figure]
    return items


def front_target(x: float, y: float, ruler: TextRuler) -> list[Item]:
    """A grid of millimetres about a place, every fifth line longer and with its figure."""
    high = ruler.cap_height("Regular", SIZE)
    items: list[Item] = []
    for k in range(-REACH, REACH + 1):
        half = REACH + (2.0 if k % 5 == 0 else 0.0)
        pen = CROSS_PEN if k == 0 else GRID_PEN
        items.append(Shape(line_path((x + k, y - half), (x + k, y + half)), pen, role="target line down"))
        items.append(Shape(line_path((x - half, y + k), (x + half, y + k)), pen, role="target line across"))
        if k % 5 == 0:
            text = (Run(str(abs(k)), size=SIZE),)
            items.append(Words(x + k, y - REACH - 2.8, text, "middle", role="target figure"))
            items.append(Words(x - REACH - 2.8, y + k + high / 2, text, "end", role="target figure"))
    return items


def back_target(x: float, y: float) -> list[Item]:
    """The heavy cross that is seen through the paper, in a ring."""
    ring = (("M", x + DISC, y), *arc_commands((x, y), DISC, 0.0, 2 * pi), ("Z",))
    return [
        Shape(line_path((x - ARM, y), (x + ARM, y)), Pen("INK", 1.6, cap="butt"), role="back cross"),
        Shape(line_path((x, y - ARM), (x, y + ARM)), Pen("INK", 1.6, cap="butt"), role="back cross"),
        Shape(ring, Pen("INK", 1.2), role="back ring"),
    ]


def end_marks(x: float, y: float, letter: str, upright: bool, beyond: float) -> list[Item]:
    """One end of the line to measure: a hairline across the ruler as far as its figures, and its letter, so far below (or, where
    `beyond` is negative, above) the line."""
    half = 5.0
    path = line_path((x - half, y), (x + half, y)) if upright else line_path((x, y - half), (x, y + half))
    letter_at = Words(x, y + beyond, (Run(letter, "Bold", 12.0, "ACC"),), "middle", role="end letter")
    return [Shape(path, PROBE_PEN, role=f"end {letter}"), letter_at]
