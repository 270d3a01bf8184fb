"""Which sides of folded ears show: of those at one end of a bent thing the outermost, and it looks along the rulings."""

from creasewright.folding.curved import Curved
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.rigid_transform import Vector, rotate


def ear_outward(state: State, key: PanelKey) -> Vector:
    """Where the outer side of a folded ear looks at its middle, in the world."""
    curved = state.curved[key]
    x, y = _middle(curved)
    return rotate(state.placed[key].turn, curved.normal(x, y))


def ear_side(curved: Curved) -> str:
    """The side of the paper that is outside on a folded ear, as on its panel."""
    return "front" if curved.up < 0 else "back"


def _middle(curved: Curved) -> tuple[float, float]:
    s = curved.arch.chord / 2
    return curved.start[0] + s * curved.along[0], curved.start[1] + s * curved.along[1]


def folded_ears(state: State, parts: frozenset[str]) -> list[PanelKey]:
    return [key for key, curved in state.curved.items() if curved.ear is not None and key[0] in parts]


def outermost_ears(state: State, parts: frozenset[str]) -> list[PanelKey]:
    """Of the ears at each end the one that lies over the others."""
    best: dict[tuple[float, ...], PanelKey] = {}
    for key in folded_ears(state, parts):
        end = tuple(round(value) + 0.0 for value in ear_outward(state, key))
        own, other = state.curved[key].ear, state.curved[best[end]].ear if end in best else None
        if other is None or (own is not None and own.over > other.over):
            best[end] = key
    return list(best.values())
