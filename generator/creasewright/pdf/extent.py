"""How far items of the drawing list reach, in mm: for the boxes of figures and the places of links."""

from collections.abc import Iterable

from creasewright.booklet.drawing import FormUse, Group, Item, Picture, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.pdf.paths import Extent, common, moved, path_extent, united


def extent(items: Iterable[Item], ruler: TextRuler) -> Extent | None:
    """The smallest upright rectangle round all items; None if nothing shows. Pens' widths do not count."""
    return united(_extent(item, ruler) for item in items)


def _extent(item: Item, ruler: TextRuler) -> Extent | None:
    if isinstance(item, Shape):
        return path_extent(item.path)
    if isinstance(item, Words):
        return words_extent(item, ruler)
    if isinstance(item, FormUse):
        return path_extent(item.clip)
    if isinstance(item, Picture):
        return item.x, item.y, item.x + item.width, item.y + item.height
    if isinstance(item, Group) and item.role == "motifs":
        return None  # motifs are seen on their paper only, which is drawn under them
    inside = extent(item.items, ruler)
    if isinstance(item, Group):
        if item.clip is not None:
            inside = common(inside, path_extent(item.clip))
        return moved(inside, item.dx, item.dy)
    return inside


def words_extent(words: Words, ruler: TextRuler) -> Extent | None:
    """The rectangle of one line, from its lowest descender to its highest ascender."""
    if not words.runs:
        return None
    width = sum(ruler.width(run.text, run.face, run.size) for run in words.runs)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[words.anchor]
    up = max(ruler.ascent(run.face, run.size) for run in words.runs)
    down = max(ruler.descent(run.face, run.size) for run in words.runs)
    corners = {
        0: (start, -up, start + width, down),
        90: (-down, start, up, start + width),
        -90: (-up, -start - width, down, -start),
    }[words.turned]
    return moved(corners, words.x, words.y)
