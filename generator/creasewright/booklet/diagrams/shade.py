"""Discrete shading of faces in space, whatever the palette.

A shaded colour is a palette name with a factor, `paper 1 front*0.93`: whoever paints looks the name up and multiplies its
three channels. The factor has two decimals, so a picture has few tones and never a gradient. The rule is 0.86 + 0.14 cos, the
angle being the one between the face and the light, which comes from upper left front.
"""

from math import sqrt

from creasewright.booklet.diagrams.scene import Spot3
from creasewright.geometry.rigid_transform import dot

_SIZE = sqrt(0.43**2 + 0.71**2 + 1)
LIGHT: Spot3 = (-0.43 / _SIZE, 0.71 / _SIZE, -1 / _SIZE)
"""From the scene to the light, in the scene's frame: to the left, to the front, up. Common practice, no source."""


def shaded(colour: str, outward: Spot3) -> str:
    """`colour` as it looks on a face whose unit normal, on the side seen, is `outward`."""
    factor = round(0.86 + 0.14 * dot(LIGHT, outward), 2)
    return colour if factor == 1 else f"{colour}*{factor:.2f}"


def shade_of(colour: str) -> tuple[str, float]:
    """Palette name and factor of a colour that may be shaded."""
    name, _, factor = colour.partition("*")
    return name, float(factor) if factor else 1.0
