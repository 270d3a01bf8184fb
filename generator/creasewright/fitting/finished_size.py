"""Sizes over all: what a state measures as it lies, with its inserts and without them."""

from msgspec.structs import replace

from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, State


def size_of(state: State, body: Body) -> tuple[float, float, float]:
    """Width, height and thickness over all, in the body's view, mm; a band round it counts for the thickness."""
    low, high = extents(state, body)
    return (high[0] - low[0], high[1] - low[1], high[2] - low[2] + bands_on(state, body))


def bands_on(state: State, body: Body) -> float:
    """What bands add, mm: each lies on both faces, and once more where its ends lap."""
    return sum(
        closure.thick * (3 if closure.extra else 2) for closure in state.closures if closure.band and closure.on in body.parts
    )


def without_inserts(state: State) -> State:
    """The same with what was inserted weighing nothing: for the thickness when empty."""
    put_in = {bond.second[0] for bond in state.bonds if bond.kind == "insert"}
    return replace(state, thick={part: (0.0 if part in put_in else thick) for part, thick in state.thick.items()})
