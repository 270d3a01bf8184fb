"""Which kind of adhesive suits a joint, by rule; and how wide a strip may be. All of it common practice, no source.

board    wet glue on board and on cloth over it: tape lets go of it
thin     tape on paper so thin that wet glue cockles it or shows through
large    tape on large faces of thin paper, which cockle too
slides   wet where something is pushed to its lines after it is laid down, or slid between others: tape grabs at the first touch
shows    tape for a strip that runs to the edge: wet glue creeps out of it and shows
"""

from math import hypot, sqrt

from creasewright.folding.state import GlueArea, State
from creasewright.geometry.clip import area as polygon_area
from creasewright.joining.supply import MaterialFacts
from creasewright.reading import design

WET, TAPE, EITHER = "wet", "tape", "either"
SUITS = {WET: "glue", TAPE: "tape"}
"""The kind of material that is meant."""
STICKS = ("glue", "tape")
"""Kinds of material that a joint may be given; foam only where it is named."""
COCKLES = 0.09
"""mm: thinner paper cockles under wet glue, or shows it."""
LARGE, SUPPLE = 15_000.0, 0.2
"""mm² of one face, glued all over, and mm of the thinner paper: that large and that thin it cockles too."""
BOARD = 1.0
"""mm: from here on it is board, which takes wet glue."""
CREEPS = 1.0
"""mm from an edge within which a strip of wet glue comes out of it."""
KEEPS = 0.75
"""The share of its width that a strip must keep."""


def suited(state: State, areas: list[GlueArea], action: design.Action) -> tuple[str, str]:
    """The kind that suits a joint, and why; `state` is that after its step."""
    if thickest(state, areas) >= BOARD:
        return WET, "board"
    thin = min((caliper(state, key[0]) for area in areas for key in (area.panel, area.onto)), default=BOARD)
    if thin < COCKLES:
        return TAPE, "thin"
    if thin < SUPPLE and any(not area.width and abs(polygon_area(area.polygon)) > LARGE for area in areas):
        return TAPE, "large"
    if slides(action):
        return WET, "slides"
    if any(area.width and area.setback < CREEPS for area in areas):
        return TAPE, "shows"
    return EITHER, ""


def slides(action: design.Action) -> bool:
    if not isinstance(action, design.Join) or action.verb != "join":
        return False
    return action.meet is not None or (action.landing is not None and action.landing.relation in ("between", "into", "around"))


def ranked(offered: tuple[MaterialFacts, ...], suits: str) -> list[MaterialFacts]:
    """What is on offer, best first: the kind that suits before the other; of tapes the widest first, as it holds most; else as offered."""
    kind = SUITS.get(suits)

    def place(one: MaterialFacts) -> tuple[bool, float]:
        return kind is not None and one.kind != kind, -one.width if kind == one.kind == "tape" else 0.0

    return sorted(offered, key=place)


def keeps_its_width(areas: list[GlueArea]) -> bool:
    return narrowest(areas) >= KEEPS * max((area.width for area in areas), default=0.0)


def narrowest(areas: list[GlueArea]) -> float:
    """mm that the narrowest strip keeps between its margins; 0 where there is none."""
    return min((breadth(area) for area in areas if area.width), default=0.0)


def caliper(state: State, part: str) -> float:
    """mm; what is not said, and what is bought, is neither thin paper nor board."""
    return (state.thick.get(part) or SUPPLE) if state.blanks[part].paper else SUPPLE


def thickest(state: State, areas: list[GlueArea]) -> float:
    return max((caliper(state, key[0]) for area in areas for key in (area.panel, area.onto)), default=0.0)


def breadth(area: GlueArea) -> float:
    """mm across a strip, as if it were the rectangle of its area and its way round."""
    ring = area.polygon
    around = sum(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
    half, size = around / 2, abs(polygon_area(ring))
    # of a rectangle, length and breadth are the roots of t² - half t + size
    return (half - sqrt(max(0.0, half * half - 4 * size))) / 2
