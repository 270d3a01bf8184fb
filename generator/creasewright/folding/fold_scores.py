"""Several scores in one step: as single folds, farthest from the staying side first; or all at once where they form a ring."""

from msgspec.structs import replace

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.fold_once import (
    alike,
    fold_line,
    is_still,
    loop_refused,
    motion_of,
    on_one_line,
)
from creasewright.folding.layer_solver import solved_order
from creasewright.folding.panel_graph import Link, clusters, links, neighbours, panels_of
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.folding.swing import centre_of
from creasewright.folding.transforms import spread
from creasewright.geometry.rigid_transform import apply, compose, dot, inverse, rotate

Targets = dict[PieceKey, float]


def piece_of(state: State, key: PieceKey) -> ScorePiece:
    return next(piece for piece in state.blanks[key[0]].pieces if piece.name == key[1])


def staying_root(state: State, body: Body, targets: Targets, stays: PanelKey | None) -> PanelKey:
    """A panel of the side that stays: the named one's, else the largest by area (ties: more left, then more to the tail)."""
    if stays is not None:
        return stays
    groups = clusters(panels_of(state, body.parts), neighbours(links(state, body.parts), frozenset(targets)))

    sizes = [sum(area_of(state, key) for key in group) for group in groups]
    largest = [group for group, size in zip(groups, sizes, strict=True) if size > max(sizes) * (1 - 1e-6)]

    def rank(group: set[PanelKey]) -> tuple[float, float]:
        spots = [rotate(body.view, apply(state.placed[key], centre_of(state, key))) for key in group]
        return round(min(s[0] for s in spots), 2), -round(max(s[1] for s in spots), 2)

    best = min(largest, key=rank)
    return max(sorted(best), key=lambda key: area_of(state, key))


def area_of(state: State, key: PanelKey) -> float:
    return state.blanks[key[0]].panel(key[1]).area


def fold_scores(state: State, targets: Targets, stays: PanelKey | None = None) -> State:
    """Turns every score piece of `targets` to its angle. Raises FoldRefused.

    Every piece belongs to one body. The side that stays is chosen by `staying_root`; the choice moves only the picture.
    """
    body = state.body_of(next(iter(targets))[0])
    root = staying_root(state, body, targets, stays)
    order = leaves_first(state, body, root, targets)
    if order is None:
        return fold_at_once(state, body, root, targets)
    while order:
        body = state.body_of(root[0])
        group, order = through_layers(state, body, root, order)
        state = fold_line(state, body, root, group)
    return state


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


def leaves_first(state: State, body: Body, root: PanelKey, targets: Targets) -> list[Targets] | None:
    """The targets as groups on one line each, those farthest from the root first; None where they form a ring."""
    all_links = list(links(state, body.parts))
    around = neighbours(all_links, frozenset(targets))
    cluster_of: dict[PanelKey, int] = {}
    for number, group in enumerate(clusters(panels_of(state, body.parts), around)):
        cluster_of.update(dict.fromkeys(group, number))
    between: dict[tuple[int, int], list[Link]] = {}
    for link in all_links:
        if link.piece_key in targets:
            a, b = cluster_of[link.first], cluster_of[link.second]
            between.setdefault((min(a, b), max(a, b)), []).append(link)
    depth = depths(cluster_of[root], list(between))
    if depth is None:
        return None
    groups = []
    place = {key: number for number, key in enumerate(targets)}
    for pair, hinges in between.items():
        pieces = [(link.piece_key, link.piece) for link in hinges if link.piece_key and link.piece]
        if pair[0] != pair[1] and not on_one_line(state, pieces):
            return None
        level = max(depth.get(pair[0], 0), depth.get(pair[1], 0))
        groups.append((-level, min(place[key] for key, _ in pieces), {key: targets[key] for key, _ in pieces}))
    return [group for _, _, group in sorted(groups, key=lambda g: g[:2])]


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


def fold_at_once(state: State, body: Body, root: PanelKey, targets: Targets) -> State:
    """All scores turn together: a ring of panels that closes. Layers of a flat result are solved, not stacked."""
    all_links = list(links(state, body.parts))
    angles = {**state.angles, **targets}
    placed, faults = spread(state, root, all_links, angles)
    if faults:
        raise loop_refused(faults[0])
    after = replace(state, placed={**state.placed, **placed}, angles=angles, creased=state.creased | frozenset(targets))
    stacks = tuple(solved_stack(state, after, body, stack) for stack in plane_groups(state, after, body))
    return replace(after, bodies=tuple(replace(body, stacks=stacks) if b is body else b for b in state.bodies))


def plane_groups(state: State, after: State, body: Body) -> list[Stack]:
    """Panels by plane after the move, each with a normal; the order in them is that of before."""
    groups: list[Stack] = []
    for stack in body.stacks:
        for panel in stack.order:
            motion = compose(after.placed[panel], inverse(state.placed[panel]))
            normal = rotate(motion.turn, stack.normal)
            point = apply(after.placed[panel], centre_of(after, panel))
            for number, group in enumerate(groups):
                at = apply(after.placed[group.order[0]], centre_of(after, group.order[0]))
                away = (point[0] - at[0], point[1] - at[1], point[2] - at[2])
                if abs(dot(normal, group.normal)) > 1 - 1e-9 and abs(dot(away, group.normal)) < 1e-3:
                    groups[number] = Stack(group.normal, (*group.order, panel))
                    break
            else:
                groups.append(Stack(normal, (panel,)))
    return groups


def solved_stack(state: State, after: State, body: Body, stack: Stack) -> Stack:
    if len(stack.order) == 1:
        return stack
    order = solved_order(after, list(links(after, body.parts)), stack)
    if order is None:
        names = ", ".join(sorted(name for _, name in stack.order))
        raise FoldRefused(
            f"no order of layers lets {names} lie flat with these folds", "check which of the folds are mountain and which valley"
        )
    return Stack(stack.normal, order)
