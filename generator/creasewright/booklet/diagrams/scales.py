"""The scales a picture may have, and how they are written."""

from fractions import Fraction

Scale = tuple[str, float]
"""As printed, and mm on the page for a mm of the thing."""


def _scale(page: str, thing: str) -> Scale:
    return f"{page}:{thing}", float(Fraction(page) / Fraction(thing))


SCALES: tuple[Scale, ...] = tuple(
    _scale(page, thing)
    for page, thing in (
        ("2", "1"), ("1", "1"), ("1", "1.5"), ("1", "2"), ("1", "2.5"), ("1", "3"),
        ("1", "4"), ("1", "5"), ("1", "6"), ("1", "8"), ("1", "10"),
    )
)  # fmt: skip
"""Largest first."""

LENS_SCALES: tuple[Scale, ...] = (
    _scale("1", "2"), _scale("1", "1"), _scale("2", "1"), _scale("3", "1"), _scale("4", "1"), _scale("5", "1"), _scale("10", "1"),
)  # fmt: skip
"""Smallest first: a lens takes the first that shows its measures."""


def scale_named(name: str) -> Scale:
    """`1:4` to its factor, also one that is not in the list."""
    page, _, thing = name.partition(":")
    return _scale(page, thing)
