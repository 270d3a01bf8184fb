"""Flat scenes for the tests of plan pictures, built by hand in model millimetres: head at the top, x right, y down."""

from math import cos, pi, sin

from creasewright.booklet.diagrams.scene import (
    Action,
    Affine,
    Dimension,
    Facet,
    FacetEdge,
    FoldArrow,
    GlueMark,
    Motif,
    Named,
    PlanScene,
    Polygon2,
    SlideArrow,
    Spot,
)

IN = 25.4
UPRIGHT: Affine = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def facet(
    polygon: Polygon2,
    kinds: str | list[str] = "cut",
    part: str = "strip",
    panel: str = "page",
    letter: str = "B",
    side: str = "front",
    tone: int = 1,
    motif: str | None = "one-way",
    to_view: Affine = UPRIGHT,
    holes: tuple[Polygon2, ...] = (),
    **flags: bool,
) -> Facet:
    """One panel; `kinds` are its edges' kinds, in the order of its corners."""
    names = [kinds] * len(polygon) if isinstance(kinds, str) else kinds
    edges = tuple(
        FacetEdge(a, b, kind) for a, b, kind in zip(polygon, (*polygon[1:], polygon[0]), names, strict=True)
    )
    edges += tuple(FacetEdge(a, b, "cut") for hole in holes for a, b in zip(hole, (*hole[1:], hole[0]), strict=True))
    print_seen = Motif(motif, tone, to_view) if motif and side == "front" else None
    return Facet(polygon, edges, holes, part, panel, letter, side, f"paper {tone} {side}", print_seen, **flags)


def rectangle(x: float, y: float, w: float, h: float) -> Polygon2:
    return ((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def arc(cx: float, cy: float, radius: float, start: float, end: float, count: int = 24) -> Polygon2:
    angles = [(start + (end - start) * k / count) * pi / 180 for k in range(count + 1)]
    return tuple((cx + radius * cos(a), cy + radius * sin(a)) for a in angles)


def mirrored(polygon: Polygon2, y: float) -> Polygon2:
    """Folded over a level score at `y`; the order is turned so that it still runs clockwise."""
    return tuple((px, 2 * y - py) for px, py in reversed(polygon))


SCORE = 7.25 * IN
PAGE = ((0.0, 0.0), (5 * IN, 0.0), (5 * IN, SCORE), (0.0, SCORE))
FLAP = ((0.0, SCORE), (5 * IN, SCORE), (5 * IN, SCORE + 3 * IN), (0.0, SCORE + 2 * IN))
FLAP_UP = mirrored(FLAP, SCORE)
FLAP_UP_KINDS = ["cut", "cut", "folded", "cut"]
"""(0, tail), (5, tail) ... reversed: from the flap's left tail corner."""


def strip_flat() -> PlanScene:
    """A strip with a slanted flap below a valley score: crease it and open it again."""
    return PlanScene(
        facets=(
            facet(PAGE, ["cut", "cut", "valley", "cut"]),
            facet(FLAP, ["valley", "cut", "cut", "cut"], panel="flap", moves=True),
        ),
        fold_arrows=(FoldArrow((2.5 * IN, SCORE + 1.9 * IN), (2.5 * IN, SCORE - 1.9 * IN), "crease"),),
        dimensions=(
            Dimension((0.0, SCORE), (0.0, SCORE + 2 * IN), "2 in", "left"),
            Dimension((5 * IN, SCORE), (5 * IN, SCORE + 3 * IN), "3 in", "right"),
        ),
        names=(
            Named("head", (*PAGE[:2], *FLAP[2:]), "head"),
            Named("fore edge", (*PAGE[:2], *FLAP[2:]), "left"),
            Named("spine edge", (*PAGE[:2], *FLAP[2:]), "right"),
        ),
    )


def _flap_corners() -> list[Spot]:
    return list(FLAP_UP)


def strip_folded() -> PlanScene:
    """The same after folding: the flap's plain side up, glued seams under it, to be pressed, and again with C."""
    band = 3 / 16 * IN
    off = 1 / 16 * IN
    seam_left = ((off, SCORE - 1.9 * IN), (off + band, SCORE - 1.9 * IN), (off + band, SCORE), (off, SCORE))
    right = 5 * IN - off - band
    seam_right = ((right, SCORE - 2.9 * IN), (right + band, SCORE - 2.9 * IN), (right + band, SCORE), (right, SCORE))
    return PlanScene(
        facets=(
            facet(PAGE, ["cut", "cut", "folded", "cut"]),
            facet(FLAP_UP, flap_up_kinds(), panel="flap", side="back"),
        ),
        glue=(GlueMark(seam_left, hidden=True), GlueMark(seam_right, hidden=True)),
        dimensions=(
            Dimension((0.0, SCORE), (0.0, SCORE - 2 * IN), "2 in", "left"),
            Dimension((5 * IN, SCORE), (5 * IN, SCORE - 3 * IN), "3 in", "right"),
        ),
        names=(Named("plain side", FLAP_UP),),
        actions=(Action("press"), Action("repeat", "C")),
    )


def flap_up_kinds() -> list[str]:
    """`folded` on the side that lies on the score, `cut` on the others."""
    sides = zip(FLAP_UP, (*FLAP_UP[1:], FLAP_UP[0]), strict=True)
    return ["folded" if a[1] == b[1] == SCORE else "cut" for a, b in sides]


def glue_strip() -> PlanScene:
    """Glue on both sides of the flap, its width and stand-back too small to print: a lens."""
    band, off = 3 / 16 * IN, 1 / 16 * IN
    right = 5 * IN - off - band
    y0, y1 = SCORE + 0.1 * IN, SCORE + 2.9 * IN
    left_glue = ((off, y0), (off + band, y0), (off + band, SCORE + 2 * IN), (off, SCORE + 1.95 * IN))
    right_glue = ((right, y0), (right + band, y0), (right + band, y1), (right, y1 - 0.05 * IN))
    middle = SCORE + 1.2 * IN
    return PlanScene(
        facets=(
            facet(PAGE, ["cut", "cut", "crease", "cut"]),
            facet(FLAP, ["crease", "cut", "cut", "cut"], panel="flap"),
        ),
        glue=(GlueMark(left_glue), GlueMark(right_glue)),
        dimensions=(
            Dimension((right, middle), (right + band, middle), "3⁄16 in", "inside"),
            Dimension((right + band, middle), (5 * IN, middle), "1⁄16 in", "inside"),
        ),
    )


def three_layers() -> PlanScene:
    """A letter fold: the left third over, then the right third over that, valley folds; the last fold goes behind."""
    w, h = 3 * IN, 5 * IN
    middle = rectangle(0.0, 0.0, w, h)
    return PlanScene(
        facets=(
            facet(middle, ["cut", "folded", "cut", "folded"], part="card", panel="middle", letter="A", tone=3, motif="two-way"),
            facet(rectangle(0.0, 0.0, w - 1, h), ["cut", "cut", "cut", "folded"], part="card", panel="left", letter="A", side="back", tone=3),
            facet(
                rectangle(2.0, 0.0, w - 2, h), ["cut", "folded", "cut", "cut"], part="card", panel="right", letter="A", side="back", tone=3
            ),
        ),
        fold_arrows=(FoldArrow((2.2 * IN, 1.5 * IN), (3.8 * IN, 1.5 * IN), "open"),),
        dimensions=(
            Dimension((0.0, h), (w, h), "3 in", "tail"),
            Dimension((0.0, 0.0), (0.0, h), "5 in", "left"),
        ),
        names=(Named("top panel, last one over", rectangle(2.0, 0.0, w - 2, h)), Named("open edge", middle, "left")),
    )


def two_meet() -> PlanScene:
    """Two pieces laid on a cover: one lies, the other is held above and slides in."""
    cover_w, h, hinge = 5.25 * IN, 7.5 * IN, 0.5 * IN
    inset = 1 / 8 * IN
    x1, x2 = cover_w, cover_w + hinge
    left, spine, right = rectangle(0, 0, cover_w, h), rectangle(x1, 0, hinge, h), rectangle(x2, 0, cover_w, h)
    b = rectangle(inset, inset, 5 * IN, 7.25 * IN)
    pocket_b = ((inset, 5.35 * IN), (inset + 5 * IN, 4.4 * IN), (inset + 5 * IN, inset + 7.25 * IN), (inset, inset + 7.25 * IN))
    dx, dy = x2 + 2.5 * IN, -1.5 * IN
    c = rectangle(dx, dy, 5 * IN, 7.25 * IN)
    pocket_c = ((dx, dy + 4.3 * IN), (dx + 5 * IN, dy + 5.2 * IN), (dx + 5 * IN, dy + 7.25 * IN), (dx, dy + 7.25 * IN))
    page = ["cut", "cut", "folded", "cut"]
    pocket = ["cut", "cut", "folded", "cut"]
    lying = {"motif": None, "side": "back", "tone": 2, "part": "cover", "letter": "A"}
    return PlanScene(
        facets=(
            facet(left, ["cut", "valley", "cut", "cut"], panel="left", **lying),  # type: ignore[arg-type]
            facet(spine, ["cut", "valley", "cut", "valley"], panel="spine", **lying),  # type: ignore[arg-type]
            facet(right, ["cut", "cut", "cut", "valley"], panel="right", **lying),  # type: ignore[arg-type]
            facet(b, page, part="left strip", letter="B"),
            facet(pocket_b, pocket, part="left strip", panel="flap", letter="B", side="back"),
            facet(c, page, part="right strip", letter="C", to_view=(1, 0, 0, 1, dx, dy), lifted=True),
            facet(pocket_c, pocket, part="right strip", panel="flap", letter="C", side="back", lifted=True),
        ),
        slides=(SlideArrow((dx + 1.2 * IN, dy + 6.6 * IN), (x2 + 1.4 * IN, dy + 7.7 * IN)),),
        dimensions=(
            Dimension((0.0, h), (x1, h), "5\u20641⁄4 in", "tail"),
            Dimension((x1, h), (x2, h), "1⁄2 in", "tail"),
            Dimension((x2, h), (x2 + cover_w, h), "5\u20641⁄4 in", "tail"),
            Dimension((0.0, 0.4 * IN), (inset, 0.4 * IN), "1⁄8 in", "inside"),
        ),
        landing=(rectangle(x2 + inset, inset, 5 * IN, 7.25 * IN),),
    )


def envelope() -> PlanScene:
    """Rounded corners, four diagonal flaps: two folded in, the tail flap to be folded, the head flap open."""
    w, h = 6.0 * IN, 4.5 * IN
    cx = w / 2
    r = 12.0
    body = rectangle(0.0, 0.0, w, h)
    head_flap = ((0.0, 0.0), *_tip(cx, -2.4 * IN, r, up=True), (w, 0.0))
    left = ((0.0, 0.0), (2.5 * IN, h / 2 - 8), *arc(2.5 * IN - 3, h / 2, 8.5, -70, 70, 12), (2.5 * IN, h / 2 + 8), (0.0, h))
    right = tuple((w - x, y) for x, y in reversed(left))
    tail = ((0.0, h), (w, h), *reversed(_tip(cx, h + 2.4 * IN, r, up=False)))
    return PlanScene(
        facets=(
            facet(body, ["mountain", "folded", "valley", "folded"], part="envelope", panel="body", letter="E", side="back", tone=4),
            facet(head_flap, _flap_kinds(head_flap, "mountain"), part="envelope", panel="head flap", letter="E", side="back", tone=4),
            facet(tail, _flap_kinds(tail, "valley", first=True), part="envelope", panel="tail flap", letter="E", side="back", tone=4),
            facet(
                left, _flap_kinds(left, "folded"), part="envelope", panel="left flap", letter="E", tone=4, motif="all-over"
            ),
            facet(
                right, _flap_kinds(right, "folded"), part="envelope", panel="right flap", letter="E", tone=4, motif="all-over"
            ),
        ),
        fold_arrows=(FoldArrow((cx, h + 1.7 * IN), (cx, h - 1.7 * IN), "front"),),
        dimensions=(
            Dimension((0.0, h), (w, h), "6 in", "head"),
            Dimension((w, 0.0), (w, h), "4\u20641⁄2 in", "right"),
            Dimension((0.0, h), (cx - 12, h + 2.2 * IN), "3\u20641⁄8 in", "tail"),
        ),
        names=(Named("side flap", left), Named("rounded flap", head_flap), Named("tail flap", tail)),
    )


def _tip(cx: float, y: float, radius: float, up: bool) -> Polygon2:
    sign = -1 if up else 1
    curve = [(cx + radius * 1.6 * (-cos(a)), y - sign * radius + sign * radius * sin(a)) for a in (k * pi / 16 for k in range(3, 14))]
    return tuple(curve)


def _flap_kinds(polygon: Polygon2, hinge: str, first: bool = False) -> list[str]:
    kinds = ["cut"] * len(polygon)
    kinds[0 if first else -1] = hinge
    return kinds


ALL = {
    "strip flat": strip_flat,
    "strip folded": strip_folded,
    "glue strip": glue_strip,
    "three layers": three_layers,
    "two meet": two_meet,
    "envelope": envelope,
}
