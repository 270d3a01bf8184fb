"""The picture on the cover: the thing standing or lying on a ground that is itself one crease, a floor and the wall behind it.

Turned and looked at a little flatter than the steps. The thing breaks the top of its ground. The scale is whatever fills the
picture, and the ground is no higher than the thing asks for: a low one would float in it.
"""

from msgspec import Struct

from creasewright.booklet.diagrams.axonometric import all_facets, drawn_bows
from creasewright.booklet.diagrams.boxes import Box, box_of, polyline
from creasewright.booklet.diagrams.cast_shadow import LOW_LIGHT, floor_shadow, wall_shadow, without_crumbs
from creasewright.booklet.diagrams.hidden_surface import Region
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Affine, Facet3, Picture, SpaceScene, Spot, Spot3
from creasewright.booklet.diagrams.seen_solid import CROWDED, SeenSolid, seen_solid, solid_items
from creasewright.booklet.diagrams.shade import LIGHT
from creasewright.booklet.diagrams.space_motifs import inverse, moved
from creasewright.booklet.diagrams.space_view import SpaceView, seen_at, space_view
from creasewright.booklet.drawing import Group, Item, Shape
from creasewright.geometry.clip import area, intersection, total_area, union

TURN, LOOK_DOWN = -15.0, 27.0
"""Degrees: the view of the cover."""
WIDEST, TALLEST = 0.88, 1.04
"""Shares of the ground's width and height: the thing takes the one that it reaches first of the room there is, and the ground's
height is always its own over the second."""
BREAKS = 0.065
"""Share of the ground's height by which the thing stands out above it; what is left over lies below the thing."""
CREASE_AT = 0.6
"""Where floor and wall meet in the middle of the ground, as a share of its height, if the thing leaves that free."""
BEHIND = 0.12
"""The wall stands at least this far behind the thing, as a share of its depth and height together."""
BOW_SHARE = 0.4
"""A bow is at most this wide, as a share of the picture."""
LOW = 0.5
"""Height of a low thing, as a share of its width."""
COVER = PictureStyle(motif=2.0, fleck=1.2, slender=0.5)
"""The picture is large, and looked at from farther away than a step: small motifs would look like a texture."""
SPECK = 1.0
"""mm on the page: an inner edge of which less is seen is left out."""
FINE = 1.5
"""mm on the page: what is finer in the outline of a shadow is smoothed away."""
CRUMB = 3.0
"""mm on the page: a shadow that shows no wider beside the thing is left out."""
SCRAP = 0.2
"""Share of a thing slid in of which less is seen: it would be a shape without a name, and is left out."""
WALL_SHADE = "wall*0.93"


class _Ground(Struct, frozen=True):
    """On the page in mm of the model."""

    wall: float
    """y of the wall, scene frame."""
    floor: float
    """z of the floor, scene frame."""
    wall_part: Region
    floor_part: Region


def draw_cover(
    scene: SpaceScene,
    width: float,
    height: float,
    *,
    ground: bool = True,
    slid_in: frozenset[str] = frozenset(),
) -> Picture:
    """The scene in a box `width` mm wide and no higher than `height`; `ground` False (ink-light) leaves wall, floor and shadow out;
    of the parts `slid_in` those are left out of which only a scrap is seen.

    Scene frame: x right, y to the viewer, z down; what stands is given standing (see `space_view.standing`).
    Raises ValueError for a scene with no facets.
    """
    if not scene.facets:
        raise ValueError("a cover needs at least one facet")
    view = space_view(TURN, LOOK_DOWN)
    outer = box_of(seen_at(view, spot) for line in (*(f.polygon for f in scene.facets), *scene.ties) for spot in line)
    scale = min(width * WIDEST / outer.width, height * TALLEST / (1 + BREAKS) / outer.height)
    head = BREAKS * outer.height * scale / TALLEST
    height = head * (1 + BREAKS) / BREAKS
    to_page: Affine = (scale, 0.0, 0.0, scale, width / 2 - scale * outer.middle[0], -scale * outer.y0)
    facets = all_facets(scene, scale)
    seen = seen_solid(facets, view, CROWDED * COVER.weight / scale, SPECK / scale)
    scraps = _scraps(seen, slid_in)
    if scraps:
        facets = tuple(facet for facet in facets if facet.part not in scraps)
        seen = seen_solid(facets, view, CROWDED * COVER.weight / scale, SPECK / scale)
    items: tuple[Item, ...] = ()
    if ground:
        items = _ground_items(seen, _ground(facets, view, to_page, Box(0.0, head, width, height)), view, to_page)
    items += solid_items(seen, view, to_page, scale, Room(width, height), COVER)
    items += drawn_bows(scene, seen, view, to_page, BOW_SHARE * width, COVER)
    return Picture((Group(items, role="cover picture"),), width, height, f"1:{1 / scale:.3g}")


def _scraps(seen: SeenSolid, parts: frozenset[str]) -> set[str]:
    """Those of the parts of which something shows, but less than `SCRAP` of their largest face."""
    shown, whole = dict.fromkeys(sorted(parts), 0.0), dict.fromkeys(sorted(parts), 0.0)
    for face, region in zip(seen.faces, seen.regions, strict=True):
        part = face.facet.part
        if part in parts:
            shown[part] += abs(total_area(region))
            whole[part] = max(whole[part], abs(area(face.outline)))
    return {part for part in parts if 0.0 < shown[part] < SCRAP * whole[part]}


def _ground(facets: tuple[Facet3, ...], view: SpaceView, to_page: Affine, place: Box) -> _Ground:
    """`place`: the whole of it on the page, mm."""
    spots = [spot for facet in facets for spot in facet.polygon]
    nearest, farthest = max(y for _, y, _ in spots), min(y for _, y, _ in spots)
    top, floor = min(z for *_, z in spots), max(z for *_, z in spots)
    back = inverse(to_page)
    centre = moved(back, (place.middle[0], place.y0 + CREASE_AT * place.height))
    # a place of the floor at (a, b) is seen at a across_x + b across_y + floor across_z, and the same down: two equations for b
    (ax, ay, az), (dx, dy, dz) = view.across, view.down
    u, v = centre[0] - floor * az, centre[1] - floor * dz
    wanted = (ax * v - dx * u) / (ax * dy - ay * dx)
    wall = min(wanted, farthest - BEHIND * (nearest - farthest + floor - top))
    left, right = (_crease_at(wall, floor, view, moved(back, (x, 0.0))[0]) for x in (place.x0, place.x1))
    corners = (place.x0, place.y0), (place.x1, place.y0), (place.x1, place.y1), (place.x0, place.y1)
    frame = tuple(moved(back, corner) for corner in corners)
    low, high = frame[2][1] + 1.0, frame[0][1] - 1.0
    lowest, highest = max(low, left[1], right[1]) + 1.0, min(high, left[1], right[1]) - 1.0
    floor_part = intersection([frame], [(left, right, (right[0], lowest), (left[0], lowest))])
    wall_part = intersection([frame], [((left[0], highest), (right[0], highest), right, left)])
    return _Ground(wall, floor, wall_part, floor_part)


def _crease_at(wall: float, floor: float, view: SpaceView, across: float) -> Spot:
    """Where the line between wall and floor is, that far across the view."""
    x = (across - wall * view.across[1] - floor * view.across[2]) / view.across[0]
    return seen_at(view, (x, wall, floor))


def _ground_items(seen: SeenSolid, ground: _Ground, view: SpaceView, to_page: Affine) -> tuple[Item, ...]:
    facets = tuple(face.facet for face in seen.faces)
    thing = union(face.outline for face in seen.faces if face.outline)
    light, fine, crumb = _light(facets), FINE / to_page[0], CRUMB / to_page[0]
    on_wall = wall_shadow(facets, ground.wall, view, ground.wall_part, light, fine)
    on_floor = floor_shadow(facets, ground.floor, view, ground.floor_part, light, fine)
    parts = (
        ("wall", ground.wall_part),
        ("floor", ground.floor_part),
        (WALL_SHADE, without_crumbs(on_wall, thing, crumb)),
        ("shadow", without_crumbs(on_floor, thing, crumb)),
    )
    return tuple(
        Shape(
            tuple(command for ring in rings for command in polyline([moved(to_page, spot) for spot in ring], closed=True)),
            None,
            colour,
            role="ground",
        )
        for colour, rings in parts
        if rings
    )


def _light(facets: tuple[Facet3, ...]) -> Spot3:
    spots = [spot for facet in facets for spot in facet.polygon]
    wide, _, high = (max(s[axis] for s in spots) - min(s[axis] for s in spots) for axis in range(3))
    return LOW_LIGHT if high < LOW * wide else LIGHT
