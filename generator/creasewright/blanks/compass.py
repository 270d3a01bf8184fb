"""Compass words of something that lies with its head away from you: points of a rectangle, directions, mirror images."""

from fractions import Fraction

from creasewright.geometry.edges import Box
from creasewright.geometry.point import Number, Point

_HALF = Fraction(1, 2)

POINTS: dict[str, tuple[Fraction, Fraction]] = {
    "head-left": (Fraction(0), Fraction(0)),
    "mid head": (_HALF, Fraction(0)),
    "head-right": (Fraction(1), Fraction(0)),
    "mid left": (Fraction(0), _HALF),
    "centre": (_HALF, _HALF),
    "mid right": (Fraction(1), _HALF),
    "tail-left": (Fraction(0), Fraction(1)),
    "mid tail": (_HALF, Fraction(1)),
    "tail-right": (Fraction(1), Fraction(1)),
}
"""Parts of the width and the height, from the head-left corner."""

CORNERS = ("head-left", "head-right", "tail-right", "tail-left")

DIRECTIONS: dict[str, tuple[float, float]] = {
    "head": (0.0, -1.0),
    "right": (1.0, 0.0),
    "tail": (0.0, 1.0),
    "left": (-1.0, 0.0),
    "head-right": (0.5**0.5, -(0.5**0.5)),
    "tail-right": (0.5**0.5, 0.5**0.5),
    "tail-left": (-(0.5**0.5), 0.5**0.5),
    "head-left": (-(0.5**0.5), -(0.5**0.5)),
}
"""Unit vectors, y towards the tail."""

SIDES = ("head", "right", "tail", "left")
"""Clockwise, as the edges of a rectangle run."""


def point_in(box: Box, word: str) -> Point | None:
    """The point of a rectangle that a compass word means; None for other words."""
    parts = POINTS.get(word)
    if parts is None:
        return None
    left, head, right, tail = box
    return Point(left + (right - left) * parts[0], head + (tail - head) * parts[1])


def side_of(box: Box, word: str) -> Number | None:
    """Where a side of a rectangle lies: its x for left and right, its y for head and tail."""
    return dict(zip(("left", "head", "right", "tail"), box, strict=True)).get(word)


def mirrored(words: str) -> str:
    """Left for right in every compass word of a text."""
    swapped = {"left": "right", "right": "left"}
    parts = [["-".join(swapped.get(half, half) for half in word.split("-"))] for word in words.split(" ")]
    return " ".join(part for one in parts for part in one)


def place_words(offsets: list[tuple[float, float]]) -> list[str]:
    """A word for each of several parts by where its centre lies: left and right if that tells them apart, else head and
    tail, else all eight directions; numbered where two share a word.

    Offsets are from the centre of what they are parts of, in its own widths and heights.
    """
    for near, far, axis in (("left", "right", 0), ("head", "tail", 1)):
        words = [near if offset[axis] < -1e-3 else far if offset[axis] > 1e-3 else "" for offset in offsets]
        if "" not in words and len(set(words)) == len(words):
            return words
    words = [_direction_word(x, y) for x, y in offsets]
    return [
        word if words.count(word) == 1 else f"{word} {words[: index + 1].count(word)}" for index, word in enumerate(words)
    ]


def _direction_word(x: float, y: float) -> str:
    size = (x * x + y * y) ** 0.5
    if size < 0.02:
        return "middle"
    return max(DIRECTIONS, key=lambda word: DIRECTIONS[word][0] * x + DIRECTIONS[word][1] * y)
