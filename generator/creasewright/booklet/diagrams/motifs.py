"""Prints on the paper: whole motifs of constant page size on a lattice carried by the panel: the print runs on across folds.

Print frame   the blank's own, turned so that the print's up is -y, here in page mm (blank mm times the scale).
Lattice       anchored at the print frame's (0, 0).
A motif is left out, never cut: where the facet's visible part ends, and where something is set that must be read.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import cos, radians, sin

from creasewright.booklet.diagrams.boxes import Box
from creasewright.booklet.diagrams.motif_shapes import SHAPES, MotifShape
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.ribbon import carried
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Motif, Spot
from creasewright.booklet.diagrams.visible_lines import spans
from creasewright.booklet.drawing import Group, Item, Pen, Shape

CLEAR = 0.45
"""mm between a motif and an edge or a mark."""
OUTLINE = 0.45
"""pt: motif on a printed back."""
Rings = Sequence[Sequence[Spot]]


def motif_group(motif: Motif, visible: Rings, scale: float, taken: Room, style: PictureStyle) -> Group | None:
    """All motifs that stand whole in `visible` (rings in page mm, even-odd) and off what is taken; None if there are none.

    Where the lattice has no whole motif inside, one is set in the middle if there is room for it.
    """
    shape = SHAPES[motif.kind]
    a, b, c, d, e, f = motif.to_view
    to_page = (a, b, c, d, e * scale, f * scale)
    rings = [[_back(to_page, spot) for spot in ring] for ring in visible]
    places = lattice_places(shape, rings, style.motif) or _lone_place(shape, rings, style.motif)
    stamps = {turn: stamp(motif, f"paper {motif.tone} motif", _turned(to_page, turn), style) for _, turn in places}
    set_at: list[Item] = []
    for (x, y), turn in places:
        spot = a * x + c * y + to_page[4], b * x + d * y + to_page[5]
        if taken.is_clear(_page_box(shape, to_page, spot, turn, style.motif)):
            set_at.append(Group((stamps[turn],), *spot))
    return Group(tuple(set_at), role="motifs") if set_at else None


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


def lattice_places(shape: MotifShape, rings: Rings, size: float) -> list[tuple[Spot, float]]:
    """Lattice points (print frame, page mm) whose motif box lies inside the rings, each with the motif's turn.

    Row by row: the rings' insides at the box's head and tail, and at each corner between them, cut down to what they share.
    """
    across, down = shape.across * size, shape.down * size
    half_w, half_h = shape.half_width * size + CLEAR, shape.half_height * size + CLEAR
    heights = sorted(y for ring in rings for _, y in ring)
    if not heights:
        return []
    places: list[tuple[Spot, float]] = []
    for row in range(int(heights[0] // down) - 1, int(heights[-1] // down) + 2):
        y = (row + 0.5) * down
        if y - half_h < heights[0] or y + half_h > heights[-1]:
            continue
        for low, high in _band(rings, heights, y - half_h, y + half_h):
            shift = (0.5 if row % 2 else 0.0) + 0.5
            column = int((low + half_w) // across) - 1
            while (column + shift) * across <= high - half_w:
                x = (column + shift) * across
                if x >= low + half_w:
                    places.append(((x, y), shape.turns[(column * 3 + row * 5) % len(shape.turns)]))
                column += 1
    return places


def _band(rings: Rings, heights: Sequence[float], top: float, tail: float) -> list[tuple[float, float]]:
    levels = {top, tail, *(y + nudge for y in heights if top < y < tail for nudge in (-1e-6, 1e-6))}
    shared: list[tuple[float, float]] | None = None
    for level in levels:
        here = spans(rings, level)
        shared = here if shared is None else _both(shared, here)
    return shared or []


def _both(first: Sequence[tuple[float, float]], second: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    shared = [(max(a, c), min(b, d)) for a, b in first for c, d in second]
    return [(low, high) for low, high in shared if low < high]


def _lone_place(shape: MotifShape, rings: Rings, size: float) -> list[tuple[Spot, float]]:
    """The middle of the widest span half way down, if a whole motif fits there."""
    heights = sorted(y for ring in rings for _, y in ring)
    if not heights:
        return []
    y, half_h = (heights[0] + heights[-1]) / 2, shape.half_height * size + CLEAR
    if y - half_h < heights[0]:
        return []
    shared = _band(rings, heights, y - half_h, y + half_h)
    low, high = max(shared, key=lambda span: span[1] - span[0], default=(0.0, 0.0))
    return [(((low + high) / 2, y), shape.turns[0])] if high - low >= 2 * (shape.half_width * size + CLEAR) else []


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


def _page_box(shape: MotifShape, to_page: Affine, place: Spot, turn: float, size: float) -> Box:
    """Round a motif whose lattice place lies at `place` on the page."""
    a, b, c, d = to_page[:4]
    x, y = place
    w, h = shape.half_width * size + CLEAR, shape.half_height * size + CLEAR
    if turn == 0.0:
        w, h = abs(a) * w + abs(c) * h, abs(b) * w + abs(d) * h
    return Box(x - w, y - h, x + w, y + h)
