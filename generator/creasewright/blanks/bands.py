"""A sheet and its bands: across (left to right), down (head to tail), or neither.

What a size means. `score to score` sizes are drawn as they are. For `inside` and `outside` sizes the score line is taken at
mid-caliper (common practice, no source): a fold takes half a caliper off the inside of each neighbour, so an inside size
grows by half a caliper for each fold beside the band (a band between two folds by a whole one, an end band by half), and an
outside size shrinks by as much.
"""

from fractions import Fraction
from itertools import pairwise

from creasewright.blanks.blank import Band
from creasewright.blanks.draft import Draft, Region, box_polygon, rectangle
from creasewright.blanks.faults import Faults, in_mm
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.references import turned_round
from creasewright.geometry.point import Number
from creasewright.reading import design

ZERO = Fraction(0)


def half_caliper(written: design.Blank, caliper: Fraction | None, faults: Faults) -> Fraction:
    """What each fold beside a size adds to it, mm; a missing caliper is asked for."""
    if written.sizes not in ("inside", "outside"):
        return ZERO
    if caliper is None:
        faults.add(
            written.where,
            f"the sizes of `{written.name}` are {written.sizes} sizes, which need the thickness of its paper",
            "give the paper its `caliper`, or write `sizes: score to score`",
        )
        return ZERO
    return caliper / 2 if written.sizes == "inside" else -caliper / 2


def band_draft(
    written: design.Blank, shape: design.SheetShape, numbers: Numbers, half: Fraction, faults: Faults
) -> Draft:
    """The sheet with its bands laid out, or faults."""
    gone = {score.name for score in written.scores if score.removed}
    across = _laid_out(shape.across, "across", numbers, half, gone, faults)
    down = _laid_out(shape.down, "down", numbers, half, gone, faults)
    width = _extent(written, "width", shape.width, across, numbers, faults)
    height = _extent(written, "height", shape.height, down, numbers, faults)
    outline = rectangle((ZERO, ZERO, width, height))
    regions = _regions(written.name, width, height, across, down)
    return Draft(width, height, outline, regions, (*across, *down))


def _extent(
    written: design.Blank, word: str, size: design.Text | None, bands: list[Band], numbers: Numbers, faults: Faults
) -> Number:
    if bands:
        return bands[-1].end
    if size is None:
        faults.add(written.where, f"`{written.name}` has no {word}", f"give `{word}`, or bands in that direction")
        return Fraction(1)
    value = numbers.length(size)
    if value <= 0:
        faults.add(size.where, f"the {word} `{size}` comes to {in_mm(value)}", "make it more than 0")
    return value


def _laid_out(
    entries: tuple[design.Band | design.Repeat, ...],
    direction: str,
    numbers: Numbers,
    half: Fraction,
    gone: set[str],
    faults: Faults,
) -> list[Band]:
    named = _named(entries, numbers, faults)
    names = [name for name, _ in named]
    for index, (name, band) in enumerate(named):
        if name in names[:index]:
            faults.add(band.where, f"there are two bands `{name}` {direction}", "give each its own name")
    bands: list[Band] = []
    at = ZERO
    for index, (name, band) in enumerate(named):
        size = numbers.length(band.size) + half * _folds_beside(names, index, gone)
        if size <= 0:
            _too_small(name, band, size, faults)
        bands.append(Band(name, direction, at, at + size))
        at += size
    return bands


def _too_small(name: str, band: design.Band, size: Fraction, faults: Faults) -> None:
    faults.add(band.size.where, f"the band `{name}`, `{band.size}`, comes to {in_mm(size)}", "make it more than 0")


def _folds_beside(names: list[str], index: int, gone: set[str]) -> int:
    pairs = [f"{a}/{b}" for a, b in pairwise(names[max(0, index - 1) : index + 2])]
    return sum(pair not in gone and turned_round(pair) not in gone for pair in pairs)


def _named(
    entries: tuple[design.Band | design.Repeat, ...], numbers: Numbers, faults: Faults
) -> list[tuple[str, design.Band]]:
    named: list[tuple[str, design.Band]] = []
    for entry in entries:
        if isinstance(entry, design.Band):
            named.append((entry.name, entry))
            continue
        times = numbers.count(entry.times)
        if times < 1:
            faults.add(entry.times.where, f"`repeat: {entry.times}` comes to {times}", "repeat the bands at least once")
        named += [(f"{band.name} {number}", band) for number in range(1, times + 1) for band in entry.bands]
    return named


def _regions(blank: str, width: Number, height: Number, across: list[Band], down: list[Band]) -> tuple[Region, ...]:
    columns = [(band.name, band.start, band.end) for band in across] or [("", ZERO, width)]
    rows = [(band.name, band.start, band.end) for band in down] or [("", ZERO, height)]
    regions = []
    for row, head, tail in rows:
        for column, left, right in columns:
            box = (left, head, right, tail)
            regions.append(Region(f"{row} {column}".strip() or blank, box, box_polygon(box)))
    return tuple(regions)


def band_lines(draft: Draft) -> list[tuple[str, str, Number]]:
    """The score between each two neighbours: its name, the direction of its bands, and where it lies."""
    return [
        (f"{a.name}/{b.name}", a.direction, b.start)
        for a, b in pairwise(draft.bands)
        if a.direction == b.direction
    ]

