"""Where adhesive goes: the contact of two panels, back from its edges, all of it or strips along some of its sides."""

from itertools import pairwise

from msgspec import Struct

from creasewright.folding.overlaps import seen_corners
from creasewright.folding.state import Body, GlueArea, PanelKey, State, front_normal
from creasewright.geometry.clip import area, clockwise, difference, intersection, union
from creasewright.geometry.offset import inset
from creasewright.geometry.outline import Polygon, chain_of
from creasewright.geometry.rigid_transform import Rigid, Vector, apply, inverse, rotate, transposed
from creasewright.joining.compass import EIGHTHS, box, compass_word, faces_maker, outward, polygon_in_view

LEAST = 0.5
"""Contacts and areas under this many mm² are slivers."""


class GlueWish(Struct, frozen=True):
    along: tuple[str, ...]
    """Sides by compass word, `free edges`, or empty for all of the contact."""
    width: float
    setback: float
    keep_clear: tuple[PanelKey, ...]
    """No adhesive where these panels lie."""
    material: str
    step: int


def contact(state: State, body: Body, panel: PanelKey, onto: PanelKey) -> list[Polygon]:
    """What two panels share as seen in the view."""
    pieces = intersection([polygon_in_view(state, body, panel)], [polygon_in_view(state, body, onto)])
    return [piece for piece in pieces if abs(area(piece)) > LEAST]


def glue_areas(state: State, body: Body, panel: PanelKey, onto: list[PanelKey], up: bool, wish: GlueWish) -> list[GlueArea]:
    """Adhesive on `panel` where it meets `onto`; `up`: on its side that faces the maker now."""
    shape = polygon_in_view(state, body, panel)
    allowed = inset(shape, wish.setback) if wish.setback > 0 else [shape]
    if wish.along:
        strips = [clockwise(band(edge, wish)) for edge in edges_along(state, body, panel, wish.along)]
        allowed = intersection(allowed, union(strips)) if strips else []
    if wish.keep_clear:
        allowed = difference(allowed, [polygon_in_view(state, body, key) for key in wish.keep_clear if key[0] in body.parts])
    areas = []
    for other in onto:
        met = contact(state, body, panel, other)
        held = [back for piece in met for back in inset(piece, wish.setback)] if wish.setback > 0 else met
        for piece in without_holes(intersection(allowed, held)):
            if area(piece) > LEAST:
                areas.append(area_on(state, body, panel, other, up, piece, wish))
    return areas


def without_holes(pieces: list[Polygon]) -> list[Polygon]:
    """The same paper as pieces without holes: cut through the middle of each hole, from head to tail."""
    hole = next((piece for piece in pieces if area(piece) < 0), None)
    if hole is None:
        return pieces
    left, head, right, tail = box(pieces)
    middle = sum(box([hole])[::2]) / 2
    return [
        part
        for x0, x1 in ((left, middle), (middle, right))
        for part in without_holes(intersection(pieces, [((x0, head), (x1, head), (x1, tail), (x0, tail))]))
    ]


def area_on(state: State, body: Body, panel: PanelKey, onto: PanelKey, up: bool, piece: Polygon, wish: GlueWish) -> GlueArea:
    front_up = faces_maker(front_normal(state.placed[panel]), body)
    return GlueArea(
        panel=panel,
        onto=onto,
        side="front" if front_up == up else "back",
        polygon=into_panel(state, body, panel, piece),
        material=wish.material,
        length=abs(area(piece)) / wish.width if wish.along and wish.width > 0 else 0.0,
        setback=wish.setback,
        width=wish.width if wish.along else 0.0,
        step=wish.step,
    )


def into_panel(state: State, body: Body, panel: PanelKey, polygon: Polygon) -> Polygon:
    """A polygon of the view, in the panel's own flat frame."""
    back = inverse(state.placed[panel])
    level = rotate(body.view, state.placed[panel].shift)[2]
    to_world = Rigid(transposed(body.view), (0.0, 0.0, 0.0))
    points: list[Vector] = [apply(back, apply(to_world, (x, y, level))) for x, y in polygon]
    return tuple((p[0], p[1]) for p in points)


EdgeLine = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
"""Start, end, and the unit normal that points outwards."""


def edges_along(state: State, body: Body, panel: PanelKey, along: tuple[str, ...]) -> list[EdgeLine]:
    """The edges of a panel (as seen) that the words name."""
    shape = seen_corners(state, panel, body.view)
    scored = score_segments(state, panel)
    flat = state.blanks[panel[0]].panel(panel[1]).polygon
    middle = (sum(x for x, _ in shape) / len(shape), sum(y for _, y in shape) / len(shape))
    found = []
    for number, (start, end) in enumerate(zip(shape, (*shape[1:], shape[0]), strict=True)):
        normal = outward(start, end, middle)
        ends = flat[number], flat[(number + 1) % len(flat)]
        is_score = any(lies_on(ends, segment) for segment in scored)
        if ("free edges" in along and not is_score) or any(points_to(word, normal) for word in along):
            found.append((start, end, normal))
    return found


def points_to(word: str, normal: tuple[float, float]) -> bool:
    """A plain side takes every edge within 45 degrees of it; a slanted word only the slanted edges."""
    if word not in EIGHTHS:
        return False
    if "-" in word:
        return compass_word(*normal) == word
    nx, ny = {"head": (0, -1), "tail": (0, 1), "left": (-1, 0), "right": (1, 0)}[word]
    return nx * normal[0] + ny * normal[1] > 0.75


def score_segments(state: State, panel: PanelKey) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    return [chord for p in state.blanks[panel[0]].pieces if panel[1] in (p.first, p.second) for chord in pairwise(chain_of(p.edge))]


def lies_on(
    edge: tuple[tuple[float, float], tuple[float, float]], segment: tuple[tuple[float, float], tuple[float, float]]
) -> bool:
    (ax, ay), (bx, by) = segment
    length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    return all(abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length < 0.01 for x, y in edge)


def band(edge: EdgeLine, wish: GlueWish) -> Polygon:
    """The strip inside an edge, from the edge to `setback + width` in."""
    (ax, ay), (bx, by), (nx, ny) = edge
    deep = wish.setback + wish.width
    return ((ax, ay), (bx, by), (bx - nx * deep, by - ny * deep), (ax - nx * deep, ay - ny * deep))
