"""Upright boxes on the page and what meets them: the measure of every label place. All in mm, x right, y down."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Path, Words
from creasewright.booklet.text_ruler import TextRuler

DESCENDING = frozenset("gjpqyQ,;()[]")
CHORDS = 8
"""How many chords stand for one cubic of a path when it is met with a box."""


class Box(NamedTuple):
    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        return self.y1 - self.y0

    @property
    def middle(self) -> Spot:
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    def grown(self, by: float) -> "Box":
        x0, y0, x1, y1 = self
        return Box(x0 - by, y0 - by, x1 + by, y1 + by)

    def moved(self, dx: float, dy: float) -> "Box":
        return Box(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def with_box(self, other: tuple[float, float, float, float]) -> "Box":
        x0, y0, x1, y1 = self
        left, top, right, bottom = other
        return Box(min(x0, left), min(y0, top), max(x1, right), max(y1, bottom))

    def overlaps(self, other: "Box") -> bool:
        """More than touching."""
        return self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1

    def holds(self, other: "Box", slack: float = 1e-6) -> bool:
        return (
            self.x0 - slack <= other.x0
            and self.y0 - slack <= other.y0
            and other.x1 <= self.x1 + slack
            and other.y1 <= self.y1 + slack
        )


def box_about(centre: Spot, width: float, height: float) -> Box:
    return Box(centre[0] - width / 2, centre[1] - height / 2, centre[0] + width / 2, centre[1] + height / 2)


def box_of(spots: Iterable[Spot]) -> Box:
    """The smallest box that holds all the spots; there must be one."""
    xs, ys = zip(*spots, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))


def united(boxes: Iterable[Box]) -> Box:
    """The smallest box that holds all the boxes; there must be one."""
    x0s, y0s, x1s, y1s = zip(*boxes, strict=True)
    return Box(min(x0s), min(y0s), max(x1s), max(y1s))


def segment_meets(a: Spot, b: Spot, box: Box) -> bool:
    """Whether the segment has a point inside the box (touching its rim is not inside). Liang and Barsky's parametric clipping."""
    x0, y0, x1, y1 = box
    ax, ay = a
    dx, dy = b[0] - ax, b[1] - ay
    low, high = 0.0, 1.0
    for step, near, far in ((dx, x0 - ax, x1 - ax), (dy, y0 - ay, y1 - ay)):
        if -1e-12 < step < 1e-12:
            if near >= 0 or far <= 0:
                return False
            continue
        t0, t1 = near / step, far / step
        if t0 > t1:
            t0, t1 = t1, t0
        if t0 > low:
            low = t0
        if t1 < high:
            high = t1
        if low >= high:
            return False
    return True


def words_box(words: Words, ruler: TextRuler) -> Box:
    """The inked box of one line of text: capital height above the baseline, descenders only where the text has some."""
    width = sum(ruler.width(run.text, run.face, run.size) for run in words.runs)
    up = max(ruler.cap_height(run.face, run.size) for run in words.runs) * 1.04
    down = max(ruler.descent(run.face, run.size) * (0.9 if DESCENDING & set(run.text) else 0.06) for run in words.runs)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[words.anchor]
    corners = ((left, -up), (left + width, down))
    if words.turned == 90:
        corners = ((-down, left), (up, left + width))
    elif words.turned == -90:
        corners = ((-up, -left - width), (down, -left))
    return Box(*corners[0], *corners[1]).moved(words.x, words.y)


def path_lines(path: Path) -> list[list[Spot]]:
    """The path as open chains of spots; a closed one ends where it began; cubics become chords."""
    chains: list[list[Spot]] = []
    for command in path:
        if command[0] == "M":
            chains.append([(command[1], command[2])])
        elif command[0] == "L":
            chains[-1].append((command[1], command[2]))
        elif command[0] == "C":
            first, second, end = ((command[k], command[k + 1]) for k in (1, 3, 5))
            chains[-1].extend(cubic_spots(chains[-1][-1], first, second, end, CHORDS)[1:])
        elif command[0] == "Z" and chains:
            chains[-1].append(chains[-1][0])
    return chains


def cubic_spots(p0: Spot, p1: Spot, p2: Spot, p3: Spot, count: int) -> list[Spot]:
    """`count` + 1 places along the cubic, evenly in its parameter, both ends included."""
    spots = []
    for k in range(count + 1):
        t = k / count
        u = 1 - t
        a, b, c, d = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        spots.append((a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0], a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1]))
    return spots


def polyline(spots: Sequence[Spot], closed: bool = False) -> Path:
    """Straight lines through the spots."""
    commands = [("M", *spots[0]), *(("L", x, y) for x, y in spots[1:])]
    return (*commands, ("Z",)) if closed else tuple(commands)


def circle(centre: Spot, radius: float) -> Path:
    """A full circle by four cubics, off by less than 0.03 % of the radius (handle 0.5523: common practice, no source)."""
    x, y = centre
    k = radius * 0.5523
    r = radius
    return (
        ("M", x + r, y),
        ("C", x + r, y + k, x + k, y + r, x, y + r),
        ("C", x - k, y + r, x - r, y + k, x - r, y),
        ("C", x - r, y - k, x - k, y - r, x, y - r),
        ("C", x + k, y - r, x + r, y - k, x + r, y),
        ("Z",),
    )
