"""A finished thing made ready for the cover: near edges of its layers brought together, and what is thin stood up.

Scene frame of a thing as it lies: x right, y towards the maker, z down; mm.
"""

from itertools import pairwise
from math import dist

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet3, SpaceScene, Spot, Spot3
from creasewright.booklet.diagrams.space_facets import FOLD_BACK
from creasewright.booklet.diagrams.space_view import standing

NEAR = 1.6
"""mm: corners of layers so near each other, seen from above, are drawn as one; the small steps would read as torn paper."""
CLOSE = 0.1
"""mm: a tie lies no farther outside the thing."""
STRAIGHT = 0.02
"""Greatest part of a normal across its way for a face to count as level or upright."""
THIN = 0.2
"""A thing lower than this share of its smaller side is stood up: lying, hardly more than an edge of it would be seen."""


def cover_scene(scene: SpaceScene) -> SpaceScene:
    """Standing where it is thin, or half open along folds from head to tail; open in another way, the scene as given."""
    panels = [facet for facet in scene.facets if facet.layer != FOLD_BACK]
    if any(STRAIGHT < abs(facet.normal[2]) < 1 - STRAIGHT for facet in panels):
        return standing(scene) if all(abs(facet.normal[1]) < STRAIGHT for facet in panels) else scene
    squared = _squared(scene)
    wide, deep, high = (high - low for low, high in _box(squared))
    return standing(squared) if high < THIN * min(wide, deep) else squared


def _squared(scene: SpaceScene) -> SpaceScene:
    """Corners within `NEAR` of one another stand straight above each other, at the outermost; ties lie close to the faces."""
    (x0, x1), (y0, y1), _ = _box(scene)
    middle = (x0 + x1) / 2, (y0 + y1) / 2
    plain = [facet for facet in scene.facets if not _rounded(facet)]
    places = {(spot[0], spot[1]) for facet in plain for spot in facet.polygon}
    posts: list[Spot] = []
    home: dict[Spot, Spot] = {}
    for place in sorted(places, key=lambda p: (-abs(p[0] - middle[0]) - abs(p[1] - middle[1]), p)):
        post = next((p for p in posts if max(abs(p[0] - place[0]), abs(p[1] - place[1])) <= NEAR), None)
        if post is None:
            posts.append(place)
        home[place] = post or place

    def moved(facet: Facet3) -> Facet3:
        return replace(facet, polygon=tuple((*home[spot[0], spot[1]], spot[2]) for spot in facet.polygon))

    facets = tuple(facet if _rounded(facet) else moved(facet) for facet in scene.facets)
    close = replace(scene, facets=facets)
    bounds = _box(close)

    def held(spot: Spot3) -> Spot3:
        x, y, z = (min(max(value, low - CLOSE), high + CLOSE) for value, (low, high) in zip(spot, bounds, strict=True))
        return x, y, z

    return replace(
        close,
        ties=tuple(tuple(map(held, tie)) for tie in scene.ties),
        bands=tuple(replace(band, line=tuple(map(held, band.line))) for band in scene.bands),
    )


def _rounded(facet: Facet3) -> bool:
    """Corners so near each other that they would run together."""
    ring = facet.polygon
    short = any(dist(a, b) <= 2 * NEAR for a, b in pairwise((*ring, ring[0])))
    return short and (abs(facet.normal[2]) > 0.5 or len(ring) > 4)


def _box(scene: SpaceScene) -> tuple[Spot, Spot, Spot]:
    spots = [spot for facet in scene.facets for spot in facet.polygon]
    x, y, z = ((min(s[axis] for s in spots), max(s[axis] for s in spots)) for axis in range(3))
    return x, y, z
