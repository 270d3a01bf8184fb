"""Facets of a picture in space from a state: every panel where it stands, a hair apart by its thickness; a thick thing as a block."""

from collections.abc import Iterator
from itertools import pairwise
from math import dist

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.bent_facets import bent_facets
from creasewright.booklet.diagrams.plan_facets import edges_of, fill_of, motif_of
from creasewright.booklet.diagrams.scene import Affine, Facet3, FacetEdge, Polygon2, Spot3
from creasewright.booklet.diagrams.slab_facets import LEAST, slab_facets
from creasewright.booklet.diagrams.space_view import along, unit
from creasewright.booklet.shown_parts import ShownParts
from creasewright.folding.covered_boards import covered_boards, outer_polygon
from creasewright.folding.fold_scores import Targets
from creasewright.folding.heights import heights
from creasewright.folding.panel_graph import links
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import Vector, apply, cross, dot, minus, norm, rotate

ORIGIN: Spot3 = (0.0, 0.0, 0.0)
UP: Vector = (0.0, 0.0, -1.0)
TOLD = ("score", "crease", "valley", "mountain")
"""Lines drawn otherwise than an edge: pressed and not folded yet, opened again, or folding in this step."""
FOLD_BACK = -1
"""Layer of a fold's back: whatever else lies in its plane, as the spine does round its leaves, lies over it."""
CLOSED = 179.0
"""Degrees: a fold at least so far closed lies flat."""


def space_facets(
    state: State, body: Body, parts: ShownParts, targets: Targets | None = None, eye: Vector = UP, *, backs: bool = False
) -> tuple[Facet3, ...]:
    """All panels of a body, in its view: x right, y to the maker, z down into the table.

    `targets`: scores that fold in this step, dashed as the side seen from `eye` shows them. `backs`: and the backs of closed folds, so
    that no fold looks like two edges with a gap between them.
    """
    folding = Folding(replace(state, angles={**state.angles, **dict.fromkeys(targets, 0.0)}), targets, eye) if targets else None
    found: list[Facet3] = []
    sheets: dict[PanelKey, tuple[Facet3, Spot3]] = {}
    round_boards: set[PanelKey] = set()
    for stack in body.stacks:
        level = heights(state, body, stack)
        covered = covered_boards(state, stack, level)
        for each in covered:
            number = stack.order.index(each.panel)
            faces = [facet3(state, body, each.panel, stack.normal, by, number, parts, folding) for by in (each.high, each.low)]
            found += [one_toned(side, front_fill(faces[0])) for side in slab_facets(faces[0], faces[1])[2:]]
            round_boards.add(each.panel)
        hidden = {each.board for each in covered}
        for number, key in enumerate(stack.order):
            if key in hidden:
                continue
            if key in state.curved:
                found += bent_facets(state, body, key, parts)
                continue
            low, high = level[key]
            if high - low >= LEAST and parts.paper(state.blanks[key[0]]) is None:
                faces = [facet3(state, body, key, stack.normal, by, number, parts, folding) for by in (high, low)]
                found += slab_facets(faces[0], faces[1])
                continue
            raise_by = (low + high) / 2
            found.append(facet3(state, body, key, stack.normal, raise_by, number, parts, folding))
            sheets[key] = found[-1], along(ORIGIN, found[-1].normal, raise_by)
    return (*found, *(fold_backs(state, body, sheets, round_boards) if backs else ()))


def front_fill(facet: Facet3) -> str:
    return facet.fill if facet.side == "front" else facet.back_fill


def one_toned(facet: Facet3, fill: str) -> Facet3:
    """Of what goes round the edge of a board: its inside is never seen."""
    return replace(facet, fill=fill, back_fill=fill)


def fold_backs(state: State, body: Body, sheets: dict[PanelKey, tuple[Facet3, Spot3]], round_boards: set[PanelKey]) -> Iterator[Facet3]:
    """The strip of paper from one panel round to the other at each closed fold; `sheets`: panels and how their layers lie off their
    places; `round_boards`: panels of covers that are turned in there round a board."""
    for link in links(state, body.parts):
        if link.piece is None or link.first not in sheets or link.second not in sheets:
            continue
        if abs(state.angles.get((link.first[0], link.piece.name), 0.0)) < CLOSED:
            continue
        (one, by), (_, other_by) = sheets[link.first], sheets[link.second]
        start, end = (
            rotate(body.view, apply(state.placed[link.first], (float(p.x), float(p.y), 0.0))) for p in (link.piece.start, link.piece.end)
        )
        ring = along(start, by, 1.0), along(end, by, 1.0), along(end, other_by, 1.0), along(start, other_by, 1.0)
        across, round_it = minus(ring[1], ring[0]), minus(ring[2], ring[1])
        normal = cross(across, round_it)
        if norm(normal) < 1e-6:
            continue
        inner = one.polygon[0] if dot(normal, minus(one.polygon[0], start)) else one.polygon[len(one.polygon) // 2]
        outward = unit(normal) if dot(normal, minus(inner, start)) < 0 else unit(minus(ORIGIN, normal))
        outside, inside = (one.fill, one.back_fill) if dot(one.normal, minus(by, other_by)) > 0 else (one.back_fill, one.fill)
        if link.first in round_boards or link.second in round_boards:
            outside = inside = front_fill(one)
        yield replace(
            one,
            polygon=ring,
            panel=f"{one.panel} back",
            letter="",
            normal=outward,
            fill=outside,
            back_fill=inside,
            motif=None,
            back_motif=None,
            axis_x=unit(across),
            axis_y=unit(round_it),
            layer=FOLD_BACK,
            edge_kinds=(),
        )


class Folding(Struct, frozen=True):
    """What folds in this step."""

    flat: State
    """With those scores not folded yet."""
    targets: Targets
    eye: Vector

    def lines_of(self, key: PanelKey, flat: Polygon2, outward: Vector, front_side: bool, parts: ShownParts) -> list[FacetEdge]:
        front = (dot(self.eye, outward) > 0) == front_side
        return edges_of(self.flat, key, flat, self.targets, front, parts)


def facet3(
    state: State, body: Body, key: PanelKey, normal: Vector, raise_by: float, layer: int, parts: ShownParts, folding: Folding | None = None
) -> Facet3:
    placed = state.placed[key]
    front_side = dot(front_normal(placed), normal) > 0
    outward = rotate(body.view, normal)
    blank = state.blanks[key[0]]
    paper = parts.paper(blank)

    def seen(x: float, y: float) -> Spot3:
        p = rotate(body.view, apply(placed, (x, y, 0.0)))
        return (p[0] + outward[0] * raise_by, p[1] + outward[1] * raise_by, p[2] + outward[2] * raise_by)

    flat = outer_polygon(state, key)
    if folding is not None:
        edges = folding.lines_of(key, flat, outward, front_side, parts)
    else:
        edges = edges_of(state, key, flat, {}, True, parts)
    lined = any(edge.kind in TOLD for edge in edges) and joined_up(edges)
    polygon = tuple(seen(x, y) for x, y in ([edge.start for edge in edges] if lined else flat))
    axis_x = rotate(body.view, rotate(placed.turn, (1.0, 0.0, 0.0)))
    axis_y = rotate(body.view, rotate(placed.turn, (0.0, 1.0, 0.0)))
    x0, y0 = edges[0].start if lined else flat[0]
    own: Affine = (1.0, 0.0, 0.0, 1.0, -x0, -y0)
    turn = parts.turn(key[0])
    towards = motif_of(paper, front_side, turn, own)
    away = motif_of(paper, not front_side, turn, own)
    return Facet3(
        polygon=polygon,
        part=key[0],
        panel=key[1],
        letter=parts.letter(key[0]),
        side="front" if front_side else "back",
        normal=outward,
        fill=fill_of(paper, front_side),
        back_fill=fill_of(paper, not front_side),
        motif=towards,
        back_motif=away,
        axis_x=axis_x,
        axis_y=axis_y,
        layer=layer,
        edge_kinds=tuple(edge.kind for edge in edges) if lined else (),
    )


def joined_up(edges: list[FacetEdge]) -> bool:
    """Whether each edge begins where the one before it ends, so that they are the panel's rim."""
    return all(dist(one.end, other.start) < 1e-6 for one, other in pairwise((*edges, edges[0])))
