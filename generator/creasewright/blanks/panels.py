"""From outline, slits and scores to panels and score pieces.

A panel is a face of the arrangement; a score piece is what of a score lies between the same two panels.
"""

from collections import Counter

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Score, ScorePiece
from creasewright.blanks.draft import Draft, Run
from creasewright.blanks.faults import Faults, in_mm
from creasewright.geometry.arrangement import Arrangement, Strand, arrange
from creasewright.geometry.clip import area
from creasewright.geometry.edges import part_of, reverse, way_along
from creasewright.geometry.loops import holds, inner_point, loop_area, tidied
from creasewright.geometry.outline import Arc, Edge, Line, Outline, Polygon, flattened
from creasewright.geometry.point import Number, Point
from creasewright.geometry.tolerance import SAME
from creasewright.geometry.vector import one_place
from creasewright.problems import Where

OUTLINE, SLIT, SCORE = 0, 1, 2
"""Where two lie on each other: an edge before a slit, a slit before a score."""


class Piece(Struct, frozen=True):
    """Of a score, between two faces by number."""

    score: str
    edge: Edge
    faces: tuple[int, int]


Side = tuple[Edge, tuple[int, int]]
"""A bit of a score, and the faces on the right and the left of its travel."""
Part = tuple[int, Edge, tuple[int, int]]
"""Of a score: its place among the runs, a bit of it, the faces on the right and the left of the bit's travel."""


class Faces(Struct, frozen=True):
    """What the lines make of the blank. Faces in order from head to tail, then left to right."""

    outlines: tuple[Outline, ...]
    polygons: tuple[Polygon, ...]
    areas: tuple[float, ...]
    scores: tuple[Score, ...]
    pieces: tuple[Piece, ...]


def find_faces(draft: Draft, runs: list[Run], wheres: dict[str, Where], where: Where, faults: Faults) -> Faces:
    """Split the blank along its slits and scores; a score that bounds no panel is a fault."""
    if not runs and not draft.slits:
        edges = draft.outline.edges
        return Faces((draft.outline,), (flattened(edges),), (loop_area(edges),), (), ())
    strands = [Strand(edge, OUTLINE) for edge in draft.outline.edges]
    strands += [Strand(Line(slit.start, slit.end), SLIT) for slit in draft.slits]
    first = len(strands)
    strands += [Strand(run.edge, SCORE) for run in runs]
    found = arrange(strands)
    _check_ends(found, runs, first, wheres, where, faults)
    _check_holes(found, where, faults)
    return _ordered(draft, found, runs, first, wheres, where, faults)


def _check_ends(
    found: Arrangement, runs: list[Run], first: int, wheres: dict[str, Where], where: Where, faults: Faults
) -> None:
    told: set[int] = set()
    for end in found.loose:
        if end.strand >= first and end.strand not in told:
            told.add(end.strand)
            name = runs[end.strand - first].name
            faults.add(
                wheres.get(name, where),
                f"score `{name}` ends inside the panel, at [{in_mm(end.at.x)}, {in_mm(end.at.y)}]",
                "run it to an edge, a score or a slit",
            )


def _check_holes(found: Arrangement, where: Where, faults: Faults) -> None:
    for face in found.faces:
        for rim in face.inner:
            at = rim[0].start
            faults.add(
                where, f"the scores and slits near [{in_mm(at.x)}, {in_mm(at.y)}] close a ring inside one panel",
                "run one of them to an edge or to another score",
            )  # fmt: skip


def _ordered(
    draft: Draft, found: Arrangement, runs: list[Run], first: int, wheres: dict[str, Where], where: Where, faults: Faults
) -> Faces:
    outlines = [tidied(face.edges) for face in found.faces]
    polygons = [flattened(edges) for edges in outlines]
    areas = [loop_area(edges) for edges in outlines]
    kept = _on_the_blank(draft, polygons, areas)
    kept.sort(key=lambda number: reading_order(polygons[number]))
    new = {old: index for index, old in enumerate(kept)}
    beside = found.faces_beside()
    parts: list[Part] = []
    lost = set(range(len(runs)))
    for number, bit in enumerate(found.bits):
        if bit.strand < first:
            continue
        lost.discard(bit.strand - first)
        faces = [new[face] for face in beside.get(number, ()) if face in new]
        if len(faces) == 2 and faces[0] != faces[1]:
            parts.append((bit.strand - first, bit.edge, (faces[0], faces[1])))
        else:
            name = runs[bit.strand - first].name
            faults.add(
                wheres.get(name, where), f"score `{name}` has the same panel on both sides",
                "run it to an edge, a score or a slit",
            )  # fmt: skip
    _check_covered(lost, found, runs, first, draft, wheres, where, faults)
    return Faces(
        tuple(Outline(outlines[number]) for number in kept),
        tuple(polygons[number] for number in kept),
        tuple(areas[number] for number in kept),
        _scores(parts, runs),
        _pieces(parts, runs),
    )


def _on_the_blank(draft: Draft, polygons: list[Polygon], areas: list[float]) -> list[int]:
    """Faces that are paper: where the outline touches itself it may enclose what is not."""
    if abs(sum(areas) - loop_area(draft.outline.edges)) <= SAME * sum(areas):
        return list(range(len(polygons)))
    whole = flattened(draft.outline.edges)
    return [number for number, polygon in enumerate(polygons) if holds(whole, *inner_point(polygon)) and area(polygon) > 0]


def _check_covered(
    lost: set[int], found: Arrangement, runs: list[Run], first: int, draft: Draft, wheres: dict[str, Where], where: Where,
    faults: Faults,
) -> None:  # fmt: skip
    """A score of which nothing is left because another score lies on it."""
    loose = {end.strand - first for end in found.loose}
    for number in sorted(lost - loose):
        run = runs[number]
        for other in runs:
            if other is not run and other.name != run.name and not (run.arc or other.arc) and _lies_on(run, other):
                faults.add(wheres.get(run.name, where), f"score `{run.name}` lies on `{other.name}`", "leave one of them out")
                break


def _lies_on(run: Run, other: Run) -> bool:
    size = (float(other.end.x - other.start.x) ** 2 + float(other.end.y - other.start.y) ** 2) ** 0.5
    return all(
        abs(
            float(other.end.x - other.start.x) * float(p.y - other.start.y)
            - float(other.end.y - other.start.y) * float(p.x - other.start.x)
        )
        <= SAME * size
        for p in (run.start, run.end)
    )


def left_first(start: Point, end: Point) -> tuple[Point, Point]:
    """The ends of a line, the one more to the left (then more to the head) first."""
    if abs(float(start.x - end.x)) <= SAME:
        return (start, end) if start.y <= end.y else (end, start)
    return (start, end) if start.x < end.x else (end, start)


def _by_strand(parts: list[Part]) -> dict[int, list[Side]]:
    found: dict[int, list[Side]] = {}
    for number, edge, faces in parts:
        found.setdefault(number, []).append((edge, faces))
    return found


def _follow(run: Run, parts: list[Side]) -> list[Side]:
    """A score's bits from left to right, head to tail; with the face on the left (or the head) side first."""
    whole = run.edge if left_first(run.start, run.end)[0] == run.start else reverse(run.edge)
    bits = []
    for edge, (right, left) in parts:
        along = edge if way_along(whole, edge.start) < way_along(whole, edge.end) else reverse(edge)
        # the face on the right of travel lies towards the tail of a line that runs to the right, and left of one
        # that runs down: upright lines start at the head, so their right-hand side is the left one as seen
        right, left = (right, left) if along is edge else (left, right)
        slope = float(along.end.y - along.start.y)
        falls = abs(float(along.end.x - along.start.x)) <= SAME or slope > SAME
        bits.append((along, (right, left) if falls else (left, right)))
    return sorted(bits, key=lambda bit: way_along(whole, bit[0].start))


def _arc(edge: Edge) -> Arc | None:
    return edge if isinstance(edge, Arc) else None


def _prolonged(edge: Edge, on: Edge) -> Edge:
    """Two bits of one line or arc that follow each other, as one."""
    return part_of(edge, edge.start, on.end)


def _scores(parts: list[Part], runs: list[Run]) -> tuple[Score, ...]:
    found: list[Edge] = []
    names: list[str] = []
    own = _by_strand(parts)
    for strand, run in enumerate(runs):
        last: Edge | None = None
        for edge, _ in _follow(run, own.get(strand, [])):
            if last is not None and one_place(last.end, edge.start):
                last = found[-1] = _prolonged(last, edge)
                continue
            last = edge
            found.append(edge)
            names.append(run.name)
    return tuple(Score(name, edge.start, edge.end, _arc(edge)) for name, edge in zip(names, found, strict=True))


def _pieces(parts: list[Part], runs: list[Run]) -> tuple[Piece, ...]:
    found: list[Piece] = []
    bits = _by_strand(parts)
    for strand, run in enumerate(runs):
        own: list[Piece] = []
        for edge, faces in _follow(run, bits.get(strand, [])):
            last = own[-1] if own else None
            if last is not None and last.faces == faces and one_place(last.edge.end, edge.start):
                own[-1] = Piece(run.name, _prolonged(last.edge, edge), faces)
            else:
                own.append(Piece(run.name, edge, faces))
        found += own
    return tuple(found)


def named_pieces(pieces: tuple[Piece, ...], names: list[str]) -> tuple[ScorePiece, ...]:
    """The pieces with the names of their panels, and their own."""
    return numbered(
        [
            ScorePiece("", one.score, one.edge.start, one.edge.end, names[one.faces[0]], names[one.faces[1]], _arc(one.edge))
            for one in pieces
        ]
    )


def numbered(pieces: list[ScorePiece]) -> tuple[ScorePiece, ...]:
    """The pieces with their own names: their score's, numbered from left to right and head to tail where it has several."""
    scores = [piece.score for piece in pieces]
    counts = Counter(scores)
    numbers: dict[str, int] = {}
    own: dict[int, str] = {}
    for index in sorted(range(len(pieces)), key=lambda index: _middle(pieces[index])):
        score = scores[index]
        numbers[score] = numbers.get(score, 0) + 1
        own[index] = score if counts[score] == 1 else f"{score} {numbers[score]}"
    return tuple(replace(piece, name=own[index]) for index, piece in enumerate(pieces))


def _middle(piece: ScorePiece) -> tuple[float, float]:
    x: Number = (piece.start.x + piece.end.x) / 2
    y: Number = (piece.start.y + piece.end.y) / 2
    return round(float(x), 4), round(float(y), 4)


def reading_order(polygon: Polygon) -> tuple[float, float, float]:
    """A key that orders panels from head to tail, then left to right; within one rectangle by how high they lie in it."""
    ys = [p[1] for p in polygon]
    return round(min(ys), 5), round(min(p[0] for p in polygon), 5), round(sum(ys) / len(ys), 5)
