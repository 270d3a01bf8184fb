"""Parts put down inside an edge or short of a fold: liners, mats, linings, boards beside a hinge. They must not reach past it.

Only lines that are meant are looked at: those within 12 mm of the part, but not those on which it ends.
"""

from collections.abc import Iterator

from creasewright.folding.state import Body, PanelKey
from creasewright.hands.carried import Carried
from creasewright.hands.clearance import Clearance, Making, named
from creasewright.hands.outcome import failing_share
from creasewright.hands.put_down import new_bonds
from creasewright.hands.seen_lines import SeenLine, apart, seen_lines
from creasewright.joining.board_places import wrap_of
from creasewright.joining.compass import box, facing, polygon_in_view
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

MEANT = 12.0
"""mm: a line farther away is not meant."""
EVEN = 0.1
"""mm: what ends this near a line is meant to end on it."""
SIDES = {(0, -1): "left", (0, 1): "right", (1, -1): "head", (1, 1): "tail"}


def inset_rooms(making: Making) -> Iterator[Clearance]:
    for _, run in making.original_runs():
        action = run.written.action
        if not isinstance(action, design.Join) or (action.landing is not None and action.landing.relation == "around"):
            continue
        for part in dict.fromkeys(bond.second[0] for bond in new_bonds(run)):
            yield from of_part(making, run, part)


def of_part(making: Making, run: StepRun, part: str) -> Iterator[Clearance]:
    """The side that fails most, in each direction."""
    state = run.after
    bonds = [bond for bond in run.new_bonds if bond.second[0] == part]
    first = bonds[0].first
    if wrap_of(state, first[0]) is not None:
        return
    seen = facing(state, state.body_of(part), first)
    mine = list(dict.fromkeys(bond.second for bond in bonds))
    theirs = list(dict.fromkeys(bond.first for bond in bonds))
    own = box([polygon_in_view(state, seen, key) for key in mine])
    for axis, way in ((0, "wide"), (1, "high")):
        found = []
        for outwards in (-1, 1):
            edge = own[axis] if outwards < 0 else own[axis + 2]
            found += beyond(run, seen, mine, theirs, axis, outwards, edge)
        if found:
            yield max((clearance(making, run, seen, part, axis, way, one) for one in found), key=lambda one: risk(making, one))


Beyond = tuple[float, SeenLine, SeenLine, int]
"""How far a line lies outwards of the part's own edge, that line, the edge, and the direction."""


def clearance(making: Making, run: StepRun, seen: Body, part: str, axis: int, way: str, one: Beyond) -> Clearance:
    room, line, end, outwards = one
    low, high = (line, end) if outwards < 0 else (end, line)
    slopes = apart(run.after, seen, making.places, low, high, axis)
    return Clearance(
        "inset", named(part), line.panel[1], way, run.written.where,
        Carried(room, slopes), f"make {named(part)} {{more}} smaller on that side", part, run.number,
        side=SIDES[(axis, outwards)],
    )  # fmt: skip


def risk(making: Making, one: Clearance) -> tuple[float, float]:
    return failing_share(one.room.value, one.error(making.errors)), -one.room.value


def beyond(
    run: StepRun, seen: Body, mine: list[PanelKey], theirs: list[PanelKey], axis: int, outwards: int, edge: float
) -> list[Beyond]:
    """The nearest line that lies outwards of the part's own edge, if any."""
    state = run.after
    ends = [line for key in mine for line in seen_lines(state, seen, key, axis) if abs(line.at - edge) < EVEN]
    lines = [line for key in theirs for line in seen_lines(state, seen, key, axis) if EVEN < (line.at - edge) * outwards < MEANT]
    if not ends or not lines:
        return []
    nearest = min(lines, key=lambda line: abs(line.at - edge))
    return [(abs(nearest.at - edge), nearest, ends[0], outwards)]
