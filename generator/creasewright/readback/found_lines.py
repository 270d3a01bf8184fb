"""What a reader of drawings finds: edges in strokes and rings, each on its layer. mm, origin head-left, x right, y down."""

from msgspec import Struct

from creasewright.geometry.outline import Edge


class FoundStroke(Struct, frozen=True):
    layer: str
    edges: tuple[Edge, ...]
    closed: bool


class FoundLines(Struct, frozen=True):
    width: float
    height: float
    """0 where the format does not say."""
    strokes: tuple[FoundStroke, ...]
    rings: tuple[tuple[str, float, float, float], ...]
    """Layer, x, y and diameter."""
