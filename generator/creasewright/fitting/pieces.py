"""The pieces to cut: parts of one shape, paper and print turn share a letter."""

from string import ascii_uppercase

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.fitting.lies import Lie
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.folding.state import State
from creasewright.geometry.edges import edge_middle
from creasewright.geometry.outline import Edge, Line, flattened


class Piece(Struct, frozen=True):
    letter: str
    blank: Blank
    parts: tuple[str, ...]
    """Part paths in the finished assembly, for one maker."""
    turn: int
    """Of the blank on its sheet, clockwise."""
    back_up: bool
    """The back of the paper is its front."""
    mirror: str | None
    """Letter of the piece that is its mirror image."""
    names: tuple[str, ...]
    """What the blank is called, then what its parts are called where that differs."""

    @property
    def count(self) -> int:
        return len(self.parts)


Shape = tuple[object, ...]


def shape_of(blank: Blank, flip: bool = False, half_turn: bool = False) -> Shape:
    """What two blanks must share to be cut alike: as it is, turned over (`flip`), or turned end for end in its plane (`half_turn`)."""
    width, height = float(blank.width), float(blank.height)

    def spot(x: float, y: float) -> tuple[float, float]:
        return (round(width - x if flip or half_turn else x, 6) + 0.0, round(height - y if half_turn else y, 6) + 0.0)

    def middle(edge: Edge) -> tuple[float, float]:
        at = edge_middle(edge)
        return spot(float(at.x), float(at.y))

    corners = sorted(spot(x, y) for x, y in flattened(blank.outline.edges, 0.05))
    lines = sorted(
        (*sorted((spot(float(edge.start.x), float(edge.start.y)), spot(float(edge.end.x), float(edge.end.y)))), middle(edge))
        for edge in [p.edge for p in blank.pieces] + [Line(slit.start, slit.end) for slit in blank.slits]
    )
    holes = sorted((spot(float(h.centre.x), float(h.centre.y)), round(float(h.across), 2)) for h in blank.holes)
    return (blank.paper, blank.grain, tuple(corners), tuple(lines), tuple(holes))


def turn_that_matters(paper: PaperFacts | None, turn: int) -> int:
    """The turn as far as the print tells it apart."""
    if paper is None:
        return 0
    prints = {paper.front, paper.back}
    if "one-way" in prints:
        return turn
    return turn % 180 if "two-way" in prints else 0


def pieces_of(state: State, order: list[str], papers: dict[str, PaperFacts], lies: dict[str, Lie]) -> tuple[Piece, ...]:
    """Letters by order of the blanks in the design; a blank equal to another's mirror image is counted with it."""
    groups: dict[tuple[Shape, Lie], list[str]] = {}
    shapes: dict[str, Shape] = {}
    parts = sorted(
        (path for path, blank in state.blanks.items() if blank.paper),
        key=lambda path: (
            state.blanks[path].mirror_of == state.blanks[path].name,
            order.index(state.blanks[path].name) if state.blanks[path].name in order else len(order),
        ),
    )
    for path in parts:
        blank = state.blanks[path]
        shapes[path] = shape_of(blank)
        lie = lies.get(path, Lie(False, 0))
        key = (shapes[path], Lie(lie.back_up, turn_that_matters(papers.get(blank.paper), lie.turn)))
        groups.setdefault(key, []).append(path)
    keys = list(groups)
    found = []
    for number, key in enumerate(keys):
        paths = groups[key]
        blank = state.blanks[paths[0]]
        flipped = shape_of(blank, flip=True)
        mirror = next((letter(k) for k, other in enumerate(keys) if other[0] == flipped and other[0] != key[0]), None)
        found.append(
            Piece(
                letter(number),
                blank,
                tuple(paths),
                key[1].turn,
                key[1].back_up,
                mirror,
                (blank.name, *(n for n in names_of(paths) if n != blank.name)),
            )
        )
    return tuple(found)


def names_of(paths: list[str]) -> tuple[str, ...]:
    names = [bare(path.split("/")[-1]) for path in paths]
    return tuple(sorted(set(names), key=lambda name: (-names.count(name), names.index(name))))


def bare(name: str) -> str:
    """Without its number: `seed card 2` is a `seed card`."""
    stem, _, digits = name.rpartition(" ")
    return stem if digits.isdigit() and stem else name


def letter(number: int) -> str:
    """A to Z, then AA, AB …"""
    return ascii_uppercase[number] if number < 26 else ascii_uppercase[number // 26 - 1] + ascii_uppercase[number % 26]
