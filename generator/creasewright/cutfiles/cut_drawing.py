"""A drawing for a machine, before any file format: strokes of lines and arcs on named layers. mm, origin head-left, x right, y down.

Stroke   edges that follow one another, open or closed
Ring     a whole circle
Caption  a few words on the layer `mark`
"""

from msgspec import Struct

from creasewright.geometry.outline import Edge
from creasewright.geometry.point import Point

CUT, VALLEY, MOUNTAIN, BOTH_WAYS, UNFOLDED, HOLE, MARK = (
    "cut", "score valley", "score mountain", "score both ways", "score not folded", "hole", "mark",
)  # fmt: skip
LAYERS = (CUT, VALLEY, MOUNTAIN, BOTH_WAYS, UNFOLDED, HOLE, MARK)
"""In the order of the file. Valley and mountain as the side lying up shows them."""
SCORES = (VALLEY, MOUNTAIN, BOTH_WAYS, UNFOLDED)
TURNED_OVER = {VALLEY: MOUNTAIN, MOUNTAIN: VALLEY}
"""What a layer becomes for one who looks at the other side; others stay."""


class Stroke(Struct, frozen=True):
    layer: str
    edges: tuple[Edge, ...]
    """Each starts where the one before ends; where it is `closed` the last ends where the first starts."""
    closed: bool = False


class Ring(Struct, frozen=True):
    layer: str
    centre: Point
    across: float
    """Diameter, mm."""


class Caption(Struct, frozen=True):
    text: str
    x: float
    y: float
    """The middle of its baseline."""
    high: float
    """Of its capitals, mm."""


class CutDrawing(Struct, frozen=True):
    title: str
    width: float
    height: float
    strokes: tuple[Stroke, ...]
    rings: tuple[Ring, ...]
    captions: tuple[Caption, ...] = ()
