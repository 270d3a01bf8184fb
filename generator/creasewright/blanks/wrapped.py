"""A cover wrapped round boards: boards in a row with joints between them, turn-ins on four sides, mitred corners.

Where it folds. Between two boards the cover bends at the boards' own edges. At the outer edges it goes down the thickness T of
the board before it lies on the inner face, so that of a turn-in D (cover beyond the edge, laid flat) only D - T comes to lie
there. A flat fold at a distance d beyond the edge lays D - 2d over the edge; the two agree at d = T / 2, and there the score is:
half a caliper outside the board (plain geometry; the same half caliper as for outside sizes in `bands.py`).

Mitres. The corner is cut off at 45 degrees, `corner gap` from the board's corner: at least the thickness of the board, or the corner
shows bare ("a distance is left about equal to the thickness of the board": S. J. Vaughn, Printing and Bookbinding for Schools, 1914, on
mitres; the year from memory). Without more, 1.5 times it (common practice, no source).

What lies beyond both folds of a corner is a small triangle; it is folded down with the head or tail and then under the side turn-in.
"""

from fractions import Fraction
from itertools import pairwise
from math import sqrt

from creasewright.blanks.blank import Blank, BoardPlace, Wrap
from creasewright.blanks.draft import Draft, Region, Run, box_polygon
from creasewright.blanks.faults import Faults, in_mm
from creasewright.blanks.numbers import Numbers
from creasewright.geometry.edges import Box
from creasewright.geometry.outline import Line, Outline
from creasewright.geometry.point import Number, Point
from creasewright.problems import ProblemsFound
from creasewright.reading import design
from creasewright.reading.design import Text

CORNER_GAP = Fraction(3, 2)
"""Times the boards' caliper, where the author does not say."""
CORNERS = (("head-left", "head-right"), ("tail-left", "tail-right"))


def wrap_draft(written: design.Blank, shape: design.WrapShape, numbers: Numbers, faults: Faults) -> Draft:
    """The cover laid flat, or faults."""
    boards = [_board(text, numbers, faults) for text in shape.boards]
    faults.stop_if_any()
    thick = max(_thick(board, text, numbers, faults) for board, text in zip(boards, shape.boards, strict=True))
    turn_in = numbers.length(shape.turn_in)
    gap = numbers.length(shape.gaps) if shape.gaps is not None else Fraction(0)
    _check_sizes(shape, boards, turn_in, gap, thick, faults)
    faults.stop_if_any()
    leg = _mitre(written, shape, turn_in, thick, numbers, faults)
    faults.stop_if_any()
    places = _places(shape, boards, turn_in, gap)
    width, height = places[-1].left + places[-1].width + turn_in, places[0].height + 2 * turn_in
    if 2 * leg >= min(width, height):
        least = float(min(width, height)) - 2 * float(turn_in)
        faults.add(
            shape.turn_in.where, f"`turn-in: {shape.turn_in}` comes to {in_mm(turn_in)}, and the boards are {in_mm(least)} across: "
            "the mitred corners would meet", "make it shorter",
        )  # fmt: skip
    faults.stop_if_any()
    columns = _columns(places, turn_in - thick / 2, width)
    head, tail = turn_in - thick / 2, height - (turn_in - thick / 2)
    return Draft(
        width, height, _octagon(width, height, leg), _regions(columns, head, tail, height), (),
        _runs(columns, head, tail, width, height), wrap=Wrap(tuple(places), turn_in, thick),
    )  # fmt: skip


def _board(text: Text, numbers: Numbers, faults: Faults) -> Blank | None:
    try:
        board = numbers.values.blank(text)
    except ProblemsFound as caught:
        faults.take(caught)
        return None
    if len(board.panels) > 1:
        faults.add(text.where, f"the board `{text}` has {len(board.panels)} panels", "a board is one flat piece without scores")
    return board


def _thick(board: Blank | None, text: Text, numbers: Numbers, faults: Faults) -> Fraction:
    assert board is not None
    try:
        return numbers.values.caliper(board.paper, text.where)
    except ProblemsFound as caught:
        faults.take(caught)
        return Fraction(1)


def _check_sizes(
    shape: design.WrapShape, boards: list[Blank | None], turn_in: Fraction, gap: Fraction, thick: Fraction, faults: Faults
) -> None:
    first = boards[0]
    for board, text in zip(boards, shape.boards, strict=True):
        if board is not None and first is not None and board.height != first.height:
            faults.add(
                text.where, f"the board `{text}` is {in_mm(board.height)} high, `{first.name}` is {in_mm(first.height)}",
                "give the boards of one cover the same height",
            )  # fmt: skip
    if turn_in <= thick:
        faults.add(
            shape.turn_in.where,
            f"`turn-in: {shape.turn_in}` comes to {in_mm(turn_in)}, and the boards are {in_mm(thick)} thick: "
            "it does not reach their inner side",
            "make it longer; 5/8 in or 15 mm is usual",
        )  # fmt: skip
    if shape.gaps is not None and gap < thick:
        faults.add(
            shape.gaps.where, f"`gaps: {shape.gaps}` comes to {in_mm(gap)}, and the boards are {in_mm(thick)} thick: they would "
            "jam when the cover closes", f"leave at least {in_mm(thick)}; twice the thickness and a little is usual",
        )  # fmt: skip


def _mitre(
    written: design.Blank, shape: design.WrapShape, turn_in: Fraction, thick: Fraction, numbers: Numbers, faults: Faults
) -> float:
    """Leg of the corner that is cut off: the cut runs at 45 degrees, `corner gap` from the board's corner, which lies
    turn-in x turn-in from that of the sheet; so leg = 2 turn-in - sqrt(2) gap."""
    gap = numbers.length(shape.corner_gap) if shape.corner_gap is not None else CORNER_GAP * thick
    leg = float(2 * turn_in) - sqrt(2) * float(gap)
    where = shape.corner_gap.where if shape.corner_gap is not None else written.where
    if gap < thick:
        faults.add(
            where,
            f"`corner gap: {shape.corner_gap}` comes to {in_mm(gap)}, and the boards are {in_mm(thick)} thick: their corners would show",
            f"leave at least {in_mm(thick)}; one and a half times the thickness is usual",
        )  # fmt: skip
    elif leg <= 0:
        faults.add(
            where, f"a corner gap of {in_mm(gap)} leaves nothing to cut off a turn-in of {in_mm(turn_in)}",
            "make the turn-in longer, or the corner gap smaller",
        )  # fmt: skip
    return leg


def _places(shape: design.WrapShape, boards: list[Blank | None], turn_in: Fraction, gap: Fraction) -> list[BoardPlace]:
    names = [text.text for text in shape.boards]
    places: list[BoardPlace] = []
    at: Number = turn_in
    for number, (name, board) in enumerate(zip(names, boards, strict=True)):
        assert board is not None
        panel = f"{name} {names[: number + 1].count(name)}" if names.count(name) > 1 else name
        places.append(BoardPlace(name, panel, at, turn_in, board.width, board.height))
        at += board.width + gap
    return places


Column = tuple[str, Number, Number]
"""Name, left, right."""


def _columns(places: list[BoardPlace], left: Number, width: Number) -> list[Column]:
    """From left to right: the left turn-in, boards and joints, the right turn-in."""
    columns: list[Column] = [("left turn-in", width * 0, left)]
    for number, place in enumerate(places):
        start = left if number == 0 else place.left
        end = width - left if number == len(places) - 1 else place.left + place.width
        if number and place.left > columns[-1][2]:
            columns.append((f"joint {number}" if len(places) > 2 else "joint", columns[-1][2], place.left))
        columns.append((place.panel, start, end))
    return [*columns, ("right turn-in", width - left, width)]


def _octagon(width: Number, height: Number, leg: float) -> Outline:
    zero = width * 0
    x0, y0, x1, y1 = zero + leg, zero + leg, width - leg, height - leg
    corners = (
        Point(x0, zero), Point(x1, zero), Point(width, y0), Point(width, y1),
        Point(x1, height), Point(x0, height), Point(zero, y1), Point(zero, y0),
    )  # fmt: skip
    return Outline(tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)))


def _regions(columns: list[Column], head: Number, tail: Number, height: Number) -> tuple[Region, ...]:
    inner = len(columns) - 2
    found = []
    for row, (top, bottom) in enumerate(((height * 0, head), (head, tail), (tail, height))):
        for number, (name, left, right) in enumerate(columns):
            box: Box = (left, top, right, bottom)
            if row != 1:
                side = "head" if row == 0 else "tail"
                if 0 < number <= inner:
                    name = f"{side} turn-in {number}" if inner > 1 else f"{side} turn-in"
                else:
                    name = f"{CORNERS[row // 2][number > 0]} corner"
            found.append(Region(name, box, box_polygon(box)))
    return tuple(found)


def _runs(columns: list[Column], head: Number, tail: Number, width: Number, height: Number) -> tuple[Run, ...]:
    """Every score runs from edge to edge of the cover."""
    zero = width * 0
    runs = [Run("head turn-in", Point(zero, head), Point(width, head))]
    for (name, _, at), (other, _, _) in pairwise(columns):
        if name == "left turn-in" or other == "right turn-in":
            score = name if name == "left turn-in" else other
        else:
            score = f"{name}/{other}"
        runs.append(Run(score, Point(at, zero), Point(at, height)))
    return (*runs, Run("tail turn-in", Point(zero, tail), Point(width, tail)))
