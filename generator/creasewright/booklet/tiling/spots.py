"""Places as plain pairs of floats, and geometry's moves applied to them; the page needs no exact numbers."""

from creasewright.geometry.outline import Outline, Polygon
from creasewright.geometry.plane_transform import Affine
from creasewright.geometry.point import Point

Spot = tuple[float, float]
"""x, y in mm."""


def spot(at: Point) -> Spot:
    return float(at.x), float(at.y)


def moved(move: Affine, place: Spot) -> Spot:
    a, b, c, d, e, f = move.floats()
    return a * place[0] + c * place[1] + e, b * place[0] + d * place[1] + f


def moved_polygon(move: Affine, polygon: Polygon) -> Polygon:
    a, b, c, d, e, f = move.floats()
    return tuple((a * x + c * y + e, b * x + d * y + f) for x, y in polygon)


def moved_outline(move: Affine, outline: Outline) -> Outline:
    """For moves that keep shapes; the outline stays clockwise."""
    return Outline(Affine(*move.floats()).loop(outline.edges))


def points_to_page_mm(page_height: float) -> Affine:
    """From PDF points (origin lower left, y up) to millimetres of the page (origin head left, y down); `page_height` in mm."""
    mm = 25.4 / 72
    return Affine(mm, 0.0, 0.0, -mm, 0.0, page_height)
