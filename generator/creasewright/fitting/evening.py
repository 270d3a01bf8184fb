"""What would even a closed thing that is thicker at its open edge than at its spine, sized by figures.

Wedge     how much thicker the open edge is
Hinge     a spine that stands: it has to hold the two panels it hangs between as far apart as the layers between them are thick,
          wherever that is, or they bow over them; what lies outside of them is no matter of the spine
Band      the gusset to put in place of the fold that goes round all the layers, where no spine stands
Strips    spacers of a paper of the design, glued in beside that fold
"""

from msgspec import Struct

from creasewright.fitting.bulk import EDGE_ZONE, Bulk, Thick, zone_at
from creasewright.fitting.spine_side import FLAT_FOLD, Hinge, folds_at, hinges_at, room_at
from creasewright.folding.heights import thickness
from creasewright.folding.panel_graph import Link
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.geometry.overlay import Cell
from creasewright.joining.bulk_map import LEAST_CELL, BulkMap, area_within, bulk_map

EVEN = 0.5
"""mm of difference that nobody sees."""
MOST_STRIPS = 6
"""More than this on one another are not glued in: a wider spine is the better way (common practice, no source)."""
WIDEST_STRIP = 2 * EDGE_ZONE
"""mm: a spacer need not be wider (common practice, no source)."""


class Strips(Struct, frozen=True):
    paper: str
    layers: int
    width: float
    """mm, from the spine inwards."""
    length: float
    """mm, along the spine."""
    thick: float
    """mm, all layers together."""
    onto: PanelKey


class Evening(Struct, frozen=True):
    wedge: float
    """mm; the two ends even where it is at most EVEN."""
    thickest: Thick
    """What the spine is held against: the open edge; where a spine stands the thickest place between the panels it hangs between."""
    at_spine: float
    """mm: the layers there; where a spine stands those between its panels, or what it holds open between them."""
    hinge: PanelKey | None
    hinge_width: float
    """mm: of the spine that stands; 0 where none does."""
    fold: PieceKey | None
    """The fold round all the layers, where no spine stands."""
    needed: float
    """mm: how wide the hinge, or the band in place of the fold, has to be for both ends to be even."""
    strips: Strips | None


def evening(state: State, body: Body, bulk: Bulk, calipers: dict[str, float]) -> Evening | None:
    """None where the thing has no spine. `calipers`: of the papers that spacers may be cut from, mm."""
    if bulk.spine is None:
        return None
    found = bulk_map(state, body)
    hinges = hinges_at(state, body, found.whole, bulk.spine)
    room = room_at(state, body)
    if hinges and room > 0:
        return hinged(state, found, max(hinges, key=lambda one: state.blanks[one.panel[0]].panel(one.panel[1]).area), bulk, room)
    wedge = bulk.at_fore_edge.mm - bulk.at_spine.mm
    places = {layer.key: number for number, layer in enumerate(found.layers)}
    # folds of walls that stand upright on the table lie in no layer
    folds = [link for link in folds_at(state, body, found.whole, bulk.spine) if is_flat(state, link)]
    folds = [link for link in folds if link.first in places and link.second in places]
    if not folds:
        return Evening(wedge, bulk.at_fore_edge, bulk.at_spine.mm, None, 0.0, None, 0.0, None)
    outer = max(folds, key=lambda link: abs(places[link.first] - places[link.second]))
    inner = min(folds, key=lambda link: abs(places[link.first] - places[link.second]))
    needed = bulk.at_fore_edge.mm - thickness(state, outer.first)
    onto = min(inner.first, inner.second, key=lambda key: places[key])
    strips = spacer(found, bulk, wedge, calipers, onto)
    return Evening(wedge, bulk.at_fore_edge, bulk.at_spine.mm, None, 0.0, outer.piece_key, needed, strips)


def hinged(state: State, found: BulkMap, hinge: Hinge, bulk: Bulk, room: float) -> Evening:
    """Where a spine stands: `room` is from middle to middle of the papers of the two panels it hangs between."""
    assert bulk.spine is not None
    low, high = sorted(number for number, layer in enumerate(found.layers) if layer.key in hinge.between)

    def inside(cell: Cell) -> Thick:
        numbers = [number for number in cell.numbers() if low < number < high]
        return Thick(sum(found.layers[number].thick for number in numbers), tuple(found.layers[number].key for number in numbers))

    zone = zone_at(found.whole, bulk.spine)
    most = max((inside(cell) for cell in found.cells), key=lambda thick: thick.mm)
    there = max((inside(cell).mm for cell in found.cells if area_within(cell, zone) >= LEAST_CELL), default=0.0)
    paper = sum(thickness(state, key) for key in hinge.between) / 2
    at_spine = max(there, room - paper)
    return Evening(most.mm - at_spine, most, at_spine, hinge.panel, room, None, most.mm + paper, None)


def is_flat(state: State, link: Link) -> bool:
    return link.piece_key is not None and abs(state.angles[link.piece_key]) >= FLAT_FOLD


def spacer(found: BulkMap, bulk: Bulk, wedge: float, calipers: dict[str, float], onto: PanelKey) -> Strips | None:
    """The fewest strips of one paper that even the wedge to EVEN, as wide as there is room for them beside the spine."""
    choices = []
    for paper, caliper in calipers.items():
        layers = max(1, round(wedge / caliper)) if caliper > 0 else 0
        left = abs(wedge - layers * caliper)
        if 0 < layers <= MOST_STRIPS and left <= EVEN:
            choices.append((layers, left, paper))
    if wedge <= EVEN or not choices or bulk.spine is None:
        return None
    layers, _, paper = min(choices)
    thick = layers * calipers[paper]
    width = min(WIDEST_STRIP, free_depth(found, bulk.spine, bulk.at_fore_edge.mm - thick))
    if width < EDGE_ZONE:
        return None
    x0, y0, x1, y1 = found.whole
    return Strips(paper, layers, width, (y1 - y0) if bulk.spine in ("left", "right") else (x1 - x0), thick, onto)


def free_depth(found: BulkMap, spine: str, most: float) -> float:
    """How far from the spine the thing stays no thicker than `most` and what nobody sees, mm."""
    zone = zone_at(found.whole, spine)
    depths = [WIDEST_STRIP]
    for cell in found.cells:
        if found.thick(cell) <= most + EVEN:
            break
        xs = [x for one in cell.slices for x in (one.x0, one.x1)]
        ys = [y for one in cell.slices for y in (one.head0, one.head1, one.tail0, one.tail1)]
        depth = {
            "left": min(xs) - zone[0], "right": zone[2] - max(xs), "head": min(ys) - zone[1], "tail": zone[3] - max(ys),
        }[spine]  # fmt: skip
        depths.append(max(0.0, depth))
    return min(depths)
