"""Whether a point lies in a polygon."""

from creasewright.geometry.outline import Polygon


def holds(polygon: Polygon, x: float, y: float) -> bool:
    """Point in polygon by crossings."""
    inside = False
    ax, ay = polygon[-1]
    for bx, by in polygon:
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
        ax, ay = bx, by
    return inside
