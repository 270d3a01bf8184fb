"""Where a piece's letter may be pencilled so that nobody ever sees it: where glue will hold another piece on it."""

from collections.abc import Iterable
from functools import lru_cache, reduce
from math import hypot

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.booklet.diagrams.boxes import box_of
from creasewright.booklet.piece_marks import part_marks
from creasewright.booklet.tiling.inner_point import inner_point
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import Worked
from creasewright.folding.state import GlueArea, PanelKey, State, front_normal
from creasewright.geometry.clip import area, intersection
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import apply, compose, dot, inverse
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

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
def rubbed_out(worked: Worked) -> dict[tuple[str, int], tuple[str, ...]]:
    """What is pencilled in sight, by the assembly and the step before which it is rubbed out: as its piece goes in somewhere, or as what
    holds it is tied up; else after the last step of all, at which everything can still be reached."""
    marks = part_marks(worked)
    waiting = {path: marks[path] for piece in worked.pieces if letter_spot(worked, piece) is None for path in piece.parts}
    found: dict[tuple[str, int], list[str]] = {}
    for assembly in worked.assemblies:
        for run in assembly.runs:
            gone = [prefix + part for part in out_of_reach(run) for prefix in assembly.prefixes]
            here = [waiting.pop(path) for path in gone if path in waiting]
            if here:
                found[assembly.name, run.number] = here
    if waiting:
        found[worked.assemblies[-1].name, 0] = list(waiting.values())
    return {place: tuple(sorted(set(several))) for place, several in found.items()}


def out_of_reach(run: StepRun) -> tuple[str, ...]:
    """The parts that lie bare before a step and not after it."""
    action = run.written.action
    if isinstance(action, design.Insert):
        return run.parts
    if isinstance(action, design.Tie) and run.parts and run.parts[0] in run.before.blanks:
        return tuple(sorted(run.before.body_of(run.parts[0]).parts))
    return ()


@lru_cache(maxsize=2)
def letter_spots(worked: Worked) -> dict[str, LetterSpot | None]:
    return {piece.letter: _spot(worked, piece) for piece in worked.pieces}


def _spot(worked: Worked, piece: Piece) -> LetterSpot | None:
    state = worked.finished.state if worked.finished else None
    if state is None:
        return None
    covered = [(part, _as_in(state.blanks[part], piece.blank, _covered(state, part))) for part in piece.parts]
    best: tuple[float, LetterSpot] | None = None
    for panel in dict.fromkeys(panel for panel, _ in covered[0][1]):
        found = _spot_on(panel, covered, part_marks(worked))
        if found and (best is None or found[0] > best[0] + 0.5):
            best = found
    return best[1] if best else None


def _as_in(own: Blank, other: Blank, faces: dict[Face, list[Polygon]]) -> dict[Face, list[Polygon]]:
    """The faces by the panel names of a blank of the same shape: parts of a letter may come from several, with names of their own."""

    def there(name: str) -> str:
        x, y = box_of(next(panel.polygon for panel in own.panels if panel.name == name)).middle
        return min(other.panels, key=lambda panel: hypot(box_of(panel.polygon).middle[0] - x, box_of(panel.polygon).middle[1] - y)).name

    return faces if own.name == other.name else {(there(name), side): areas for (name, side), areas in faces.items()}


def _spot_on(
    panel: str, covered: Iterable[tuple[str, dict[Face, list[Polygon]]]], marks: dict[str, str]
) -> tuple[float, LetterSpot] | None:
    """The common place of all parts on that panel, with its area in mm²; None where marks have no side in common, or it is too small."""
    by_mark: dict[str, list[dict[str, list[Polygon]]]] = {}
    for part, faces in covered:
        by_mark.setdefault(marks[part], []).append({side: areas for (name, side), areas in faces.items() if name == panel})
    shared: list[Polygon] | None = None
    sides: dict[str, str] = {}
    for mark, parts in by_mark.items():
        common = {side: reduce(intersection, [own[side] for own in parts]) for side in OTHER if all(side in own for own in parts)}
        if not common:
            return None
        sides[mark] = max(common, key=lambda each: max((abs(area(polygon)) for polygon in common[each]), default=0.0))
        shared = common[sides[mark]] if shared is None else intersection(shared, common[sides[mark]])
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
