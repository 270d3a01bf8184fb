"""By what a maker sees that a piece lies the way it is drawn: its print, its outline, or what was pencilled on it. Never by a front or a
top that nothing on the paper shows. Places are as the piece lies: left, right, far, near.
"""

from collections.abc import Mapping, Sequence
from math import atan2, hypot, pi

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.blanks.spare_parts import CORNERS, rectangle_of, spare_parts
from creasewright.blanks.turned_over import same_end_for_end
from creasewright.booklet.diagrams.boxes import box_of
from creasewright.booklet.diagrams.plan_facets import motif_of
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.clip import area
from creasewright.geometry.outline import Arc, Outline, Polygon, flattened
from creasewright.geometry.point import Point
from creasewright.scoring.lies import MIRRORED, NEAR_RIM, Lie, straight_spans, turned_like_a_page

FULL, HALF, POOR = 0.9, 0.5, 1 / 3
"""Of a side of the piece's box: how much of it a straight edge takes up that is seen at once as its whole side; as most of it; as none."""
OUTDOES = 3.0
"""A corner of so many times the spare paper of every other one is seen as the large one."""
SIDES = ("far", "right", "near", "left")
"""By quarter turns clockwise from away from the maker."""
TURNED = 0.2
"""Radians: less of a turn is no corner to the eye."""


class Feature(Struct, frozen=True):
    kind: str
    """`print`, `arrow` and `letter` (pencilled), `corner`, `narrow` or `straight` (an end), `none` (it may lie either way), `top`."""
    where: str
    """Of SIDES; of a corner as `far left`; empty for `none`."""
    shape: str = ""
    """Of a corner: `round`, `large round`, `cut`, `large cut` or `square`."""


def feature_of(blank: Blank, lie: Lie, paper: PaperFacts | None, turn: int, lettered: bool) -> Feature:
    """The first that tells how the piece lies; `turn` of its blank on the sheet, `lettered` where its letter keeps one place on it."""
    motif = motif_of(paper, lie.up == "front", turn, lie.to_lie.floats())
    if motif is not None and motif.kind == "one-way":
        return Feature("print", _side_towards(-motif.to_view[2], -motif.to_view[3]))
    seen = _odd_corner(blank, lie) or _odd_side(blank, lie)
    if seen is not None:
        return seen
    top = SIDES[lie.quarter]
    if paper is not None and paper.front in ("one-way", "two-way"):
        return Feature("arrow", top)
    if lettered:
        return Feature("letter", top)
    prints = (paper.front, paper.back) if paper is not None else ()
    either = same_end_for_end(blank) and all(each in ("plain", "all-over") for each in prints)
    return Feature("none", "") if either else Feature("top", top)


def feature_underneath(feature: Feature, blank: Blank, lie: Lie, paper: PaperFacts | None, turn: int, letter: str) -> Feature | None:
    """What tells how the piece lies where its `feature` is on the side underneath: as it is seen with that side up, before the piece is
    turned over like a page. None where the side up tells it. `letter`: `up`, `under`; empty where none stays, and it is on the front."""
    kind, over = feature.kind, lie.up == "back"
    hidden = letter == "under" or (not letter and over) if kind in ("arrow", "letter") else kind == "top" and over
    if not hidden or (kind == "top" and (paper is None or paper.sides_alike)):
        return None
    return feature_of(blank, turned_like_a_page(lie), paper, turn, bool(letter))


def seen_through(feature: Feature) -> Feature:
    """What is told of the other side, after the piece is turned over like a page."""
    return replace(feature, where=MIRRORED.get(feature.where, feature.where))


def _side_towards(x: float, y: float) -> str:
    if abs(x) > abs(y):
        return "right" if x > 0 else "left"
    return "near" if y > 0 else "far"


def _odd_corner(blank: Blank, lie: Lie) -> Feature | None:
    """The one corner that is unlike the three others; where several are cut or rounded, the one that is so by far the most."""
    spare: Mapping[str, Polygon] = {part.corner: part.polygon for part in spare_parts(blank) if part.corner}
    square = [word for word in CORNERS if word not in spare]
    if not spare:
        return None
    if len(spare) == 1 or len(square) == 1:
        (word,) = spare if len(spare) == 1 else square
        return Feature("corner", _corner_place(blank, lie, word), _shape(blank, spare[word]) if word in spare else "square")
    sizes = sorted(((abs(area(polygon)), word) for word, polygon in spare.items()), reverse=True)
    (largest, word), (second, _) = sizes[:2]
    if largest < OUTDOES * second:
        return None
    return Feature("corner", _corner_place(blank, lie, word), f"large {_shape(blank, spare[word])}")


def _shape(blank: Blank, polygon: Polygon) -> str:
    box = box_of(polygon).grown(0.01)
    arcs = [edge for edge in blank.outline.edges if isinstance(edge, Arc)]
    inside = [arc for arc in arcs if all(box.x0 <= float(p.x) <= box.x1 and box.y0 <= float(p.y) <= box.y1 for p in (arc.start, arc.end))]
    return "round" if inside else "cut"


def _corner_place(blank: Blank, lie: Lie, word: str) -> str:
    x, y = rectangle_of(blank)[CORNERS.index(word)]
    spot = lie.to_lie.point(Point(x, y))
    return f"{'far' if float(spot.y) < float(lie.height) / 2 else 'near'} {'left' if float(spot.x) < float(lie.width) / 2 else 'right'}"


def _odd_side(blank: Blank, lie: Lie) -> Feature | None:
    """The one end without a straight edge among straight ones, or the one straight one."""
    outline = Outline(lie.to_lie.loop(blank.outline.edges))
    shares: dict[str, float] = {}
    for side, named in (("far", "head"), ("right", "right"), ("near", "tail"), ("left", "left")):
        whole = float(lie.width if side in ("far", "near") else lie.height)
        spans = straight_spans(outline, named, lie.width, lie.height)
        shares[side] = sum(abs(float(b) - float(a)) for a, b in spans) / whole
    poor = [side for side, share in shares.items() if share < POOR]
    if len(poor) == 1 and all(share >= HALF for side, share in shares.items() if side not in poor):
        return Feature("narrow", poor[0])
    full = [side for side, share in shares.items() if share >= FULL]
    return Feature("straight", full[0]) if len(full) == 1 else None


def ends_seen(blank: Blank, lie: Lie, ends: Sequence[tuple[float, float]]) -> str:
    """What all these places of the lie are on the piece as it is cut: `notch` tips, `corner`s of its outline, or neither (empty)."""
    ring = flattened(lie.to_lie.loop(blank.outline.edges))
    turns = [_turn_at(ring, spot) for spot in ends]
    if all(turn < -TURNED for turn in turns):
        return "notch"
    return "corner" if all(abs(turn) > TURNED for turn in turns) else ""


def _turn_at(ring: Polygon, spot: tuple[float, float]) -> float:
    """How far the outline turns there, radians: above 0 round a corner, below 0 at the tip of a notch, 0 where it has no corner."""
    for before, here, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True):
        if hypot(here[0] - spot[0], here[1] - spot[1]) <= NEAR_RIM:
            turn = atan2(after[1] - here[1], after[0] - here[0]) - atan2(here[1] - before[1], here[0] - before[0])
            return (turn + pi) % (2 * pi) - pi
    return 0.0
