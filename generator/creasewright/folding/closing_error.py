"""How nearly the loops of a state close: every link gone over both ways. Bent panels are met point by point along their line."""

from msgspec import Struct

from creasewright.folding.bent_solid import bent_gap
from creasewright.folding.panel_graph import links
from creasewright.folding.state import State
from creasewright.folding.transforms import gap


class Closing(Struct, frozen=True):
    """The largest gap of any loop."""

    loops: int
    """Links beyond those of a tree."""
    mm: float
    degrees: float


def closing(state: State) -> Closing:
    every = [link for body in state.bodies for link in links(state, body.parts)]
    gaps = [bent_gap(state, link) if link.first in state.curved else gap(state, link, state.placed, state.angles) for link in every]
    count = len(every) - len(state.placed) + len(state.bodies)
    return Closing(count, max((mm for mm, _ in gaps), default=0.0), max((turn for _, turn in gaps), default=0.0))

