"""A blank while it is being shaped: what one stage hands to the next."""

from fractions import Fraction

from msgspec import Struct

from creasewright.blanks.blank import Band, Hole, LikeSource, Slit, Wrap
from creasewright.geometry.edges import Box
from creasewright.geometry.outline import Arc, Edge, Line, Outline, Polygon
from creasewright.geometry.point import Number, Point

ORIGIN = Point(Fraction(0), Fraction(0))


class Region(Struct, frozen=True):
    """Where a panel gets its name: a band, a cell, a flap, the base."""

    name: str
    box: Box
    polygon: Polygon


class Run(Struct, frozen=True):
    """A piece of a score or slit, before the outline and its neighbours bound it."""

    name: str
    start: Point
    end: Point
    grows: bool = False
    """Written by two points: an end that rests on nothing runs on to the outline."""
    arc: Arc | None = None
    """Of a curved score: the arc from start to end. It never grows."""

    @property
    def edge(self) -> Edge:
        return self.arc or Line(self.start, self.end)


class CutMark(Struct, frozen=True):
    """What a reusable template cuts, and a point on the cut."""

    template: str
    what: str
    at: Point


class Draft(Struct, frozen=True):
    width: Number
    height: Number
    outline: Outline
    regions: tuple[Region, ...] = ()
    bands: tuple[Band, ...] = ()
    runs: tuple[Run, ...] = ()
    """Scores that come with the shape."""
    slits: tuple[Slit, ...] = ()
    holes: tuple[Hole, ...] = ()
    edge_names: tuple[tuple[str, Line], ...] = ()
    origin: Point = ORIGIN
    """Where points that the author typed are measured from."""
    marks: tuple[CutMark, ...] = ()
    radii: tuple[tuple[str, Number], ...] = ()
    """Rounded corners, by compass word."""
    source: LikeSource | None = None
    mirror_of: str | None = None
    wrap: Wrap | None = None

    @property
    def box(self) -> Box:
        """The rectangle before any cut."""
        zero = self.width * 0
        return (zero, zero, self.width, self.height)

    def box_named(self, name: str) -> Box | None:
        """Of a region or band, across the whole blank for a band."""
        for region in self.regions:
            if region.name == name:
                return region.box
        left, head, right, tail = self.box
        for band in self.bands:
            if band.name == name:
                across = band.direction == "across"
                return (band.start, head, band.end, tail) if across else (left, band.start, right, band.end)
        return None

    def names(self) -> list[str]:
        return list(dict.fromkeys([band.name for band in self.bands] + [region.name for region in self.regions]))


def box_polygon(box: Box) -> Polygon:
    left, head, right, tail = (float(value) for value in box)
    return ((left, head), (right, head), (right, tail), (left, tail))


def rectangle(box: Box) -> Outline:
    """Clockwise from the head-left corner."""
    left, head, right, tail = box
    corners = (Point(left, head), Point(right, head), Point(right, tail), Point(left, tail))
    return Outline(tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
