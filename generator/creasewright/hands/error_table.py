"""What hands err by at each operation: mm in 95 of 100 cases, normal, so 1.96 standard deviations. Common practice, no source.

The maker's own values come from the tool file (`hand errors:`) and go before these.
"""

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

TRIMMED, SCORED, TRACED, PLACED, GLUED, MEASURED = "trimmed", "scored", "traced", "placed", "glued", "measured"


class HandErrors(Struct, frozen=True):
    """mm, 95 %. Common practice, no source."""

    trimmed: float = 0.8
    """Cut on a trimmer against its stop, or with a knife along a ruler."""
    scored: float = 0.5
    """Pressed in a groove of the board, or along a ruler."""
    traced: float = 1.0
    """Drawn round a template and cut with scissors."""
    placed: float = 0.8
    """Put down by eye, to a line or an edge."""
    glued: float = 0.8
    """Where the inner edge of a strip of adhesive comes to lie."""
    measured: float = 0.5
    """Taken from the real thing with a ruler."""

    def of(self, operation: str) -> float:
        value: float = getattr(self, operation)
        return value


def hand_errors(own: Mapping[str, Fraction | float]) -> HandErrors:
    """The usual errors, with the maker's own (mm by operation) in their stead."""
    return HandErrors(**{operation: float(mm) for operation, mm in own.items()})
