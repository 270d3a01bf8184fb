"""Templates: what is printed full size, in the frame of its blank (mm, x right, y down).

A mirrored template is drawn as the paper is seen from its back: x is counted from the blank's right edge.
"""

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from creasewright.blanks.blank import Blank, Hole, Slit
from creasewright.booklet.tiling.given_way import left_of
from creasewright.booklet.tiling.inner_point import inner_point
from creasewright.booklet.tiling.spots import moved_polygon
from creasewright.geometry.outline import Arc, Edge, Line, Outline, Polygon, flattened
from creasewright.geometry.plane_transform import Affine, left_for_right
from creasewright.geometry.point import Point
from creasewright.problems import NOWHERE, Where

FINE = 0.005
"""mm between an arc and its chords: half of what may reach into a window that is not printed."""


class TemplateScore(Struct, frozen=True):
    name: str
    start: Point
    end: Point
    look: str = "score"
    """How it is drawn, as seen from the side lying up: `valley`, `mountain`, `both` (folds both ways) or `score` (not
    yet said)."""
    arc: Arc | None = None
    """Of a curved score: the arc from start to end."""

    @property
    def edge(self) -> Edge:
        return self.arc or Line(self.start, self.end)


class PrintArrow(Struct, frozen=True):
    """Which way the print runs."""

    text: str
    """In words: "leaf tips, on the other side"."""
    direction: float
    """Degrees clockwise from the template's head to where the print's upper side points."""
    kind: str = "one-way"
    """`one-way`, `two-way` or `all-over`."""


class Template(Struct, frozen=True):
    key: str
    """One word or a few, unique in the pack: the blank's name, or the blank and what the template is for."""
    letters: tuple[str, ...]
    """The letters of the pieces that are cut with it; empty for a cutting aid."""
    name: str
    count: str
    """In words: "cut 2"."""
    side_up: str
    """In words: "plain side up"."""
    paper: str
    """In words: "leaf paper"."""
    outline: Outline
    polygon: Polygon
    """The outline flattened (`fine_polygon`)."""
    scores: tuple[TemplateScore, ...] = ()
    slits: tuple[Slit, ...] = ()
    holes: tuple[Hole, ...] = ()
    panel_names: tuple[tuple[str, Point], ...] = ()
    """Each with a place inside its panel; the largest panel first."""
    print_arrow: PrintArrow | None = None
    whole_size: str = ""
    """In words: "7 3⁄4 × 12 in over all"."""
    mirrored: bool = False
    note: str = ""
    """One sentence more, set in the head of the page."""
    places: tuple[TemplateScore, ...] = ()
    """Where something is laid on the piece: lines that are neither cut nor folded (look `place`)."""
    grain: float | None = None
    """How the grain runs: 0 up and down, 90 from side to side; None where it does not matter."""
    edge_names: tuple[tuple[str, Point, Point], ...] = ()
    """What the steps call an edge, and its ends."""
    where: Where = NOWHERE
    """Of the piece in the design file."""


def fine_polygon(outline: Outline) -> Polygon:
    """The outline flattened so finely that no part of it lies in a window that its polygon does not reach."""
    return flattened(outline.edges, FINE)


class TemplateFacts(Struct, frozen=True):
    """What a template says beyond its blank's shape, in the reader's words."""

    letters: tuple[str, ...]
    name: str
    count: str
    side_up: str
    paper: str
    looks: Mapping[str, str]
    """Look of each score by its name, as the side lying up shows it; a name left out is drawn as `score`."""
    panel_names: Mapping[str, str] | None = None
    """What panels are called on the page, by the blank's own names; None: their own names; a panel left out is not named."""
    print_arrow: PrintArrow | None = None
    whole_size: str = ""
    note: str = ""
    key: str = ""
    """Empty: the blank's name."""
    edge_names: tuple[tuple[str, Point, Point], ...] = ()


def from_blank(blank: Blank, facts: TemplateFacts, mirrored: bool = False) -> Template:
    """The blank's template; `mirrored` shows it from the back (the arrow's direction is given as it is seen then)."""
    see = left_for_right(blank.width) if mirrored else Affine()
    polygon = moved_polygon(see, fine_polygon(blank.outline))
    places = tuple(_score(see.edge(Line(a, b)), name, "place") for name, a, b in _board_sides(blank))
    scores = (_score(see.edge(score.edge), score.name, facts.looks.get(score.name, "score")) for score in blank.scores)
    return Template(
        key=facts.key or blank.name,
        letters=facts.letters,
        name=facts.name,
        count=facts.count,
        side_up=facts.side_up,
        paper=facts.paper,
        outline=Outline(see.loop(blank.outline.edges)),
        polygon=polygon[::-1] if mirrored else polygon,
        scores=tuple(part for score in scores if is_made(score, blank) for part in _parts_seen(score, places)),
        slits=tuple(Slit(slit.name, _seen(see, slit.start), _seen(see, slit.end)) for slit in blank.slits),
        holes=tuple(Hole(hole.name, _seen(see, hole.centre), hole.across) for hole in blank.holes),
        panel_names=tuple(_names(blank, facts.panel_names, see)),
        print_arrow=facts.print_arrow,
        whole_size=facts.whole_size,
        mirrored=mirrored,
        note=facts.note,
        places=places,
        grain={"height": 0.0, "width": 90.0}.get(blank.grain or ""),
        edge_names=tuple((name, see.point(a), see.point(b)) for name, a, b in facts.edge_names),
        where=blank.where,
    )


def _score(edge: Edge, name: str, look: str) -> TemplateScore:
    return TemplateScore(name, edge.start, edge.end, look, edge if isinstance(edge, Arc) else None)


def is_made(score: TemplateScore, blank: Blank) -> bool:
    """A cover that is wrapped is not pressed: a line of it that no step folds is no line at all."""
    return blank.wrap is None or score.look != "score"


def _parts_seen(score: TemplateScore, places: Sequence[TemplateScore]) -> Iterable[TemplateScore]:
    """Places are cut out of the template: a fold line on the edge of one gives way to it."""
    edge = score.edge
    if not isinstance(edge, Line) or not places:
        return (score,)
    return (_score(part, score.name, score.look) for part in left_of(edge, (Line(place.start, place.end) for place in places)))


def _board_sides(blank: Blank) -> Iterable[tuple[str, Point, Point]]:
    """Where boards lie on a cover that is wrapped round them."""
    for k, board in enumerate(blank.wrap.boards if blank.wrap else (), start=1):
        x0, y0, x1, y1 = board.left, board.head, board.left + board.width, board.head + board.height
        corners = (Point(x0, y0), Point(x1, y0), Point(x1, y1), Point(x0, y1))
        for side, a, b in zip(("head", "right", "tail", "left"), corners, (*corners[1:], corners[0]), strict=True):
            yield f"{side} of {board.board} {k}", a, b


def _names(blank: Blank, names: Mapping[str, str] | None, see: Affine) -> Iterable[tuple[str, Point]]:
    for panel in sorted(blank.panels, key=lambda panel: -panel.area):
        text = panel.name if names is None else names.get(panel.name, "")
        if text:
            yield text, see.point(Point(*inner_point(panel.polygon)))


def _seen(see: Affine, at: Point) -> Point:
    return see.point(at)
