"""Which side of which panel shows, and which way its print runs there.

Up on a face, for one who looks at it: on what lies flat towards the head; on what stands away from the table. A thing whose standing
faces all look left or right is a book, open or closed: its spine and its half-open leaves are read with the head up like its pages.
"""

from math import atan2, degrees

from msgspec import Struct

from creasewright.fitting.bent_faces import ear_outward, ear_side, folded_ears, outermost_ears
from creasewright.fitting.lies import Lie
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.folding.overlaps import flat_frame, seen_polygon
from creasewright.folding.state import Body, PanelKey, Stack, State, front_normal
from creasewright.geometry.clip import difference, total_area
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector, apply, cross, dot, rotate

SHOWS = 20.0
"""Less than this many mm² of a face is a sliver, not a face that shows."""


class SeenFace(Struct, frozen=True):
    panel: PanelKey
    side: str
    """`front` or `back` of the paper."""
    looks: str
    """Where it looks in the state's view: `up`, `down`, `left`, `right`, `head`, `tail`."""
    area: float
    """mm² that show."""
    print: str
    """The print on that side."""
    turn: int | None
    """Clockwise turn of the print as one looks at the face with the head up: 0, 90, 180, 270; None where any way is right."""


def seen_faces(
    state: State, body: Body, papers: dict[str, PaperFacts], lies: dict[str, Lie], names: frozenset[str] | None = None
) -> list[SeenFace]:
    """Every face that shows, or those of panels with these names. Faces are hidden only by panels parallel to them."""
    groups: list[tuple[Vector, list[tuple[float, int, PanelKey]]]] = []
    ears = folded_ears(state, body.parts)
    for stack in without_ears(body, ears):
        for normal, entries in groups:
            if abs(dot(normal, stack.normal)) > 1 - 1e-9:
                entries.extend(levels(state, stack.order, stack.normal, normal))
                break
        else:
            groups.append((stack.normal, levels(state, stack.order, stack.normal, stack.normal)))
    faces = []
    for normal, entries in groups:
        frame = flat_frame(normal)
        ordered = [key for _, _, key in sorted(entries)]
        shapes = {key: seen_polygon(state, key, frame) for key in ordered}
        for sequence, outward in ((ordered, normal), (ordered[::-1], (-normal[0], -normal[1], -normal[2]))):
            for number, key in enumerate(sequence):
                if names is not None and key[1] not in names:
                    continue
                shown = showing(shapes[key], [shapes[other] for other in sequence[number + 1 :]])
                if shown > SHOWS:
                    faces.append(face(state, body, key, outward, shown, papers, lies))
    for key in outermost_ears(state, body.parts) if ears else ():
        if names is None or key[1] in names:
            faces.append(ear_face(state, body, key, papers, lies))
    return faces


def without_ears(body: Body, ears: list[PanelKey]) -> list[Stack]:
    """The stacks of what lies as its flat place says."""
    left = [Stack(stack.normal, tuple(key for key in stack.order if key not in ears)) for stack in body.stacks] if ears else body.stacks
    return [stack for stack in left if stack.order]


def ear_face(state: State, body: Body, key: PanelKey, papers: dict[str, PaperFacts], lies: dict[str, Lie]) -> SeenFace:
    """An ear stands crosswise to what the other faces show; which way its print runs there is left open."""
    side, blank = ear_side(state.curved[key]), state.blanks[key[0]]
    paper = papers.get(blank.paper)
    printed = "plain" if paper is None else paper.with_up(lies.get(key[0], Lie(False, 0)).back_up).print_of(side)
    return SeenFace(key, side, looks(rotate(body.view, ear_outward(state, key))), blank.panel(key[1]).area, printed, None)


def levels(state: State, order: tuple[PanelKey, ...], own: Vector, common: Vector) -> list[tuple[float, int, PanelKey]]:
    run = order if dot(own, common) > 0 else tuple(reversed(order))
    return [(round(dot(apply(state.placed[key], (0.0, 0.0, 0.0)), common), 3), number, key) for number, key in enumerate(run)]


def showing(shape: Polygon, above: list[Polygon]) -> float:
    return total_area(difference([shape], above) if above else [shape])


def face(
    state: State, body: Body, key: PanelKey, outward: Vector, shown: float, papers: dict[str, PaperFacts], lies: dict[str, Lie]
) -> SeenFace:
    side = "front" if dot(front_normal(state.placed[key]), outward) > 0 else "back"
    normal = rotate(body.view, outward)
    paper = papers.get(state.blanks[key[0]].paper)
    if paper is None:
        return SeenFace(key, side, looks(normal), shown, "plain", None)
    lie = lies.get(key[0], Lie(False, 0))
    paper = paper.with_up(lie.back_up)
    turn = print_turn(state, body, key, side, normal, paper, lie.turn)
    return SeenFace(key, side, looks(normal), shown, paper.print_of(side), turn)


def looks(normal: Vector) -> str:
    """A direction of the view in words."""
    x, y, z = normal
    if abs(z) >= max(abs(x), abs(y)):
        return "up" if z < 0 else "down"
    if abs(x) >= abs(y):
        return "right" if x > 0 else "left"
    return "tail" if y > 0 else "head"


def sheet_up(paper: PaperFacts, side: str, blank_turn: int) -> Vector:
    """The print's up on that side, in the blank's flat frame, for a blank turned `blank_turn` clockwise on its sheet.

    On the back it is the same direction in the sheet where the sides agree head-to-head, the opposite head-to-tail. It is a direction
    of the sheet and is never mirrored.
    """
    up = (0.0, -1.0) if paper.runs == "height" else (-1.0, 0.0)
    for _ in range((-blank_turn // 90) % 4):
        up = (-up[1], up[0])
    if side == "back" and paper.back_agrees == "head-to-tail":
        up = (-up[0], -up[1])
    return (up[0], up[1], 0.0)


def print_turn(
    state: State, body: Body, key: PanelKey, side: str, normal: Vector, paper: PaperFacts, blank_turn: int
) -> int | None:
    """Clockwise turn of the print on a face, seen with its up upwards; `paper` lies as it did when the blank was cut. None: any way."""
    printed = paper.print_of(side)
    if printed not in ("one-way", "two-way", "by panel"):
        return None
    own_up = (0.0, -1.0, 0.0) if printed == "by panel" else sheet_up(paper, side, blank_turn)
    turn = seen_turn(rotate(body.view, rotate(state.placed[key].turn, own_up)), normal, is_box(body))
    return turn % 180 if printed == "two-way" else turn


STEEP = 0.7072
"""A normal with this much of an axis or more lies nearer to it than to the others."""


def is_box(body: Body) -> bool:
    """Whether some of what stands on the table looks towards head or tail, and some to left or right: then it is no book."""
    standing = [normal for stack in body.stacks for normal in [rotate(body.view, stack.normal)] if abs(normal[2]) < STEEP]
    return any(abs(n[1]) > abs(n[0]) + 1e-6 for n in standing) and any(abs(n[0]) > 1e-6 for n in standing)


def up_on(normal: Vector, box: bool) -> Vector:
    """The direction (view frame) that is up for one who looks at a face, before it is laid into the face."""
    if abs(normal[2]) >= STEEP:
        return (0.0, -1.0, 0.0)
    looks_along = abs(normal[1]) >= STEEP * (normal[0] ** 2 + normal[1] ** 2) ** 0.5
    return (0.0, 0.0, -1.0) if box or looks_along else (0.0, -1.0, 0.0)


def seen_turn(vector: Vector, normal: Vector, box: bool = False) -> int:
    """How far clockwise a direction on a face stands from up, for one who looks at the face (view frame); to 1 degree."""
    up = up_on(normal, box)
    right = cross(up, normal)
    level = cross(normal, right)
    return round(degrees(atan2(dot(vector, right), dot(vector, level)))) % 360
