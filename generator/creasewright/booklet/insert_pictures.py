"""Pictures of inserts on their way into a pocket."""

from msgspec.structs import replace

from creasewright.booklet.diagrams.plan_facets import facet_of, flat_order
from creasewright.booklet.diagrams.scene import (
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
from creasewright.geometry.rigid_transform import rotate
from creasewright.joining.compass import box
from creasewright.joining.run_step import StepRun

OUT = 0.7
"""How far an insert is drawn out of the faces it goes between, in widths of the work."""


def inserting(run: StepRun, parts: ShownParts) -> StepPicture:
    """The insert outside the opening, on its way in: above the work, or behind it where its pocket is behind."""
    body = run.after.body_of(run.parts[0])
    if run.after.fits and run.after.fits[-1].room_depth is not None:
        return between_faces(run, body, parts)
    order = flat_order(run.after, body)
    keys = [key for key in order if key[0] in run.parts]
    landed = [seen_corners(run.after, key, body.view) for key in keys]
    shift = out_of_mouth(run, body, landed)
    behind = goes_behind(run)
    facets = {
        key: facet_of(run.after, body, key, parts, {}, key in keys, key in keys and not behind, shift if key in keys else (0.0, 0.0))
        for key in order
    }
    drawn = order if behind else [key for key in order if key not in keys] + keys
    spot = middle_of(landed[0])
    share = 0.55 if behind else 0.0
    end = (spot[0] + shift[0] * share, spot[1] + shift[1] * share)
    names = tuple(
        Named(parts.name(key[0]), moved_polygon(place, shift)) for key, place in zip(keys, landed, strict=True) if not parts.letter(key[0])
    )
    scene = PlanScene(
        tuple(facets[key] for key in drawn),
        slides=(SlideArrow((spot[0] + shift[0], spot[1] + shift[1]), end),),
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
