"""Which side of the paper a standing thing shows upwards, or inside where walls stand all round."""

from math import atan2, pi

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet3, SpaceScene, Spot
from creasewright.booklet.step_views import StepPicture
from creasewright.folding.fold_scores import area_of
from creasewright.folding.state import State
from creasewright.geometry.clip import area, clockwise, difference, total_area

LEVEL, UPRIGHT = 0.95, 0.3
"""Of a panel's normal, what is upright: at least so much for one that lies on the table, at the most for a wall."""
WALL = 0.15
"""A wall has at least such a share of the area of the largest."""
SAME = 1.0
"""mm²"""
ALIKE = 0.5
"""A panel is as large as another with at least such a share of what is seen of that."""
ALL_ROUND = 0.95 * pi
"""Walls that leave no wider gap between their directions stand all round."""


def with_side(picture: StepPicture, state: State) -> StepPicture:
    """A picture in space with the side that is up, if a panel lies level; any other as it is."""
    if picture.space is None:
        return picture
    base = level_facet(picture.space)
    if base is None:
        return picture
    return replace(picture, up=(state.blanks[base.part].name, side_up(base)), inside=walled(base, picture.space.facets, state))


def level_facet(scene: SpaceScene) -> Facet3 | None:
    """The level panel of which most is seen from above; what is only coming to its place is left out. None where a panel of the same piece,
    about as large, lies the other way up: what is closed like a book shows both sides, and no second name is given to how it lies."""
    coming = {part for slide in scene.slides for part in slide.parts}
    lying = [each for each in scene.facets if each.letter and abs(each.normal[2]) > LEVEL and each.part not in coming]
    lying.sort(key=lambda each: (round(each.polygon[0][2], 2), each.layer if each.normal[2] > 0 else -each.layer))
    shapes = [plan_of(each) for each in lying]
    best, most = None, 0.0
    for place in sorted(range(len(lying)), key=lambda place: -round(area(shapes[place]), 1)):
        if area(shapes[place]) <= most + SAME:
            break
        seen = total_area(difference([shapes[place]], shapes[:place]))
        best, most = (lying[place], seen) if seen > most + SAME else (best, most)
    other = (each for each, shape in zip(lying, shapes, strict=True) if area(shape) >= ALIKE * most and best and each.part == best.part)
    return best if best is not None and all(side_up(each) == side_up(best) for each in other) else None


def side_up(facet: Facet3) -> str:
    return facet.side if facet.normal[2] < 0 else "back" if facet.side == "front" else "front"


def plan_of(facet: Facet3) -> tuple[Spot, ...]:
    return clockwise(tuple((x, y) for x, y, _ in facet.polygon))


def walled(base: Facet3, facets: tuple[Facet3, ...], state: State) -> bool:
    """Whether upright panels rise from the level of the base in every direction; small ones (tabs) are no walls."""
    level = base.polygon[0][2]
    x0, y0, _ = middle_of(base)
    upright = [each for each in facets if each.letter and abs(each.normal[2]) < UPRIGHT]
    sizes = [area_of(state, (each.part, each.panel)) for each in upright]
    walls = [middle_of(each) for each, size in zip(upright, sizes, strict=True) if size > WALL * max(sizes)]
    ways = sorted(atan2(y - y0, x - x0) for x, y, z in walls if z < level)
    gaps = [after - before for before, after in zip(ways, (*ways[1:], ways[0] + 2 * pi), strict=True)] if ways else [2 * pi]
    return max(gaps) < ALL_ROUND


def middle_of(facet: Facet3) -> tuple[float, float, float]:
    x, y, z = (sum(spot[axis] for spot in facet.polygon) / len(facet.polygon) for axis in range(3))
    return x, y, z
