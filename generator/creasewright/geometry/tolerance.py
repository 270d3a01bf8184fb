"""The one tolerance of the geometry, in mm."""

SAME = 1e-6
"""Two places closer than this are one place."""


def same(a: float, b: float) -> bool:
    return abs(a - b) <= SAME
