"""Which edge of the blank lies at a side of the board, and which can."""

from creasewright.blanks.blank import Blank
from creasewright.geometry.outline import Outline
from creasewright.scoring.lies import MIRRORED, QUARTER_OF, Lie, Pass, straight_spans

AT_LEFT = {quarter: edge for edge, quarter in QUARTER_OF.items()}
OPPOSITE = {"left": "right", "right": "left", "head": "tail", "tail": "head"}
HELD = 1 / 3
"""Of its side: an edge whose straight stretches lie within less is too short to hold a piece square (common practice, no source)."""


def edge_at_left(lie: Lie) -> str:
    """`left`, `right`, `head` or `tail` of the blank, as seen on its front."""
    edge = AT_LEFT[lie.quarter]
    return MIRRORED.get(edge, edge) if lie.up == "back" else edge


def edge_at_stop(each: Pass) -> str:
    """The blank's edge that lies against the stop, or against the spacer."""
    edge = edge_at_left(each.lie)
    return OPPOSITE[edge] if each.stop == "right" else edge


def edges_that_hold(blank: Blank, lie: Lie) -> tuple[bool, bool]:
    """Whether the left edge and the right one, as the piece lies, can lie against a stop."""
    outline = Outline(lie.to_lie.loop(blank.outline.edges))

    def holds(side: str) -> bool:
        spans = straight_spans(outline, side, lie.width, lie.height)
        ends = [float(end) for span in spans for end in span]
        return bool(ends) and max(ends) - min(ends) >= HELD * float(lie.height)

    return holds("left"), holds("right")
