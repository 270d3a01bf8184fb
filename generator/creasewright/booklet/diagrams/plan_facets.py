"""Facets of a plan picture from a state: every panel of a body as it lies, from the lowest to the highest."""

from itertools import pairwise
from math import cos, pi, sin

from creasewright.blanks.blank import Blank, Hole, Slit
from creasewright.booklet.diagrams.scene import Affine, Facet, FacetEdge, Motif, Polygon2, Spot
from creasewright.booklet.shown_parts import ShownParts
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import sheet_up
from creasewright.folding.bent_solid import is_bent
from creasewright.folding.covered_boards import outer_corners
from creasewright.folding.fold_scores import Targets
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.loops import holds
from creasewright.geometry.outline import chain_of
from creasewright.geometry.rigid_transform import Matrix, apply, rotate, times
from creasewright.joining.bodies import up_is_later
from creasewright.joining.compass import faces_maker
from creasewright.joining.glue_area import lies_on

Segment = tuple[Spot, Spot]
HOLE_CORNERS = 24


def flat_order(state: State, body: Body) -> list[PanelKey]:
    """Panels that lie flat in the body's view, lowest first."""
    levels = []
    for number, stack in enumerate(body.stacks):
        if abs(rotate(body.view, stack.normal)[2]) > 0.999:
            depth = rotate(body.view, state.placed[stack.order[0]].shift)[2]
            levels.append((-round(depth, 3), number, stack.order if up_is_later(stack, body) else tuple(reversed(stack.order))))
    return [key for _, _, order in sorted(levels) for key in order]


LOW = 0.15
"""A thing is low if what stands of it is no higher than this share of its smaller side."""


def lies_flat(state: State, body: Body) -> bool:
    """Whether a plan shows it: more of its paper lies flat in the view than stands, and what stands is low."""
    if is_bent(state, body):
        return False
    flat = set(flat_order(state, body))
    areas = {key: state.blanks[key[0]].panel(key[1]).area for stack in body.stacks for key in stack.order}
    if 2 * sum(area for key, area in areas.items() if key in flat) < sum(areas.values()):
        return False
    if len(flat) == len(areas):
        return True
    corners = [(key, corner) for key in areas for corner in state.blanks[key[0]].panel(key[1]).polygon]
    spots = [rotate(body.view, apply(state.placed[key], (x, y, 0.0))) for key, (x, y) in corners]
    wide, deep, high = (max(s[axis] for s in spots) - min(s[axis] for s in spots) for axis in range(3))
    return high <= LOW * min(wide, deep)


def plan_facets(
    state: State,
    body: Body,
    parts: ShownParts,
    *,
    targets: Targets | None = None,
    moving: frozenset[PanelKey] = frozenset(),
    lifted: frozenset[str] = frozenset(),
    shift: Spot = (0.0, 0.0),
) -> tuple[Facet, ...]:
    """`targets`: the scores that fold in this step; `lifted`: parts held above the work; `shift`: moved aside in the view."""
    return tuple(
        facet_of(state, body, key, parts, targets or {}, key in moving, key[0] in lifted, shift) for key in flat_order(state, body)
    )


def facet_of(state: State, body: Body, key: PanelKey, parts: ShownParts, targets: Targets, moves: bool, lifted: bool, shift: Spot) -> Facet:
    blank = state.blanks[key[0]]
    front = faces_maker(front_normal(state.placed[key]), body)
    corners = moved(outer_corners(state, key, body.view), shift)
    to_view = view_of(state, key, body.view, shift)
    paper = parts.paper(blank)
    return Facet(
        polygon=corners,
        edges=tuple(edges_of(state, key, corners, targets, front, parts)) + tuple(slit_edges(blank, key[1], to_view)),
        holes=tuple(hole_polygon(hole, to_view) for hole in blank.holes if within(blank, key[1], hole)),
        part=key[0],
        panel=key[1],
        letter=parts.letter(key[0]),
        side="front" if front else "back",
        fill=fill_of(paper, front),
        motif=motif_of(paper, front, parts.turn(key[0]), to_view),
        moves=moves,
        lifted=lifted,
    )


def moved(polygon: Polygon2, shift: Spot) -> Polygon2:
    return tuple((x + shift[0], y + shift[1]) for x, y in polygon)


def view_of(state: State, key: PanelKey, view: Matrix, shift: Spot = (0.0, 0.0)) -> Affine:
    """From the blank's flat frame to the view."""
    turn, at = state.placed[key]
    m = times(view, turn)
    x, y, _ = rotate(view, at)
    return (m[0], m[3], m[1], m[4], x + shift[0], y + shift[1])


def fill_of(paper: PaperFacts | None, front: bool) -> str:
    """A bought thing is drawn white, board in its own tone; a paper alike on both sides has one tone."""
    if paper is None:
        return "WHITE"
    if paper.is_board:
        return "board"
    return f"paper {paper.tone} {'front' if front or paper.sides_alike else 'back'}"


def motif_of(paper: PaperFacts | None, front: bool, turn: int, to_view: Affine) -> Motif | None:
    """The print of the side that shows; its frame has the print's up at -y, and is never a mirror image as seen."""
    if paper is None:
        return None
    kind = paper.front if front else paper.back
    if kind not in ("one-way", "two-way", "all-over"):
        return None
    ux, uy, _ = sheet_up(paper, "front" if front else "back", turn)
    right = (-uy, ux) if front else (uy, -ux)
    a, b, c, d, e, f = to_view
    frame = (
        a * right[0] + c * right[1], b * right[0] + d * right[1],
        -(a * ux + c * uy), -(b * ux + d * uy), e, f,
    )  # fmt: skip
    return Motif(kind, paper.tone, frame, outline_only=not (front or paper.sides_alike))


def score_table(state: State, key: PanelKey) -> list[tuple[Segment, tuple[str, str]]]:
    part, panel = key
    return [
        (chord, (part, p.name))
        for p in state.blanks[part].pieces
        if panel in (p.first, p.second)
        for chord in pairwise(chain_of(p.edge))
    ]


def edges_of(state: State, key: PanelKey, corners: Polygon2, targets: Targets, front: bool, parts: ShownParts) -> list[FacetEdge]:
    """Each edge of the panel with what it is now. A score that runs along part of an edge parts that edge."""
    flat = state.blanks[key[0]].panel(key[1]).polygon
    scores = score_table(state, key)
    found = []
    for ends, seen in zip(pairwise((*flat, flat[0])), pairwise((*corners, corners[0])), strict=True):
        pieces = edge_parts(state, ends, seen, [s for s in scores if lies_on(ends, s[0])], targets, front)
        slit = slit_along(state, key, ends)
        if slit is not None:
            pieces = [FacetEdge(e.start, e.end, slit_kind(state, key, slit, parts, targets, front), slit.name) for e in pieces]
        found += pieces
    return found


def slit_along(state: State, key: PanelKey, ends: Segment) -> Slit | None:
    """The slit that an edge is a side of."""
    middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
    for slit in state.blanks[key[0]].slits:
        a, b = ((float(p.x), float(p.y)) for p in (slit.start, slit.end))
        inside = (
            min(a[0], b[0]) - 0.01 <= middle[0] <= max(a[0], b[0]) + 0.01 and min(a[1], b[1]) - 0.01 <= middle[1] <= max(a[1], b[1]) + 0.01
        )
        if inside and lies_on(ends, (a, b)):
            return slit
    return None


def slit_kind(state: State, key: PanelKey, slit: Slit, parts: ShownParts, targets: Targets, front: bool) -> str:
    """Cut; or, until a step of its own cuts it, a line that folds with the score it lies on."""
    if not parts.uncut(state, key[0], slit.name):
        return "slit"
    line = ((float(slit.start.x), float(slit.start.y)), (float(slit.end.x), float(slit.end.y)))
    creased = False
    for piece in state.blanks[key[0]].pieces:
        if lies_on(line, ((float(piece.start.x), float(piece.start.y)), (float(piece.end.x), float(piece.end.y)))):
            if (key[0], piece.name) in targets:
                return edge_kind(state, (key[0], piece.name), targets, front)
            creased = creased or (key[0], piece.name) in state.creased
    return "crease" if creased else "score"


def edge_parts(
    state: State, ends: Segment, seen: Segment, scores: list[tuple[Segment, tuple[str, str]]], targets: Targets, front: bool
) -> list[FacetEdge]:
    (ax, ay), (bx, by) = ends
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    if not scores or length2 < 1e-9:
        return [FacetEdge(*seen, "cut")]
    marks: list[tuple[float, float, str, str]] = []
    for segment, score in scores:
        t0, t1 = sorted(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2 for x, y in segment)
        t0, t1 = max(0.0, t0), min(1.0, t1)
        if t1 - t0 > 1e-6:
            marks.append((t0, t1, edge_kind(state, score, targets, front), score[1]))
    found, here = [], 0.0
    for t0, t1, kind, name in sorted(marks):
        if t0 - here > 1e-6:
            found.append(FacetEdge(between(seen, here), between(seen, t0), "cut"))
        found.append(FacetEdge(between(seen, t0), between(seen, t1), kind, name))
        here = t1
    if 1 - here > 1e-6:
        found.append(FacetEdge(between(seen, here), seen[1], "cut"))
    return found


def between(segment: Segment, t: float) -> Spot:
    (ax, ay), (bx, by) = segment
    return (ax + (bx - ax) * t, ay + (by - ay) * t)


def edge_kind(state: State, score: tuple[str, str], targets: Targets, front: bool) -> str:
    angle = state.angles.get(score, 0.0)
    if abs(angle) > 1:
        return "folded"
    if score in targets:
        return "valley" if (targets[score] > 0) == front else "mountain"
    return "crease" if score in state.creased else "score"


def slit_edges(blank: Blank, panel: str, to_view: Affine) -> list[FacetEdge]:
    """Slits that run inside a panel; those along its rim are edges already."""
    polygon = blank.panel(panel).polygon
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    rims = list(zip(polygon, (*polygon[1:], polygon[0]), strict=True))
    found = []
    for slit in blank.slits:
        ends = ((float(slit.start.x), float(slit.start.y)), (float(slit.end.x), float(slit.end.y)))
        middle = ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
        in_box = min(xs) + 0.01 < middle[0] < max(xs) - 0.01 and min(ys) + 0.01 < middle[1] < max(ys) - 0.01
        if in_box and holds(polygon, *middle) and not any(along_rim(rim, ends) for rim in rims):
            found.append(FacetEdge(seen_spot(to_view, ends[0]), seen_spot(to_view, ends[1]), "slit", slit.name))
    return found


def along_rim(rim: Segment, line: Segment) -> bool:
    """Whether a rim runs along some of a line."""
    (ax, ay), (bx, by) = line
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    shares = sorted(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2 for x, y in rim)
    return lies_on(rim, line) and min(shares[1], 1.0) - max(shares[0], 0.0) > 1e-6


def seen_spot(affine: Affine, spot: Spot) -> Spot:
    a, b, c, d, e, f = affine
    return (a * spot[0] + c * spot[1] + e, b * spot[0] + d * spot[1] + f)


def within(blank: Blank, panel: str, hole: Hole) -> bool:
    polygon = blank.panel(panel).polygon
    xs, ys = [x for x, _ in polygon], [y for _, y in polygon]
    return min(xs) < hole.centre.x < max(xs) and min(ys) < hole.centre.y < max(ys)


def hole_polygon(hole: Hole, to_view: Affine) -> Polygon2:
    r = float(hole.across) / 2
    spots = [
        (float(hole.centre.x) + r * cos(2 * pi * k / HOLE_CORNERS), float(hole.centre.y) + r * sin(2 * pi * k / HOLE_CORNERS))
        for k in range(HOLE_CORNERS)
    ]
    return tuple(seen_spot(to_view, spot) for spot in spots)
