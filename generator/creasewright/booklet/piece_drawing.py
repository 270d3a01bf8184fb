"""A piece drawn flat, front up, in its own frame: true outline, paper, print, holes, slits and fold lines. mm on the page.

Fold lines look as they fold, seen from the front: valley, mountain, or a thin line where they fold both ways or not at all.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import hypot

from msgspec import Struct

from creasewright.blanks.blank import Blank, ScorePiece
from creasewright.booklet.diagrams.boxes import Box, circle, path_lines, polyline
from creasewright.booklet.diagrams.line_code import WIDTHS, line_shape
from creasewright.booklet.diagrams.motifs import motif_group
from creasewright.booklet.diagrams.picture_style import NORMAL, PictureStyle
from creasewright.booklet.diagrams.plan_facets import fill_of
from creasewright.booklet.diagrams.plan_work import joined
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Motif, Polygon2, Spot
from creasewright.booklet.drawing import Command, Item, Path, Pen, Shape
from creasewright.booklet.late_corners import Uncut
from creasewright.booklet.pencilled_letter import Pencilled, pencilled_letter
from creasewright.booklet.text_ruler import TextRuler
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.fitting.seen_faces import sheet_up
from creasewright.fitting.worked import Worked
from creasewright.geometry.outline import chain_of, flattened
from creasewright.geometry.point import Number

PRINTS = ("one-way", "two-way", "all-over")
SILENT_ROOM = 1000.0
CLOSE = 3.0
"""mm on the page: fold lines nearer to each other are thin and solid."""


class PieceDrawing(Struct, frozen=True):
    items: tuple[Item, ...]
    width: float
    height: float
    """mm on the page, a letter beside the piece included; the origin is the head-left corner of the piece's rectangle."""


def fold_looks(worked: Worked, piece: Piece, folds: Mapping[str, Mapping[str, tuple[float, ...]]]) -> dict[str, str]:
    """`valley`, `mountain` or `score` for each score piece of the piece's blank, by name, over all its parts.

    `folds`: angles of each part's score pieces, by part path (`scoring.scored_lines.folds_of`), above 0 with the fronts together.
    Parts of one letter may name their score pieces differently; they are matched by their places.
    """
    blanks = worked.finished.state.blanks if worked.finished else {}
    order = sorted(piece.blank.pieces, key=_place)
    ways: dict[str, set[bool]] = {one.name: set() for one in order}
    for part in piece.parts:
        own = sorted(blanks[part].pieces, key=_place) if part in blanks else order
        for one, its in zip(order, own, strict=True):
            ways[one.name] |= {angle > 0 for angle in folds.get(part, {}).get(its.name, ())}
    looks = {True: "valley", False: "mountain"}
    return {name: looks[next(iter(found))] if len(found) == 1 else "score" for name, found in ways.items()}


def _place(piece: ScorePiece) -> tuple[float, float]:
    return round(float(piece.start.x + piece.end.x), 3), round(float(piece.start.y + piece.end.y), 3)


def front_motif(paper: PaperFacts, turn: int) -> Motif | None:
    """The front's print of a blank turned `turn` clockwise on its sheet, in the blank's own frame; None: the front is bare."""
    if paper.front not in PRINTS:
        return None
    ux, uy, _ = sheet_up(paper, "front", turn)
    # the print's own up (0, -1) goes to (ux, uy), its right (1, 0) to (-uy, ux)
    return Motif(paper.front, paper.tone, (-uy, ux, -ux, -uy, 0.0, 0.0))


def piece_drawing(
    square: Uncut,
    paper: PaperFacts | None,
    turn: int,
    scale: float,
    looks: Mapping[str, str],
    letter: tuple[str, Spot] | None,
    ruler: TextRuler,
    style: PictureStyle = NORMAL,
) -> PieceDrawing:
    """`scale`: page mm for a mm of the piece; `looks`: of each score piece (left out: a thin line); `letter`: what is pencilled on it
    where nobody will see it, and the place, mm on the piece."""
    blank = square.blank
    ring = tuple((x * scale, y * scale) for x, y in flattened(blank.outline.edges))
    wide, high = float(blank.width) * scale, float(blank.height) * scale
    holes = [circle(_spot(h.centre.x, h.centre.y, scale), float(h.across) * scale / 2) for h in blank.holes]
    fill = fill_of(paper, True)
    ground: tuple[Command, ...] = (*polyline(ring, closed=True), *(command for hole in holes for command in hole))
    items: list[Item] = [Shape(ground, None, fill, even_odd=True, role=f"paper {blank.name}")]
    lines = _lines(blank, scale, looks)
    later = [tuple(_spot(x, y, scale) for x, y in chain) for chain in square.later]
    pencilled = _pencilled(letter, scale, ring, [ring, *(chain for _, chain in lines), *later], holes, ruler, style)
    motif = front_motif(paper, turn) if paper else None
    if motif:
        printed = motif_group(motif, (ring,), scale, _room(pencilled.taken), style, ground)
        items += [printed] if printed else []
    items += [shape for kind, chain in lines if (shape := line_shape(kind, chain, style, f"{kind} of {blank.name}"))]
    pen = Pen("INK", WIDTHS["cut"] * style.weight)
    items.append(Shape(polyline(ring, closed=True), pen, role=f"outline of {blank.name}"))
    items += [Shape(hole, pen, role=f"hole of {blank.name}") for hole in holes]
    items += [shape for chain in later if (shape := line_shape("hidden", chain, style, "line cut later"))]
    wide, high = max([wide, *(box.x1 for box in pencilled.taken)]), max([high, *(box.y1 for box in pencilled.taken)])
    return PieceDrawing((*items, *pencilled.items), wide, high)


def _pencilled(
    letter: tuple[str, Spot] | None,
    scale: float,
    ring: Polygon2,
    chains: Sequence[Polygon2],
    holes: Sequence[Path],
    ruler: TextRuler,
    style: PictureStyle,
) -> Pencilled:
    if letter is None:
        return Pencilled((), ())
    room = Room(SILENT_ROOM, SILENT_ROOM)
    for chain in (*chains, (ring[-1], ring[0]), *(line for hole in holes for line in path_lines(hole))):
        room.take_line(chain)
    text, (x, y) = letter
    return pencilled_letter(text, (x * scale, y * scale), ring, room, ruler, style)


def _lines(blank: Blank, scale: float, looks: Mapping[str, str]) -> list[tuple[str, tuple[Spot, ...]]]:
    scores: list[tuple[str, tuple[Spot, ...]]] = [
        (looks.get(one.name, "score"), tuple((x * scale, y * scale) for x, y in chain_of(one.edge)))
        for one in blank.pieces
    ]
    scores = [("score" if _crowded(chain, scores) else look, chain) for look, chain in scores]
    slits = [("slit", (_spot(s.start.x, s.start.y, scale), _spot(s.end.x, s.end.y, scale))) for s in blank.slits]
    return [*joined(scores), *slits]


def _crowded(chain: tuple[Spot, ...], scores: list[tuple[str, tuple[Spot, ...]]]) -> bool:
    """Whether the whole of another line runs beside it, so near that the dashes of both would make one pattern."""
    return any(
        other != chain and all(0.01 < _off(spot, chain) < CLOSE for spot in other) and _beside(chain, other) for _, other in scores
    )


def _off(spot: Spot, chain: tuple[Spot, ...]) -> float:
    """From the straight line through the chain's ends."""
    (ax, ay), (bx, by) = chain[0], chain[-1]
    long = hypot(bx - ax, by - ay) or 1.0
    return abs((bx - ax) * (spot[1] - ay) - (by - ay) * (spot[0] - ax)) / long


def _beside(chain: tuple[Spot, ...], other: tuple[Spot, ...]) -> bool:
    """Neither lies wholly past an end of the other."""
    (ax, ay), (bx, by) = chain[0], chain[-1]
    long = hypot(bx - ax, by - ay) or 1.0
    along = [((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / long for x, y in other]
    return max(along) > 0 and min(along) < long


def _room(taken: Iterable[Box]) -> Room:
    """Motifs keep off what is set on the piece."""
    room = Room(SILENT_ROOM, SILENT_ROOM)
    for box in taken:
        room.take_box(box)
    return room


def _spot(x: Number, y: Number, scale: float) -> Spot:
    return float(x) * scale, float(y) * scale
