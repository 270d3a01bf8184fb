"""Folds as written, to angles of score pieces and on to the next state."""

from msgspec.structs import replace

from creasewright.folding.bend_curved import bend, is_curved, refuse_bent
from creasewright.folding.carried_along import carried_along
from creasewright.folding.fold_scores import Targets, fold_scores, fold_to_meet, fold_with_followers, staying_root
from creasewright.folding.panel_graph import nearer_sides
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import (
    rotate,
)
from creasewright.joining.bench import Bench
from creasewright.joining.compass import EDGE_ON
from creasewright.joining.tucking import tucked
from creasewright.reading import design


def fold(bench: Bench, action: design.Fold) -> tuple[Targets, tuple[str, ...]]:
    default = bench.supply.number(action.to) if action.to is not None else 180.0
    wishes: Targets = {}
    for sign, written in ((1.0, action.fold), (-1.0, action.mountain)):
        for target in written:
            angle = bench.supply.number(target.angle) if target.angle is not None else default
            for key in bench.pieces(str(target.ref)):
                wishes[key] = sign * angle
    targets = signed(bench, wishes, action.seen_from, action.stays)
    before = bench.state
    if any(is_curved(before, key) for key in targets):
        return bend_scores(bench, targets, action), tuple(dict.fromkeys(key[0] for key in targets))
    refuse_bent(before, [key[0] for key in targets])
    if action.meet:
        turned = turned_to_meet(bench, targets, action.stays)
    elif action.follow:
        turned = turned_with_followers(bench, targets, action)
    else:
        turned = turn_scores(bench, targets, action.stays, action.bending)
    if action.tuck is not None:
        part = next(iter(targets))[0]
        bench.state = tucked(before, bench.state, part, action.tuck.relation, tucked_beside(bench, action.tuck))
    return turned, tuple(dict.fromkeys(key[0] for key in turned))


def turned_to_meet(bench: Bench, targets: Targets, stays: design.Text | None) -> Targets:
    """Each body's scores turned until tabs and walls meet."""
    root = bench.panel(str(stays)) if stays is not None else None
    turned: Targets = {}
    for parts, group in by_body(bench, targets).items():
        signs = {key: 1.0 if angle > 0 else -1.0 for key, angle in group.items()}
        bench.state, found = fold_to_meet(bench.state, signs, root if root is not None and root[0] in parts else None)
        turned |= found
    return turned


def turned_with_followers(bench: Bench, targets: Targets, action: design.Fold | design.Unfold) -> Targets:
    root = bench.panel(str(action.stays)) if action.stays is not None else None
    followers: dict[tuple[str, str], float | None] = {}
    for written in action.follow:
        towards = bench.supply.number(written.angle) if written.angle is not None else None
        keys = bench.pieces(str(written.ref))
        seen_from = action.seen_from if isinstance(action, design.Fold) else None
        ways = signed(bench, dict.fromkeys(keys, towards or 0.0), seen_from, action.stays)
        followers |= {key: ways[key] if towards is not None else None for key in keys}
    bench.state, turned = fold_with_followers(bench.state, targets, followers, root)
    return turned


def by_body(bench: Bench, targets: Targets) -> dict[frozenset[str], Targets]:
    bodies: dict[frozenset[str], Targets] = {}
    for key, angle in targets.items():
        bodies.setdefault(bench.state.body_of(key[0]).parts, {})[key] = angle
    return bodies


def bend_scores(bench: Bench, targets: Targets, action: design.Fold) -> Targets:
    """Curved scores fold only where the step says that the paper bends."""
    if not action.bending:
        name = next(key[1] for key in targets if is_curved(bench.state, key))
        raise FoldRefused(f"`{name}` is a curved score, which bends the paper on both sides of it", "add `bending: yes`")
    bench.state = bend(bench.state, targets)
    return targets


def tucked_beside(bench: Bench, landing: design.Landing) -> tuple[PanelKey, ...]:
    """The panels that a tuck names: those it goes under, or the two it goes between."""
    found: list[PanelKey] = []
    for ref in landing.refs:
        pocket = bench.pocket(str(ref)) if landing.relation == "into" else None
        found += [pocket.back, pocket.front] if pocket is not None else bench.panels(str(ref))
    return tuple(found)


def signed(bench: Bench, wishes: Targets, seen_from: str | None, stays: design.Text | None) -> Targets:
    """Angles as the maker means them (+ valley) to angles of the paper (+ fronts together).

    A valley is one as seen on the panel beside the score that is nearer to the side that stays.
    """
    if seen_from is not None:
        sign = 1.0 if seen_from == "front" else -1.0
        return {key: sign * angle for key, angle in wishes.items()}
    root = bench.panel(str(stays)) if stays is not None else None
    found: Targets = {}
    for parts, group in by_body(bench, wishes).items():
        body = next(b for b in bench.state.bodies if b.parts == parts)
        home = staying_root(bench.state, body, group, root if root is not None and root[0] in parts else None)
        for key, near in nearer_sides(bench.state, body, home, list(group)).items():
            found[key] = group[key] * valley_sign(bench.state, body, near)
    return {key: found[key] for key in wishes}


def valley_sign(state: State, body: Body, panel: PanelKey) -> float:
    """+1 where a valley as the maker sees it on this panel brings the fronts together, -1 where it brings the backs together.

    On a panel that stands edge-on: as seen on the side that faced the maker when the part last lay flat.
    """
    up = rotate(body.view, front_normal(state.placed[panel]))[2]
    if abs(up) > EDGE_ON:
        return 1.0 if up < 0 else -1.0
    return 1.0 if state.faced.get(panel[0], "front") == "front" else -1.0


def turn_scores(bench: Bench, targets: Targets, stays: design.Text | None, bending: bool = False) -> Targets:
    root = bench.panel(str(stays)) if stays is not None else None
    for parts, group in by_body(bench, targets).items():
        body = next(b for b in bench.state.bodies if b.parts == parts)
        whole = carried_along(bench.state, body, group)
        bench.state = fold_scores(bench.state, whole, root if root is not None and root[0] in parts else None, bending)
        targets = {**targets, **whole}
    return targets


def unfold(bench: Bench, action: design.Unfold) -> tuple[Targets, tuple[str, ...]]:
    to = bench.supply.number(action.to) if action.to is not None else 0.0
    targets: Targets = {}
    for target in action.scores:
        angle = bench.supply.number(target.angle) if target.angle is not None else to
        for key in bench.pieces(str(target.ref)):
            now = bench.state.angles.get(key, 0.0)
            targets[key] = angle if now >= 0 else -angle
    refuse_bent(bench.state, [key[0] for key in targets])
    turned = turned_with_followers(bench, targets, action) if action.follow else turn_scores(bench, targets, action.stays)
    return turned, tuple(dict.fromkeys(key[0] for key in turned))


def crease(bench: Bench, action: design.Crease) -> tuple[Targets, tuple[str, ...]]:
    keys = [key for target in action.scores for key in bench.pieces(str(target.ref))]
    targets = signed(bench, dict.fromkeys(keys, 180.0), None, None)
    bench.state = replace(bench.state, creased=bench.state.creased | frozenset(keys))
    return targets, tuple(dict.fromkeys(key[0] for key in keys))
