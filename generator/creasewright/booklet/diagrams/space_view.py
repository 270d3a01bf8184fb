"""The one way a pack looks at solid things: parallel rays, the scene turned about the vertical, seen from above.

Scene frame: x right, y towards the maker, z down into the table (right-handed), mm. A view gives three unit vectors in that
frame: `across` (to the right on the page), `down` (down the page) and `eye` (from the scene to the reader). The page place of
a point is its product with the first two; its *nearness* the product with the third: greater is nearer to the reader.
"""

from math import cos, radians, sin

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet3, SpaceScene, Spot, Spot3
from creasewright.geometry.rigid_transform import cross, dot, norm


class SpaceView(Struct, frozen=True):
    across: Spot3
    down: Spot3
    eye: Spot3


def space_view(turn_degrees: float, down_degrees: float) -> SpaceView:
    """The scene turned by `turn_degrees` (clockwise as seen from above) and looked down on by `down_degrees` (90: a plan)."""
    turn, tilt = radians(turn_degrees), radians(down_degrees)
    return SpaceView(
        across=(cos(turn), -sin(turn), 0.0),
        down=(sin(turn) * sin(tilt), cos(turn) * sin(tilt), cos(tilt)),
        eye=(sin(turn) * cos(tilt), cos(turn) * cos(tilt), -sin(tilt)),
    )


def seen_at(view: SpaceView, spot: Spot3) -> Spot:
    """Where a point falls on the page, mm of the model."""
    return dot(view.across, spot), dot(view.down, spot)


def nearness(view: SpaceView, spot: Spot3) -> float:
    return dot(view.eye, spot)


def along(a: Spot3, direction: Spot3, amount: float) -> Spot3:
    """The point `amount` times `direction` away from `a`."""
    return a[0] + amount * direction[0], a[1] + amount * direction[1], a[2] + amount * direction[2]


def unit(a: Spot3) -> Spot3:
    """Of length one; a vector of no length stays as it is."""
    size = norm(a)
    return (a[0] / size, a[1] / size, a[2] / size) if size else a


def loop_normal(corners: tuple[Spot3, ...]) -> Spot3:
    """Unit normal of a closed line, also one that is not quite flat (Newell's sum); its length before was twice the area."""
    total: Spot3 = (0.0, 0.0, 0.0)
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        total = along(total, cross(here, there), 1.0)
    return unit(total)


def standing(scene: SpaceScene) -> SpaceScene:
    """A thing that lay with its head away, set upright: head up, tail on the table (z = 0), its upper side to the maker."""
    lowest = max((spot[1] for facet in scene.facets for spot in facet.polygon), default=0.0)

    def upright(spot: Spot3) -> Spot3:
        return spot[0], -spot[2], spot[1] - lowest

    def turned(direction: Spot3) -> Spot3:
        return direction[0], -direction[2], direction[1]

    def stood(facet: Facet3) -> Facet3:
        return replace(
            facet,
            polygon=tuple(map(upright, facet.polygon)),
            normal=turned(facet.normal),
            axis_x=turned(facet.axis_x),
            axis_y=turned(facet.axis_y),
        )

    return replace(
        scene,
        facets=tuple(map(stood, scene.facets)),
        fold_paths=tuple(tuple(map(upright, path)) for path in scene.fold_paths),
        ties=tuple(tuple(map(upright, tie)) for tie in scene.ties),
        bands=tuple(replace(band, line=tuple(map(upright, band.line))) for band in scene.bands),
    )
