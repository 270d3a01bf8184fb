"""A blank as written, with one of its scores measured from the other end: a classic slip of the score board."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.blank import Band, Blank
from creasewright.geometry.point import Number
from creasewright.problems import NOWHERE
from creasewright.reading import design
from creasewright.units.quantity import MM_PER_INCH

OTHER_END = {"left": "right", "right": "left", "head": "tail", "tail": "head"}
SAME = Fraction(1, 100)
"""mm: a score so near its other-end place is the same line."""


def wrongly_scored(written: design.Blank, right: Blank) -> list[tuple[str, design.Blank]]:
    """Score name and the blank as written with that score at its distance from the opposite edge.

    `right` is the blank as it should be. Empty for shapes whose scores are not measured from an edge, and for scores in the middle.
    Of many scores the first and the last are taken.
    """
    found = [*moved_bands(written, right), *moved_scores(written)]
    return found if len(found) <= MOST else [found[0], found[-1]]


MOST = 4


def moved_bands(written: design.Blank, right: Blank) -> list[tuple[str, design.Blank]]:
    shape = written.shape
    if not isinstance(shape, design.SheetShape):
        return []
    found = []
    for key, size in (("across", right.width), ("down", right.height)):
        bands = [band for band in right.bands if band.direction == key]
        ends = [Fraction(band.end) for band in bands[:-1]]
        for number, at in enumerate(ends):
            other = Fraction(size) - at
            rest = ends[:number] + ends[number + 1 :]
            if min(abs(other - place) for place in (*ends, Fraction(size), Fraction(0))) < SAME:
                continue
            name = f"{bands[number].name}/{bands[number + 1].name}"
            found.append((name, replace(written, sizes="score to score", shape=reshaped(shape, key, bands, sorted([*rest, other]), size))))
    return found


def reshaped(shape: design.SheetShape, key: str, bands: list[Band], ends: list[Fraction], size: Number) -> design.SheetShape:
    starts = [Fraction(0), *ends]
    stops = [*ends, Fraction(size)]
    written = tuple(
        design.Band(band.name, NOWHERE, exactly(stop - start)) for band, start, stop in zip(bands, starts, stops, strict=True)
    )
    return replace(shape, across=written) if key == "across" else replace(shape, down=written)


def exactly(mm: Fraction) -> design.Text:
    """A length as text that reads the same in both systems, to a millionth of a millimetre."""
    return design.Text(f"{float(mm / MM_PER_INCH):.8f} in | {float(mm):.6f} mm", NOWHERE)


def moved_scores(written: design.Blank) -> list[tuple[str, design.Blank]]:
    """Scores written with a distance from an edge of the blank."""
    found = []
    for number, score in enumerate(written.scores):
        edge = str(score.from_) if score.from_ is not None else ""
        if edge in OTHER_END and score.at:
            turned = replace(score, from_=design.Text(OTHER_END[edge], score.where))
            scores = (*written.scores[:number], turned, *written.scores[number + 1 :])
            found.append((score.name, replace(written, scores=scores)))
    return found
