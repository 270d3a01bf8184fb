"""The formulas of one blank, worked out before anything is drawn, so that every one that cannot be is told at once."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Protocol

from creasewright.blanks.blank import Blank
from creasewright.blanks.faults import Faults
from creasewright.problems import ProblemsFound, Where
from creasewright.reading import design
from creasewright.reading.design import Text


class Values(Protocol):
    """What the measures know. Each raises ProblemsFound where the text cannot be worked out."""

    def length(self, text: Text) -> Fraction:
        """mm."""

    def pair(self, texts: tuple[Text, ...]) -> tuple[Fraction, Fraction]:
        """Two lengths in mm, or one text that names a measure which is a pair."""

    def count(self, text: Text) -> int:
        """How many."""

    def number(self, text: Text) -> Fraction:
        """Degrees, ratios."""

    def blank(self, name: Text) -> Blank:
        """Another blank, already shaped."""

    def written(self, name: Text) -> design.Blank:
        """A blank as written."""

    def caliper(self, paper: str, where: Where) -> Fraction:
        """mm; asked for where the paper has none."""

    def replaced(self, replacements: tuple[tuple[Text, Text], ...]) -> "Values":
        """The same with some measures given other formulas."""


class Numbers:
    """Values of this blank's formulas. A formula that fails is noted once and stands as 1; the caller stops before it is used."""

    def __init__(self, values: Values, faults: Faults) -> None:
        self.values = values
        self._faults = faults
        self._lengths: dict[Text, Fraction] = {}
        self._legs: dict[tuple[Text, ...], tuple[Fraction, Fraction]] = {}

    def length(self, text: Text) -> Fraction:
        """mm."""
        if text not in self._lengths:
            try:
                self._lengths[text] = self.values.length(text)
            except ProblemsFound as caught:
                self._faults.take(caught)
                self._lengths[text] = Fraction(1)
        return self._lengths[text]

    def legs(self, texts: tuple[Text, ...]) -> tuple[Fraction, Fraction]:
        """Two lengths; one text names a pair, or one length for both."""
        if texts not in self._legs:
            try:
                self._legs[texts] = self.values.pair(texts)
            except ProblemsFound as caught:
                if len(texts) == 1:
                    both = self.length(texts[0])
                    self._legs[texts] = (both, both)
                else:
                    self._faults.take(caught)
                    self._legs[texts] = (Fraction(1), Fraction(1))
        return self._legs[texts]

    def number(self, text: Text) -> Fraction:
        try:
            return self.values.number(text)
        except ProblemsFound as caught:
            self._faults.take(caught)
            return Fraction(1)

    def count(self, text: Text) -> int:
        try:
            return self.values.count(text)
        except ProblemsFound as caught:
            self._faults.take(caught)
            return 1


def work_out(written: design.Blank, numbers: Numbers) -> None:
    """Ask for every length of the blank once; what cannot be worked out is then among the faults."""
    for text in _lengths(written):
        numbers.length(text)
    for corner in written.corners:
        if corner.cut is not None:
            numbers.legs(corner.cut)
    for score in written.scores:
        if score.across is not None:
            numbers.legs(score.at)


def _lengths(written: design.Blank) -> Iterator[Text]:
    found: list[Text | None] = list(_shape_lengths(written.shape))
    found += [corner.round for corner in written.corners]
    found += [edge.rise for edge in written.edges]
    found += [text for notch in written.notches for text in (notch.width, notch.depth)]
    found += [hole.across for hole in written.holes]
    found += [text for score in written.scores if score.across is None for text in score.at]
    found += [score.rise for score in written.scores]
    found += [text for place in _places(written) for text in place.xy or ()]
    yield from (text for text in found if text is not None)


def _places(written: design.Blank) -> Iterator[design.Place]:
    yield from (notch.at for notch in written.notches)
    yield from (hole.at for hole in written.holes)
    for slit in written.slits:
        yield from slit.line or ()
    for score in written.scores:
        yield from (*(score.line or ()), *(score.span or ()))
    if written.panels is not None:
        yield from (place for _, place in written.panels.anchors)


def _shape_lengths(shape: design.Shape) -> Iterator[Text | None]:
    match shape:
        case design.SheetShape():
            yield from (shape.width, shape.height)
            for entry in (*shape.across, *shape.down):
                yield from (band.size for band in (entry.bands if isinstance(entry, design.Repeat) else (entry,)))
        case design.FlapsShape():
            yield from (shape.width, shape.height, shape.side)
            for flap in shape.flaps:
                yield from (flap.depth, flap.far_rise, flap.seam_rise, *(flap.over or ()))
        case design.OutlineShape():
            for point in shape.points:
                yield from (*(point.place.xy or ()), point.rise)
                yield from (text for handle in point.by or () for text in handle.xy or ())
        case design.LikeShape():
            yield shape.inset
        case design.WrapShape():
            yield from (shape.gaps, shape.turn_in, shape.corner_gap)
        case _:
            return
