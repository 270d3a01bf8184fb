"""Which side of the paper each line is scored on: computed from the way it folds over all steps.

A score is pressed on the side that ends outside its fold: groove outside, ridge inside. An angle above 0 brings the fronts
together, so the back ends outside and lies up; below 0 the front does. A line that folds both ways may be scored from either
side: it goes with the piece's other lines, so that it costs no pass of its own. Frame: the blank's, mm.
"""

from collections.abc import Iterable, Mapping

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Blank, ScorePiece
from creasewright.fitting.worked import Worked
from creasewright.geometry.outline import Arc, Edge, Line
from creasewright.geometry.point import Number, Point
from creasewright.scoring.runs_seen import runs_seen

FOLDED = 1.0
"""Degrees: a smaller turn is no fold."""
TOUCH = 0.01
"""mm between two pieces of one score that are pressed in one stroke."""
OTHER = {"front": "back", "back": "front"}


class ScoredLine(Struct, frozen=True):
    start: Point
    end: Point
    up: str
    """The side that lies up while it is pressed: `front` or `back`."""
    folds: str
    """`one way`, `both ways` or `never`."""
    arc: Arc | None = None
    """Of a curved line."""

    @property
    def edge(self) -> Edge:
        return self.arc or Line(self.start, self.end)


Folds = Mapping[str, tuple[float, ...]]
"""Score piece to the angles it is folded to, in the order of the steps."""


def folds_of(worked: Worked) -> dict[str, dict[str, tuple[float, ...]]]:
    """The folds of every part of the finished thing, by part path. Assemblies made several times alike fold alike."""
    found: dict[str, dict[str, tuple[float, ...]]] = {}
    for assembly in worked.assemblies:
        for run in runs_seen(worked, assembly):
            for (part, name), angle in run.targets.items():
                if abs(angle) > FOLDED and run.refused is None:
                    for prefix in assembly.prefixes:
                        pieces = found.setdefault(prefix + part, {})
                        pieces[name] = (*pieces.get(name, ()), angle)
    for stage in worked.stages:
        if worked.finished is not None and stage.assembly == worked.finished.assembly:
            looked_at(stage.state.angles, found)
    return found


def looked_at(angles: Mapping[tuple[str, str], float], found: dict[str, dict[str, tuple[float, ...]]]) -> None:
    """A stage may fold lines that no step does, or the other way: those are pressed for it too."""
    for (part, name), angle in angles.items():
        pieces = found.setdefault(part, {})
        known = pieces.get(name, ())
        if abs(angle) > FOLDED and all((other > 0) != (angle > 0) for other in known):
            pieces[name] = (*known, angle)


def outer_side(angles: Iterable[float]) -> str:
    """`back` where all folds bring the fronts together, `front` where all bring the backs together, `either`, or `` if none."""
    sides = {"back" if angle > 0 else "front" for angle in angles}
    return "either" if len(sides) > 1 else next(iter(sides), "")


def scored_lines(blank: Blank, folds: Folds) -> tuple[ScoredLine, ...]:
    """The blank's score lines, each with the side that lies up; neighbouring pieces of one score are one stroke.

    A cover that is wrapped round boards is not scored: it folds over their edges, and its template shows where they lie.
    """
    if blank.wrap is not None:
        return ()
    wanted = {piece.name: outer_side(folds.get(piece.name, ())) for piece in blank.pieces}
    settled = [side for side in wanted.values() if side in OTHER]
    usual = max(("front", "back"), key=settled.count) if settled else _first_side(blank, folds)
    lines = [_line(piece, wanted[piece.name], usual) for piece in blank.pieces]
    strokes: list[tuple[str, ScoredLine]] = []
    for piece, line in sorted(zip(blank.pieces, lines, strict=True), key=_along):
        last = strokes[-1] if strokes else None
        if last and last[0] == piece.score and _runs_on(last[1], line):
            folds_said = last[1].folds if last[1].folds == line.folds else "both ways"
            strokes[-1] = (piece.score, replace(last[1], end=line.end, folds=folds_said))
        else:
            strokes.append((piece.score, line))
    return tuple(line for _, line in strokes)


def _first_side(blank: Blank, folds: Folds) -> str:
    """The side that the first fold of all asks for; the front where nothing is folded."""
    first = next((folds[piece.name][0] for piece in blank.pieces if folds.get(piece.name)), -180.0)
    return outer_side((first,))


def _line(piece: ScorePiece, wanted: str, usual: str) -> ScoredLine:
    start, end = sorted((piece.start, piece.end), key=lambda p: (round(float(p.x), 4), round(float(p.y), 4)))
    how = {"either": "both ways", "": "never"}.get(wanted, "one way")
    return ScoredLine(start, end, wanted if wanted in OTHER else usual, how, piece.arc)


def _along(pair: tuple[ScorePiece, ScoredLine]) -> tuple[str, float, float]:
    piece, line = pair
    return piece.score, round(float(line.start.x), 4), round(float(line.start.y), 4)


def _runs_on(last: ScoredLine, line: ScoredLine) -> bool:
    if last.arc or line.arc:
        return False
    same = last.up == line.up and (last.folds == "never") == (line.folds == "never")
    return same and _near(last.end.x, line.start.x) and _near(last.end.y, line.start.y)


def _near(a: Number, b: Number) -> bool:
    return abs(float(a) - float(b)) < TOUCH
