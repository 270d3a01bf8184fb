"""Straight rules and plain areas, drawn with the lines of the page layout. mm, y down."""

from creasewright.booklet.drawing import Path, Pen, Shape
from creasewright.reading.page_layout import LineStyle, PageLayout


def pen_of(line: LineStyle) -> Pen:
    return Pen(line.colour, line.width, line.dash, line.cap)


def rule(layout: PageLayout, line: str, x0: float, x1: float, y: float, role: str = "rule") -> Shape:
    """A level rule drawn as `line` of the layout."""
    return Shape((("M", x0, y), ("L", x1, y)), pen_of(layout.lines[line]), role=role)


def polygon(*corners: tuple[float, float]) -> Path:
    first, *others = corners
    return (("M", *first), *(("L", *corner) for corner in others), ("Z",))
