"""Curved scores folded: the panel becomes a cylinder, the crease a plane curve at 45°, the ear its mirror image.

That is all of curved folding that is worked out: ears on circular scores, straight across a panel whose sides run from ear to
ear, folded to 90° (in the middle of the score; towards its ends the angle grows less). A panel flat on the bent one and joined to it
by its sides bends the other way, what is glued to it or hangs on it flat goes along. Only the end is worked out, not the way to it.
"""

from math import hypot

from msgspec import Struct
from msgspec.structs import replace

from creasewright.folding.curved import Curved, Ear, Spot
from creasewright.folding.overlaps import coverings
from creasewright.folding.panel_graph import Link, links, neighbours
from creasewright.folding.refused import FoldRefused, called
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.geometry.arch import STEEPEST, Arch
from creasewright.geometry.edges import edge_middle
from creasewright.geometry.rigid_transform import Vector, apply, dot, inverse, rotate

Targets = dict[PieceKey, float]
UPRIGHT = 90.0
NEAR = 0.05
"""mm: what a pack is true to."""
ONE_END = 1.0
"""mm between the middles of two chords at one end of the section."""


class Crease(Struct, frozen=True):
    """A curved score piece between the panel that bends and its ear."""

    key: PieceKey
    wall: PanelKey
    ear: PanelKey
    arch: Arch
    start: Spot
    along: Spot
    """From one end of its chord to the other; the ear lies on the left of it, so that its arc bows to the right: into the wall."""


def is_curved(state: State, key: PieceKey) -> bool:
    return state.blanks[key[0]].piece(key[1]).arc is not None


def refuse_bent(state: State, parts: list[str]) -> None:
    """A thing that stands bent is not folded or joined further. Raises FoldRefused."""
    bodies = [state.body_of(part) for part in dict.fromkeys(parts)] if state.curved else []
    bent = next((key for body in bodies for key in state.curved if key[0] in body.parts), None)
    if bent is not None:
        raise FoldRefused(
            f"{called(bent)} stands bent by its curved scores, and what happens to it now is not worked out",
            "do this before the curved scores are folded",
        )


def bend(state: State, targets: Targets) -> State:
    """Folds curved scores to 90° and bends what they bend. Raises FoldRefused."""
    for key, angle in targets.items():
        if not is_curved(state, key):
            what = f"`{key[1]}` is straight and folds together with a curved score"
            raise FoldRefused(what, "fold the curved scores in a step of their own")
        if abs(abs(angle) - UPRIGHT) > 1e-9:
            raise FoldRefused(
                f"the curved score `{key[1]}` is folded to {abs(angle):g}°, and only 90° is worked out", "write `to: 90`"
            )
    for key, angle in targets.items():
        state = _bend_one(state, key, angle)
    return state


def _bend_one(state: State, key: PieceKey, angle: float) -> State:
    body = state.body_of(key[0])
    crease = crease_of(state, body, key)
    up = 1.0 if angle > 0 else -1.0
    bent = state.curved.get(crease.wall)
    if bent is None:
        curved = bent_with(state, body, crease, up)
        _check_apart(state, body, curved)
        curved = _layered(state, body, curved)
        state = replace(state, curved={**state.curved, **curved})
    else:
        _check_alike(state, crease, bent, up)
    state = replace(state, curved={**state.curved, crease.ear: folded_ear(state, crease)})
    _check_depth(state, crease)
    return replace(state, angles={**state.angles, key: angle}, creased=state.creased | {key})


def crease_of(state: State, body: Body, key: PieceKey) -> Crease:
    """The score, its panel and its ear, as far as they are of the kind that is worked out. Raises FoldRefused."""
    blank = state.blanks[key[0]]
    piece = blank.piece(key[1])
    ear, wall = sorted((piece.first, piece.second), key=lambda name: blank.panel(name).area)
    around = neighbours(links(state, body.parts))
    held = [link.other((key[0], ear)) for link in around[(key[0], ear)] if link.piece_key != key]
    if held:
        raise FoldRefused(
            f"{called((key[0], ear))} hangs on a curved score and is held by {called(held[0])} too",
            "let a plain flap hang there: nothing glued to it (cut that panel's ends back, `ends: 45`) and no score on it",
        )
    (ax, ay), (bx, by), (mx, my) = ((float(p.x), float(p.y)) for p in (piece.start, piece.end, edge_middle(piece.edge)))
    chord = hypot(bx - ax, by - ay)
    off = ((bx - ax) * (my - ay) - (by - ay) * (mx - ax)) / chord
    if off < 0:
        ax, ay, bx, by, off = bx, by, ax, ay, -off
    arch = Arch(chord, off)
    sides = [(bx - ax) * (y - ay) - (by - ay) * (x - ax) for x, y in blank.panel(wall).polygon]
    if max(sides) < -min(sides):
        raise FoldRefused(
            f"the curved score of {called((key[0], ear))} bows out of {called((key[0], wall))}, "
            "and only one that bows into it is worked out",
            "turn its curve round (as a flap: a `seam rise` under 0)",
        )
    if arch.rise > STEEPEST * chord:
        raise FoldRefused(
            f"the curved score `{key[1]}` leaves its ends at a slope of {arch.slope:.2f}, and paper bends over it only under 1",
            f"give it a rise under {STEEPEST * chord:.1f} mm (its chord is {chord:.1f} mm)",
        )
    along = ((bx - ax) / chord, (by - ay) / chord)
    return Crease(key, (key[0], wall), (key[0], ear), arch, (ax, ay), along)


def bent_with(state: State, body: Body, crease: Crease, up: float) -> dict[PanelKey, Curved]:
    """The wall, and every panel that bends with it: each in its own flat frame."""
    home = state.placed[crease.wall]
    ways: dict[PanelKey, float] = {crease.wall: 1.0}
    around = neighbours(links(state, body.parts))
    queue = [crease.wall]
    for panel in queue:
        for link in around.get(panel, ()):
            other, way = link.other(panel), ways[panel] * _side(state, link, crease)
            if other not in ways:
                ways[other] = way
                queue.append(other)
            elif ways[other] != way:
                raise FoldRefused(
                    f"{called(link.first)} and {called(link.second)} are held together, and would have to bend apart",
                    "glue them only along the sides that run from ear to ear",
                )
    outward = rotate(home.turn, (0.0, 0.0, up))
    return {panel: _curved_like(state, panel, crease, tuple_of(outward, way)) for panel, way in ways.items()}


def tuple_of(direction: Vector, way: float) -> Vector:
    return direction[0] * way, direction[1] * way, direction[2] * way


def _side(state: State, link: Link, crease: Crease) -> float:
    """1 where both panels bend to one side, -1 where a fold along a side of the bent panel lies between them."""
    if link.piece is None or link.piece_key is None:
        return 1.0
    angle = state.angles.get(link.piece_key, 0.0)
    if link.piece.arc is not None or abs(angle) < 1e-9:
        return 1.0
    back = inverse(state.placed[crease.wall])
    frame = Curved(crease.arch, crease.start, crease.along, 1.0)
    ends = [apply(back, apply(state.placed[link.first], (float(p.x), float(p.y), 0.0))) for p in (link.piece.start, link.piece.end)]
    places = [frame.flat(x, y)[0] for x, y, _ in ends]
    at_side = any(all(abs(place - side) < NEAR for place in places) for side in (0.0, crease.arch.chord))
    if abs(abs(angle) - 180) > 1e-9 or not at_side:
        raise FoldRefused(
            f"the fold between {called(link.first)} and {called(link.second)} does not run along a side of {called(crease.wall)}, "
            "which bends from side to side",
            "fold it flat, along a side that runs from ear to ear",
        )
    return -1.0


def _curved_like(state: State, panel: PanelKey, crease: Crease, outward: Vector) -> Curved:
    """The same rulings in the frame of another panel of the plane. Raises FoldRefused where it reaches past them."""
    home, own = state.placed[crease.wall], state.placed[panel]
    back = inverse(own)
    x, y, _ = apply(back, apply(home, (*crease.start, 0.0)))
    ax, ay, _ = rotate(back.turn, rotate(home.turn, (*crease.along, 0.0)))
    up = 1.0 if dot(rotate(own.turn, (0.0, 0.0, 1.0)), outward) > 0 else -1.0
    curved = Curved(crease.arch, (x, y), (ax, ay), up)
    places = [curved.flat(*spot)[0] for spot in state.blanks[panel[0]].panel(panel[1]).polygon]
    if min(places) < -NEAR or max(places) > crease.arch.chord + NEAR:
        over = max(-min(places), max(places) - crease.arch.chord)
        raise FoldRefused(
            f"{called(panel)} reaches {over:.1f} mm past the curved score of {called(crease.ear)}, and bends with it",
            "let the curved score run from side to side, and fold what stands over first",
        )
    return curved


def _check_apart(state: State, body: Body, curved: dict[PanelKey, Curved]) -> None:
    """Panels that bend to different sides lie in that order on each other. Raises FoldRefused."""
    for stack in body.stacks:
        low: set[PanelKey] = set()
        high: set[PanelKey] = set()
        for key in stack.order:
            if key in curved:
                (high if _outward(state, key, curved[key], stack.normal) > 0 else low).add(key)
        wrong = list(coverings(state, stack, high, low, None))
        if wrong:
            below, above = max(wrong, key=lambda pair: sum(state.blanks[part].panel(panel).area for part, panel in pair))
            raise FoldRefused(
                f"{called(below)} would bend into {called(above)}, which lies on it",
                "fold the ears towards the other panel: turn the work over, or write `mountain` for `fold`",
            )


def _layered(state: State, body: Body, curved: dict[PanelKey, Curved]) -> dict[PanelKey, Curved]:
    """Each panel as far in as the paper that lies over it, on the side to which both bend, is thick."""
    found = dict(curved)
    for stack in body.stacks:
        for sign in (1.0, -1.0):
            side = {key for key in stack.order if key in curved and _outward(state, key, curved[key], stack.normal) * sign > 0}
            for low, high in coverings(state, stack, side, side, None):
                inner, outer = (low, high) if sign > 0 else (high, low)
                found[inner] = replace(found[inner], under=found[inner].under + (state.thick.get(outer[0]) or 0.0))
    return found


def _outward(state: State, key: PanelKey, curved: Curved, normal: Vector) -> float:
    """Above 0 where the panel bends towards the normal."""
    return dot(rotate(state.placed[key].turn, (0.0, 0.0, curved.up)), normal)


def _check_alike(state: State, crease: Crease, bent: Curved, up: float) -> None:
    """A panel that is bent already bends to one section only. Raises FoldRefused."""
    (x, y), (ax, ay) = crease.start, crease.along
    first = min(bent.flat(x + k * ax, y + k * ay)[0] for k in (0.0, crease.arch.chord))
    if bent.up != up:
        raise FoldRefused(
            f"{called(crease.wall)} is bent the other way: {called(crease.ear)} must go to the side on which its other ears are",
            "turn the work over first, or write `mountain` for `fold`",
        )
    gaps = (abs(bent.arch.chord - crease.arch.chord), abs(bent.arch.rise - crease.arch.rise), abs(first))
    if max(gaps) > NEAR:
        raise FoldRefused(
            f"{called(crease.wall)} is bent {bent.arch.rise:.1f} mm high over {bent.arch.chord:.1f} mm, and the curved score of "
            f"{called(crease.ear)} rises {crease.arch.rise:.1f} mm over {crease.arch.chord:.1f} mm",
            "give all curved scores of the thing one chord and one rise",
        )


def folded_ear(state: State, crease: Crease) -> Curved:
    """The ear's record: bent as its wall, its crease, and what lies between it and the section already."""
    wall = state.curved[crease.wall]
    _, t = wall.flat(*crease.start)
    middle = crease.arch.chord / 2
    inside = (
        crease.start[0] + middle * crease.along[0] - crease.arch.rise * crease.along[1],
        crease.start[1] + middle * crease.along[1] + crease.arch.rise * crease.along[0],
    )
    bows = 1.0 if wall.flat(*inside)[1] > t else -1.0
    there = end_of(state, crease.ear[0], crease.ear, wall, t)
    over = sum(state.thick.get(key[0]) or 0.0 for key in there)
    return replace(wall, ear=Ear(t, bows, over))


def end_of(state: State, part: str, own: PanelKey, wall: Curved, t: float) -> list[PanelKey]:
    """Ears of the body that are folded already at the end of the section where the chord lies at `t` of `wall`."""
    body = state.body_of(part)
    here = apply(state.placed[own], (*spot_at(wall, t), 0.0))
    found = []
    for key, curved in state.curved.items():
        if curved.ear is not None and key != own and key[0] in body.parts:
            there = apply(state.placed[key], (*spot_at(curved, curved.ear.chord_at), 0.0))
            if hypot(here[0] - there[0], here[1] - there[1], here[2] - there[2]) < ONE_END:
                found.append(key)
    return found


def spot_at(curved: Curved, t: float) -> Spot:
    """The middle of the chord at `t` along the rulings, on the flat sheet."""
    s = curved.arch.chord / 2
    (x, y), (ax, ay) = curved.start, curved.along
    return x + s * ax - t * ay, y + s * ay + t * ax


def _check_depth(state: State, crease: Crease) -> None:
    """An ear goes no farther through the section than the panel on its other side, if there is one. Raises FoldRefused."""
    curved = state.curved[crease.ear]
    assert curved.ear is not None
    body = state.body_of(crease.wall[0])
    wall_out = rotate(state.placed[crease.wall].turn, (0.0, 0.0, curved.up))
    faced = [
        key
        for key, other in state.curved.items()
        if key[0] in body.parts and dot(rotate(state.placed[key].turn, (0.0, 0.0, other.up)), wall_out) < 0
    ]
    if not faced:
        return
    other_side = max(faced, key=lambda key: state.blanks[key[0]].panel(key[1]).area)
    past = 0.0
    for x, y in state.blanks[crease.ear[0]].panel(crease.ear[1]).polygon:
        s, _ = curved.flat(x, y)
        past = max(past, -curved.point(x, y)[2] * curved.up - curved.arch.height(s))
    if past > NEAR:
        raise FoldRefused(
            f"{called(crease.ear)} is {past:.1f} mm too deep: it would reach through {called(other_side)}",
            "give it less `depth` or `far rise`: its two arcs may rise together by twice the score's rise",
        )
