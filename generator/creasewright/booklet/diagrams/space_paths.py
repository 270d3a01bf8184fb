"""The ways of folding rims as a picture in space draws them: what is seen too short for an arrow swings with a larger radius."""

from itertools import pairwise
from math import dist

from creasewright.booklet.diagrams.fold_arrow import SHORTEST
from creasewright.booklet.diagrams.scene import SpaceScene, Spot
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at

LEAST_SEEN = 4.0
"""mm on the page: a way that is seen shorter gets no arrow."""


def page_paths(scene: SpaceScene, view: SpaceView, scale: float) -> list[tuple[Spot, ...]]:
    """From each rim on, mm on the page, the origin that of the scene; `scale` page mm for a model mm."""
    found = []
    for path in scene.fold_paths:
        spots = [(x * scale, y * scale) for x, y in (seen_at(view, spot) for spot in path)]
        long = sum(dist(a, b) for a, b in pairwise(spots))
        if long >= LEAST_SEEN:
            times = max(1.0, SHORTEST / long)
            x0, y0 = spots[0]
            found.append(tuple((x0 + times * (x - x0), y0 + times * (y - y0)) for x, y in spots))
    return found
