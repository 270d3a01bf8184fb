"""A blank as a printer makes it that scales its template: every length by one factor."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.blank import Blank, Panel
from creasewright.blanks.moved import moved_score
from creasewright.geometry.outline import Outline, flattened
from creasewright.geometry.plane_transform import Affine


def scaled_blank(blank: Blank, factor: Fraction) -> Blank:
    """Outline, scores, slits, holes and panels scaled about the head-left corner; names stay."""
    move = Affine(a=factor, d=factor)
    panels = []
    for panel in blank.panels:
        edges = move.loop(panel.outline.edges)
        panels.append(Panel(panel.name, Outline(edges), flattened(edges), panel.area * float(factor) ** 2))
    return replace(
        blank,
        width=blank.width * factor,
        height=blank.height * factor,
        outline=Outline(move.loop(blank.outline.edges)),
        holes=tuple(replace(hole, centre=move.point(hole.centre), across=hole.across * factor) for hole in blank.holes),
        slits=tuple(replace(slit, start=move.point(slit.start), end=move.point(slit.end)) for slit in blank.slits),
        scores=tuple(moved_score(move, score) for score in blank.scores),
        pieces=tuple(moved_score(move, piece) for piece in blank.pieces),
        panels=tuple(panels),
        bands=tuple(replace(band, start=band.start * factor, end=band.end * factor) for band in blank.bands),
    )
