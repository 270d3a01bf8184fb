"""Named templates for the tests of tiling and read-back; lengths in mm."""

import io

from msgspec.structs import replace

from creasewright.blanks.blank import Hole, Slit
from creasewright.booklet.drawing import Bookmark, Document
from creasewright.booklet.tiling.template import PrintArrow, Template, TemplateScore, fine_polygon
from creasewright.geometry.outline import Arc, Line, Outline
from creasewright.geometry.point import Point
from creasewright.pdf.paint import paint

PALETTE = {
    "INK": "#1F262B",
    "INK2": "#4A545B",
    "RULE": "#B4BABC",
    "ACC": "#A01C4E",
    "ACC3": "#F6E4EA",
    "offcut": "#E9EBEA",
    "WHITE": "#FFFFFF",
}


def outline_of(corners):
    points = [Point(float(x), float(y)) for x, y in corners]
    return Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))


def template_of(key, outline, letters=("A",), **more):
    return Template(key, letters, key, "cut 2", "plain side up", "leaf paper", outline, fine_polygon(outline), **more)


def rectangle(key, width, height, letters=("A",), **more):
    return template_of(key, outline_of([(0, 0), (width, 0), (width, height), (0, height)]), letters, **more)


def tray(length=196.85, width=139.7, wall=50.8, tab=19.0):
    """7 3/4 x 5 1/2 x 2 in inside: four walls, and tapered tabs at the long ones."""
    right, tail = wall + width, wall + length
    corners = [
        (wall, 0),
        (right, 0),
        (right, wall),
        (right + 5, wall - tab),
        (right + wall - 5, wall - tab),
        (right + wall, wall),
    ]
    corners += [
        (right + wall, tail),
        (right + wall - 5, tail + tab),
        (right + 5, tail + tab),
        (right, tail),
        (right, tail + wall),
    ]
    corners += [(wall, tail + wall), (wall, tail), (wall - 5, tail + tab), (5, tail + tab), (0, tail), (0, wall)]
    corners += [(5, wall - tab), (wall - 5, wall - tab), (wall, wall)]
    scores = (
        TemplateScore("head wall", Point(wall, wall), Point(right, wall), "valley"),
        TemplateScore("tail wall", Point(wall, tail), Point(right, tail), "valley"),
        TemplateScore("left wall", Point(wall, wall), Point(wall, tail), "mountain"),
        TemplateScore("right wall", Point(right, wall), Point(right, tail), "both"),
    )
    names = (("base", Point(wall + width / 2, wall + length / 2)), ("long wall", Point(wall / 2, wall + length / 2)))
    arrow = PrintArrow("leaf tips, on the other side", 90)
    return template_of("tray", outline_of(corners), ("T",), scores=scores, panel_names=names, print_arrow=arrow)


def pillow(key="pillow", wide=80.0, long=140.0, rise=14.0):
    """A sheet with a lens at each end, its inner arc a score: the front of a pillow box. Radius (40² + 14²) / 28 = 64.142857."""
    radius = (wide * wide / 4 + rise * rise) / (2 * rise)
    head, tail = [Point(0.0, rise), Point(wide, rise)], [Point(wide, rise + long), Point(0.0, rise + long)]
    middle = wide / 2
    edges = (
        Arc(head[0], head[1], Point(middle, radius), True),
        Line(head[1], tail[0]),
        Arc(tail[0], tail[1], Point(middle, 2 * rise + long - radius), True),
        Line(tail[1], head[0]),
    )
    upper = Arc(head[0], head[1], Point(middle, 2 * rise - radius), False)
    lower = Arc(tail[1], tail[0], Point(middle, long + radius), True)
    scores = (
        TemplateScore("upper ear", upper.start, upper.end, "mountain", upper),
        TemplateScore("lower ear", lower.start, lower.end, "valley", lower),
    )
    return template_of(key, Outline(edges), ("P",), scores=scores)


def rounded(key, width, height, radius, letters=("L",)):
    """Round corners, a hole and a slit."""
    w, h, r = float(width), float(height), float(radius)
    edges = (
        Line(Point(r, 0.0), Point(w - r, 0.0)),
        Arc(Point(w - r, 0.0), Point(w, r), Point(w - r, r), True),
        Line(Point(w, r), Point(w, h - r)),
        Arc(Point(w, h - r), Point(w - r, h), Point(w - r, h - r), True),
        Line(Point(w - r, h), Point(r, h)),
        Arc(Point(r, h), Point(0.0, h - r), Point(r, h - r), True),
        Line(Point(0.0, h - r), Point(0.0, r)),
        Arc(Point(0.0, r), Point(r, 0.0), Point(r, r), True),
    )
    slit = Slit("slot", Point(w / 4, h / 2), Point(w * 3 / 4, h / 2))
    return template_of(key, Outline(edges), letters, holes=(Hole("eye", Point(w / 2, r), 5.0),), slits=(slit,))


def wheel(key, radius, letters=("W",)):
    r = float(radius)
    west, east, middle = Point(0.0, r), Point(2 * r, r), Point(r, r)
    return template_of(key, Outline((Arc(west, east, middle, True), Arc(east, west, middle, True))), letters)


def l_shaped(key="corner piece"):
    """A column 150 wide and 640 high, with a foot 330 wide: two of the six letter windows around it stay empty."""
    return template_of(key, outline_of([(0, 0), (150, 0), (150, 480), (330, 480), (330, 640), (0, 640)]))


def written(pages, forms):
    """The pages as a PDF file."""
    first = replace(pages[0], bookmarks=(Bookmark("templates", "Templates"), *pages[0].bookmarks))
    out = io.BytesIO()
    paint(Document("t", "a", "s", "en", (first, *pages[1:]), forms, PALETTE), out, b"test")
    return out.getvalue()
