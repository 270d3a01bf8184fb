"""What a maker sees of a body from above or from underneath, so that a right one and a wrong one can be compared.

Flat work       every panel that shows, with its look: paper, which side, how its print stands
Standing work   for every look and direction the mm² that show, and the sizes over all
"""

from msgspec import Struct, field
from msgspec.structs import replace

from creasewright.fitting.finished_size import size_of
from creasewright.fitting.lies import Lie
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import print_turn, seen_faces
from creasewright.folding.covered_boards import outer_seen
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.clip import difference, intersection, total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import LIKE_A_PAGE, Matrix, about_vertical, rotate, times
from creasewright.joining.bodies import up_is_later
from creasewright.joining.compass import box, faces_maker

FLAT = 0.999
MOSTLY = 0.5
"""The share of the paper that lies flat in work that is looked at as a plan."""
Look = tuple[str, str, int | None]
"""Paper (or the name of a bought thing), side as far as it can be told, turn of the print there (None: any way looks alike)."""


class Looking(Struct, frozen=True):
    """How things look: the papers, and how each part's blank lies on its sheet, by its path in the state."""

    papers: dict[str, PaperFacts]
    lies: dict[str, Lie]
    seen: dict[tuple[int, frozenset[str], Matrix], "tuple[State, list[Shown]]"] = field(default_factory=dict)
    """What shows of bodies looked at before, by state, parts and view; the state is kept, so that no other takes its number."""

    def of(self, state: State, body: Body, key: PanelKey) -> Look:
        """Of the side of a panel that faces the maker."""
        blank = state.blanks[key[0]]
        paper = self.papers.get(blank.paper)
        if paper is None:
            return blank.name, "", None
        normal = front_normal(state.placed[key])
        front_up = faces_maker(normal, body)
        outward = normal if front_up else (-normal[0], -normal[1], -normal[2])
        lie = self.lies.get(key[0], Lie(False, 0))
        paper = paper.with_up(lie.back_up)
        side = "front" if front_up else "back"
        turn = print_turn(state, body, key, side, rotate(body.view, outward), paper, lie.turn)
        return paper.name, told_side(paper, side), turn


def told_side(paper: PaperFacts, side: str) -> str:
    """Which side it is, where the two can be told apart."""
    return side if paper.front != paper.back or paper.sides_differ else ""


def top_down(state: State, body: Body) -> list[PanelKey]:
    """Panels that lie flat in the view, topmost first."""
    levels = []
    for number, stack in enumerate(body.stacks):
        if abs(rotate(body.view, stack.normal)[2]) > FLAT:
            depth = rotate(body.view, state.placed[stack.order[0]].shift)[2]
            levels.append((round(depth, 3), -number, tuple(reversed(stack.order)) if up_is_later(stack, body) else stack.order))
    return [key for _, _, order in sorted(levels) for key in order]


def is_flat(state: State, body: Body) -> bool:
    if any(key[0] in body.parts for key in state.curved):
        return False
    areas = {key: state.blanks[key[0]].panel(key[1]).area for stack in body.stacks for key in stack.order}
    return sum(areas[key] for key in top_down(state, body)) >= MOSTLY * sum(areas.values())


class Shown(Struct, frozen=True):
    """A panel of flat work and what of it shows."""

    key: PanelKey
    look: Look
    pieces: tuple[Polygon, ...]


def shown_panels(state: State, body: Body, looking: Looking) -> list[Shown]:
    """Of flat work, topmost first."""
    kept = looking.seen.get((id(state), body.parts, body.view))
    if kept is not None:
        return kept[1]
    above: list[Polygon] = []
    found = []
    for key in top_down(state, body):
        shape = outer_seen(state, key, body.view)
        pieces = difference([shape], above) if above else [shape]
        if total_area(pieces) > 1.0:
            found.append(Shown(key, looking.of(state, body, key), tuple(pieces)))
        above.append(shape)
    looking.seen[id(state), body.parts, body.view] = state, found
    return found


def turned(body: Body, degrees: float, over: bool = False) -> Body:
    """The same body in the hand: turned on the table, or first turned over like a page."""
    view = times(LIKE_A_PAGE, body.view) if over else body.view
    return replace(body, view=times(about_vertical(degrees), view))


def differs(right: tuple[State, Body, Looking], wrong: tuple[State, Body, Looking]) -> float:
    """mm² by which two bodies look different, as they lie, laid with their head-left corners on each other."""
    flat = is_flat(*right[:2])
    if flat != is_flat(*wrong[:2]):
        return sum(right[0].blanks[part].panel(panel.name).area for part in right[1].parts for panel in right[0].blanks[part].panels)
    if flat:
        return flat_difference(shown_panels(*right), shown_panels(*wrong))
    return standing_difference(right, wrong)


def flat_difference(right: list[Shown], wrong: list[Shown]) -> float:
    """mm² of panels that do not show where a panel that looks alike should: so edges and pressed lines count, not only prints."""
    mine, other = at_corner(right), at_corner(wrong)
    return max(missed(mine, other), missed(other, mine))


def missed(these: list[Shown], those: list[Shown]) -> float:
    found = 0.0
    for one in these:
        if any(two.look == one.look and two.pieces == one.pieces for two in those):
            continue
        alike = [total_area(intersection(one.pieces, two.pieces)) for two in those if two.look == one.look]
        found += total_area(one.pieces) - max(alike, default=0.0)
    return found


def at_corner(shown: list[Shown]) -> list[Shown]:
    """Moved so that the head-left corner of what shows is the origin."""
    if not shown:
        return []
    left, head, _, _ = box([piece for one in shown for piece in one.pieces])
    return [replace(one, pieces=tuple(tuple((x - left, y - head) for x, y in piece) for piece in one.pieces)) for one in shown]


def standing_difference(right: tuple[State, Body, Looking], wrong: tuple[State, Body, Looking]) -> float:
    areas: dict[tuple[object, ...], float] = {}
    for sign, (state, body, looking) in ((1.0, right), (-1.0, wrong)):
        for face in seen_faces(state, body, looking.papers, looking.lies):
            if face.looks == "down":
                continue
            blank = state.blanks[face.panel[0]]
            paper = looking.papers.get(blank.paper)
            side = told_side(paper, face.side) if paper is not None else ""
            key = (blank.paper or blank.name, side, face.looks, face.turn)
            areas[key] = areas.get(key, 0.0) + sign * face.area
    sizes, others = size_of(*right[:2]), size_of(*wrong[:2])
    grown = sum(abs(a - b) for a, b in zip(sizes, others, strict=True)) * max(sizes)
    return max(sum(abs(value) for value in areas.values()) / 2, grown)
