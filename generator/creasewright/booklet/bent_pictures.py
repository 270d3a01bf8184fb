"""The way of an ear that is pushed in along its curved score: a quarter circle about the middle of the crease."""

from math import cos, pi, sin

from creasewright.booklet.diagrams.scene import Spot3
from creasewright.folding.curved import Curved
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.rigid_transform import apply, rotate

PLACES = 13
FAR = 1.6
"""The arrow runs so many times as far out as the ear is deep, so that it stands clear of it."""


def ear_path(state: State, body: Body, changed: list[PanelKey]) -> tuple[Spot3, ...]:
    """Of the ear nearest to the maker, from where it ran straight on to where it stands, in the body's view."""
    ears = [key for key in changed if state.curved[key].ear is not None]
    paths = [_path(state, body, key) for key in ears]
    return max(paths, key=lambda path: max(spot[1] for spot in path), default=())


def _path(state: State, body: Body, key: PanelKey) -> tuple[Spot3, ...]:
    curved = state.curved[key]
    assert curved.ear is not None
    middle = curved.arch.chord / 2
    crease = curved.ear.chord_at + curved.ear.bows * curved.arch.rise
    deep = FAR * max(abs(curved.flat(x, y)[1] - crease) for x, y in state.blanks[key[0]].panel(key[1]).polygon)
    path = []
    for k in range(PLACES):
        turned = pi / 2 * k / (PLACES - 1)
        t = crease - curved.ear.bows * deep * cos(turned)
        spot = _place(curved, middle, t, curved.arch.rise - deep * sin(turned))
        path.append(rotate(body.view, apply(state.placed[key], spot)))
    return tuple(path)


def _place(curved: Curved, s: float, t: float, height: float) -> Spot3:
    (x, y), (ax, ay) = curved.start, curved.along
    return x + s * ax - t * ay, y + s * ay + t * ax, curved.up * height
