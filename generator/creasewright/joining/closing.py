"""Ties and bands: how long they must be to go round the closed thing, or through its holes."""

from msgspec.structs import replace

from creasewright.folding.solid_points import extents
from creasewright.folding.state import Closure, GlueArea, State
from creasewright.joining.adhesive_choice import Taken, with_best_adhesive
from creasewright.joining.bench import Bench
from creasewright.joining.girth import girth
from creasewright.joining.refused import JoinRefused
from creasewright.joining.ribbon_path import passages, way_through
from creasewright.reading.design import Tie


def closed_with(bench: Bench, action: Tie, number: int) -> tuple[State, tuple[str, ...]]:
    """The state with the closure noted, and the parts it goes round. Raises JoinRefused."""
    supply = bench.supply
    words = str(action.around)
    groups = [] if words in ("all", "") else bench.parts(words) if bench.bring_named(words) else []
    parts = tuple(path for group in groups for path in group) or tuple(bench.state.blanks)
    if not parts:
        raise JoinRefused(f"there is nothing yet for the {action.what} to go round", "tie it after the steps that make the thing")
    extra = sum(supply.length(text) * times for text, times in ((action.ends, 2.0), (action.lap, 1.0)) if text is not None)
    if action.path:
        through = passages(bench, tuple(str(text) for text in action.path))
        way = way_through(bench.state, through)
        closure = Closure(action.verb, str(action.what), words, action.across, 0.0, way, extra, number, path=through, on=parts[0])
        return replace(bench.state, closures=(*bench.state.closures, closure)), parts
    state = bench.state
    at, around = measured_round(bench, action, parts)
    closure = Closure(action.verb, str(action.what), words, action.across, at, around, extra, number, on=parts[0])
    if action.verb == "band":
        closure = band_of(bench, action, closure)

        def lapped(taken: Taken) -> None:
            bench.state = replace(state, closures=(*state.closures, closure), glue=(*state.glue, *lap_glue(bench, action, closure, taken)))

        with_best_adhesive(bench, action, lapped)
        return bench.state, parts
    return replace(state, closures=(*state.closures, closure)), parts


def measured_round(bench: Bench, action: Tie, parts: tuple[str, ...]) -> tuple[float, float]:
    """How far from the head (or left) side it goes round, and the girth there, mm. Raises JoinRefused."""
    state = bench.state
    body = state.body_of(parts[0])
    low, high = extents(state, body)
    start = low[1] if action.across == "width" else low[0]
    size = (high[1] - low[1]) if action.across == "width" else (high[0] - low[0])
    at = bench.supply.length(action.at) if action.at is not None else size / 2
    if not 0 <= at <= size:
        raise JoinRefused(f"`at` is {at:.1f} mm, but the thing measures {size:.1f} mm there", "choose a place on it")
    return at, girth(state, body, action.across, start + at)


def band_of(bench: Bench, action: Tie, closure: Closure) -> Closure:
    """The closure with its strip."""
    part = bench.parts(str(action.what))[0][0]
    blank = bench.state.blanks[part]
    wide, high = float(blank.width), float(blank.height)
    along_width = action.across == "width"
    return replace(
        closure, band=part, has=wide if along_width else high, wide=high if along_width else wide,
        thick=bench.state.thick[part] or 0.0,
    )  # fmt: skip


def lap_glue(bench: Bench, action: Tie, closure: Closure, taken: Taken) -> tuple[GlueArea, ...]:
    """The adhesive on the lap: on the back of one end, for it lies on the front of the other."""
    part = closure.band
    blank = bench.state.blanks[part]
    wide, high = float(blank.width), float(blank.height)
    lap = bench.supply.length(action.lap) if action.lap is not None else 0.0
    setback = bench.supply.house("setback")
    if not taken.material or lap <= 2 * setback:
        return ()
    x0, y0 = (wide - lap, 0.0) if action.across == "width" else (0.0, high - lap)
    left, head, right, tail = x0 + setback, y0 + setback, wide - setback, high - setback
    panel = (part, blank.panels[-1].name)
    ring = ((left, head), (right, head), (right, tail), (left, tail))
    return (GlueArea(panel, panel, "back", ring, taken.material, 0.0, setback, 0.0, closure.step),)
