"""The place of a region that is farthest from its sides."""

from collections.abc import Sequence
from math import pi, sqrt

from creasewright.geometry.clip import area, total_area
from creasewright.geometry.loops import inner_point
from creasewright.geometry.offset import inset
from creasewright.geometry.outline import Polygon

HALVINGS = 6
"""The depth is found to within a 64th of what it can be at the most."""


def deepest_place(polygons: Sequence[Polygon]) -> tuple[tuple[float, float], float]:
    """A place and how deep it lies, mm: inside of what is left last as the polygons are moved in. Raises ValueError without an area."""
    left = [polygon for polygon in polygons if area(polygon) > 0]
    # no round is larger than what holds it
    low, high = 0.0, sqrt(total_area(left) / pi)
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        within = [piece for polygon in polygons for piece in inset(polygon, middle)]
        if within:
            low, left = middle, within
        else:
            high = middle
    return inner_point(max(left, key=area)), low
