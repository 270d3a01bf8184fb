"""The sizes that pictures are drawn in, from a page layout's type."""

from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.reading.page_layout import PageLayout

LARGE = 14.0
"""pt: labels from this size on mean large print."""


def picture_style(layout: PageLayout) -> PictureStyle:
    """Large print draws lines and motifs 1.3 times as heavy and large."""
    label = layout.types["label"]
    weight = 1.3 if label.size >= LARGE else 1.0
    return PictureStyle(
        measure=layout.types["measure"].size,
        label=label.size,
        label_face=label.face,
        tag=layout.types["piece tag"].size,
        weight=weight,
        motif=weight,
    )
