"""Which edges of a piece the steps name, and by what word: what a template writes beside them."""

from collections.abc import Iterator

from creasewright.booklet.context import PackContext
from creasewright.fitting.pieces import Piece
from creasewright.folding.overlaps import seen_corners
from creasewright.geometry.outline import Polygon
from creasewright.geometry.point import Point
from creasewright.joining.compass import outward
from creasewright.joining.glue_area import points_to
from creasewright.joining.run_step import StepRun
from creasewright.reading.design import Join


def edge_names(context: PackContext, piece: Piece) -> tuple[tuple[str, Point, Point], ...]:
    """Reader's word, and the ends of the edge in the blank's own frame: of all edges that glue goes along in some step.

    The word is the step's: what is left or right as the piece lies before the maker then. An edge that steps name differently, or that
    lies elsewhere on the template, is left out, so that no name there contradicts a step or the page.
    """
    found: dict[tuple[Point, Point], set[str]] = {}
    for assembly in context.worked.assemblies:
        if assembly.mirrored:
            continue
        for run in assembly.runs:
            for word, edge in _named(run, assembly.prefix, piece):
                found.setdefault(edge, set()).add(word)
    return tuple((context.word(words.pop()), *edge) for edge, words in found.items() if len(words) == 1)


def _named(run: StepRun, prefix: str, piece: Piece) -> Iterator[tuple[str, tuple[Point, Point]]]:
    action = run.written.action
    if not isinstance(action, Join):
        return
    words = [str(word) for word in action.along]
    for area in run.after.glue:
        part, name = area.panel
        if area.step != run.number or prefix + part not in piece.parts or part not in run.after.blanks:
            continue
        seen = seen_corners(run.after, area.panel, run.after.body_of(part).view)
        flat = run.after.blanks[part].panel(name).polygon
        for word in words:
            edge = _longest(word, seen, flat)
            if edge is not None and points_to(word, outward(*_spots(edge), _middle(flat))):
                yield word, edge


def _longest(word: str, seen: Polygon, flat: Polygon) -> tuple[Point, Point] | None:
    """The longest edge of a panel that lies where the word says."""
    middle = _middle(seen)
    best: tuple[float, tuple[Point, Point]] | None = None
    for k, (a, b) in enumerate(zip(seen, (*seen[1:], seen[0]), strict=True)):
        length = (b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2
        if length and points_to(word, outward(a, b, middle)) and (best is None or length > best[0]):
            best = length, (Point(*flat[k]), Point(*flat[(k + 1) % len(flat)]))
    return best[1] if best else None


def _middle(polygon: Polygon) -> tuple[float, float]:
    return sum(x for x, _ in polygon) / len(polygon), sum(y for _, y in polygon) / len(polygon)


def _spots(edge: tuple[Point, Point]) -> tuple[tuple[float, float], tuple[float, float]]:
    (a, b) = edge
    return (float(a.x), float(a.y)), (float(b.x), float(b.y))
