"""Pictures of inserts on their way into a pocket."""

from msgspec.structs import replace

from creasewright.booklet.diagrams.plan_facets import facet_of, flat_order
from creasewright.booklet.diagrams.scene import (
    Facet,
    FoldArrow,
    Named,
    PlanScene,
    Polygon2,
    SlideArrow,
    SpaceScene,
    Spot,
)
from creasewright.booklet.diagrams.space_facets import space_facets
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_views import StepPicture, middle_of, side_up
from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body
from creasewright.geometry.clip import area, clockwise, intersection
from creasewright.geometry.loops import centroid
from creasewright.geometry.rigid_transform import rotate
from creasewright.joining.compass import box
from creasewright.joining.run_step import StepRun

OUT = 0.7
"""How far an insert is drawn out of the faces it goes between, in widths of the work."""


def inserting(run: StepRun, parts: ShownParts) -> StepPicture:
    """The insert half out of the opening, on its way in: in the layer it ends in, so behind whatever it goes behind."""
    body = run.after.body_of(run.parts[0])
    if run.after.fits and run.after.fits[-1].room_depth is not None:
        return between_faces(run, body, parts)
    order = flat_order(run.after, body)
    keys = [key for key in order if key[0] in run.parts]
    landed = [seen_corners(run.after, key, body.view) for key in keys]
    shift = out_of_mouth(run, body, landed)
    facets = {
        key: facet_of(run.after, body, key, parts, {}, key in keys, False, shift if key in keys else (0.0, 0.0)) for key in order
    }
    over = [facets[key] for key in order[order.index(keys[-1]) + 1 :] if key not in keys]
    spot = middle_of(landed[0])
    held = (spot[0] + shift[0], spot[1] + shift[1])
    into = under_cover(landed[0], over)
    tucked = (FoldArrow(level_with(held, into, shift), into, "tuck"),) if into is not None else ()
    names = tuple(
        Named(parts.name(key[0]), moved_polygon(place, shift)) for key, place in zip(keys, landed, strict=True) if not parts.letter(key[0])
    )
    scene = PlanScene(
        tuple(facets[key] for key in order),
        fold_arrows=tucked,
        slides=() if tucked else (SlideArrow(held, spot),),
        landing=tuple(landed),
        names=names,
    )
    still = tuple(facets[key] for key in order if key not in keys)
    return StepPicture(scene, None, side_up(run.after, still))


def between_faces(run: StepRun, body: Body, parts: ShownParts) -> StepPicture:
    """In space: the insert drawn out to the side opposite the wall, and the way it goes in."""
    fit = run.after.fits[-1]
    placed = space_facets(run.after, body, parts)
    ring = [spot for facet in placed if facet.part == fit.part for spot in facet.polygon]
    x, y, z = (sum(spot[axis] for spot in ring) / len(ring) for axis in range(3))
    others = [facet for facet in placed if facet.part != fit.part]
    upright = [spot[0] for facet in others if abs(facet.normal[0]) > 0.9 for spot in facet.polygon]
    wide = max(spot[0] for facet in others for spot in facet.polygon) - min(spot[0] for facet in others for spot in facet.polygon)
    far = (-1.0 if upright and sum(upright) / len(upright) > x else 1.0) * OUT * wide
    facets = tuple(
        replace(facet, polygon=tuple((a + far, b, c) for a, b, c in facet.polygon)) if facet.part == fit.part else facet for facet in placed
    )
    way = tuple((x + far * (12 - k) / 12, y, z) for k in range(13))
    return StepPicture(None, SpaceScene(facets, (way,)), ("", ""))


def goes_behind(run: StepRun) -> bool:
    """Whether the insert lies under the panel behind its pocket, as the maker sees it."""
    if len(run.after.fits) == len(run.before.fits):
        return False
    pocket = run.after.pockets.get(run.after.fits[-1].pocket)
    if pocket is None:
        return False
    order = flat_order(run.after, run.after.body_of(run.parts[0]))
    thing = next((k for k, key in enumerate(order) if key[0] == run.parts[0]), 0)
    return pocket.back in order and thing < order.index(pocket.back)


LEAST_COVER = 0.05
"""Of the landing place: what lies over less of it is no pocket's edge."""


def under_cover(landed: Polygon2, over: list[Facet]) -> Spot | None:
    """The middle of what the panel that covers most of the landing place covers; None where nothing does."""
    pieces = [piece for facet in over for piece in intersection((clockwise(landed),), (clockwise(facet.polygon),))]
    widest = max(pieces, key=lambda piece: round(area(piece), 1), default=())
    return centroid(widest) if area(widest) > LEAST_COVER * abs(area(landed)) else None


def level_with(held: Spot, into: Spot, way: Spot) -> Spot:
    """Back along `way` from a place, as far as another place lies back."""
    size2 = way[0] ** 2 + way[1] ** 2
    t = ((held[0] - into[0]) * way[0] + (held[1] - into[1]) * way[1]) / size2
    return into[0] + t * way[0], into[1] + t * way[1]


def moved_polygon(polygon: Polygon2, shift: Spot) -> Polygon2:
    return tuple((x + shift[0], y + shift[1]) for x, y in polygon)


def out_of_mouth(run: StepRun, body: Body, landed: list[Polygon2]) -> Spot:
    """The way out of the pocket's open side, as seen now; upwards first, where it is open there."""
    x0, y0, x1, y1 = box(landed)
    fit = run.after.fits[-1] if len(run.after.fits) > len(run.before.fits) else None
    pocket = run.after.pockets.get(fit.pocket) if fit is not None else None
    if pocket is None:
        return (0.0, -0.6 * (y1 - y0))
    placed = run.after.placed[pocket.back]
    ways = {"right": pocket.rightwards, "tail": pocket.tailwards}
    ways |= {"left": (-pocket.rightwards[0], -pocket.rightwards[1]), "head": (-pocket.tailwards[0], -pocket.tailwards[1])}
    seen = []
    for side in pocket.open:
        v = rotate(body.view, rotate(placed.turn, (*ways[side], 0.0)))
        seen.append((v[0], v[1]))
    best = min(seen, key=lambda v: (round(v[1], 2), -abs(v[0]))) if seen else (0.0, -1.0)
    return (best[0] * 0.75 * (x1 - x0), best[1] * 0.75 * (y1 - y0))
