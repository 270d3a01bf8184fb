"""A thing with a spine, for the cover: its covers turned back part of the way, the inside to the reader.

Nothing is written in the design for this. The folds are those of the last step that folded anything: two lines of them lie along a
spine that is narrow beside its covers, and whatever leaves were closed by that step open with them. A leaf that folds in over what
is slid in, from a fore edge, is folded out. A band is a part of the thing and keeps it closed; a ribbon is undone.
"""

from math import copysign, dist

from msgspec import Struct
from msgspec.structs import replace

from creasewright.fitting.worked import Worked
from creasewright.folding.collisions import first_crossing
from creasewright.folding.fold_scores import area_of
from creasewright.folding.fold_together import plane_groups
from creasewright.folding.panel_graph import Link, clusters, links, neighbours, panels_of, reached
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, PanelKey, PieceKey, State, front_normal
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import spread
from creasewright.geometry.point import Point
from creasewright.geometry.rigid_transform import Matrix, Vector, about_axis, apply, rotate, times

Spot = tuple[float, float]
Angles = dict[PieceKey, float]
LEFT_AT = 0.5
"""Of each fold along the spine: so far it stays folded."""
BACK_BY = -0.65
"""The same of one cover that is turned back alone: beyond flat."""
LEAF_AT = 6.0
"""Degrees that a leaf folded out stays folded."""
TURNED = 8.0
"""Degrees about the upright: both covers are then seen nearly alike in the cover's view, which looks from the side."""
SAME = 1.0
"""Degrees: a fold that differs by more has been changed since."""
FLAT = 179.0
"""Degrees: a fold at least so far closed lies flat."""
UPRIGHT = (60.0, 120.0)
"""Degrees: folds along a spine."""
NARROW = 0.4
"""Greatest width of a spine, as a share of the covers'."""
ON_LINE = 0.5
"""mm within which folds lie on one line."""


class _Spine(Struct, frozen=True):
    panel: PanelKey
    """The largest panel between the two lines."""
    lines: tuple[Spot, Spot]
    """Where these are seen from the head: mm across and down into the table."""
    held: frozenset[PanelKey]
    """All that hangs together with it once the folds along it are cut."""


def spine_opened(worked: Worked) -> tuple[State, Body] | None:
    """The finished thing open at its spine, and its body in a view with head away in which it only has to be stood up; None for a
    thing without a spine, or one that cannot be opened."""
    finished = worked.finished
    if finished is None or not worked.assemblies or any(closure.band or closure.path for closure in finished.state.closures):
        return None
    state, body = replace(finished.state, closures=()), finished.body
    folds = next((run.targets for run in reversed(worked.assemblies[-1].runs) if run.targets and run.refused is None), {})
    if not folds or any(abs(state.angles.get(key, 0.0) - angle) > SAME for key, angle in folds.items()):
        return None
    all_links = list(links(state, body.parts))
    spine = _spine(state, body, folds, all_links)
    if spine is None:
        return None
    covers = [panel for panel in panels_of(state, body.parts) if panel not in spine.held]
    if sum(area_of(state, panel) for panel in spine.held) > sum(area_of(state, panel) for panel in covers):
        return _opened(state, body, all_links, _one_cover(folds, all_links, spine, finished.front), spine.panel)
    leaves = _leaves(state, body, all_links, folds, spine)
    wide = {key: LEFT_AT * angle for key, angle in folds.items()}
    return _opened(state, _inside_up(state, body, spine.panel), all_links, {**wide, **leaves}, spine.panel)


def _opened(state: State, body: Body, all_links: list[Link], targets: Angles, stays: PanelKey) -> tuple[State, Body] | None:
    """With the folds at these angles; None where there are none, a loop would not close or panels would pass through each other.

    The step that closed the thing has looked at the way, and layers only part: each keeps its place among those that it stays with.
    """
    angles = {**state.angles, **targets}
    placed, faults = spread(state, stays, all_links, angles)
    if not targets or faults:
        return None
    parties = clusters(panels_of(state, body.parts), neighbours(all_links, frozenset(targets)))
    joined = {frozenset((link.first, link.second)) for link in all_links}
    pairs = [
        (a, b)
        for number, party in enumerate(parties)
        for other in parties[:number]
        for a in party
        for b in other
        if frozenset((a, b)) not in joined
    ]
    if first_crossing(state, placed, pairs) is not None:
        return None
    after = replace(state, placed={**state.placed, **placed}, angles=angles)
    opened = replace(body, stacks=tuple(plane_groups(state, after, body)))
    return replace(after, bodies=tuple(opened if each.parts == body.parts else each for each in state.bodies)), opened


def _spine(state: State, body: Body, folds: Angles, all_links: list[Link]) -> _Spine | None:
    """What lies between the two lines of upright folds, if these run head to tail and are near each other."""
    groups = clusters(panels_of(state, body.parts), neighbours(all_links, frozenset(folds)))
    group_of = {panel: number for number, group in enumerate(groups) for panel in group}
    lines: dict[Spot, list[set[int]]] = {}
    for link in all_links:
        if link.piece_key in folds and UPRIGHT[0] <= abs(folds[link.piece_key]) <= UPRIGHT[1]:
            place = _place(state, body, link)
            if place is None:
                return None
            line = next((each for each in lines if dist(each, place) < ON_LINE), place)
            lines.setdefault(line, []).append({group_of[link.first], group_of[link.second]})
    if len(lines) != 2:
        return None
    one, other = lines
    between = set.intersection(*(found for each in lines.values() for found in each))
    (low, _, _), (high, _, _) = extents(state, body)
    if len(between) != 1 or dist(one, other) > NARROW * (high - low):
        return None
    held = groups[between.pop()]
    return _Spine(max(sorted(held), key=lambda panel: _beside(state, body, panel, (one, other))), (one, other), frozenset(held))


def _beside(state: State, body: Body, panel: PanelKey, lines: tuple[Spot, Spot]) -> tuple[bool, float]:
    """Whether the panel's middle lies between the lines, and its area: of what hangs on a spine the leaves are larger."""
    x, _, z = _middle(state, body, panel)
    return dist((x, z), lines[0]) + dist((x, z), lines[1]) < dist(*lines) + ON_LINE, area_of(state, panel)


def _one_cover(folds: Angles, all_links: list[Link], spine: _Spine, front: PanelKey | None) -> Angles:
    """The front cover turned well back, where leaves hang on the spine itself and stand out of it."""
    around = neighbours(all_links, frozenset(folds))
    cover = reached(front, around) if front is not None else set()
    if cover & spine.held:
        return {}
    hinges = [link for link in all_links if link.piece_key in folds and (link.first in cover or link.second in cover)]
    return {link.piece_key: BACK_BY * folds[link.piece_key] for link in hinges if link.piece_key}


def _leaves(state: State, body: Body, all_links: list[Link], folds: Angles, spine: _Spine) -> Angles:
    """The leaves that lie over what is slid in and hang on the far edge of a cover, one line of folds each, nearly folded out."""
    if not state.fits:
        return {}
    lines: dict[Spot, set[PieceKey]] = {}
    for link in all_links:
        key = link.piece_key
        if key is not None and key not in folds and abs(state.angles.get(key, 0.0)) >= FLAT:
            place = _place(state, body, link)
            if place is not None:
                line = next((each for each in lines if dist(each, place) < ON_LINE), place)
                lines.setdefault(line, set()).add(key)
    filled = {fit.part for fit in state.fits}
    turned: Angles = {}
    for line, keys in lines.items():
        if min(dist(line, each) for each in spine.lines) < ON_LINE:
            continue
        for leaf in clusters(panels_of(state, body.parts), neighbours(all_links, frozenset(keys))):
            if spine.panel not in leaf and any(part in filled for part, _ in leaf):
                hinges = (link for link in all_links if link.piece_key in keys and (link.first in leaf) != (link.second in leaf))
                turned |= {link.piece_key: copysign(LEAF_AT, state.angles[link.piece_key]) for link in hinges if link.piece_key}
    return turned


def _place(state: State, body: Body, link: Link) -> Spot | None:
    """Where a score is seen from the head; None if it does not run head to tail."""
    assert link.piece is not None
    (ax, _, az), (bx, _, bz) = (_seen(state, body, link.first, end) for end in (link.piece.start, link.piece.end))
    return (ax, az) if max(abs(ax - bx), abs(az - bz)) < ON_LINE else None


def _seen(state: State, body: Body, panel: PanelKey, spot: Point) -> Vector:
    """A place of a panel's blank in the view."""
    return rotate(body.view, apply(state.placed[panel], (float(spot.x), float(spot.y), 0.0)))


def _middle(state: State, body: Body, panel: PanelKey) -> Vector:
    return rotate(body.view, apply(state.placed[panel], centre_of(state, panel)))


def _inside_up(state: State, body: Body, spine: PanelKey) -> Body:
    """Turned about the head-to-tail way until the spine lies on the table and the rest above it; and a little on, see `TURNED`."""
    x, _, z = rotate(body.view, front_normal(state.placed[spine]))
    start = _middle(state, body, spine)
    rest = 0.0
    for panel in panels_of(state, body.parts):
        spot = _middle(state, body, panel)
        rest += area_of(state, panel) * (x * (spot[0] - start[0]) + z * (spot[2] - start[2]))
    c, s = (-z, x) if rest > 0 else (z, -x)
    level: Matrix = (c, 0.0, s, 0.0, 1.0, 0.0, -s, 0.0, c)
    return replace(body, view=times(about_axis((0.0, 1.0, 0.0), TURNED), times(level, body.view)))
