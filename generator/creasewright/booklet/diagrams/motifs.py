"""Prints on the paper: motifs of constant page size on a lattice carried by the panel: the print runs on across folds.

Print frame   the blank's own, turned so that the print's up is -y, here in page mm (blank mm times the scale).
Lattice       anchored at the print frame's (0, 0).
A motif is cut where the facet's visible part ends, and left out whole where something is set that must be read.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import islice, pairwise
from math import ceil, cos, dist, radians, sin, sqrt

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.label_places import inner_places
from creasewright.booklet.diagrams.motif_shapes import SHAPES, MotifShape
from creasewright.booklet.diagrams.paper_fill import rings_path
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.ribbon import carried
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Motif, Polygon2, Spot
from creasewright.booklet.diagrams.visible_lines import level_hits, spans
from creasewright.booklet.drawing import Group, Path, Pen, Shape
from creasewright.geometry.clip import total_area

CLEAR = 0.45
"""mm between a motif and a mark."""
THIN = 1.5
"""mm, times the motif's size: a strip narrower than this shows its tone only; what little a strip shows of a motif would read as dirt."""
TRIES = 40
"""Places tried for a motif that stands alone."""
NUDGE = 1e-6
"""mm above and below a corner."""
OUTLINE = 0.45
"""pt: motif on a printed back."""
Rings = Sequence[Sequence[Spot]]
Place = tuple[Spot, float]
"""Where a motif stands, and how it is turned on the lattice."""


def motif_group(
    motif: Motif, visible: Sequence[Polygon2], scale: float, taken: Room, style: PictureStyle, seen_through: Path = ()
) -> Group | None:
    """All motifs that reach into `visible` (rings in page mm, even-odd) and stand off what is taken, seen through it; None if there
    are none. `seen_through`: the path of the rings, if there is one already.
    """
    if is_thin(visible, style):
        return None
    shape = SHAPES[motif.kind]
    size = style.motif
    a, b, c, d, e, f = motif.to_view
    to_page = (a, b, c, d, e * scale, f * scale)
    rings = [[_back(to_page, spot) for spot in ring] for ring in visible]
    places = [
        ((a * x + c * y + to_page[4], b * x + d * y + to_page[5]), turn) for (x, y), turn in lattice_places(shape, rings, style)
    ]
    places = places_set(visible, places, {turn: _half_box(shape, to_page, turn, size) for turn in shape.turns}, taken)
    colour = f"paper {motif.tone} motif"
    stamps = {turn: stamp(motif, colour, _turned(to_page, turn), style) for turn in {turn for _, turn in places}}
    return clipped_group([(stamps[turn], spot) for spot, turn in places], seen_through or rings_path(visible))


def is_thin(visible: Sequence[Polygon2], style: PictureStyle) -> bool:
    """Whether nothing shows, or no more than a strip, whichever way it runs: its width is that of the rectangle which has as much area
    and as long an outline."""
    outline = sum(dist(a, b) for ring in visible for a, b in pairwise((*ring, ring[0])))
    width = (outline - sqrt(max(outline * outline - 16 * abs(total_area(visible)), 0.0))) / 4
    return width < THIN * style.motif


def clipped_group(stamps: Sequence[tuple[Shape, Spot]], seen_through: Path) -> Group | None:
    set_at = tuple(Group((stamp,), *spot) for stamp, spot in stamps)
    return Group(set_at, clip=seen_through, role="motifs") if set_at else None


def places_set(visible: Sequence[Polygon2], places: Sequence[Place], halves: Mapping[float, Spot], taken: Room) -> list[Place]:
    """Those of the places (page mm) where nothing is read; where no motif would stand whole, one is set alone, in the clear.

    `halves`: half the width and height of a motif's box on the page by its turn, with what is kept clear about it.
    """
    whole = box_of(spot for ring in visible for spot in ring)
    x0, y0, x1, y1 = whole
    found: list[Place] = []
    boxes: list[Box] = []
    for place in places:
        (x, y), turn = place
        w, h = halves[turn]
        box = Box(x - w, y - h, x + w, y + h)
        left, top, right, bottom = box
        seen = Box(left if left > x0 else x0, top if top > y0 else y0, right if right < x1 else x1, bottom if bottom < y1 else y1)
        if taken.is_clear(seen):
            found.append(place)
            boxes.append(box)
    rims = Room(0.0, 0.0)
    for ring in visible:
        rims.take_line((*ring, ring[0]))
    if any(whole.holds(box) and rims.is_clear(box) and _is_inside(visible, box.middle) for box in boxes):
        return found
    turn, (w, h) = next(iter(halves.items()))
    alone = _clear_place(visible, 2 * w, 2 * h, rims, taken)
    if alone is None:
        return found
    return [*(place for place, box in zip(found, boxes, strict=True) if not box.overlaps(alone)), (alone.middle, turn)]


def _is_inside(rings: Rings, spot: Spot) -> bool:
    hits = level_hits(rings, spot[1])
    return (len(hits) - bisect_right(hits, spot[0])) % 2 == 1


def _clear_place(visible: Sequence[Polygon2], width: float, height: float, rims: Room, taken: Room) -> Box | None:
    """The box nearest to the middle of the largest ring that lies in the rings and off what is taken."""
    middle = max((box_of(ring) for ring in visible), key=lambda box: box.width * box.height).middle
    tried = islice(inner_places(visible, width, height, middle), TRIES)
    return next((place for place in tried if rims.is_clear(place) and taken.is_clear(place)), None)


def stamp(motif: Motif, colour: str, lies: tuple[float, ...], style: PictureStyle) -> Shape:
    """One motif with its lattice place at the origin, turned as `lies` makes it (the first four of a map), its size the style's."""
    a, b, c, d = lies[:4]
    return _stamp(motif.kind, colour, motif.outline_only, (round(a, 9), round(b, 9), round(c, 9), round(d, 9)), style)


@lru_cache(maxsize=256)
def _stamp(kind: str, colour: str, outline_only: bool, lies: tuple[float, float, float, float], style: PictureStyle) -> Shape:
    """The same shape wherever a print stands so."""
    a, b, c, d = (part * style.motif for part in lies)
    path = carried(SHAPES[kind].path, (a, b, c, d, 0.0, 0.0))
    if outline_only:  # the print of a printed back, on the pale tone
        return Shape(path, Pen(colour, OUTLINE * style.weight), role="motif outline")
    return Shape(path, None, colour, role="motif")


def lattice_places(shape: MotifShape, rings: Rings, style: PictureStyle) -> list[Place]:
    """Lattice points (print frame, page mm) whose motif's box reaches far enough into the rings, each with the motif's turn.

    Row by row: as far as the rings' insides reach anywhere from the box's head to its tail.
    """
    size = style.motif
    across, down = shape.across * size, shape.down * size
    half_w, half_h = shape.half_width * size - style.fleck, shape.half_height * size - style.fleck
    foot = half_h - shape.foot * size
    heights = sorted(y for ring in rings for _, y in ring)
    if not heights:
        return []
    places: list[Place] = []
    for row in range(int((heights[0] - foot) // down) - 1, int((heights[-1] + half_h) // down) + 2):
        y = (row + 0.5) * down
        reached = _reached(rings, heights, y - half_h, y + foot)
        if not reached:
            continue
        shift = (0.5 if row % 2 else 0.0) + 0.5
        column = ceil((reached[0][0] - half_w) / across - shift)
        for low, high in reached:
            column = max(column, ceil((low - half_w) / across - shift))
            last = (high + half_w) / across - shift
            while column < last:
                places.append((((column + shift) * across, y), shape.turns[(column * 3 + row * 5) % len(shape.turns)]))
                column += 1
    return places


def _reached(rings: Rings, heights: Sequence[float], top: float, tail: float) -> list[tuple[float, float]]:
    """From where to where the insides reach between two heights, left to right, maybe overlapping; `heights` of all corners, sorted.

    From corner to corner the insides are slanted strips, each reaching as far as its two ends.
    """
    corners = heights[bisect_right(heights, top) : bisect_left(heights, tail)]
    reached: list[tuple[float, float]] = []
    above = spans(rings, top)
    for y in corners:
        reached += _between(above, spans(rings, y - NUDGE))
        above = spans(rings, y + NUDGE)
    reached += _between(above, spans(rings, tail))
    reached.sort()
    return reached


def _between(above: list[tuple[float, float]], below: list[tuple[float, float]]) -> list[tuple[float, float]]:
    if len(above) != len(below):  # a corner lies within the nudge
        return above + below
    return [(min(a, c), max(b, d)) for (a, b), (c, d) in zip(above, below, strict=True)]


def _back(to_page: Affine, spot: Spot) -> Spot:
    """Page to print frame; the map turns or mirrors without stretching, so its inverse is its transpose."""
    a, b, c, d, e, f = to_page
    x, y = spot[0] - e, spot[1] - f
    return a * x + b * y, c * x + d * y


def _turned(to_page: Affine, turn: float) -> tuple[float, float, float, float]:
    a, b, c, d = to_page[:4]
    if turn == 0.0:
        return a, b, c, d
    co, si = cos(radians(turn)), sin(radians(turn))
    return a * co + c * si, b * co + d * si, c * co - a * si, d * co - b * si


def _half_box(shape: MotifShape, to_page: Affine, turn: float, size: float) -> Spot:
    """Half the width and height of a motif's box on the page, with what is kept clear about it."""
    a, b, c, d = to_page[:4]
    w, h = shape.half_width * size + CLEAR, shape.half_height * size + CLEAR
    return (abs(a) * w + abs(c) * h, abs(b) * w + abs(d) * h) if turn == 0.0 else (w, h)
