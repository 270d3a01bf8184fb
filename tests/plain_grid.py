"""What tiling without any care takes: the template's box at the corner of the first window, straight or turned by a quarter; tiles
that hold nothing of it are not counted. Worked out by cutting with shapely, apart from the program's own way."""

from math import ceil

from shapely import Polygon, box
from shapely.affinity import rotate, translate


def plain_grid_pages(polygon, window):
    """The fewer of the two."""
    return min(_pages(Polygon(polygon), window), _pages(rotate(Polygon(polygon), 90, origin=(0, 0)), window))


def _pages(shape, window):
    left, head, right, tail = shape.bounds
    lying = translate(shape, -left, -head)
    columns, rows = ceil((right - left - 0.02) / window.width), ceil((tail - head - 0.02) / window.height)
    cells = [
        box(c * window.width + 0.01, r * window.height + 0.01, (c + 1) * window.width - 0.01, (r + 1) * window.height - 0.01)
        for r in range(rows)
        for c in range(columns)
    ]
    return sum(lying.intersects(cell) for cell in cells)
