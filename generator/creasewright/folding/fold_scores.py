"""Several scores in one step: as single folds, farthest from the staying side first; or all at once where they form a ring."""

from msgspec import Struct

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.fold_once import (
    alike,
    fold_line,
    is_still,
    motion_of,
    on_one_line,
)
from creasewright.folding.fold_together import fold_together
from creasewright.folding.following import course
from creasewright.folding.meeting import meeting_angles
from creasewright.folding.panel_graph import Link, clusters, links, neighbours, panels_of
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.folding.strip import folded_strip
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import spread
from creasewright.geometry.rigid_transform import apply, rotate

Targets = dict[PieceKey, float]


class Level(Struct, frozen=True):
    """Score pieces on one line, `depth` scores away from the side that stays; `place` tells which was named first."""

    depth: int
    place: int
    targets: Targets


def piece_of(state: State, key: PieceKey) -> ScorePiece:
    return state.blanks[key[0]].piece(key[1])


def staying_root(state: State, body: Body, targets: Targets, stays: PanelKey | None) -> PanelKey:
    """A panel of the side that stays: the named one's; else that on which most of the scores hang, if three or more do (the base of
    a box); else the largest by area (ties: more left, then more to the tail).
    """
    if stays is not None:
        return stays
    groups = clusters(panels_of(state, body.parts), neighbours(links(state, body.parts), frozenset(targets)))
    hub = hub_of(state, body, groups, targets)
    if hub is not None:
        return max(sorted(hub), key=lambda key: area_of(state, key))

    sizes = [sum(area_of(state, key) for key in group) for group in groups]
    largest = [group for group, size in zip(groups, sizes, strict=True) if size > max(sizes) * (1 - 1e-6)]

    def rank(group: set[PanelKey]) -> tuple[float, float]:
        spots = [rotate(body.view, apply(state.placed[key], centre_of(state, key))) for key in group]
        return round(min(s[0] for s in spots), 2), -round(max(s[1] for s in spots), 2)

    best = min(largest, key=rank)
    return max(sorted(best), key=lambda key: area_of(state, key))


HANG = 3
"""Scores that hang on one side make it the one that stays."""


def hub_of(state: State, body: Body, groups: list[set[PanelKey]], targets: Targets) -> set[PanelKey] | None:
    """The side on which at least `HANG` sides hang, each by one of the scores, and more than on any other."""
    party = {panel: number for number, group in enumerate(groups) for panel in group}
    around: dict[int, set[int]] = {}
    for link in links(state, body.parts):
        if link.piece_key in targets and party[link.first] != party[link.second]:
            around.setdefault(party[link.first], set()).add(party[link.second])
            around.setdefault(party[link.second], set()).add(party[link.first])
    most = max((len(others) for others in around.values()), default=0)
    best = [number for number, others in around.items() if len(others) == most]
    return groups[best[0]] if most >= HANG and len(best) == 1 else None


def area_of(state: State, key: PanelKey) -> float:
    return state.blanks[key[0]].panel(key[1]).area


def fold_scores(state: State, targets: Targets, stays: PanelKey | None = None, bending: bool = False) -> State:
    """Turns every score piece of `targets` to its angle. Raises FoldRefused.

    Every piece belongs to one body. The side that stays is chosen by `staying_root`; the choice moves only the picture.
    `bending`: paper may give way between the two states, so only these are looked at.
    """
    body = state.body_of(next(iter(targets))[0])
    root = staying_root(state, body, targets, stays)
    strip = folded_strip(state, body, root, targets) if len(targets) > 2 and not bending else None
    if strip is not None:
        return strip
    order = leaves_first(state, body, root, targets)
    if order is None or bending:
        return fold_together(state, body, root, targets, bending or flat_before_and_after(state, body, targets))
    if not flat_before_and_after(state, body, targets):
        return in_levels(state, root, order)
    left = [group.targets for group in order]
    while left:
        body = state.body_of(root[0])
        group, left = through_layers(state, body, root, left)
        state = fold_line(state, body, root, group)
    return state


def fold_with_followers(
    state: State, drivers: Targets, followers: dict[PieceKey, float | None], stays: PanelKey | None = None
) -> tuple[State, Targets]:
    """Turns the drivers to their angles and the followers as the loops ask; also all angles that were reached. Raises FoldRefused."""
    body = state.body_of(next(iter(drivers))[0])
    both = {**drivers, **dict.fromkeys(followers, 0.0)}
    root = staying_root(state, body, both, stays)
    way = course(state, body, root, drivers, followers)
    targets = {**drivers, **{key: way[-1][key] for key in followers}}
    return fold_together(state, body, root, targets, course=way), targets


def fold_to_meet(state: State, signs: Targets, stays: PanelKey | None = None) -> tuple[State, Targets]:
    """Turns the scores (+1 valley, -1 mountain) until tabs and walls meet; also the angles that were found. Raises FoldRefused."""
    body = state.body_of(next(iter(signs))[0])
    root = staying_root(state, body, signs, stays)
    targets = meeting_angles(state, body, root, signs)
    return fold_scores(state, targets, root), targets


def through_layers(state: State, body: Body, root: PanelKey, order: list[Targets]) -> tuple[Targets, list[Targets]]:
    """The first group, with all others on its line where they turn together as one stack; and the groups left for later."""
    first, *rest = order
    alike_groups = [group for group in rest if on_one_line(state, [(key, piece_of(state, key)) for key in (*first, *group)])]
    if not alike_groups:
        return first, rest
    together = {key: angle for group in (first, *alike_groups) for key, angle in group.items()}
    if not turns_as_one(state, body, root, together):
        return first, rest
    return together, [group for group in rest if group not in alike_groups]


def turns_as_one(state: State, body: Body, root: PanelKey, targets: Targets) -> bool:
    """Whether all panels that these angles move make the same move."""
    placed, _ = spread(state, root, list(links(state, body.parts)), {**state.angles, **targets})
    motions = [motion_of(state, placed, panel) for panel in placed]
    moved = [motion for motion in motions if not is_still(motion)]
    return all(alike(motion, moved[0]) for motion in moved)


def flat_before_and_after(state: State, body: Body, targets: Targets) -> bool:
    """Whether every panel lies in one plane now, and every target is flat or folded flat."""
    return len(body.stacks) == 1 and all(angle % 180 == 0 for angle in targets.values())


def in_levels(state: State, root: PanelKey, order: list[Level]) -> State:
    """In space: the scores farthest from the staying side turn first, all of one depth at once."""
    for depth in dict.fromkeys(group.depth for group in order):
        together = {key: angle for group in order if group.depth == depth for key, angle in group.targets.items()}
        state = fold_together(state, state.body_of(root[0]), root, together)
    return state


def leaves_first(state: State, body: Body, root: PanelKey, targets: Targets) -> list[Level] | None:
    """The targets as groups on one line each, those farthest from the root first; None where they form a ring."""
    all_links = list(links(state, body.parts))
    around = neighbours(all_links, frozenset(targets))
    cluster_of: dict[PanelKey, int] = {}
    for number, group in enumerate(clusters(panels_of(state, body.parts), around)):
        cluster_of.update(dict.fromkeys(group, number))
    between: dict[tuple[int, int], list[Link]] = {}
    for link in all_links:
        if link.turns_with in targets:
            a, b = cluster_of[link.first], cluster_of[link.second]
            between.setdefault((min(a, b), max(a, b)), []).append(link)
    depth = depths(cluster_of[root], list(between))
    if depth is None:
        return None
    groups: list[Level] = []
    place = {key: number for number, key in enumerate(targets)}
    for pair, hinges in between.items():
        pieces = [(link.piece_key, link.piece) for link in hinges if link.piece_key and link.piece]
        if not pieces:
            continue
        if pair[0] != pair[1] and not on_one_line(state, pieces):
            return None
        level = max(depth.get(pair[0], 0), depth.get(pair[1], 0))
        groups.append(Level(level, min(place[key] for key, _ in pieces), {key: targets[key] for key, _ in pieces}))
    return sorted(groups, key=lambda g: (-g.depth, g.place))


def depths(root: int, pairs: list[tuple[int, int]]) -> dict[int, int] | None:
    """Steps from the root cluster to each other; None where the clusters form a ring."""
    around: dict[int, list[tuple[int, int]]] = {}
    for pair in pairs:
        if pair[0] != pair[1]:
            around.setdefault(pair[0], []).append(pair)
            around.setdefault(pair[1], []).append(pair)
    depth = {root: 0}
    queue = [root]
    used: set[tuple[int, int]] = set()
    for cluster in queue:
        for pair in around.get(cluster, ()):
            if pair in used:
                continue
            used.add(pair)
            other = pair[1] if pair[0] == cluster else pair[0]
            if other in depth:
                return None
            depth[other] = depth[cluster] + 1
            queue.append(other)
    return depth
