"""Blanks made from another: its mirror image, or its panels joined and moved in."""

from collections.abc import Sequence

from msgspec.structs import replace

from creasewright.blanks.blank import Band, Blank, Cutout, Hole, LikeSource, Panel, Score, ScorePiece, Slit, Wrap
from creasewright.blanks.compass import mirrored
from creasewright.blanks.draft import CutMark, Draft, Region, Run
from creasewright.blanks.faults import Faults, in_mm, listed
from creasewright.blanks.find import find_panels
from creasewright.blanks.numbers import Numbers
from creasewright.blanks.panels import left_first, numbered, reading_order
from creasewright.blanks.references import turned_round
from creasewright.geometry.arrangement import Strand, arrange
from creasewright.geometry.edges import Box, box_of, reverse
from creasewright.geometry.loops import inner_point, tidied
from creasewright.geometry.offset import inset_outline
from creasewright.geometry.outline import Arc, Edge, Outline, Polygon, flattened
from creasewright.geometry.plane_transform import Affine, left_for_right, rotation, shift
from creasewright.geometry.point import Point
from creasewright.geometry.tolerance import SAME
from creasewright.reading import design
from creasewright.reading.design import Text


def mirror_image(blank: Blank, name: str, of: str) -> Blank:
    """The blank's outline reflected left for right about its own middle. Panels and scores keep their names, and a pair
    of bands is named as it now lies (`flap/page` becomes `page/flap`)."""
    move = left_for_right(blank.width)
    scores = tuple(_mirrored_score(move, score) for score in blank.scores)
    return Blank(
        name=name, paper=blank.paper, where=blank.where, width=blank.width, height=blank.height,
        outline=Outline(_rim(move, blank.outline.edges)),
        holes=tuple(Hole(hole.name, move.point(hole.centre), hole.across) for hole in blank.holes),
        slits=tuple(Slit(slit.name, move.point(slit.start), move.point(slit.end)) for slit in blank.slits),
        scores=scores,
        panels=tuple(sorted((_panel(move, panel) for panel in blank.panels), key=lambda panel: reading_order(panel.polygon))),
        pieces=numbered([_piece(move, piece) for piece in blank.pieces]),
        cutouts=tuple(Cutout(cut.template, mirrored(cut.what), cut.panel) for cut in blank.cutouts),
        corner_radius={mirrored(word): r for word, r in blank.corner_radius.items()} if blank.corner_radius else None,
        mirror_of=of, grain=blank.grain, turn=blank.turn,
        bands=_bands(blank), paper_up=blank.paper_up, wrap=_wrap(blank),
    )  # fmt: skip


def _rim(move: Affine, edges: Sequence[Edge]) -> tuple[Edge, ...]:
    return move.loop(tuple(edges))


def _panel(move: Affine, panel: Panel) -> Panel:
    edges = _rim(move, panel.outline.edges)
    return Panel(panel.name, Outline(edges), flattened(edges), panel.area)


def _as_it_lies(score: Score | ScorePiece) -> str:
    name = score.name if isinstance(score, Score) else score.score
    return name if _level(score) else turned_round(name)


def _turned_edge(move: Affine, score: Score | ScorePiece) -> Edge:
    """Its line or arc moved, from its end more to the left (then more to the head)."""
    edge = move.edge(score.edge)
    return edge if left_first(edge.start, edge.end)[0] == edge.start else reverse(edge)


def _mirrored_score(move: Affine, score: Score) -> Score:
    edge = _turned_edge(move, score)
    return Score(_as_it_lies(score), edge.start, edge.end, edge if isinstance(edge, Arc) else None)


def _level(score: Score | ScorePiece) -> bool:
    return abs(float(score.start.y - score.end.y)) <= SAME


def _piece(move: Affine, piece: ScorePiece) -> ScorePiece:
    first, second = (piece.first, piece.second) if _level(piece) else (piece.second, piece.first)
    edge = _turned_edge(move, piece)
    arc = edge if isinstance(edge, Arc) else None
    return ScorePiece(piece.name, _as_it_lies(piece), edge.start, edge.end, first, second, arc)


def _bands(blank: Blank) -> tuple[Band, ...]:
    across = [band for band in blank.bands if band.direction == "across"]
    down = [band for band in blank.bands if band.direction == "down"]
    turned = [Band(b.name, b.direction, blank.width - b.end, blank.width - b.start) for b in reversed(across)]
    return (*turned, *down)


def _wrap(blank: Blank) -> Wrap | None:
    if blank.wrap is None:
        return None
    boards = tuple(replace(place, left=blank.width - place.left - place.width) for place in reversed(blank.wrap.boards))
    return replace(blank.wrap, boards=boards)


def draft_of(blank: Blank) -> Draft:
    """A finished blank as a draft, to make further changes to."""
    regions = tuple(Region(panel.name, box_of(panel.outline.edges), panel.polygon) for panel in blank.panels)
    middles = {panel.name: Point(*inner_point(panel.polygon)) for panel in blank.panels}
    return Draft(
        blank.width, blank.height, blank.outline, regions, blank.bands,
        tuple(Run(score.name, score.start, score.end, arc=score.arc) for score in blank.scores), blank.slits, blank.holes,
        marks=tuple(CutMark(cut.template, cut.what, middles[cut.panel]) for cut in blank.cutouts),
        radii=tuple((blank.corner_radius or {}).items()), source=blank.source, mirror_of=blank.mirror_of,
        wrap=blank.wrap,
    )  # fmt: skip


def like_draft(written: design.Blank, shape: design.LikeShape, numbers: Numbers, faults: Faults) -> Draft:
    """The joined outline of panels of another blank, moved in by `inset`, as it will lie on the side it is seen from."""
    source, panels = _source(shape, numbers, faults)
    faults.stop_if_any()
    assert source is not None
    rims = arrange([Strand(edge, 0) for panel in panels for edge in panel.outline.edges]).outer
    if len(rims) != 1:
        faults.add(written.where, f"the panels of `like` do not lie together: they make {len(rims)} pieces", "name neighbours")
        faults.stop_if_any()
    rim = Outline(tidied([reverse(edge) for edge in reversed(rims[0])]))
    inset = numbers.length(shape.inset) if shape.inset is not None else 0
    outline = inset_outline(rim, inset) if inset else rim
    if outline is None:
        text = shape.inset or Text("", written.where)
        faults.add(text.where, f"`inset: {text}` comes to {in_mm(inset)}, which leaves nothing of the panels", "make it smaller")
    faults.stop_if_any()
    assert outline is not None
    return _moved(source, panels, outline, shape, numbers)


def _source(shape: design.LikeShape, numbers: Numbers, faults: Faults) -> tuple[Blank | None, list[Panel]]:
    blank: Blank | None = None
    panels: list[Panel] = []
    for text in shape.panels:
        name, _, of = text.text.rpartition(" of ")
        if not name and blank is None:
            faults.add(text.where, f"`{text}` does not say of which blank", "write `PANEL of BLANK`")
            continue
        if blank is not None and not name:  # of the blank that was named before it
            name, of = text.text, blank.name
        other = numbers.values.blank(Text(of, text.where))
        if blank is not None and other.name != blank.name:
            faults.add(text.where, f"`{text}` is of another blank than the panels before it", "take all from one blank")
            continue
        blank = other
        found = find_panels(other, name)
        if not found:
            known = listed([panel.name for panel in other.panels])
            faults.add(text.where, f"`{name}` is no panel of `{of}`", f"known there: {known}")
        panels += [panel for panel in found if panel not in panels]
    return blank, panels


def _moved(source: Blank, panels: list[Panel], outline: Outline, shape: design.LikeShape, numbers: Numbers) -> Draft:
    move = Affine()
    if shape.seen_from == "back":
        move = left_for_right(source.width)
    if shape.turned is not None:
        move = move.then(rotation(numbers.number(shape.turned)))
    left, head, _, _ = box_of(move.loop(outline.edges))
    move = move.then(shift(-left, -head))
    rim = Outline(move.loop(outline.edges))
    box = box_of(rim.edges)
    names = {panel.name for panel in panels}
    runs = [_moved_run(move, piece) for piece in source.pieces if piece.first in names and piece.second in names]
    regions = tuple(_region_of(move, panel) for panel in panels) if runs else ()
    like = LikeSource(source.name, tuple(panel.name for panel in panels), move.inverse().floats(), shape.seen_from)
    return Draft(box[2] - box[0], box[3] - box[1], rim, regions, (), tuple(runs), source=like)


def _moved_run(move: Affine, piece: ScorePiece) -> Run:
    edge = move.edge(piece.edge)
    return Run(piece.score, edge.start, edge.end, arc=edge if isinstance(edge, Arc) else None)


def _region_of(move: Affine, panel: Panel) -> Region:
    edges = move.loop(panel.outline.edges)
    box: Box = box_of(edges)
    polygon: Polygon = flattened(edges)
    return Region(panel.name, box, polygon)
