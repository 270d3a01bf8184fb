"""Ties and bands: how long they must be to go round the closed thing."""

from msgspec.structs import replace

from creasewright.folding.solid_points import extents
from creasewright.folding.state import Closure, State
from creasewright.joining.bench import Bench
from creasewright.joining.girth import girth
from creasewright.joining.refused import JoinRefused
from creasewright.reading.design import Tie


def closed_with(bench: Bench, action: Tie, number: int) -> tuple[State, tuple[str, ...]]:
    """The state with the closure noted, and the parts it goes round. Raises JoinRefused."""
    supply = bench.supply
    state = bench.state
    words = str(action.around)
    groups = [] if words in ("all", "") else bench.parts(words) if bench.bring_named(words) else []
    parts = tuple(path for group in groups for path in group) or tuple(state.blanks)
    if not parts:
        raise JoinRefused(f"there is nothing yet for the {action.what} to go round", "tie it after the steps that make the thing")
    body = state.body_of(parts[0])
    low, high = extents(state, body)
    start = low[1] if action.across == "width" else low[0]
    size = (high[1] - low[1]) if action.across == "width" else (high[0] - low[0])
    at = supply.length(action.at) if action.at is not None else size / 2
    if not 0 <= at <= size:
        raise JoinRefused(f"`at` is {at:.1f} mm, but the thing measures {size:.1f} mm there", "choose a place on it")
    around = girth(state, body, action.across, start + at)
    extra = sum(supply.length(text) * times for text, times in ((action.ends, 2.0), (action.lap, 1.0)) if text is not None)
    closure = Closure(action.verb, str(action.what), words, action.across, at, around, extra, number)
    return replace(state, closures=(*state.closures, closure)), parts
