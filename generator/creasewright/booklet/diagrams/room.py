"""What is taken on the page while a picture is being laid out, and whether a new label may go somewhere.

Frame: mm on the page, the scene's own origin; the picture is moved into its box at the end, so only its size is limited.
"""

import itertools
from collections.abc import Sequence

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, segment_meets
from creasewright.booklet.diagrams.scene import Spot


class Mark(Struct, frozen=True):
    """How many lines and boxes were taken, and what else a room knows."""

    lines: int
    barring: int
    boxes: int
    extent: Box | None
    crowded: int


class Room:
    """Lines and boxes taken so far, the extent of everything inked, and the largest extent allowed."""

    def __init__(self, width: float, height: float) -> None:
        self.width = width
        self.height = height
        self.extent: Box | None = None
        self.lines: list[tuple[float, float, float, float, Spot, Spot]] = []
        self.barring: list[tuple[float, float, float, float, Spot, Spot]] = []
        """Those of the lines that no leader should run across: dimensions, and other leaders."""
        self.boxes: list[Box] = []
        self.dots: list[Spot] = []
        """Where leaders end."""
        self.crowded = 0
        """How many labels found no clear place."""

    def take_line(self, spots: Sequence[Spot], bars: bool = False) -> None:
        """Nothing may be set across this chain of straight lines; `bars`: no leader should run across it either."""
        for a, b in itertools.pairwise(spots):
            (ax, ay), (bx, by) = a, b
            x0, x1 = (ax, bx) if ax < bx else (bx, ax)
            y0, y1 = (ay, by) if ay < by else (by, ay)
            self.lines.append((x0, y0, x1, y1, a, b))
            if bars:
                self.barring.append(self.lines[-1])
            self.ink((x0, y0, x1, y1))

    def take_box(self, box: Box) -> None:
        self.boxes.append(box)
        self.ink(box)

    def ink(self, corners: tuple[float, float, float, float]) -> None:
        """Something is drawn in this box; it counts for the size of the picture but may be written over."""
        if self.extent is None:
            self.extent = Box(*corners)
            return
        x0, y0, x1, y1 = self.extent
        left, top, right, bottom = corners
        if left < x0 or top < y0 or right > x1 or bottom > y1:
            self.extent = self.extent.with_box(corners)

    def is_clear(self, box: Box) -> bool:
        """No line and no taken box in it."""
        x0, y0, x1, y1 = box
        for left, top, right, bottom in self.boxes:
            if left < x1 and x0 < right and top < y1 and y0 < bottom:
                return False
        for left, top, right, bottom, a, b in self.lines:
            if left < x1 and right > x0 and top < y1 and bottom > y0 and segment_meets(a, b, box):
                return False
        return True

    def mark(self) -> Mark:
        """How things stand, to tell what came later and to go back."""
        return Mark(len(self.lines), len(self.barring), len(self.boxes), self.extent, self.crowded)

    def back_to(self, mark: Mark) -> None:
        del self.lines[mark.lines :], self.barring[mark.barring :], self.boxes[mark.boxes :]
        self.extent, self.crowded = mark.extent, mark.crowded

    def is_good_since(self, mark: Mark) -> bool:
        """No label that came since the mark was crowded, and no line runs across a line or a box that was there before."""
        old, boxes = self.lines[: mark.lines], self.boxes[: mark.boxes]
        new = [line[4:] for line in self.lines[mark.lines :]]
        return self.crowded == mark.crowded and not any(
            _crossings(a, b, old) or any(segment_meets(a, b, box) for box in boxes) for a, b in new
        )

    def near(self, box: Box, first: int = 0) -> "Room":
        """What is taken within the box only, to be asked often about places in it, but for the `first` lines; knows no limits."""
        near = Room(0.0, 0.0)
        x0, y0, x1, y1 = box
        near.lines = [line for line in self.lines[first:] if line[0] < x1 and line[2] > x0 and line[1] < y1 and line[3] > y0]
        near.boxes = [taken for taken in self.boxes if taken.overlaps(box)]
        return near

    def has_room(self, box: tuple[float, float, float, float]) -> bool:
        """The picture with this box in it stays within its limits."""
        left, top, right, bottom = box
        if self.extent is not None:
            x0, y0, x1, y1 = self.extent
            left, right = left if left < x0 else x0, right if right > x1 else x1
            top, bottom = top if top < y0 else y0, bottom if bottom > y1 else y1
        return right - left <= self.width + 1e-6 and bottom - top <= self.height + 1e-6

    def grows_higher(self, box: tuple[float, float, float, float]) -> float:
        """mm by which the picture is higher with this box in it."""
        if self.extent is None:
            return box[3] - box[1]
        return max(0.0, self.extent.y0 - box[1]) + max(0.0, box[3] - self.extent.y1)

    def crosses(self, a: Spot, b: Spot) -> int:
        """How many taken boxes the segment runs through."""
        return sum(segment_meets(a, b, box) for box in self.boxes)

    def crossed(self, a: Spot, b: Spot) -> int:
        """How many taken lines the segment runs across or along."""
        return _crossings(a, b, self.lines)

    def barred(self, a: Spot, b: Spot) -> bool:
        """Whether it runs across or along a line that no leader should."""
        return bool(self.barring) and _crossings(a, b, self.barring) > 0


def _crossings(a: Spot, b: Spot, lines: Sequence[tuple[float, float, float, float, Spot, Spot]]) -> int:
    box = Box(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])).grown(0.3)
    return sum(
        _cross(a, b, *line[4:]) for line in lines if line[0] < box.x1 and line[2] > box.x0 and line[1] < box.y1 and line[3] > box.y0
    )


def _cross(a: Spot, b: Spot, c: Spot, d: Spot) -> bool:
    """Each segment has its ends on both sides of the other, or one runs along the other within a quarter of a mm."""

    def side(p: Spot, q: Spot, r: Spot) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    near = 0.25 * (abs(b[0] - a[0]) + abs(b[1] - a[1]))
    sc, sd = side(a, b, c), side(a, b, d)
    if abs(sc) < near and abs(sd) < near:
        return (
            min(a[0], b[0]) <= max(c[0], d[0]) + 0.1
            and min(c[0], d[0]) <= max(a[0], b[0]) + 0.1
            and (min(a[1], b[1]) <= max(c[1], d[1]) + 0.1 and min(c[1], d[1]) <= max(a[1], b[1]) + 0.1)
        )
    return (sc > 0) != (sd > 0) and (side(c, d, a) > 0) != (side(c, d, b) > 0)
