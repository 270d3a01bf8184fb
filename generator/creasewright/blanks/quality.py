"""Sizes and places that formulas ask of a blank: `width of page`, `tail of lower`, `length of flap/page`."""

from fractions import Fraction

from creasewright.blanks.bands import band_draft, half_caliper
from creasewright.blanks.blank import Band, Blank
from creasewright.blanks.compass import SIDES
from creasewright.blanks.draft import Draft
from creasewright.blanks.faults import Faults
from creasewright.blanks.find import find_panels, find_pieces, panel_edges
from creasewright.blanks.numbers import Numbers, Values
from creasewright.geometry.edges import Box, box_of, edge_length
from creasewright.geometry.outline import Line
from creasewright.geometry.point import Number
from creasewright.geometry.vector import length, minus
from creasewright.reading import design

QUALITIES = ("width", "height", "left", "right", "head", "tail", "length")


def blank_quality(blank: Blank, word: str, of: str | None) -> Number | None:
    """mm: `width`, `height`, or the distance of a side from the blank's left or head edge, of the blank (`of` None), a
    panel or a band; `length` of a score or of an edge (`head of page`). None where there is no such thing."""
    if word == "length":
        return _length(blank, of) if of is not None else None
    zero = blank.width * 0
    box: Box | None = (zero, zero, blank.width, blank.height) if of is None or of == blank.name else _box(blank, of)
    return None if box is None else quality_of_box(box, word)


def quality_of_box(box: Box, word: str) -> Number | None:
    left, head, right, tail = box
    known = {"width": right - left, "height": tail - head, "left": left, "head": head, "right": right, "tail": tail}
    return known.get(word)


def _band_box(band: Band, width: Number, height: Number) -> Box:
    zero = width * 0
    return (band.start, zero, band.end, height) if band.direction == "across" else (zero, band.start, width, band.end)


def _box(blank: Blank, of: str) -> Box | None:
    for band in blank.bands:
        if band.name == of:
            return _band_box(band, blank.width, blank.height)
    edges = [edge for panel in find_panels(blank, of) for edge in panel.outline.edges]
    return box_of(edges) if edges else None


def _length(blank: Blank, of: str) -> Number | None:
    side, _, panel = of.partition(" of ")
    if panel and side in SIDES:
        found = find_panels(blank, panel)
        return sum(edge_length(edge) for edge in panel_edges(found[0], side)) if found else None
    if of in SIDES:
        return sum(edge_length(edge) for edge in _outer_edges(blank, of))
    pieces = find_pieces(blank, of)
    total: Number = blank.width * 0
    for piece in pieces:
        total = total + (length(minus(piece.end, piece.start)) if piece.arc is None else edge_length(piece.arc))
    return total if pieces else None


def _outer_edges(blank: Blank, side: str) -> list[Line]:
    left, head, right, tail = 0.0, 0.0, float(blank.width), float(blank.height)
    axis, at = {"left": (0, left), "head": (1, head), "right": (0, right), "tail": (1, tail)}[side]
    return [
        edge
        for edge in blank.outline.edges
        if isinstance(edge, Line) and all(abs(float(p[axis]) - at) < 1e-6 for p in (edge.start, edge.end))
    ]


def written_quality(
    written: design.Blank, word: str, of: str | None, values: Values, caliper: Fraction | None = None
) -> Number | None:
    """The same for a blank of bands before it is shaped, so that its own scores may ask `tail of lower`: from its bands and
    cells as written. None for other blanks, for what is no band, and after a fault. `caliper` as in `shape_blank`."""
    if not isinstance(written.shape, design.SheetShape):
        return None
    faults = Faults()
    half = half_caliper(written, caliper, faults)
    draft: Draft = band_draft(written, written.shape, Numbers(values, faults), half, faults)
    if faults.found:
        return None
    box = draft.box if of is None else draft.box_named(of)
    return None if box is None else quality_of_box(box, word)
