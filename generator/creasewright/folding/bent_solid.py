"""Bent panels as flat strips with their thickness, in the world: for outside sizes, girths and pictures."""

from typing import NamedTuple

from creasewright.folding.curved import strips
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector, apply, rotate


class BentStrip(NamedTuple):
    """One flat strip of a bent panel, corner by corner; world, mm."""

    flat: Polygon
    """On the flat sheet."""
    corners: tuple[Vector, ...]
    """Of its mid-plane."""
    normals: tuple[Vector, ...]
    """Of the bent sheet at each corner: the side to which the panel bows, or was bowed before its ear was folded."""
    on_ruling: tuple[bool, ...]
    """Of each edge, whether it lies between two strips of the panel."""


def bent_strips(state: State, key: PanelKey, coarse: float = 0.0) -> tuple[BentStrip, ...]:
    """The strips of a panel of `state.curved`; `coarse` as in `strips`."""
    curved, placed = state.curved[key], state.placed[key]
    return tuple(
        BentStrip(
            strip.corners,
            tuple(apply(placed, curved.point(x, y)) for x, y in strip.corners),
            tuple(rotate(placed.turn, curved.normal(x, y)) for x, y in strip.corners),
            strip.on_ruling,
        )
        for strip in strips(curved, state.blanks[key[0]].panel(key[1]).polygon, coarse)
    )


def is_bent(state: State, body: Body) -> bool:
    return any(key[0] in body.parts for key in state.curved)
