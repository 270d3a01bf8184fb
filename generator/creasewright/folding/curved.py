"""A panel that a curved score has bent to a cylinder: where each point of its flat sheet lies, in its own flat frame.

A bent panel keeps its flat place (`State.placed`); what is said here comes before it. Across the rulings the flat distance s
becomes the section's own (`Arch`), about the middle, so that panels that were flat on each other stay so; along them nothing
changes. A folded ear is the mirror image in the crease's plane at 45°: what ran on along the ruling runs back through the section.
"""

from math import hypot
from typing import NamedTuple

from msgspec import Struct

from creasewright.geometry.arch import Arch
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector

Spot = tuple[float, float]

STRIPS = 20
"""Even: how many flat strips stand for a bent panel; the highest ruling is between two of them."""
MEETS = 1e-6


class Ear(NamedTuple):
    """The crease of a folded ear."""

    chord_at: float
    """Where its chord lies along the rulings, mm from the panel's `start`."""
    bows: float
    """+1 or -1: to which side along the rulings its arc bows, away from the ear."""
    over: float
    """mm of paper between this ear and the section's end: ears folded earlier."""


class Curved(Struct, frozen=True):
    arch: Arch
    start: Spot
    """A point of the first ruling, s = 0, in the flat frame."""
    along: Spot
    """The unit vector across the rulings, in which s grows."""
    up: float
    """+1 where the panel bows to its back (z down through the sheet), -1 where it bows to its front."""
    under: float = 0.0
    """mm of paper bent to the same side that lies over it."""
    ear: Ear | None = None
    """Of an ear that is folded."""

    def flat(self, x: float, y: float) -> Spot:
        """s across the rulings and t along them, a quarter turn clockwise of it, mm."""
        dx, dy = x - self.start[0], y - self.start[1]
        return dx * self.along[0] + dy * self.along[1], dy * self.along[0] - dx * self.along[1]

    def point(self, x: float, y: float) -> Vector:
        """Where a point of the flat sheet lies, in the panel's flat frame."""
        s, t = self.flat(x, y)
        height = self.arch.height(s)
        if self.ear is not None:
            crease = self.ear.chord_at + self.ear.bows * height
            height -= (crease - t) * self.ear.bows
            t = crease - self.ear.bows * self.ear.over
        return self._spot(self.arch.across(s) + (self.arch.chord - self.arch.width) / 2, t, height)

    def normal(self, x: float, y: float) -> Vector:
        """The unit vector of the sheet there that was the flat sheet's side of `up`."""
        across, rise = self.arch.lean(self.flat(x, y)[0])
        if self.ear is None:
            return self._turned(across, 0.0, rise)
        return self._turned(-across, -self.ear.bows * rise, 0.0)

    def _spot(self, s: float, t: float, height: float) -> Vector:
        x, y, z = self._turned(s, t, height)
        return self.start[0] + x, self.start[1] + y, z

    def _turned(self, s: float, t: float, height: float) -> Vector:
        cx, cy = self.along
        return s * cx - t * cy, s * cy + t * cx, self.up * height


class Strip(NamedTuple):
    """A part of a bent panel between two rulings; flat."""

    corners: Polygon
    """On the flat sheet, clockwise as the panel's polygon runs."""
    on_ruling: tuple[bool, ...]
    """Of each edge, whether it lies on a ruling between two strips."""


def strips(curved: Curved, polygon: Polygon, coarse: float = 0.0) -> tuple[Strip, ...]:
    """The panel's polygon between rulings an even distance apart; corners less than `coarse` mm off a strip's side are left out."""
    chord = curved.arch.chord
    found = []
    for k in range(STRIPS):
        low, high = chord * k / STRIPS, chord * (k + 1) / STRIPS
        part = _beyond(curved, polygon, low, 1.0) if k else polygon
        part = _beyond(curved, part, high, -1.0) if k + 1 < STRIPS else part
        rulings = tuple(at for at, inside in ((low, k > 0), (high, k + 1 < STRIPS)) if inside)
        if coarse and part:
            part = _coarsened(curved, part, (low, high), coarse)
        if len(part) > 2:
            ends = zip(part, part[1:] + part[:1], strict=True)
            found.append(Strip(part, tuple(any(_lies_at(curved, a, at) and _lies_at(curved, b, at) for at in rulings) for a, b in ends)))
    return tuple(found)


def _lies_at(curved: Curved, spot: Spot, s: float) -> bool:
    return abs(curved.flat(*spot)[0] - s) < MEETS


def _coarsened(curved: Curved, part: Polygon, rulings: tuple[float, float], coarse: float) -> Polygon:
    kept = list(part)
    for spot in part:
        k = kept.index(spot)
        (ax, ay), (bx, by) = kept[k - 1], kept[(k + 1) % len(kept)]
        off = abs((bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)) / (hypot(bx - ax, by - ay) or 1.0)
        if off < coarse and not any(_lies_at(curved, spot, at) for at in rulings):
            del kept[k]
    return tuple(kept)


def _beyond(curved: Curved, polygon: Polygon, at: float, sign: float) -> Polygon:
    """What of a polygon lies past the ruling at `at` (sign 1) or before it (-1): I. E. Sutherland and G. W. Hodgman, 1974."""
    kept: list[Spot] = []
    for here, there in zip(polygon, polygon[1:] + polygon[:1], strict=True):
        a, b = (sign * (curved.flat(*spot)[0] - at) for spot in (here, there))
        if a >= 0:
            kept.append(here)
        if (a > 0 > b) or (a < 0 < b):
            t = a / (a - b)
            kept.append((here[0] + t * (there[0] - here[0]), here[1] + t * (there[1] - here[1])))
    spots = [spot for k, spot in enumerate(kept) if spot != kept[k - 1]]
    return tuple(spots) if len(spots) > 2 and abs(_area(spots)) > MEETS else ()


def _area(spots: list[Spot]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(spots, spots[1:] + spots[:1], strict=True)) / 2
