"""Bulk map: how thick a folded thing is everywhere, as an exact overlay of all that lies parallel to the table.

Layer   a panel, an insert or the foam between two panels, as seen in the body's view
Cell    a place that the same layers cover; its thickness is theirs added: calipers, inserts, foam

Panels that stand upright on the table or aslant add to the outside sizes only. Thickness is counted in nanometres, so sums are exact.
"""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from creasewright.folding.heights import foam_between, thickness
from creasewright.folding.state import Body, PanelKey, Stack, State
from creasewright.geometry.clip import intersection, total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.overlay import Cell, overlay
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.compass import Box, box, faces_maker, polygon_in_view

LEAST_CELL = 1.0
"""mm²: a cell smaller than this is a sliver between edges that were meant to agree."""
NANOMETRES = 1_000_000
"""In a mm."""
FLAT = 0.999
FOAM = "foam"


class Layer(Struct, frozen=True):
    key: PanelKey
    """Of foam: the part that it lies under, and `foam`."""
    shape: tuple[Polygon, ...]
    """In the body's view, mm; of foam what its two panels share."""
    thick: float
    inserted: bool


class BulkMap(Struct, frozen=True, eq=False):
    layers: tuple[Layer, ...]
    """From the table up."""
    cells: tuple[Cell, ...]
    """Thickest first. Their numbers are those of the layers; cells under LEAST_CELL are left out."""
    whole: Box
    """Round all layers but the inserts, which may stand out: left, head, right, tail, mm."""

    def thick(self, cell: Cell) -> float:
        return cell.weight / NANOMETRES

    def layers_at(self, cell: Cell) -> tuple[PanelKey, ...]:
        """What lies there, from the table up."""
        return tuple(self.layers[number].key for number in cell.numbers())

    def thickest(self, zone: Box | None = None) -> Cell | None:
        """The thickest cell, or the thickest of those that share more than a sliver with a zone; of several the largest there."""
        best: tuple[float, Cell] | None = None
        for cell in self.cells:
            if best is not None and cell.weight < best[1].weight:
                break
            size = cell.area if zone is None else area_within(cell, zone)
            if size >= LEAST_CELL and (best is None or size > best[0]):
                best = size, cell
        return best[1] if best is not None else None


def bulk_map(state: State, body: Body, empty: bool = False) -> BulkMap:
    """The map of a body as it lies; `empty`: without what was inserted."""
    layers = tuple(layer for layer in layers_of(state, body) if not (empty and layer.inserted))
    kept = sorted(cells_of(layers), key=lambda cell: -cell.weight)
    own = [polygon for layer in layers if not layer.inserted for polygon in layer.shape]
    return BulkMap(layers, tuple(kept), box(own or [p for la in layers for p in la.shape] or [((0.0, 0.0),)]))


def cells_of(layers: Sequence[Layer]) -> tuple[Cell, ...]:
    return _cells(tuple(tuple(layer.shape) for layer in layers), tuple(round(layer.thick * NANOMETRES) for layer in layers))


@lru_cache(maxsize=16)
def _cells(shapes: tuple[tuple[Polygon, ...], ...], weights: tuple[int, ...]) -> tuple[Cell, ...]:
    """The same closed thing is asked for its girth, its thickness and its map."""
    return tuple(cell for cell in overlay(shapes, weights) if cell.area >= LEAST_CELL)


def thickest_of(layers: Sequence[Layer]) -> float:
    """mm of the thickest place that these layers make together; 0 where there are none."""
    return max((cell.weight for cell in cells_of(layers)), default=0) / NANOMETRES


def layers_of(state: State, body: Body) -> list[Layer]:
    """Everything parallel to the table, from the table up."""
    inserted = {bond.second[0] for bond in state.bonds if bond.kind == "insert"}
    layers = []
    for stack in from_the_table(state, body):
        foam = foam_between(state, set(stack.order))
        order = stack.order if faces_maker(stack.normal, body) else stack.order[::-1]
        shapes = {key: polygon_in_view(state, body, key) for key in order}
        for number, key in enumerate(order):
            for below in order[:number] if foam else ():
                gap = foam.get(frozenset((below, key)), 0.0)
                if gap:
                    layers.append(Layer((key[0], FOAM), tuple(intersection([shapes[key]], [shapes[below]])), gap, False))
            layers.append(Layer(key, (shapes[key],), thickness(state, key), key[0] in inserted))
    return layers


def from_the_table(state: State, body: Body) -> list[Stack]:
    """The stacks that lie parallel to the table, the lowest first."""
    flat = [stack for stack in body.stacks if abs(rotate(body.view, stack.normal)[2]) > FLAT]
    return sorted(flat, key=lambda stack: -round(level(state, body, stack), 3))


def level(state: State, body: Body, stack: Stack) -> float:
    """z of a stack's plane in the view, mm, down into the table."""
    return rotate(body.view, apply(state.placed[stack.order[0]], (0.0, 0.0, 0.0)))[2]


def area_within(cell: Cell, zone: Box) -> float:
    """mm² of a cell inside a box."""
    left, head, right, tail = zone
    corners = ((left, head), (right, head), (right, tail), (left, tail))
    found = 0.0
    for one in cell.slices:
        if one.x1 <= left or one.x0 >= right or max(one.tail0, one.tail1) <= head or min(one.head0, one.head1) >= tail:
            continue
        inside = one.x0 >= left and one.x1 <= right and min(one.head0, one.head1) >= head and max(one.tail0, one.tail1) <= tail
        found += one.area if inside else total_area(intersection([one.polygon], [corners]))
    return found
