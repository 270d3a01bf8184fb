"""The cross-section of a sheet that is bent to a cylinder by a curved score, the crease lying in a plane at 45° to the rulings.

On the flat sheet the score is a circular arc over a chord; let y(s) be its height at the distance s along the chord. Folded so
that what lies beyond it stands upright, the crease is the curve (x, y, y) in a plane at 45°, so the sheet stands y(s) high along
the ruling at s. The sheet is not stretched across: dx² + dy² = ds². So the section is as high as the arc, and as wide as the
integral of sqrt(1 - y'²), which asks for a slope under 1 everywhere. (Reflection of a cylinder in a plane: D. Fuchs and
S. Tabachnikov, "More on paperfolding", American Mathematical Monthly 106, 1999.)

With R the arc's radius and s - chord/2 = R sin f the integral is R E(f | 2), and with √2 sin f = sin t it is that of
R/√2 cos² t / sqrt(1 - sin² t / 2), which is smooth up to a slope of 1.
"""

from functools import lru_cache
from math import acos, asin, cos, degrees, pi, sin, sqrt, tan

from msgspec import Struct

STEEPEST = tan(pi / 8) / 2
"""A rise of more than this share of its chord is an arc whose slope at the ends is over 1."""
STEPS = 128
"""Of Simpson's rule over a half of the section: good to 1e-9 of the chord (tested against the elliptic integral)."""


class Arch(Struct, frozen=True):
    """`chord` and `rise` of the score on the flat sheet, mm; the rise is more than 0 and no more than half the chord."""

    chord: float
    rise: float

    @property
    def radius(self) -> float:
        return (self.chord * self.chord / 4 + self.rise * self.rise) / (2 * self.rise)

    @property
    def slope(self) -> float:
        """Of the arc at its ends, against its chord: half the chord by what the radius has more than the rise."""
        below = self.radius - self.rise
        return self.chord / 2 / below if below > 0 else float("inf")

    @property
    def fold_at_ends(self) -> float:
        """Degrees that the crease is folded at the ends of the chord; it is 90 at its middle.

        The two sheets are mirror images in the plane at 45°, whose normal makes the cosine sqrt((1 - y'²) / 2) with theirs.
        """
        return degrees(acos(min(1.0, self.slope * self.slope)))

    @property
    def width(self) -> float:
        """Of the bent sheet between the ends of the chord, mm. Needs a slope under 1."""
        return 2 * _half(self, self.chord / 2)

    def height(self, s: float) -> float:
        """Of the arc over its chord, and of the bent sheet, at `s` mm from the chord's start; below 0 past its ends."""
        off = s - self.chord / 2
        return sqrt(max(0.0, self.radius**2 - off * off)) - (self.radius - self.rise)

    def across(self, s: float) -> float:
        """How far across the bent sheet the ruling at `s` lies, mm from its start."""
        off = min(self.chord, max(0.0, s)) - self.chord / 2
        return self.width / 2 + (_half(self, off) if off >= 0 else -_half(self, -off)) + (s - min(self.chord, max(0.0, s)))

    def lean(self, s: float) -> tuple[float, float]:
        """The upper normal of the bent sheet at `s`: across, and up; of length 1."""
        off = min(self.chord, max(0.0, s)) - self.chord / 2
        slope = -off / sqrt(self.radius**2 - off * off)
        return -slope, sqrt(max(0.0, 1 - slope * slope))


@lru_cache(maxsize=1024)
def _half(arch: Arch, off: float) -> float:
    """The section's width from its middle to `off` mm from the chord's middle (Simpson's rule)."""
    end = asin(min(1.0, sqrt(2) * off / arch.radius))
    step = end / STEPS
    total = 0.0
    for k in range(STEPS + 1):
        t = k * step
        weight = 1 if k in (0, STEPS) else 4 if k % 2 else 2
        total += weight * cos(t) ** 2 / sqrt(1 - sin(t) ** 2 / 2)
    return arch.radius / sqrt(2) * total * step / 3
