"""A clearance: the room that is left somewhere, as a length that carries the errors of all that makes it."""

from functools import lru_cache
from itertools import product

from msgspec import Struct

from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.folding.state import Body, PanelKey, State
from creasewright.hands.carried import Carried, Cause, Slopes, added, root_sum_square
from creasewright.hands.error_table import GLUED, HandErrors
from creasewright.hands.made_places import Places
from creasewright.hands.put_down import places_of
from creasewright.hands.seen_lines import SeenLine, apart, seen_lines
from creasewright.joining.run_step import StepRun
from creasewright.problems import Where

WORDS = {
    "insert": "{thing} in {other}",
    "cover": "{thing} over {other}",
    "inner panel": "{thing} under the fold {other}",
    "flap": "{thing} short of the edge of {other}",
    "gate": "{thing} and {other}",
    "wrap": "{thing} round what lies inside",
    "band": "{thing} round {other}",
    "inset": "{thing} inside {other} at the {side}",
    "board gap": "the gap between {thing} and {other}",
}


class Clearance(Struct, frozen=True):
    kind: str
    """A key of WORDS."""
    thing: str
    """What needs the room: `seed card 1`, `inner of card`."""
    other: str
    """What it has it in or against: `front pocket`; may be empty."""
    way: str
    """`wide`, `high`, `thick`, or empty."""
    where: Where
    room: Carried
    """What may be used up before it fails, mm."""
    remedy: str
    """One thing to do, with `{more}` for how much."""
    part: str
    """Path of the part that it is about."""
    step: int
    """Of its assembly; 0 where it is a matter of no one step."""
    worse: str = ""
    """Where several lines bound the room, or a formula has branches: which of them counts, in words."""
    side: str = ""
    """As seen when it is made: `left`, `head` …; empty where it is a matter of both sides."""
    times: int = 1
    """How often it is there alike."""

    @property
    def what(self) -> str:
        """In words, without the way: `seed card 1 in front pocket`."""
        return WORDS[self.kind].format(thing=self.thing, other=self.other or "its place", side=self.side)

    def error(self, errors: HandErrors) -> float:
        """mm, 95 %."""
        return root_sum_square(self.room.slopes, errors)


class Making(Struct, frozen=True):
    """What every source of clearances is given."""

    worked: Worked
    places: Places
    errors: HandErrors

    def original_runs(self) -> list[tuple[AssemblyRun, StepRun]]:
        """Every step once; a mirrored assembly has the same clearances as its original."""
        found, seen = [], set()
        for assembly in self.worked.assemblies:
            if assembly.assembly not in seen:
                seen.add(assembly.assembly)
                found += [(assembly, run) for run in assembly.runs if run.refused is None]
        return found


@lru_cache(maxsize=8)
def making_of(worked: Worked, errors: HandErrors) -> Making:
    return Making(worked, places_of(worked), errors)


def named(path: str) -> str:
    """`seed card of front block` for the path `front block/seed card`."""
    return " of ".join(reversed(path.split("/")))


FAR = 15.0
"""mm: a strip of adhesive that bounds a room lies no farther than this inside its edge."""


def bounds(state: State, body: Body, panels: list[PanelKey], axis: int, value: float, outwards: float) -> list[SeenLine]:
    """The lines of these panels that bound a room at a place; where none lies there it is adhesive, along the next edge outwards."""
    every = [line for panel in panels for line in seen_lines(state, body, panel, axis)]
    found = [line for line in every if abs(line.at - value) < 0.05]
    if found:
        return found
    beyond = [line for line in every if 0 < (line.at - value) * outwards < FAR]
    if not beyond:
        return []
    edge = min(beyond, key=lambda line: abs(line.at - value))
    glued = {Cause(GLUED, edge.panel[0], f"{edge.panel[1]} {'xyz'[axis]} {outwards:+.0f}"): 1.0}
    return [SeenLine(edge.panel, value, added(edge.slopes, glued))]


def worst_span(
    making: Making, state: State, body: Body, lows: list[SeenLine], highs: list[SeenLine], axis: int
) -> tuple[Slopes, str]:
    """The error of a room between one of the first and one of the second lines: of those that bound it at one place, the worst pair.

    Where several lines bound a room its size is the least of several distances, which has no derivative: the one that errs most is taken.
    """
    found: dict[tuple[PanelKey, PanelKey], Slopes] = {}
    for low, high in product(lows, highs):
        found.setdefault((low.panel, high.panel), apart(state, body, making.places, low, high, axis))
    if not found:
        return {}, ""
    sizes = {pair: root_sum_square(slopes, making.errors) for pair, slopes in found.items()}
    worst = max(sizes, key=lambda pair: (round(sizes[pair], 6), pair))
    several = len({round(size, 3) for size in sizes.values()}) > 1
    words = f"from {worst[0][1]} to {worst[1][1]}" if worst[0] != worst[1] else f"across {worst[0][1]}"
    return found[worst], words if several else ""


def own_size(making: Making, state: State, part: str, axis: int) -> Slopes:
    """How a flat piece's own size errs across an axis of the view."""
    body = state.body_of(part)
    panel = (part, state.blanks[part].panels[0].name)
    lines = seen_lines(state, body, panel, axis)
    if len(lines) < 2:
        return {}
    low, high = min(lines, key=lambda line: line.at), max(lines, key=lambda line: line.at)
    return apart(state, body, making.places, low, high, axis)
