"""Which edge of the blank lies at a side of the board."""

from creasewright.scoring.lies import MIRRORED, QUARTER_OF, Lie, Pass

AT_LEFT = {quarter: edge for edge, quarter in QUARTER_OF.items()}
OPPOSITE = {"left": "right", "right": "left", "head": "tail", "tail": "head"}


def edge_at_left(lie: Lie) -> str:
    """`left`, `right`, `head` or `tail` of the blank, as seen on its front."""
    edge = AT_LEFT[lie.quarter]
    return MIRRORED.get(edge, edge) if lie.up == "back" else edge


def edge_at_stop(each: Pass) -> str:
    """The blank's edge that lies against the stop, or against the spacer."""
    edge = edge_at_left(each.lie)
    return OPPOSITE[edge] if each.stop == "right" else edge
