"""The work itself in a plan picture: paper, slivers, lines, glue, landing places; no measures, no words.

Frame: mm on the page, from the scene's origin.
"""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.glue_hatch import glue_area
from creasewright.booklet.diagrams.hidden_edges import dotted_outline
from creasewright.booklet.diagrams.layer_spread import spread
from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet, moved_by
from creasewright.booklet.diagrams.paper_fill import (
    Visible,
    fill_shape,
    layer_slivers,
    lifted_slivers,
    sliver_shape,
    visible_parts,
)
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import GlueMark, PlanScene, Polygon2, Spot
from creasewright.booklet.diagrams.visible_lines import visible_chains, within
from creasewright.booklet.drawing import Item
from creasewright.geometry.clip import intersection


class Work(Struct, frozen=True):
    facets: tuple[PageFacet, ...]
    visible: tuple[Visible, ...]
    paper: tuple[Item, ...]
    slivers: tuple[Item, ...]
    lines: tuple[Item, ...]
    glue: tuple[Item, ...]
    chains: tuple[Chain, ...]
    """Every line drawn, of any kind: nothing may be set across one. Those of the paper itself come first."""
    own_chains: int
    """How many are of the paper itself: its print runs on under them."""
    glued: tuple[Polygon2, ...]
    """Hatched areas."""
    hidden_glue: tuple[Polygon2, ...]


def work_of(scene: PlanScene, scale: float, style: PictureStyle, fan: bool = True) -> Work:
    facets = spread(scene.facets, scale, fan)
    visible = visible_parts(facets)
    paper = tuple(shape for shape in map(fill_shape, visible) if shape)
    slivers = [*layer_slivers(facets), *lifted_slivers(facets)] if fan else []
    lines, chains = _lines(facets, style)
    chains += [(*ring, ring[0]) for rings in slivers for ring in rings]
    own_chains = len(chains)
    above = [facet for facet in facets if facet.source.lifted]
    coming = [*above, *_coming(visible)] if scene.landing else above
    for polygon in scene.landing:
        items, dotted = dotted_outline(tuple((x * scale, y * scale) for x, y in polygon), coming, style, "landing")
        lines += items
        chains += dotted
    glue: list[Item] = []
    glued, hidden = [], []
    for mark in scene.glue:
        ring = _on_its_facet(mark, facets, scene, scale)
        if mark.hidden:
            items, dotted = dotted_outline(ring, above, style, "hidden glue")
            lines += items
            hidden.append(ring)
        else:
            glue += glue_area((ring,), style)
            dotted = [(*ring, ring[0])]
            glued.append(ring)
        chains += dotted
    return Work(
        facets, visible, paper, tuple(map(sliver_shape, slivers)), tuple(lines), tuple(glue), tuple(chains), own_chains, tuple(glued),
        tuple(hidden),
    )


def _coming(visible: Sequence[Visible]) -> list[PageFacet]:
    """What is seen of a piece on its way in: the place where it goes is not dotted across it."""
    return [
        replace(each.facet, polygon=ring, holes=(), box=box_of(ring), core=None)
        for each in visible
        if each.facet.source.moves and not each.facet.source.lifted
        for ring in each.rings
    ]


def _lines(facets: Sequence[PageFacet], style: PictureStyle) -> tuple[list[Item], list[Chain]]:
    """Visible lines of all facets; pieces of one score that meet are joined. Dashes lie under solid lines."""
    solid: list[tuple[str, Chain]] = []
    broken: list[tuple[str, Chain]] = []
    for k, facet in enumerate(facets):
        for kind, chain in facet.chains:
            into = solid if kind in ("cut", "slit", "folded") else broken
            into.extend((kind, part) for part in visible_chains(chain, facets[k + 1 :]))
    items: list[Item] = []
    chains: list[Chain] = []
    for kind, chain in (*joined(broken), *solid):
        shape = line_shape(kind, chain, style)
        if shape:
            items.append(shape)
        chains.append(chain)
    return items, chains


def joined(pieces: Sequence[tuple[str, Chain]]) -> list[tuple[str, Chain]]:
    """Pieces of one kind, end to end and going on nearly straight, as one."""
    found: list[tuple[str, Chain]] = []
    for kind, chain in pieces:
        mine = chain
        again = True
        while again:
            again = False
            for k, (other_kind, other) in enumerate(found):
                whole = _end_to_end(other, mine) if other_kind == kind else None
                if whole:
                    mine = whole
                    found.pop(k)
                    again = True
                    break
        found.append((kind, mine))
    return found


def _end_to_end(first: Chain, second: Chain) -> Chain | None:
    for a in (first, first[::-1]):
        for b in (second, second[::-1]):
            if abs(a[-1][0] - b[0][0]) < 0.01 and abs(a[-1][1] - b[0][1]) < 0.01 and _goes_on(a[-2], b[0], b[1]):
                return (*a, *b[1:])
    return None


def _goes_on(before: Spot, at: Spot, after: Spot) -> bool:
    """Turning by less than about 25 degrees."""
    ax, ay, bx, by = at[0] - before[0], at[1] - before[1], after[0] - at[0], after[1] - at[1]
    dot, cross = ax * bx + ay * by, ax * by - ay * bx
    return dot > 0 and abs(cross) < 0.47 * dot


def _on_its_facet(mark: GlueMark, facets: Sequence[PageFacet], scene: PlanScene, scale: float) -> Polygon2:
    """The area on the page, shifted with the highest facet it lies on; where something will lie, with the outline of that."""
    middle = box_of(mark.polygon).middle
    if not any(within(middle, place) for place in scene.landing):
        for facet in reversed(facets):
            if not facet.source.lifted and within(middle, facet.source.polygon):
                return tuple(moved_by(facet.to_page, spot) for spot in mark.polygon)
    return tuple((x * scale, y * scale) for x, y in mark.polygon)


def work_in_lens(scene: PlanScene, scale: float, window: Box, style: PictureStyle) -> Work:
    """The work drawn larger, true to its places, without motifs, as far as the window shows it."""
    near = box_of(((window.x0 / scale, window.y0 / scale), (window.x1 / scale, window.y1 / scale)))
    facets = tuple(facet for facet in scene.facets if box_of(facet.polygon).overlaps(near))
    corners = ((near.x0, near.y0), (near.x1, near.y0), (near.x1, near.y1), (near.x0, near.y1))
    glue = tuple(
        GlueMark(ring, mark.hidden)
        for mark in scene.glue
        if box_of(mark.polygon).overlaps(near)
        for ring in ((mark.polygon,) if mark.hidden else intersection((mark.polygon,), (_grown(corners, near),)))
    )
    return work_of(PlanScene(facets, glue, landing=scene.landing), scale, style, fan=False)


def _grown(corners: Polygon2, near: Box) -> Polygon2:
    """A little larger than the window, so that a clipped area's own rim falls outside it."""
    cx, cy = near.middle
    return tuple((cx + 1.3 * (x - cx), cy + 1.3 * (y - cy)) for x, y in corners)
