"""A ribbon through holes or slits, alternately to the back and to the front, in the order given: the way it takes.

It begins on the side that faces the maker as the work lies. Between two holes it lies straight; each hole adds the thickness of the panel
that it is in.
"""

from itertools import pairwise
from typing import NamedTuple

from creasewright.blanks.blank import Blank
from creasewright.folding.heights import thickness
from creasewright.folding.references import RefFault, find_parts
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.loops import holds
from creasewright.geometry.rigid_transform import apply, minus, norm
from creasewright.joining.bench import Bench
from creasewright.nearest_name import did_you_mean

Spot = tuple[float, float]


class Passage(NamedTuple):
    """A hole or the middle of a slit, in the flat frame of its part."""

    part: str
    spot: Spot


def passages(bench: Bench, words: tuple[str, ...]) -> tuple[Passage, ...]:
    """The holes and slits that the words name. Raises RefFault."""
    return tuple(passage_named(bench, text) for text in words)


def passage_named(bench: Bench, text: str) -> Passage:
    name, _, owner = text.partition(" of ")
    bench.bring_named(owner or text)
    blanks = bench.state.blanks
    paths = [path for group in find_parts(blanks, owner) for path in group] if owner else list(blanks)
    found = [(path, spots_of(blanks[path])[name]) for path in paths if name in spots_of(blanks[path])]
    if not found:
        known = sorted({own for path in paths for own in spots_of(blanks[path])})
        raise RefFault(f"there is no hole or slit `{text}` here", did_you_mean(name, known))
    if len(found) > 1:
        raise RefFault(f"`{text}` is in {len(found)} parts", f"say which: `{name} of {' of '.join(reversed(found[0][0].split('/')))}`")
    return Passage(*found[0])


def spots_of(blank: Blank) -> dict[str, Spot]:
    """Middles of the holes and slits of a blank, by name."""
    found = {hole.name: (float(hole.centre.x), float(hole.centre.y)) for hole in blank.holes}
    for slit in blank.slits:
        found[slit.name] = (float(slit.start.x + slit.end.x) / 2, float(slit.start.y + slit.end.y) / 2)
    return found


def panel_at(state: State, passage: Passage) -> PanelKey:
    """The panel that a hole is in, or at whose edge a slit lies."""
    panels = state.blanks[passage.part].panels
    x, y = passage.spot
    near = ((0.0, 0.0), (0.05, 0.05), (-0.05, -0.05))
    hit = next((p for p in panels for dx, dy in near if holds(p.polygon, x + dx, y + dy)), panels[0])
    return passage.part, hit.name


def way_through(state: State, path: tuple[Passage, ...]) -> float:
    """mm of ribbon from the first hole to the last, through all of them."""
    panels = [panel_at(state, passage) for passage in path]
    places = [apply(state.placed[panel], (*passage.spot, 0.0)) for panel, passage in zip(panels, path, strict=True)]
    return sum(norm(minus(a, b)) for a, b in pairwise(places)) + sum(thickness(state, panel) for panel in panels)
