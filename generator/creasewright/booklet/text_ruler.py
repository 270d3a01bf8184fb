"""The question "how wide is this text?", answered from outside: the booklet knows no fonts."""

from typing import Protocol


class TextRuler(Protocol):
    """Measures text as it will be printed. Faces as in `drawing.Run`; sizes in pt; every answer in mm.

    Text may hold fractions in the drawing list's form (`4\u20643⁄16 in`). A character that the faces
    do not have is a ProblemsFound that names it.
    """

    def width(self, text: str, face: str, size: float) -> float:
        """Advance of the text set on one line."""

    def ascent(self, face: str, size: float) -> float:
        """From the baseline up to the top of the tallest letters with accents."""

    def descent(self, face: str, size: float) -> float:
        """From the baseline down to the bottom of the longest letters, positive."""

    def cap_height(self, face: str, size: float) -> float:
        """From the baseline to the top of a capital H."""
