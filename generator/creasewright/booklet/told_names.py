"""What a step's sentence calls by name is named in its picture too, and the panels and edges of a piece that is met for the first time.

Where a part is laid edge on edge and shows no print that has a top, the top of it and of what it is laid on are named.

Such a name is a wish: it is set where there is a clear place, last of all.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from creasewright.booklet.diagrams.scene import Facet, Named
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.step_rows import StepCell
from creasewright.booklet.step_views import StepPicture
from creasewright.booklet.turn_pictures import MOST_NAMES, edge_names
from creasewright.fitting.end_for_end import same_after_half_turn
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import showing
from creasewright.geometry.clip import clockwise
from creasewright.geometry.outline import Polygon
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

BOLD, ITALIC = re.compile(r"\*\*([^*]+)\*\*"), re.compile(r"(?<!\*)\*([^*]+)\*(?!\*)")
OWNER = re.compile(r"(?:(?!\. )[^:])*?\bof \*\*([^*]+)\*\*")
"""The piece that a name is said to be of, after the name and no farther than to the colon or the end of the sentence."""


def with_told_names(cell: StepCell, parts: ShownParts, met: set[str], tops: bool = False) -> StepCell:
    """`met`: letters of pieces shown before, taken further. `tops`: those of what is laid and of what it is laid on are named."""
    plan = cell.picture.plan
    if plan is None or not plan.facets:
        return cell
    letters = tuple(dict.fromkeys(BOLD.findall(cell.text)))
    shown = {facet.letter for facet in plan.facets if facet.letter}
    fresh = len(shown) == 1 and not shown <= met
    met |= shown
    meant = letters if shown & set(letters) else tuple(sorted(shown))
    turned = any(mark.kind.startswith("turn") for mark in cell.picture.marks)
    panels = _of_several(plan.facets)
    names = [_wish(name, facet) for name, facet in _told(panels, cell.text, meant, parts)]
    if fresh and len(panels) <= MOST_NAMES:
        names += [_wish(parts.panel_name(facet.panel), facet) for facet in panels]
    if turned or (fresh and not any(facet.motif is not None and facet.motif.kind == "one-way" for facet in plan.facets)):
        # the top alone: the bottom lies across from it, and each name makes the picture higher; a print that has a top shows it
        names.append(replace(_top(plan.facets, False), wish=True))
    if tops:
        names += [_top(plan.facets, True), replace(_top(plan.facets, False), wish=True)]
    written = {name.text for name in plan.names}
    wished = {(name.text, name.polygon): name for name in names if name.text not in written}
    named = replace(plan, names=(*plan.names, *wished.values()), told=letters)
    return replace(cell, picture=replace(cell.picture, plan=named))


def without_idle_names(cells: Sequence[StepCell]) -> list[StepCell]:
    """Without names of panels that no step of the assembly says."""
    words = " ".join(cell.text for cell in cells)
    found = []
    for cell in cells:
        plan = cell.picture.plan
        said = tuple(name for name in plan.names if name.edge or name.text in words) if plan else ()
        if plan and said != plan.names:
            cell = replace(cell, picture=replace(cell.picture, plan=replace(plan, names=said)))
        found.append(cell)
    return found


def tops_told(run: StepRun, picture: StepPicture, papers: Mapping[str, PaperFacts]) -> bool:
    """A part is laid by its edges, and nothing that shows of it tells its top from its bottom, though half a turn would change it."""
    action, plan = run.written.action, picture.plan
    if plan is None or not isinstance(action, design.Join) or action.meet is None:
        return False
    lifted = [facet for facet in plan.facets if facet.lifted]
    if not lifted or len(lifted) == len(plan.facets) or _most_seen_runs_one_way(lifted):
        return False
    part = lifted[0].part
    blank = run.after.blanks[part]
    loose = len(lifted) == len(blank.panels) and not any(key[0] == part and angle for key, angle in run.after.angles.items())
    return not (loose and all(facet.part == part for facet in lifted) and same_after_half_turn(blank, papers.get(blank.paper)))


def _most_seen_runs_one_way(facets: Sequence[Facet]) -> bool:
    """`facets`: from the lowest layer to the highest."""
    seen: list[tuple[float, Facet]] = []
    above: list[Polygon] = []
    for facet in reversed(facets):
        shape = clockwise(facet.polygon)
        seen.append((showing(shape, above), facet))
        above.append(shape)
    motif = max(seen, key=lambda one: one[0])[1].motif
    return motif is not None and motif.kind == "one-way"


def _top(facets: Iterable[Facet], lifted: bool) -> Named:
    return edge_names(tuple(facet for facet in facets if facet.lifted == lifted))[0]


def _told(facets: Iterable[Facet], text: str, letters: tuple[str, ...], parts: ShownParts) -> Iterator[tuple[str, Facet]]:
    """Each panel that the text calls by name, of the piece that it is said to be of, or of all with these letters; of panels of one
    name the topmost of each piece."""
    topmost = {(parts.panel_name(facet.panel), facet.letter): facet for facet in facets}
    for name in ITALIC.finditer(text):
        owner = OWNER.match(text, name.end())
        for letter in (owner[1],) if owner else letters:
            facet = topmost.get((name[1], letter))
            if facet is not None:
                yield name[1], facet


def _wish(name: str, facet: Facet) -> Named:
    return Named(name, facet.polygon, wish=True, panel=(facet.part, facet.panel))


def _of_several(facets: tuple[Facet, ...]) -> list[Facet]:
    """Panels of pieces that have several: the only one of a piece needs no name beside the piece's letter."""
    counts = Counter(facet.part for facet in facets)
    return [facet for facet in facets if facet.letter and counts[facet.part] > 1]
