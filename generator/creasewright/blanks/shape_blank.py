"""A blank as written, and the values of its formulas, to a Blank with its panels.

First the formulas, then the shape, then its changes in the order of the language (corners, edges, notches, what is cut away,
holes, slits), then scores and panels. All faults of a stage come at once.
"""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.blanks.bands import band_draft, half_caliper
from creasewright.blanks.blank import Blank, Cutout, Panel
from creasewright.blanks.corners import change_corners
from creasewright.blanks.cut_away import cut_crossings
from creasewright.blanks.derived import draft_of, like_draft, mirror_image
from creasewright.blanks.draft import Draft
from creasewright.blanks.edge_changes import change_edges, cut_notches
from creasewright.blanks.faults import Faults
from creasewright.blanks.flaps import flaps_draft
from creasewright.blanks.moved import moved_blank
from creasewright.blanks.numbers import Numbers, Values, work_out
from creasewright.blanks.outline_shape import outline_draft
from creasewright.blanks.panel_names import panel_names
from creasewright.blanks.panels import Faces, find_faces, named_pieces
from creasewright.blanks.rulings import ruled
from creasewright.blanks.slits import bounded, cut_slits, punch_holes
from creasewright.blanks.wrapped import wrap_draft
from creasewright.geometry.edges import box_of
from creasewright.geometry.loops import gap_to, holds
from creasewright.geometry.plane_transform import shift
from creasewright.geometry.point import Point
from creasewright.reading import design


def shape_blank(
    written: design.Blank, default_paper: str | None, values: Values, caliper: Fraction | None = None
) -> Blank:
    """The blank, or ProblemsFound with its faults. `caliper` (mm, of its paper) is needed for inside and outside sizes only."""
    shape = written.shape
    if isinstance(shape, design.SameShape):
        return _same(written, shape, default_paper, values, caliper)
    faults = Faults()
    if isinstance(shape, design.MirrorShape):
        image = mirror_image(values.blank(shape.of), written.name, shape.of.text)
        image = replace(image, where=written.where, grain=written.grain or image.grain, turn=written.turn)
        own = written.paper.text if written.paper is not None else image.paper
        image = replace(image, paper=own, paper_up=written.paper_up)
        if not _changed(written):
            return image
        return _finish(draft_of(image), written, image.paper, Numbers(values, faults), faults, image)
    paper = written.paper.text if written.paper is not None else default_paper
    if paper is None:
        faults.add(written.where, f"`{written.name}` says no paper, and there are several", "add `paper:` with the name of one")
    numbers = Numbers(values, faults)
    work_out(written, numbers)
    faults.stop_if_any()
    draft = _drafted(written, numbers, caliper, faults)
    faults.stop_if_any()
    return _finish(draft, written, paper or "", numbers, faults, None)


def _same(
    written: design.Blank, shape: design.SameShape, default_paper: str | None, values: Values, caliper: Fraction | None
) -> Blank:
    """The other blank as written, with this one's name and what this one says besides, worked with its own measures."""
    of = values.written(shape.of)
    merged = replace(
        of,
        name=written.name, where=written.where, paper=written.paper or of.paper, grain=written.grain or of.grain,
        turn=of.turn if written.turn is None else written.turn,
        paper_up=of.paper_up if written.paper_up == "front" else written.paper_up,
        corners=of.corners + written.corners, edges=of.edges + written.edges, notches=of.notches + written.notches,
        cut_away=of.cut_away + written.cut_away, holes=of.holes + written.holes, slits=of.slits + written.slits,
        scores=of.scores + written.scores, panels=written.panels or of.panels,
    )  # fmt: skip
    return shape_blank(merged, default_paper, values.replaced(shape.replaced) if shape.replaced else values, caliper)


def _changed(written: design.Blank) -> bool:
    changes = (written.corners, written.edges, written.notches, written.cut_away, written.holes, written.slits, written.scores)
    return any(changes) or written.panels is not None


def _drafted(written: design.Blank, numbers: Numbers, caliper: Fraction | None, faults: Faults) -> Draft:
    half = half_caliper(written, caliper, faults)
    match written.shape:
        case design.SheetShape() as shape:
            return band_draft(written, shape, numbers, half, faults)
        case design.FlapsShape() as shape:
            return flaps_draft(written, shape, numbers, half, faults)
        case design.OutlineShape() as shape:
            return outline_draft(written, shape, numbers, faults)
        case design.LikeShape() as shape:
            return like_draft(written, shape, numbers, faults)
        case design.WrapShape() as shape:
            return wrap_draft(written, shape, numbers, faults)
        case _:
            raise AssertionError(written.shape)


def _finish(
    draft: Draft, written: design.Blank, paper: str, numbers: Numbers, faults: Faults, image: Blank | None
) -> Blank:
    draft = change_corners(draft, written.corners, numbers, faults)
    draft = change_edges(draft, written.edges, numbers, faults)
    draft = cut_notches(draft, written.notches, numbers, faults)
    runs = ruled(draft, written, numbers, faults)
    faults.stop_if_any()
    draft = cut_crossings(draft, written.cut_away, runs, faults)
    draft = punch_holes(draft, written, runs, numbers, faults)
    draft = cut_slits(draft, written, runs, numbers, faults)
    wheres = {score.name: score.where for score in written.scores}
    runs = bounded(draft, runs, wheres, written.where, faults)
    faults.stop_if_any()
    faces = find_faces(draft, runs, wheres, written.where, faults)
    faults.stop_if_any()
    names = panel_names(draft, faces, written, runs, numbers, faults)
    _check_in_one_piece(faces, names, written, faults)
    faults.stop_if_any()
    return _in_frame(_assembled(draft, faces, names, written, paper, image))


def _check_in_one_piece(faces: Faces, names: list[str], written: design.Blank, faults: Faults) -> None:
    """Every panel must hang on the first by scores."""
    reached = {0}
    waiting = [0]
    while waiting:
        here = waiting.pop()
        for piece in faces.pieces:
            if here in piece.faces:
                waiting += [face for face in piece.faces if face not in reached]
                reached.update(piece.faces)
    apart = [name for number, name in enumerate(names) if number not in reached]
    if apart:
        faults.add(
            written.where, f"no score joins `{apart[0]}` to the rest of `{written.name}`",
            "end the slit or cut before the edge, or make it two blanks",
        )  # fmt: skip


def _assembled(
    draft: Draft, faces: Faces, names: list[str], written: design.Blank, paper: str, image: Blank | None
) -> Blank:
    panels = tuple(
        Panel(name, outline, polygon, size)
        for name, outline, polygon, size in zip(names, faces.outlines, faces.polygons, faces.areas, strict=True)
    )
    return Blank(
        name=written.name, paper=paper, where=written.where, width=draft.width, height=draft.height, outline=draft.outline,
        holes=draft.holes, slits=draft.slits, scores=faces.scores, panels=panels, pieces=named_pieces(faces.pieces, names),
        cutouts=tuple(Cutout(mark.template, mark.what, _beside(panels, mark.at)) for mark in draft.marks),
        corner_radius=dict(draft.radii) or None, source=draft.source, mirror_of=draft.mirror_of,
        grain=written.grain or (image.grain if image is not None else None), turn=written.turn, bands=draft.bands,
        paper_up=written.paper_up,
        wrap=draft.wrap,
    )  # fmt: skip


def _beside(panels: tuple[Panel, ...], at: Point) -> str:
    x, y = float(at.x), float(at.y)
    return min(panels, key=lambda panel: 0.0 if holds(panel.polygon, x, y) else gap_to(panel.polygon, x, y)).name


def _in_frame(blank: Blank) -> Blank:
    """An edge that was bent outwards makes the rectangle larger: everything moves so that it starts at its corner again."""
    zero = blank.width * 0
    left, head, right, tail = box_of(blank.outline.edges)
    if left >= 0 and head >= 0 and right <= blank.width and tail <= blank.height:
        return blank
    x, y = -min(zero, left), -min(zero, head)
    move = shift(x, y)
    grown = replace(blank, width=max(blank.width, right) + x, height=max(blank.height, tail) + y)
    return moved_blank(grown, move) if (x, y) != (0, 0) else grown
