"""Bands against the way round: what is left of the band when its lap is made as long as the design says.

The way round is the convex outline of a section. Where the thing is wider by d it is longer by 2 d at most (by just that much where its two
ends stand square, as those of a flat or boxed thing do): the worse is taken.
"""

from collections.abc import Iterator
from math import pi

from creasewright.folding.state import Body, Closure, State
from creasewright.hands.carried import Carried, Cause, Slopes, added
from creasewright.hands.clearance import Clearance, Making, own_size
from creasewright.hands.cover_rooms import outside, walls
from creasewright.hands.error_table import PLACED
from creasewright.hands.fitted import branch_words, fitted_size
from creasewright.hands.seen_lines import between_panels
from creasewright.joining.run_step import StepRun

SQUARE = "the ends of what it goes round taken as square"


def band_rooms(making: Making) -> Iterator[Clearance]:
    for _, run in making.original_runs():
        for closure in run.after.closures[len(run.before.closures) :]:
            if closure.band:
                yield of_band(making, run, closure)


def of_band(making: Making, run: StepRun, closure: Closure) -> Clearance:
    state = run.before
    name = closure.band.split("/")[-1]
    axis = 0 if closure.across == "width" else 1
    body = state.body_of(closure.on)
    length = own_length(making, state, closure)
    lap = {Cause(PLACED, closure.band, "lap"): 1.0}
    slopes = added(added(length, lap), way_round(making, state, body, axis), -1.0)
    spare = closure.has - closure.girth - pi * closure.thick - closure.extra
    return Clearance(
        "band", name, closure.around or "it", "", run.written.where, Carried(spare, slopes),
        f"make {name} {{more}} longer", closure.band, run.number,
        branch_words(making, state, closure.band, lengthwise(state, closure)) or SQUARE,
    )  # fmt: skip


def lengthwise(state: State, closure: Closure) -> str:
    """Which of the band's sizes goes round."""
    return "width" if abs(float(state.blanks[closure.band].width) - closure.has) < 0.01 else "height"


def own_length(making: Making, state: State, closure: Closure) -> Slopes:
    way = lengthwise(state, closure)
    fitted = fitted_size(making, state, closure.band, way)
    if fitted is not None:
        return fitted
    body = state.body_of(closure.band)
    seen_along = 0 if abs(body.view[0 if way == "width" else 1]) > 0.5 else 1
    return own_size(making, state, closure.band, seen_along)


def way_round(making: Making, state: State, body: Body, axis: int) -> Slopes:
    """Twice the width it goes across, and twice the height where panels stand upright."""
    across = outside(making, state, body, axis)
    levels = walls(state, body, 2)
    upwards = between_panels(state, body, making.places, levels[0][1], levels[-1][1], 2) if len(levels) > 1 else {}
    return added(added({}, across, 2.0), upwards, 2.0)
