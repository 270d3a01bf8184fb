"""Paths of the drawing list to path operators of a content stream: mm to pt, y still down."""

from collections.abc import Iterable
from functools import lru_cache

from creasewright.booklet.drawing import Path

PT_PER_MM = 72 / 25.4
Extent = tuple[float, float, float, float]
"""Left, top, right, bottom in mm, y down."""

_OPERATORS = {
    "M": "%.4f %.4f m",
    "L": "%.4f %.4f l",
    "C": "%.4f %.4f %.4f %.4f %.4f %.4f c",
    "Z": "h",
}


@lru_cache(maxsize=4096)
def _pattern(commands: str) -> str:
    return " ".join([_OPERATORS[command] for command in commands])


class PathOperators:
    """Remembers what a path became, since a motif or a clip is drawn many times. Four decimals of a pt are 0.00004 mm."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[Path, str]] = {}

    def __call__(self, path: Path) -> str:
        known = self._known.get(id(path))
        if known is not None and known[0] is path:
            return known[1]
        text = _operators(path)
        self._known[id(path)] = (path, text)
        return text


def _operators(path: Path) -> str:
    commands = ""
    values: list[float] = []
    for command in path:
        commands += command[0]
        values += command[1:]
    text = _pattern(commands) % tuple([value * PT_PER_MM for value in values])
    if "n" in text:
        raise ValueError(f"a path holds a coordinate that is no number: {path!r}")
    return text


def path_extent(path: Path) -> Extent | None:
    """The smallest upright rectangle round the path's points and control points."""
    values = [value for command in path for value in command[1:]]
    xs, ys = values[::2], values[1::2]
    return (float(min(xs)), float(min(ys)), float(max(xs)), float(max(ys))) if xs else None


def united(extents: Iterable[Extent | None]) -> Extent | None:
    some = [extent for extent in extents if extent]
    if not some:
        return None
    lefts, tops, rights, bottoms = zip(*some, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def common(a: Extent | None, b: Extent | None) -> Extent | None:
    if a is None or b is None:
        return None
    left, top, right, bottom = max(a[0], b[0]), max(a[1], b[1]), min(a[2], b[2]), min(a[3], b[3])
    return (left, top, right, bottom) if left <= right and top <= bottom else None


def moved(extent: Extent | None, dx: float, dy: float) -> Extent | None:
    return extent and (extent[0] + dx, extent[1] + dy, extent[2] + dx, extent[3] + dy)
