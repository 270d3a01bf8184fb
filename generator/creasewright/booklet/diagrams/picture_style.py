"""Sizes that a picture is drawn in: normal and large print. Type in pt.

`weight` and `motif` multiply what the line code and the motifs say."""

from msgspec import Struct


class PictureStyle(Struct, frozen=True):
    measure: float = 12.0
    """Values of dimensions, Bold."""
    label: float = 9.5
    """Names of parts and edges."""
    label_face: str = "Italic"
    tag: float = 10.0
    """The letter in a piece tag, Black."""
    weight: float = 1.0
    """Times every line width."""
    motif: float = 1.0
    """Times every motif and its lattice."""
    fleck: float = 0.4
    """mm: a motif that reaches less far into what is seen is left out; it would be a fleck, not a leaf."""
    slender: float = 0.0
    """In space, a motif is never squeezed under this share of its width, and a face that would squeeze it much more shows none."""


NORMAL = PictureStyle()
LARGE_PRINT = PictureStyle(measure=18.0, label=18.0, label_face="Regular", tag=18.0, weight=1.3, motif=1.3)

POINT = 25.4 / 72
"""mm in a point."""
