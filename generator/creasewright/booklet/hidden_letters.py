"""Where a piece's letter may be pencilled so that nobody ever sees it: where glue will hold another piece on it."""

from collections.abc import Iterable
from functools import lru_cache

from msgspec import Struct

from creasewright.booklet.piece_marks import part_marks
from creasewright.booklet.tiling.inner_point import inner_point
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.folding.state import GlueArea, PanelKey, State, front_normal
from creasewright.geometry.clip import area, intersection
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import apply, compose, dot, inverse

OTHER = {"front": "back", "back": "front"}
LEAST = 20.0
"""mm²: on less a letter cannot be written."""
Face = tuple[str, str]
"""Panel and side of the paper."""


class LetterSpot(Struct, frozen=True):
    """One place for all pieces of a letter; on which side may differ from mark to mark."""

    panel: str
    at: tuple[float, float]
    """In the blank's frame, front up, mm."""
    sides: dict[str, str]
    """Mark to `front` or `back`."""


def letter_spot(worked: Worked, piece: Piece) -> LetterSpot | None:
    """The roomiest place that glue covers on every part of the piece; None if there is none."""
    return letter_spots(worked)[piece.letter]


@lru_cache(maxsize=2)
def letter_spots(worked: Worked) -> dict[str, LetterSpot | None]:
    return {piece.letter: _spot(worked, piece) for piece in worked.pieces}


def _spot(worked: Worked, piece: Piece) -> LetterSpot | None:
    state = worked.finished.state if worked.finished else None
    if state is None:
        return None
    covered = [(part, _covered(state, part)) for part in piece.parts]
    best: tuple[float, LetterSpot] | None = None
    for panel in dict.fromkeys(panel for panel, _ in covered[0][1]):
        found = _spot_on(panel, covered, part_marks(worked))
        if found and (best is None or found[0] > best[0] + 0.5):
            best = found
    return best[1] if best else None


def _spot_on(
    panel: str, covered: Iterable[tuple[str, dict[Face, list[Polygon]]]], marks: dict[str, str]
) -> tuple[float, LetterSpot] | None:
    """The common place of all parts on that panel, with its area in mm²; None where marks are not of one side, or it is too small."""
    shared: list[Polygon] | None = None
    sides: dict[str, str] = {}
    for part, faces in covered:
        own = {side: areas for (name, side), areas in faces.items() if name == panel}
        if not own:
            return None
        side = max(own, key=lambda each: sum(abs(area(polygon)) for polygon in own[each]))
        if sides.setdefault(marks[part], side) != side:
            return None
        shared = own[side] if shared is None else intersection(shared, own[side])
    place = max(shared or (), key=lambda polygon: abs(area(polygon)), default=None)
    if place is None or abs(area(place)) < LEAST:
        return None
    return abs(area(place)), LetterSpot(panel, inner_point(place), sides)


def _covered(state: State, part: str) -> dict[Face, list[Polygon]]:
    """Every face of the part that glue holds to another panel: where, in the blank's frame."""
    found: dict[Face, list[Polygon]] = {}
    for each in state.glue:
        if each.panel[0] == part:
            found.setdefault((each.panel[1], each.side), []).append(each.polygon)
        if each.onto[0] == part:
            found.setdefault((each.onto[1], _facing(state, each)), []).append(_moved(state, each.polygon, each.panel, each.onto))
    return found


def _facing(state: State, each: GlueArea) -> str:
    """The side of `onto` that the glue touches: where both fronts look one way, a front is glued to a back."""
    same_way = dot(front_normal(state.placed[each.panel]), front_normal(state.placed[each.onto])) > 0
    return OTHER[each.side] if same_way else each.side


def _moved(state: State, polygon: Polygon, start: PanelKey, end: PanelKey) -> Polygon:
    move = compose(inverse(state.placed[end]), state.placed[start])
    return tuple((x, y) for x, y, _ in (apply(move, (x, y, 0.0)) for x, y in polygon))
