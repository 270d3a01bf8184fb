"""The drawing of templates as a form: drawn once in the file, seen through the window of every tile. mm, y down."""

from math import ceil, cos, pi, sin, tan

from creasewright.booklet.drawing import Command, Form, Path, Pen, Shape
from creasewright.booklet.tiling.placing import Placed
from creasewright.booklet.tiling.spots import Spot, moved, moved_outline, spot
from creasewright.geometry.edges import edge_length
from creasewright.geometry.outline import Arc, Edge, Outline, arc_sweep
from creasewright.geometry.plane_transform import Affine, shift

MARGIN = 1.0
"""mm around the drawing, so that no line is cut by the form's own box."""
OUTLINE_PEN = Pen("INK", 0.8)
SCORE_WIDTH = 0.85
DASHES = {
    "valley": (5.2, 2.6),
    "mountain": (8.0, 2.4, 0.9, 2.4, 0.9, 2.4),
    "both": (8.0, 2.4, 0.9, 2.4),
    "place": (0.01, 2.2),
}
"""pt. Valley and mountain after the Yoshizawa-Randlett notation; a score that folds both ways carries one dot between dashes."""
PRESSED = "score"
"""The look of a line that no step folds: thin and solid as in all pictures (`line_code.py`), short of the edges; but its very ends are
marked, for there it is pricked through."""
END, SHORT = 0.6, 1.0
"""mm of line at an end, and of white beside that."""
PLACE = "place"
"""The look of a line that only shows where something lies: round dots."""
PRESSED_WIDTH = 0.45
STRETCH = 0.15
PT_PER_MM = 72 / 25.4
MOST_SWEEP = pi / 6
"""Of one Bezier piece of an arc: the error of the usual cubic is then under 1e-6 of the radius."""


def form_of(name: str, placed: tuple[Placed, ...]) -> tuple[Form, Spot]:
    """The form, and where its head-left corner lies in the grid frame."""
    left = min(one.left for one in placed) - MARGIN
    head = min(one.head for one in placed) - MARGIN
    right = max(one.left + one.width for one in placed) + MARGIN
    tail = max(one.head + one.height for one in placed) + MARGIN
    items: list[Shape] = []
    for one in placed:
        items.extend(template_shapes(one, one.to_grid.then(shift(-left, -head))))
    return Form(name, right - left, tail - head, tuple(items)), (left, head)


def template_shapes(one: Placed, move: Affine) -> list[Shape]:
    template = one.template
    shapes = [Shape(outline_path(moved_outline(move, template.outline)), OUTLINE_PEN, role=f"outline of {template.key}")]
    for score in template.scores:
        edge = Affine(*move.floats()).edge(score.edge)
        pen = score_pen(score.look, edge_length(edge))
        shapes.append(Shape(edge_path(edge), pen, role=f"score {score.name} of {template.key}"))
    for place in template.places:
        edge = Affine(*move.floats()).edge(place.edge)
        shapes.append(Shape(edge_path(edge), score_pen(PLACE, edge_length(edge)), role=f"place {place.name} of {template.key}"))
    for slit in template.slits:
        path = line_path(moved(move, spot(slit.start)), moved(move, spot(slit.end)))
        shapes.append(Shape(path, OUTLINE_PEN, role=f"slit {slit.name} of {template.key}"))
    for hole in template.holes:
        path = circle_path(moved(move, spot(hole.centre)), float(hole.across) / 2)
        shapes.append(Shape(path, OUTLINE_PEN, role=f"hole {hole.name} of {template.key}"))
    return shapes


def score_pen(look: str, length: float) -> Pen:
    """Of a score `length` mm long."""
    if look == PRESSED:
        return Pen("INK", PRESSED_WIDTH, short_of_ends(length), "butt")
    dash = fitted_dash(DASHES[look], length * PT_PER_MM)
    return Pen("INK", SCORE_WIDTH, dash, "round" if look == PLACE else "butt")


def short_of_ends(length: float) -> tuple[float, ...]:
    """The dash, in pt, of a line `length` mm long that is solid but for a gap near each end; solid where it is short."""
    middle = length - 2 * (END + SHORT)
    return tuple(round(part * PT_PER_MM, 4) for part in (END, SHORT, middle, SHORT)) if middle > END + SHORT else ()


def fitted_dash(dash: tuple[float, ...], length: float) -> tuple[float, ...]:
    """The pattern stretched or shrunk by up to 15 %, so that a line of `length` pt ends with a whole first dash."""
    period = sum(dash)
    count = max(1, round((length - dash[0]) / period))
    factor = length / (count * period + dash[0])
    return tuple(round(part * min(1 + STRETCH, max(1 - STRETCH, factor)), 4) for part in dash)


def line_path(start: Spot, end: Spot) -> Path:
    return (("M", *start), ("L", *end))


def box_path(left: float, head: float, right: float, tail: float) -> Path:
    return (("M", left, head), ("L", right, head), ("L", right, tail), ("L", left, tail), ("Z",))


def polygon_path(*corners: Spot) -> Path:
    return (("M", *corners[0]), *(("L", *corner) for corner in corners[1:]), ("Z",))


def outline_path(outline: Outline) -> Path:
    commands: list[Command] = [("M", *spot(outline.edges[0].start))]
    for edge in outline.edges:
        commands.extend(edge_commands(edge))
    return (*commands, ("Z",))


def edge_path(edge: Edge) -> Path:
    return (("M", *spot(edge.start)), *edge_commands(edge))


def edge_commands(edge: Edge) -> list[Command]:
    """From the edge's start, where the pen stands, to its end."""
    if isinstance(edge, Arc):
        radius, begin, sweep = arc_sweep(edge)
        return arc_commands(spot(edge.centre), radius, begin, sweep)
    return [("L", *spot(edge.end))]


def circle_path(centre: Spot, radius: float) -> Path:
    return (("M", centre[0] + radius, centre[1]), *arc_commands(centre, radius, 0.0, 2 * pi), ("Z",))


def arc_commands(centre: Spot, radius: float, begin: float, sweep: float) -> list[Command]:
    """An arc from angle `begin` (radians, clockwise as seen) through `sweep`, as cubics.

    A cubic follows an arc of angle s best, with both ends and both tangents kept, if its handles are 4/3 tan(s/4) radii long.
    """
    count = max(1, ceil(abs(sweep) / MOST_SWEEP - 1e-9))
    step = sweep / count
    handle = 4 / 3 * tan(step / 4) * radius
    commands: list[Command] = []
    for k in range(count):
        a, b = begin + k * step, begin + (k + 1) * step
        x0, y0 = centre[0] + radius * cos(a), centre[1] + radius * sin(a)
        x3, y3 = centre[0] + radius * cos(b), centre[1] + radius * sin(b)
        commands.append(("C", x0 - handle * sin(a), y0 + handle * cos(a), x3 + handle * sin(b), y3 - handle * cos(b), x3, y3))
    return commands
