"""Sewing: holes along a score, thread through them, and a bond that hinges along the line.

Parts whose own score lies on the line fold with it. A part that the line crosses where it has no score (the spine of a cover) is held by
its middle: the two halves of the fold turn about the line, each half as far as the score is folded.
"""

from msgspec.structs import replace

from creasewright.folding.carried_along import on_line
from creasewright.folding.fold_scores import piece_of
from creasewright.folding.heights import thickness
from creasewright.folding.refused import called
from creasewright.folding.state import Body, Bond, PanelKey, PieceKey, Sewing, State
from creasewright.geometry.loops import holds
from creasewright.geometry.rigid_transform import Rigid, Vector, apply, compose, inverse, rotate
from creasewright.joining.bench import Bench
from creasewright.joining.bodies import stack_of
from creasewright.joining.compass import polygon_in_view
from creasewright.joining.refused import JoinRefused
from creasewright.joining.thread_way import check_order, even_stations, thread_way, usual_order
from creasewright.reading.design import Sew, Text

Line = tuple[Vector, Vector]
BESIDE = 0.05
"""mm beside the line by which a panel is asked whether it lies there."""


def sewn(bench: Bench, action: Sew, number: int) -> tuple[State, tuple[str, ...]]:
    """The state with the line sewn, and the parts that the needle passes. Raises JoinRefused, and RefFault for words that name nothing."""
    line = bench.pieces(str(action.along))[0]
    state = bench.state
    body = state.body_of(line[0])
    parts = tuple(path for text in action.parts for group in bench.parts(str(text)) for path in group)
    check_flat(state, body, line, parts)
    ends = line_in_world(state, body, line)
    stations, span = stations_of(bench, action, ends)
    order = tuple(int(bench.supply.number(text)) for text in action.order) or usual_order(len(stations))
    check_order(order, len(stations))
    spots = [along(ends, span, at) for at in stations]
    passed = passed_panels(state, body, line, ends, spots, parts)
    material = bench.supply.material(str(action.with_))
    thick = sum(thickness(state, panel) for panel in passed)
    free = bench.supply.length(action.ends) if action.ends is not None else bench.supply.house("thread end")
    sewing = Sewing(
        line=line,
        parts=tuple(dict.fromkeys(panel[0] for panel in passed)),
        stations=stations,
        span=span,
        order=order,
        begins=action.from_,
        material=material.name,
        way=thread_way(stations, order, thick),
        ends=free,
        pricks=tuple((panel[0], flat_spot(state, panel, spot)) for panel in passed for spot in spots),
        step=number,
    )
    return replace(state, bonds=hinged(state, line, ends, passed, number), sewings=(*state.sewings, sewing)), parts


def check_flat(state: State, body: Body, line: PieceKey, parts: tuple[str, ...]) -> None:
    apart = next((part for part in parts if part not in body.parts), None)
    if apart is not None:
        raise JoinRefused(f"{apart} does not lie with {line[0]}", "lay them together with `place:` before they are sewn")
    if line[0] not in parts:
        raise JoinRefused(f"{line[0]} has the line, but is not among the parts that are sewn", "name it in `sew:`")
    if abs(state.angles.get(line, 0.0)) > 0.01:
        raise JoinRefused(f"the score {line[1]} of {line[0]} is folded", "unfold it, so that the needle goes straight through")


def line_in_world(state: State, body: Body, key: PieceKey) -> Line:
    """From its end at the head (at the left, for a line that runs across) to the other, as it lies now."""
    piece = piece_of(state, key)
    placed = state.placed[(key[0], piece.first)]
    ends = [apply(placed, (float(p.x), float(p.y), 0.0)) for p in (piece.start, piece.end)]
    ends.sort(key=lambda end: rank(rotate(body.view, end)))
    return ends[0], ends[1]


def rank(seen: Vector) -> tuple[float, float]:
    return round(seen[1], 3), seen[0]


def stations_of(bench: Bench, action: Sew, ends: Line) -> tuple[tuple[float, ...], float]:
    """mm from the first end, and the length of the line."""
    span = sum((b - a) ** 2 for a, b in zip(*ends, strict=True)) ** 0.5
    texts = action.stations
    margin = bench.supply.length(action.margin) if action.margin is not None else bench.supply.house("margin")
    if len(texts) == 1 and is_count(texts[0]):
        return even_stations(int(bench.supply.number(texts[0])), span, margin), span
    places = tuple(sorted(bench.supply.length(text) for text in texts))
    if len(places) < 2:
        raise JoinRefused("one hole holds no thread", "give a number of stations, or two places or more")
    if places[0] <= 0 or places[-1] >= span:
        raise JoinRefused(f"a station lies outside the line, which is {span:.1f} mm long", "count from the head end of the score")
    return places, span


def is_count(text: Text) -> bool:
    return text.text.strip().isdigit()


def along(ends: Line, span: float, at: float) -> Vector:
    k = at / span
    (ax, ay, az), (bx, by, bz) = ends
    return ax + (bx - ax) * k, ay + (by - ay) * k, az + (bz - az) * k


def passed_panels(
    state: State, body: Body, line: PieceKey, ends: Line, spots: list[Vector], parts: tuple[str, ...]
) -> list[PanelKey]:
    """One panel of each layer that the needle passes, in the order of layers. Raises JoinRefused where it meets only some of the parts."""
    piece = piece_of(state, line)
    stack = stack_of(body, (line[0], piece.first))
    middle = along(ends, 1.0, 0.5)
    found: list[PanelKey] = []
    for panel in stack.order:
        if any(other[0] == panel[0] and on_its_score(state, other, ends) for other in found):
            continue
        if on_its_score(state, panel, ends) or crosses(state, body, panel, middle, ends):
            found.append(panel)
    missed = next((part for part in parts if not any(panel[0] == part for panel in found)), None)
    if missed is not None:
        raise JoinRefused(f"the line runs beside {missed}", "place it so that the line lies on its fold, or on its spine")
    stranger = next((panel for panel in found if panel[0] not in parts), None)
    if stranger is not None:
        raise JoinRefused(f"{called(stranger)} lies on the line too", "sew it along, or lay it there later")
    short = next((panel for panel in found for spot in spots if not reaches(state, body, panel, spot)), None)
    if short is not None:
        raise JoinRefused(f"a station lies beside {called(short)}", "make the margin larger, or give the stations one by one")
    return found


def on_its_score(state: State, panel: PanelKey, ends: Line) -> bool:
    """Whether a score at this panel lies on the line."""
    for piece in state.blanks[panel[0]].pieces:
        if panel[1] in (piece.first, piece.second):
            placed = state.placed[panel]
            own = tuple(apply(placed, (float(p.x), float(p.y), 0.0)) for p in (piece.start, piece.end))
            if on_line(ends, (own[0], own[1])):
                return True
    return False


def crosses(state: State, body: Body, panel: PanelKey, middle: Vector, ends: Line) -> bool:
    """Whether the line runs inside a panel: there is paper on both sides of it."""
    (ax, ay, _), (bx, by, _) = (rotate(body.view, end) for end in ends)
    x, y, _ = rotate(body.view, middle)
    size = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
    nx, ny = (by - ay) / size * BESIDE, (ax - bx) / size * BESIDE
    shape = polygon_in_view(state, body, panel)
    return holds(shape, x + nx, y + ny) and holds(shape, x - nx, y - ny)


def reaches(state: State, body: Body, panel: PanelKey, spot: Vector) -> bool:
    """Whether the panel has paper at a station, on it or just beside it."""
    x, y, _ = rotate(body.view, spot)
    shape = polygon_in_view(state, body, panel)
    return any(holds(shape, x + dx, y + dy) for dx in (-BESIDE, BESIDE) for dy in (-BESIDE, BESIDE))


def flat_spot(state: State, panel: PanelKey, spot: Vector) -> tuple[float, float]:
    x, y, _ = apply(inverse(state.placed[panel]), spot)
    return x, y


def hinged(state: State, line: PieceKey, ends: Line, passed: list[PanelKey], number: int) -> tuple[Bond, ...]:
    """The bonds after sewing: what the line crosses without a score is held at the line alone, and what lay loose on it no longer."""
    piece = piece_of(state, line)
    halves = ((line[0], piece.first), (line[0], piece.second))
    plain = [panel for panel in passed if not on_its_score(state, panel, ends)]
    folding = {panel[0] for panel in passed if panel not in plain}
    kept = tuple(bond for bond in state.bonds if not loose_between(bond, set(plain), folding))
    fresh = [
        Bond(panel, half, relative(state, panel, half), "sew", "", 0.0, number, line) for panel in plain for half in halves
    ]
    return (*kept, *fresh)


def loose_between(bond: Bond, plain: set[PanelKey], folding: set[str]) -> bool:
    """A part that folds, laid without adhesive on a panel that it is now sewn to."""
    return bond.kind == "place" and any(
        a in plain and b[0] in folding for a, b in ((bond.first, bond.second), (bond.second, bond.first))
    )


def relative(state: State, panel: PanelKey, half: PanelKey) -> Rigid:
    return compose(inverse(state.placed[panel]), state.placed[half])
