"""Dotted outlines: where something will lie, and glue on a side that does not face the maker."""

from collections.abc import Sequence

from creasewright.booklet.diagrams.line_code import line_shape
from creasewright.booklet.diagrams.page_facet import Chain, PageFacet
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.scene import Polygon2
from creasewright.booklet.diagrams.visible_lines import visible_chains
from creasewright.booklet.drawing import Item


def dotted_outline(
    polygon: Polygon2, above: Sequence[PageFacet], style: PictureStyle, role: str
) -> tuple[list[Item], list[Chain]]:
    """The outline in dots, side by side so that each side begins and ends with a dot; not drawn on pieces held above the work."""
    items: list[Item] = []
    chains = []
    for side in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        for chain in visible_chains(side, above):
            shape = line_shape("hidden", chain, style, role)
            if shape is not None:
                items.append(shape)
                chains.append(chain)
    return items, chains
