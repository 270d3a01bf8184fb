"""Meeting points by number: places closer than the tolerance are one."""

from fractions import Fraction
from math import floor

from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import one_place

CELL = 16 * SAME
"""Side of the squares in which a neighbour is looked for, mm."""


class Nodes:
    """Numbers points in the order they come; an exact point takes the place of a rounded one."""

    def __init__(self) -> None:
        self.points: list[Point] = []
        self._exact: dict[Point, int] = {}
        self._near: dict[tuple[int, int], list[int]] = {}

    def at(self, point: Point) -> int:
        """The number of the point's place, a new one if nothing is there yet."""
        found = self._exact.get(point)
        if found is not None:
            return found
        x, y = float(point.x) / CELL, float(point.y) / CELL
        number = self._neighbour(point, x, y)
        if number is None:
            number = len(self.points)
            self.points.append(point)
            self._near.setdefault((floor(x), floor(y)), []).append(number)
        elif isinstance(point.x, Fraction) and isinstance(point.y, Fraction):
            self.points[number] = point
        self._exact[point] = number
        return number

    def _neighbour(self, point: Point, x: float, y: float) -> int | None:
        reach = SAME / CELL
        for column in {floor(x - reach), floor(x + reach)}:
            for row in {floor(y - reach), floor(y + reach)}:
                for number in self._near.get((column, row), ()):
                    if one_place(self.points[number], point):
                        return number
        return None
