"""Printed page numbers to the page labels of a file (ISO 32000-1, 12.4.2)."""

import re

from msgspec import Struct


class LabelRange(Struct, frozen=True):
    """From page `index` (counted from 0) on: the prefix and, unless `start` is None, a number counting up from it."""

    index: int
    prefix: str
    start: int | None


def label_ranges(labels: tuple[str, ...]) -> tuple[LabelRange, ...]:
    """The fewest ranges that give every page the label it carries in print."""
    ranges: list[LabelRange] = []
    expected: tuple[str, int | None] | None = None
    for index, label in enumerate(labels):
        prefix, start = _parted(label)
        if (prefix, start) != expected:
            ranges.append(LabelRange(index, prefix, start))
        expected = (prefix, None if start is None else start + 1)
    return tuple(ranges)


def _parted(label: str) -> tuple[str, int | None]:
    """`T-12` is `T-` and 12. A number with leading noughts is part of the prefix."""
    found = re.fullmatch(r"(.*?)([1-9][0-9]{0,8})", label)
    return (found[1], int(found[2])) if found else (label, None)
