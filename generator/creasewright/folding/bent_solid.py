"""Bent panels as flat strips with their thickness, in the world: for outside sizes, girths and pictures."""

from typing import NamedTuple

from msgspec.structs import replace

from creasewright.folding.curved import strips
from creasewright.folding.panel_graph import Link
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.outline import Polygon, chain_of
from creasewright.geometry.rigid_transform import Vector, apply, compose, inverse, minus, norm, rotate


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


def bent_gap(state: State, link: Link) -> tuple[float, float]:
    """mm between two bent panels along the score that they share, or over the contact of a bond; their angle is free: 0.

    The thickness that parts one from the other is left out.
    """
    if link.piece is not None:
        flat = chain_of(link.piece.edge)
        pairs = [(spot, spot) for spot in flat]
    else:
        to_second = compose(inverse(state.placed[link.second]), state.placed[link.first])
        flat = state.blanks[link.first[0]].panel(link.first[1]).polygon
        pairs = [(spot, apply(to_second, (*spot, 0.0))[:2]) for spot in flat]
    return max(norm(minus(_bare(state, link.first, a), _bare(state, link.second, b))) for a, b in pairs), 0.0


def _bare(state: State, key: PanelKey, spot: tuple[float, float]) -> Vector:
    curved = state.curved[key]
    bare = replace(curved, ear=curved.ear._replace(over=0.0)) if curved.ear is not None else curved
    return apply(state.placed[key], bare.point(*spot))


def is_bent(state: State, body: Body) -> bool:
    return any(key[0] in body.parts for key in state.curved)
