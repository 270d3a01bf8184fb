"""A ribbon round a closed thing: a flat band along a closed line, hidden by what lies over it like any paper; and its bow."""

from math import hypot

from msgspec.structs import replace

from creasewright.booklet.diagrams.face_view import Face
from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.picture_style import POINT
from creasewright.booklet.diagrams.scene import Affine, Band3, Facet3, Spot, Spot3
from creasewright.booklet.diagrams.space_view import SpaceView, along, loop_normal, seen_at, unit
from creasewright.booklet.drawing import Command, Item, Path, Pen, Shape
from creasewright.geometry.clip import total_area
from creasewright.geometry.rigid_transform import cross, dot, minus

PART = "tie"
OVER_ALL = 1_000_000
"""Layer of a ribbon: it lies on whatever paper shares its plane."""
BENT = 0.94
"""A bend sharper than this cosine (20 degrees) is drawn as a line across the ribbon."""
LEAST, MOST = 1.4, 4.2
"""mm on the page: the ribbon's width that the bow is drawn for."""
REACH = 5.2
"""From the knot to the end of a loop, in ribbon widths."""


def band_facets(band: Band3, name: str) -> tuple[Facet3, ...]:
    """A paper band, which has no bow."""
    facets = ribbon_facets(band.line, band.width, name)
    return tuple(replace(facet, part="band", fill=band.fill, back_fill=band.back_fill) for facet in facets)


def ribbon_facets(tie: tuple[Spot3, ...], width: float, name: str = "0") -> tuple[Facet3, ...]:
    """The band, one facet for each straight stretch. It lies square to the plane of the line, its outside away from what it ties.

    `tie` is a closed line (the last place may repeat the first), mm; `width` in mm.
    """
    corners = tie[:-1] if tie[0] == tie[-1] else tie
    around = loop_normal(corners)
    half = width / 2
    facets = []
    for i, (start, end) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
        direction = unit(minus(end, start))
        before, after = corners[i - 1], corners[(i + 2) % len(corners)]
        bends = [dot(direction, unit(minus(start, before))) < BENT, dot(direction, unit(minus(after, end))) < BENT]
        kinds = ["folded" if bend else "none" for bend in bends]
        facets.append(
            Facet3(
                polygon=tuple(along(spot, around, by) for spot, by in ((start, -half), (end, -half), (end, half), (start, half))),
                part=PART,
                panel=f"{name}-{i}",
                letter="",
                side="front",
                normal=unit(cross(direction, around)),
                fill="ribbon",
                back_fill="ribbon inside",
                motif=None,
                back_motif=None,
                axis_x=direction,
                axis_y=around,
                layer=OVER_ALL,
                edge_kinds=("cut", kinds[1], "cut", kinds[0]),
            )
        )
    return tuple(facets)


def bow_place(
    faces: tuple[Face, ...], regions: tuple[Region, ...], view: SpaceView, name: str = "0"
) -> tuple[Affine, float] | None:
    """Where the bow of a tie goes: knot in the middle of the stretch that shows most, loops along it, tails across and down.

    A map from the bow's frame (ribbon widths, knot at the origin) to the page, and the length of that stretch there, both in
    mm of the model; None if nothing of the outside shows.
    """
    most, front = 0.0, None
    for face, region in zip(faces, regions, strict=True):
        if face.facet.part == PART and face.facet.panel.startswith(f"{name}-") and face.normal_seen and face.outline:
            area = total_area(region)
            if area > most * 1.001:
                most, front = area, face
    if front is None:
        return None
    a, b, c, d = (seen_at(view, corner) for corner in front.facet.polygon)
    centre = (a[0] + b[0] + c[0] + d[0]) / 4, (a[1] + b[1] + c[1] + d[1]) / 4
    run = _pointing((b[0] - a[0], b[1] - a[1]), (1.0, 0.01))
    drop = _pointing((d[0] - a[0], d[1] - a[1]), (0.01, 1.0))
    across = abs(run[0] * (d[1] - a[1]) - run[1] * (d[0] - a[0]))
    return (run[0] * across, run[1] * across, drop[0] * across, drop[1] * across, *centre), hypot(b[0] - a[0], b[1] - a[1])


def _pointing(way: Spot, towards: Spot) -> Spot:
    size = hypot(*way) or 1.0
    sign = 1.0 if way[0] * towards[0] + way[1] * towards[1] >= 0 else -1.0
    return sign * way[0] / size, sign * way[1] / size


def sized_bow(place: Affine, room: float) -> Affine:
    """The bow's frame on the page, its ribbon as wide as the band if that reads, the whole never wider than `room` mm."""
    a, b, c, d, e, f = place
    width = hypot(a, b)
    wanted = min(max(width, LEAST), MOST, room / (2 * REACH))
    k = wanted / width if width else 1.0
    return a * k, b * k, c * k, d * k, e, f


_LEFT_LOOP: Path = (
    ("M", -0.55, -0.45), ("C", -1.7, -1.85, -3.5, -2.05, -4.45, -1.75), ("C", -5.55, -1.4, -5.5, 0.9, -4.4, 1.3),
    ("C", -3.4, 1.6, -1.9, 1.25, -0.55, 0.45), ("Z",),
)  # fmt: skip
_LEFT_INSIDE: Path = (
    ("M", -0.75, 0.0), ("C", -1.8, -0.85, -2.9, -1.0, -3.5, -0.75), ("C", -4.2, -0.45, -4.2, 0.4, -3.5, 0.6),
    ("C", -2.7, 0.8, -1.6, 0.55, -0.75, 0.0), ("Z",),
)  # fmt: skip
_RIGHT_LOOP: Path = (
    ("M", 0.55, -0.45), ("C", 1.7, -1.8, 3.3, -2.6, 4.3, -2.45), ("C", 5.5, -2.2, 5.65, 0.0, 4.6, 0.75),
    ("C", 3.6, 1.35, 1.9, 1.2, 0.55, 0.45), ("Z",),
)  # fmt: skip
_RIGHT_INSIDE: Path = (
    ("M", 0.75, -0.05), ("C", 1.7, -0.95, 2.8, -1.55, 3.5, -1.4), ("C", 4.25, -1.2, 4.3, -0.25, 3.6, 0.15),
    ("C", 2.8, 0.55, 1.6, 0.5, 0.75, -0.05), ("Z",),
)  # fmt: skip
_LEFT_TAIL: Path = (
    ("M", -0.45, 0.4), ("C", -1.2, 2.2, -1.9, 4.2, -2.9, 6.1), ("L", -2.15, 5.95), ("L", -1.75, 6.6),
    ("C", -1.1, 4.7, -0.4, 2.6, 0.45, 0.6), ("Z",),
)  # fmt: skip
_RIGHT_TAIL: Path = (
    ("M", -0.3, 0.6), ("C", 0.6, 2.3, 1.25, 4.1, 1.9, 6.1), ("L", 2.4, 5.55), ("L", 3.0, 5.75),
    ("C", 2.3, 3.8, 1.6, 2.0, 0.5, 0.35), ("Z",),
)  # fmt: skip
_KNOT: Path = (
    ("M", -0.6, -0.6), ("C", -0.3, -0.95, 0.3, -0.95, 0.6, -0.6), ("C", 0.85, -0.25, 0.85, 0.3, 0.6, 0.65),
    ("C", 0.3, 0.95, -0.3, 0.95, -0.6, 0.65), ("C", -0.85, 0.3, -0.85, -0.25, -0.6, -0.6), ("Z",),
)  # fmt: skip
_BOW = (
    (_LEFT_TAIL, "ribbon"),
    (_RIGHT_TAIL, "ribbon"),
    (_LEFT_LOOP, "ribbon"),
    (_LEFT_INSIDE, "ribbon inside"),
    (_RIGHT_LOOP, "ribbon"),
    (_RIGHT_INSIDE, "ribbon inside"),
    (_KNOT, "ribbon"),
)
"""In ribbon widths, loops to the left and right, tails down; drawn in this order."""


def bow(frame: Affine, pen: float) -> tuple[Item, ...]:
    """Two loops, a knot, two tails; `frame` carries ribbon widths to page mm, `pen` in pt."""
    inner = min(pen, 0.16 * hypot(frame[0], frame[1]) / POINT)
    return tuple(Shape(carried(path, frame), Pen("INK", inner), colour, role="bow") for path, colour in _BOW)


def carried(path: Path, by: Affine) -> Path:
    """The path under an affine map."""
    a, b, c, d, e, f = by
    moved: list[Command] = []
    for command in path:
        spots = [(a * x + c * y + e, b * x + d * y + f) for x, y in zip(command[1::2], command[2::2], strict=True)]
        moved.append((command[0], *(value for spot in spots for value in spot)))
    return tuple(moved)
