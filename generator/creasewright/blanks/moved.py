"""A finished blank shifted in its own frame."""

from typing import TypeVar

from msgspec.structs import replace

from creasewright.blanks.blank import Band, Blank, Panel, Score, ScorePiece, Wrap
from creasewright.geometry.outline import Arc, Outline, flattened
from creasewright.geometry.plane_transform import Affine

One = TypeVar("One", Score, ScorePiece)


def moved_score(move: Affine, score: One) -> One:
    """A score or a piece of one, moved; its start stays its start."""
    edge = move.edge(score.edge)
    return replace(score, start=edge.start, end=edge.end, arc=edge if isinstance(edge, Arc) else None)


def moved_blank(blank: Blank, move: Affine) -> Blank:
    """Everything on the blank moved by a shift; its width and height stay."""
    panels = []
    for panel in blank.panels:
        edges = move.loop(panel.outline.edges)
        panels.append(Panel(panel.name, Outline(edges), flattened(edges), panel.area))
    by = {"across": move.e, "down": move.f}
    return replace(
        blank,
        outline=Outline(move.loop(blank.outline.edges)),
        holes=tuple(replace(hole, centre=move.point(hole.centre)) for hole in blank.holes),
        slits=tuple(replace(slit, start=move.point(slit.start), end=move.point(slit.end)) for slit in blank.slits),
        scores=tuple(moved_score(move, score) for score in blank.scores),
        pieces=tuple(moved_score(move, piece) for piece in blank.pieces),
        panels=tuple(panels),
        bands=tuple(
            Band(band.name, band.direction, band.start + by[band.direction], band.end + by[band.direction])
            for band in blank.bands
        ),
        wrap=_moved_wrap(blank.wrap, move),
    )


def _moved_wrap(wrap: Wrap | None, move: Affine) -> Wrap | None:
    if wrap is None:
        return None
    boards = tuple(replace(place, left=place.left + move.e, head=place.head + move.f) for place in wrap.boards)
    return replace(wrap, boards=boards)
