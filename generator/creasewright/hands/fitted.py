"""Pieces that are cut to fit: their size follows what is measured on the real thing, so the errors of that thing are no more in the way."""

from creasewright.folding.state import State
from creasewright.hands.carried import Carried, Cause, Slopes, added
from creasewright.hands.clearance import Making, bounds, worst_span
from creasewright.hands.cover_rooms import outside
from creasewright.hands.error_table import MEASURED, TRIMMED
from creasewright.hands.made_lines import lines_of
from creasewright.joining.inserting import room_in_view

SIDES = {"width": "right", "height": "tail"}


def fitted_size(making: Making, state: State, part: str, way: str) -> Slopes | None:
    """How the `width` or `height` of a part that is cut to fit errs; None for one that is not, or whose place is not here."""
    blank = state.blanks[part].name
    size = next((size for size in making.worked.fitted if size.blank == blank and size.way == way), None)
    if size is None:
        return None
    found: Slopes = {Cause(TRIMMED, part, SIDES[way]): 1.0, Cause(MEASURED, part, way): 1.0}
    for word, of, _, slope in size.taken:
        found = added(found, real(making, state, word, of), slope)
    return found


def branch_words(making: Making, state: State, part: str, way: str) -> str:
    """Which branches of the formula of a size cut to fit were taken; empty where there is no choice, or none is cut to fit."""
    blank = state.blanks[part].name
    sizes = [size for size in making.worked.fitted if size.blank == blank and size.way == way]
    return "; ".join(words for size in sizes for words in size.worse)


def real(making: Making, state: State, word: str, of: str) -> Slopes:
    """How a quality of the real thing errs; nothing for what hands do not change (a thickness) or what is not to be found here."""
    axis = 0 if word.endswith("width") else 1
    if word in ("room width", "room height"):
        pocket = next((pocket for name, pocket in state.pockets.items() if name.split("/")[-1] == of), None)
        if pocket is None:
            return {}
        body = state.body_of(pocket.front[0])
        room, _ = room_in_view(state, body, pocket)
        panels = list(dict.fromkeys([pocket.back, *pocket.closing]))
        low, high = (bounds(state, body, panels, axis, room[k], way) for k, way in ((axis, -1.0), (axis + 2, 1.0)))
        return worst_span(making, state, body, low, high, axis)[0]
    if word in ("girth", "outside width", "outside height"):
        parts = [part for part in state.blanks if of in part.split("/")[:-1]]
        body = state.body_of(parts[0]) if parts else max(state.bodies, key=lambda body: len(body.parts))
        across = outside(making, state, body, 0 if word == "girth" else axis)
        return added({}, across, 2.0) if word == "girth" else across
    if word in ("width", "height"):
        return flat_size(state, of, axis)
    return {}


def flat_size(state: State, of: str, axis: int) -> Slopes:
    """Of a panel or a blank as it lies flat: between its two outermost lines that way."""
    words = of.split(" of ")
    for part, blank in state.blanks.items():
        name = part.split("/")[-1]
        panels = [panel for panel in blank.panels if words == [name] or (panel.name == words[0] and words[1:] in ([], [name]))]
        if not panels:
            continue
        spots = [spot for panel in panels for spot in panel.polygon]
        low, high = min(spot[axis] for spot in spots), max(spot[axis] for spot in spots)
        ends = []
        for value in (low, high):
            there = (line for line in lines_of(state, part) if max(abs(line.start[axis] - value), abs(line.end[axis] - value)) < 0.02)
            line = next(there, None)
            ends.append(Carried(value, line.slopes if line is not None else {}))
        return (ends[1] - ends[0]).slopes
    return {}
