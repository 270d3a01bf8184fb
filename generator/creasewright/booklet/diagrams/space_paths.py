"""The ways of folding rims as a picture in space draws them: what is seen too short for an arrow swings with a larger radius."""

from collections.abc import Sequence

from creasewright.booklet.diagrams.fold_arrow import SHORTEST
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.scene import SpaceScene, Spot
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at

PARTS = 5
"""Straight parts of a stretch between two places of the way."""
LEAST_SEEN = 4.0
"""mm on the page: a way that is seen shorter gets no arrow."""


def page_paths(scene: SpaceScene, view: SpaceView, scale: float) -> list[tuple[Spot, ...]]:
    """From each rim on, mm on the page, the origin that of the scene; `scale` page mm for a model mm."""
    found = []
    for path in scene.fold_paths:
        spots = [(x * scale, y * scale) for x, y in (seen_at(view, spot) for spot in path)]
        long = chain_length(spots)
        if long >= LEAST_SEEN:
            times = max(1.0, SHORTEST / long)
            x0, y0 = spots[0]
            found.append(rounded([(x0 + times * (x - x0), y0 + times * (y - y0)) for x, y in spots]))
    return found


def rounded(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """A line without corners through the same places: of each stretch the cubic whose slopes at its ends are those of the chords from
    the place before to the place after (E. Catmull, R. Rom, A class of local interpolating splines, 1974)."""
    ends = [spots[0], *spots, spots[-1]]
    found = [spots[0]]
    for p, a, b, q in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        for k in range(1, PARTS + 1):
            t = k / PARTS
            found.append((_between(p[0], a[0], b[0], q[0], t), _between(p[1], a[1], b[1], q[1], t)))
    return tuple(found)


def _between(p: float, a: float, b: float, q: float, t: float) -> float:
    return a + t * ((b - p) / 2 + t * (p - 2.5 * a + 2 * b - q / 2 + t * (1.5 * (a - b) + (q - p) / 2)))
