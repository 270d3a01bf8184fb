"""Flat scenes for the tests of plan pictures, built by hand in model millimetres: head at the top, x right, y down."""

from collections.abc import Callable
from math import cos, pi, sin
from typing import Any

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
    edges = tuple(FacetEdge(a, b, kind) for a, b, kind in zip(polygon, (*polygon[1:], polygon[0]), names, strict=True))
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
            facet(
                rectangle(0.0, 0.0, w - 1, h),
                ["cut", "cut", "cut", "folded"],
                part="card",
                panel="left",
                letter="A",
                side="back",
                tone=3,
            ),
            facet(
                rectangle(2.0, 0.0, w - 2, h),
                ["cut", "folded", "cut", "cut"],
                part="card",
                panel="right",
                letter="A",
                side="back",
                tone=3,
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
    lying: dict[str, Any] = {"motif": None, "side": "back", "tone": 2, "part": "cover", "letter": "A"}
    return PlanScene(
        facets=(
            facet(left, ["cut", "valley", "cut", "cut"], panel="left", **lying),
            facet(spine, ["cut", "valley", "cut", "valley"], panel="spine", **lying),
            facet(right, ["cut", "cut", "cut", "valley"], panel="right", **lying),
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
    envelope_back: dict[str, Any] = {"part": "envelope", "letter": "E", "side": "back", "tone": 4}
    envelope_front: dict[str, Any] = {"part": "envelope", "letter": "E", "tone": 4, "motif": "all-over"}
    return PlanScene(
        facets=(
            facet(body, ["mountain", "folded", "valley", "folded"], panel="body", **envelope_back),
            facet(head_flap, _flap_kinds(head_flap, "mountain"), panel="head flap", **envelope_back),
            facet(tail, _flap_kinds(tail, "valley", first=True), panel="tail flap", **envelope_back),
            facet(left, _flap_kinds(left, "folded"), panel="left flap", **envelope_front),
            facet(right, _flap_kinds(right, "folded"), panel="right flap", **envelope_front),
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
    angles = [k * pi / 16 for k in range(3, 14)]
    return tuple((cx - radius * 1.6 * cos(a), y - sign * radius + sign * radius * sin(a)) for a in angles)


def _flap_kinds(polygon: Polygon2, hinge: str, first: bool = False) -> list[str]:
    kinds = ["cut"] * len(polygon)
    kinds[0 if first else -1] = hinge
    return kinds


def mirror_strip() -> PlanScene:
    """The mirror of the flat strip, its print mirrored with it, the flap folded behind."""
    flat = strip_flat()
    width = 5 * IN

    def across(spot: Spot) -> Spot:
        return width - spot[0], spot[1]

    facets = tuple(
        facet(
            tuple(map(across, reversed(old.polygon))),
            ["mountain" if len({across(a)[1], across(b)[1], SCORE}) == 1 else "cut" for a, b in _sides(old.polygon, across)],
            panel=old.panel,
            letter="C",
            to_view=(-1.0, 0.0, 0.0, 1.0, width, 0.0),
            part="right strip",
        )
        for old in flat.facets
    )
    return PlanScene(
        facets,
        fold_arrows=(FoldArrow(across(flat.fold_arrows[0].start), across(flat.fold_arrows[0].end), "behind"),),
        dimensions=(
            Dimension((width, SCORE), (width, SCORE + 2 * IN), "2 in", "right"),
            Dimension((0.0, SCORE), (0.0, SCORE + 3 * IN), "3 in", "left"),
            Dimension((0.0, 0.0), (0.0, SCORE), "7\u20641⁄4 in", "left"),
            Dimension((0.0, 0.0), (0.0, SCORE + 3 * IN), "10\u20641⁄4 in", "left"),
            Dimension((0.0, 0.0), (width, 0.0), "5 in", "head"),
        ),
    )


def _sides(polygon: Polygon2, move: Callable[[Spot], Spot]) -> list[tuple[Spot, Spot]]:
    turned = list(map(move, reversed(polygon)))
    return list(zip(turned, [*turned[1:], turned[0]], strict=True))


def window_card() -> PlanScene:
    """A card with a hole over another card, a wide glued band measured inside, a flap lifted to 90 degrees and a tucked tab."""
    under, card = rectangle(-8.0, -6.0, 116.0, 92.0), rectangle(0.0, 0.0, 100.0, 80.0)
    window = rectangle(30.0, 25.0, 40.0, 30.0)
    tab = ((100.0, 20.0), (116.0, 24.0), (116.0, 56.0), (100.0, 60.0))
    return PlanScene(
        facets=(
            facet(under, part="backing", letter="D", tone=2, motif="all-over"),
            facet(card, ["cut", "valley", "cut", "cut"], part="window", letter="A", side="back", tone=3, holes=(window,)),
            facet(tab, ["cut", "cut", "cut", "valley"], part="window", panel="tab", letter="A", side="back", tone=3, moves=True),
        ),
        glue=(GlueMark(rectangle(3.0, 62.0, 94.0, 12.0)),),
        fold_arrows=(FoldArrow((112.0, 32.0), (101.0, 32.0), "lift", 90.0), FoldArrow((60.0, 100.0), (60.0, 74.0), "tuck")),
        dimensions=(
            Dimension((50.0, 62.0), (50.0, 74.0), "12 mm", "inside"),
            Dimension((30.0, 25.0), (70.0, 25.0), "40 mm", "head"),
            Dimension((0.0, 0.0), (100.0, 0.0), "100 mm", "head"),
            Dimension((97.0, 68.0), (100.0, 68.0), "3 mm", "inside"),
        ),
        names=(Named("window", window), Named("tab", tab)),
    )


ALL = {
    "strip flat": strip_flat,
    "strip folded": strip_folded,
    "mirror strip": mirror_strip,
    "window card": window_card,
    "glue strip": glue_strip,
    "three layers": three_layers,
    "two meet": two_meet,
    "envelope": envelope,
}
