"""A blank as written, with its scores of one direction measured from the other end: a classic slip, the wrong edge at the stop."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.blank import Band, Blank
from creasewright.geometry.point import Number
from creasewright.problems import NOWHERE
from creasewright.reading import design
from creasewright.units.quantity import MM_PER_INCH

OTHER_END = {"left": "right", "right": "left", "head": "tail", "tail": "head"}
ENDS = {"across": ("left", "right"), "down": ("head", "tail")}
SAME = Fraction(1, 100)
"""mm: scores so near to places of one another are the same lines."""


def wrongly_scored(written: design.Blank, right: Blank) -> list[tuple[str, design.Blank]]:
    """Direction (`across`: the scores that part left from right; `down`) and the blank as written with all scores of it measured from
    the opposite edge.

    `right` is the blank as it should be. Empty for shapes whose scores are not measured from an edge, and for scores that lie the
    same from both.
    """
    found = []
    for key in ENDS:
        wrong = from_other_end(written, right, key)
        if wrong is not None:
            found.append((key, wrong))
    return found


def from_other_end(written: design.Blank, right: Blank, key: str) -> design.Blank | None:
    wrong = written
    if isinstance(written.shape, design.SheetShape):
        size = right.width if key == "across" else right.height
        bands = [band for band in right.bands if band.direction == key]
        ends = [Fraction(band.end) for band in bands[:-1]]
        turned = sorted(Fraction(size) - at for at in ends)
        if any(abs(a - b) >= SAME for a, b in zip(ends, turned, strict=True)):
            wrong = replace(wrong, sizes="score to score", shape=reshaped(written.shape, key, bands, turned, size))
    scores = tuple(
        replace(score, from_=design.Text(OTHER_END[str(score.from_)], score.where)) if is_measured(score, key) else score
        for score in written.scores
    )
    if scores != written.scores:
        wrong = replace(wrong, scores=scores)
    return wrong if wrong is not written else None


def is_measured(score: design.ScoreWritten, key: str) -> bool:
    """Written with a distance from an edge of the blank."""
    return score.from_ is not None and str(score.from_) in ENDS[key] and bool(score.at)


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
