"""Blanks as written."""

from creasewright.reading.design import Blank, MirrorShape, SameShape, Shape, SheetShape
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of
from creasewright.reading.nodes import Node, Scalar
from creasewright.reading.read_cuts import read_corners, read_cut_away, read_edges, read_holes, read_notches, read_slits
from creasewright.reading.read_scores import read_panels, read_scores
from creasewright.reading.read_shapes import GOES_WITH, read_shape

TURNS = ("0", "90", "180", "270")
SIZES = ("width", "height")
SCORE_TO_SCORE = "score to score"


def read_blanks(top: Fields) -> tuple[Blank, ...]:
    return tuple(_blank(name, node, top) for name, node in top.named("blanks", "blank"))


def _blank(name: Scalar, node: Node, top: Fields) -> Blank:
    fields = fields_of(node, f"blank {shown(name.text)}", top.faults, name.where)
    shape = read_shape(fields)
    turn = fields.word_or_none("turn", TURNS)
    blank = Blank(
        name=name.text,
        where=name.where,
        paper=fields.text("paper"),
        shape=shape,
        grain=fields.word_or_none("grain", ("height", "width")),
        turn=int(turn) if turn else None,
        sizes=fields.word("sizes", (SCORE_TO_SCORE, "inside", "outside"), SCORE_TO_SCORE),
        corners=read_corners(fields),
        edges=read_edges(fields),
        notches=read_notches(fields),
        cut_away=read_cut_away(fields),
        holes=read_holes(fields),
        slits=read_slits(fields),
        scores=read_scores(fields),
        panels=read_panels(fields),
        expect=fields.texts("expect"),
        called=fields.text("called"),
        paper_up=fields.word("paper up", ("front", "back", "either"), "front"),
        cut_to_fit=_cut_to_fit(fields, shape),
    )
    fields.finish(GOES_WITH)
    return blank


def _cut_to_fit(fields: Fields, shape: Shape | None) -> tuple[str, ...]:
    """Sizes of a sheet that follow from a formula; nothing else can be taken from the real thing."""
    found = []
    for text in fields.texts("cut to fit"):
        size = getattr(shape, str(text)) if isinstance(shape, SheetShape) and str(text) in SIZES else None
        if size is None:
            hint = "name a size that the blank gives as a formula: width or height"
            fields.faults.note(text.where, f"`{text}` cannot be cut to fit here", hint)
        else:
            found.append(str(text))
    return tuple(found)


def takes_paper_of_another(blank: Blank) -> bool:
    """A mirrored or like-made blank is of its model's paper where it names none."""
    return isinstance(blank.shape, MirrorShape | SameShape)
