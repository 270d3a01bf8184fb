"""Folds that close over something: inner panels short of the fold, doors that meet, spines round what lies inside."""

from collections.abc import Iterator

from creasewright.folding.heights import thickness
from creasewright.folding.refused import called
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import dot, minus
from creasewright.hands.carried import Carried, Slopes
from creasewright.hands.clearance import Clearance, Making
from creasewright.hands.doors import between, doors
from creasewright.hands.fold_allowances import bight
from creasewright.hands.folded_in import FoldedIn, folded_in
from creasewright.hands.made_places import along, shifts_from
from creasewright.hands.seen_lines import SeenLine, apart, seen_lines
from creasewright.hands.wrapped_things import gap_of, inside_thickness, spot, wraps
from creasewright.joining.run_step import StepRun


def inner_panel_rooms(making: Making) -> Iterator[Clearance]:
    """What is left between the edge of a panel folded in and the bend of the fold that closes over it."""
    for _, run in making.original_runs():
        for inner in folded_in(run):
            yield of_inner(making, run, inner)


def of_inner(making: Making, run: StepRun, inner: FoldedIn) -> Clearance:
    state = run.after
    body = state.body_of(inner.panel[0])
    axis = 0 if abs(inner.line[0][0] - inner.line[1][0]) < abs(inner.line[0][1] - inner.line[1][1]) else 1
    edge = (inner.edge[0][axis] + inner.edge[1][axis]) / 2
    line = (inner.line[0][axis] + inner.line[1][axis]) / 2
    piece = state.blanks[inner.score[0]].piece(inner.score[1])
    slopes = span(making, state, body, (inner.panel, edge), ((inner.score[0], piece.first), line), axis)
    taken = bight(inner.layers, thickness(state, inner.panel))
    return Clearance(
        "inner panel", called(inner.panel), piece.score, "", run.written.where,
        Carried(inner.short - taken, slopes), f"make {inner.panel[1]} {{more}} narrower", inner.panel[0], run.number,
    )  # fmt: skip


Spot = tuple[PanelKey, float]
"""A panel, and the place on an axis of the view where one of its lines runs across."""


def span(making: Making, state: State, body: Body, first: Spot, second: Spot, axis: int) -> Slopes:
    """How the distance between two lines errs; the one at the lower place counts from it."""
    low, high = sorted((first, second), key=lambda spot: spot[1])
    lines = [nearest(state, body, panel, axis, at) for panel, at in (low, high)]
    if lines[0] is None or lines[1] is None:
        return {}
    return apart(state, body, making.places, lines[0], lines[1], axis)


def nearest(state: State, body: Body, panel: PanelKey, axis: int, at: float) -> SeenLine | None:
    lines = seen_lines(state, body, panel, axis)
    return min(lines, key=lambda line: abs(line.at - at), default=None)


def gate_rooms(making: Making) -> Iterator[Clearance]:
    """Between the free edges of two doors: they butt where nothing is left."""
    told: set[tuple[str, str, str]] = set()
    for assembly, run in making.original_runs():
        if run is not assembly.runs[-1]:
            continue
        state = run.after
        for first, second, home in doors(state):
            gap = between(state, first, second)
            name = (state.blanks[home[0]].name, first[1], second[1])
            if gap is None or name in told:
                continue
            told.add(name)
            body = state.body_of(first[0])
            axis, ends = facing_edges(state, body, first, second, gap)
            yield Clearance(
                "gate", called(first), second[1], "", state.blanks[home[0]].where,
                Carried(gap, span(making, state, body, *ends, axis)), "make both of them together {more} narrower", first[0], run.number,
            )  # fmt: skip


def facing_edges(state: State, body: Body, first: PanelKey, second: PanelKey, gap: float) -> tuple[int, tuple[Spot, Spot]]:
    """The axis along which two doors face each other, and the two edges that do."""
    pairs = [
        (abs(abs(a.at - b.at) - gap), axis, (first, a.at), (second, b.at))
        for axis in (0, 1)
        for a in seen_lines(state, body, first, axis)
        for b in seen_lines(state, body, second, axis)
    ]
    _, axis, one, other = min(pairs)
    return axis, (one, other)


MEANT = 12.0
"""mm: a cover with more room than this is not made for what lies inside it."""


def is_cover(state: State, spine: PanelKey) -> bool:
    """Not a piece made like another, which lies inside that one, and of a wrapped cover not its rim."""
    blank = state.blanks[spine[0]]
    return blank.source is None and (blank.wrap is None or spine[1] in {place.panel for place in blank.wrap.boards})


def wrap_rooms(making: Making) -> Iterator[Clearance]:
    """Between two covers that stand on one spine, against the thickness of what lies there."""
    finished = making.worked.finished
    if finished is None:
        return
    state, body = finished.state, finished.body
    for first, spine, second in wraps(state, body):
        blank = state.blanks[spine[0]]
        room = gap_of(state, first, second) - sum(thickness(state, key) / 2 for key in (first, second))
        inside = inside_thickness(state, body, first, second)
        if room - inside >= MEANT or inside <= 0 or not is_cover(state, spine):
            continue
        away = minus(spot(state, second), spot(state, first))
        normal = front_normal(state.placed[first])
        way = normal if dot(away, normal) > 0 else (-normal[0], -normal[1], -normal[2])
        slopes = along(shifts_from(state, body.parts, making.places, first).get(second, {}), way)
        yield Clearance(
            "wrap", f"{spine[1]} of {blank.name}", "", "thick", blank.where,
            Carried(room - inside, slopes), f"make {spine[1]} {{more}} wider", spine[0], 0,
        )  # fmt: skip
