"""The shapes of the prints, at their page size, tip to -y, centred on (0, 0). One of each kind of print.

leaf   one-way: a stem, a bud and two leaves; says which end is up
pod    two-way: a stem with a tip at either end; the same after half a turn
seed   all-over: a lone seed, turned this way and that
"""

from msgspec import Struct

from creasewright.booklet.drawing import Path


class MotifShape(Struct, frozen=True):
    path: Path
    half_width: float
    half_height: float
    """mm: half the box it fills."""
    across: float
    down: float
    """mm: lattice; alternate rows are shifted by half of `across`."""
    turns: tuple[float, ...] = (0.0,)
    """Degrees, one after the other along the lattice."""
    foot: float = 0.0
    """mm: so much of its box, at the tail, holds a bare stem; seen alone that would be a tick, not a leaf. With one turn only."""


LEAF = MotifShape(
    path=(
        ("M", 0.0, -1.75), ("C", 0.62, -1.2, 0.52, -0.55, 0.0, -0.2), ("C", -0.52, -0.55, -0.62, -1.2, 0.0, -1.75), ("Z",),
        ("M", 0.06, 0.75), ("C", 0.3, -0.02, 0.75, -0.2, 1.2, -0.12), ("C", 1.2, 0.55, 0.7, 0.85, 0.06, 0.75), ("Z",),
        ("M", -0.06, 0.75), ("C", -0.3, -0.02, -0.75, -0.2, -1.2, -0.12), ("C", -1.2, 0.55, -0.7, 0.85, -0.06, 0.75), ("Z",),
        ("M", -0.1, -0.3), ("L", 0.1, -0.3), ("L", 0.1, 1.75), ("L", -0.1, 1.75), ("Z",),
    ),
    half_width=1.2, half_height=1.75, across=6.6, down=6.4, foot=1.0,
)  # fmt: skip

POD = MotifShape(
    path=(
        ("M", 0.0, -1.75), ("C", 0.72, -1.3, 0.72, -0.75, 0.0, -0.3), ("C", -0.72, -0.75, -0.72, -1.3, 0.0, -1.75), ("Z",),
        ("M", 0.0, 1.75), ("C", -0.72, 1.3, -0.72, 0.75, 0.0, 0.3), ("C", 0.72, 0.75, 0.72, 1.3, 0.0, 1.75), ("Z",),
        ("M", -0.1, -0.5), ("L", 0.1, -0.5), ("L", 0.1, 0.5), ("L", -0.1, 0.5), ("Z",),
    ),
    half_width=0.6, half_height=1.75, across=6.6, down=6.4,
)  # fmt: skip

SEED = MotifShape(
    path=(("M", 0.0, -0.75), ("C", 0.5, -0.3, 0.45, 0.45, 0.0, 0.75), ("C", -0.45, 0.45, -0.5, -0.3, 0.0, -0.75), ("Z",)),
    half_width=0.75, half_height=0.75, across=4.6, down=4.6, turns=(62.0, -48.0, 75.0, -66.0, 54.0, -80.0, 68.0),
)  # fmt: skip

SHAPES = {"one-way": LEAF, "two-way": POD, "all-over": SEED}
