"""What is set over what in a finished picture: the test that labels never collide. Reads the drawing list only.

Words   against other words, against strokes and marks they do not belong to, against the picture's rim.
A tag's letter belongs to its box, a mark's text to its mark. Fills of paper are ground, not a collision.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_of, path_lines, segment_meets, words_box
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.diagrams.visible_lines import within
from creasewright.booklet.drawing import FormUse, Group, Item, Path, Picture, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

SLACK = 0.1
"""mm by which boxes may meet before it counts."""
OWN = {"tag": frozenset({"tag box"}), "mark text": frozenset({"mark shaft"})}
INKED_FILLS = ("motif", "arrow", "slide arrow", "leader dot", "press", "tag box", "INK")
"""Filled shapes, by the start of their role, that count as marks as a whole."""


class _Placed(Struct, frozen=True):
    item: Shape | Words
    dx: float
    dy: float
    clip: tuple[Spot, ...]
    """The outline that it is seen through, in the picture's frame; empty: none."""


def overlaps(items: Iterable[Item], ruler: TextRuler, width: float | None = None, height: float | None = None) -> list[str]:
    """One sentence for each collision; none: a clean picture. With `width` and `height`, mm, also what leaves that box."""
    placed = list(_flat(items, 0.0, 0.0, ()))
    words = [(each.item, words_box(each.item, ruler).moved(each.dx, each.dy)) for each in placed if isinstance(each.item, Words)]
    shapes = [each for each in placed if isinstance(each.item, Shape)]
    found = []
    for k, (mine, box) in enumerate(words):
        inner = box.grown(-SLACK)
        found += [f"{_said(mine)} overlaps {_said(other)}" for other, there in words[k + 1 :] if inner.overlaps(there)]
        found += _struck(mine, inner, shapes)
    if width is not None and height is not None:
        rim = Box(0.0, 0.0, width, height)
        found += [f"{_said(mine)} leaves the picture" for mine, box in words if not rim.holds(box, SLACK)]
        found += [f"{each.item.role} leaves the picture" for each in placed if _leaves(each, rim)]
    return list(dict.fromkeys(found))


def _said(words: Words) -> str:
    return f"{words.role} “{''.join(run.text for run in words.runs)}”"


def _flat(items: Iterable[Item], dx: float, dy: float, clip: tuple[Spot, ...]) -> Iterator[_Placed]:
    for item in items:
        if isinstance(item, Group):
            mine = clip
            if item.clip is not None:
                mine = tuple((x + dx + item.dx, y + dy + item.dy) for x, y in _spots(item.clip))
            yield from _flat(item.items, dx + item.dx, dy + item.dy, mine)
        elif isinstance(item, Shape | Words):
            yield _Placed(item, dx, dy, clip)
        elif not isinstance(item, FormUse | Picture):
            yield from _flat(item.items, dx, dy, clip)


def _spots(path: Path) -> list[Spot]:
    return [spot for chain in path_lines(path) for spot in chain]


def _struck(words: Words, box: Box, shapes: Iterable[_Placed]) -> Iterator[str]:
    own = OWN.get(words.role, frozenset())
    for each in shapes:
        shape = each.item
        if not isinstance(shape, Shape) or shape.role in own or "casing" in shape.role:
            continue
        if each.clip and not _seen_in(each.clip, box):
            continue
        local = box.moved(-each.dx, -each.dy)
        chains = path_lines(shape.path)
        inked = _is_inked(shape)
        if (shape.pen is not None or inked) and any(segment_meets(a, b, local) for chain in chains for a, b in pairwise(chain)):
            yield f"{_said(words)} overlaps {shape.role or 'a line'}"
        elif inked and any(within(local.middle, chain) for chain in chains if len(chain) > 2):
            yield f"{_said(words)} overlaps {shape.role}"


def _seen_in(clip: tuple[Spot, ...], box: Box) -> bool:
    return within(box.middle, clip) or any(segment_meets(a, b, box) for a, b in pairwise((*clip, clip[0])))


def _is_inked(shape: Shape) -> bool:
    return shape.fill is not None and shape.role.startswith(INKED_FILLS)


def _leaves(each: _Placed, rim: Box) -> bool:
    shape = each.item
    if not isinstance(shape, Shape) or not shape.path or each.clip or "casing" in shape.role:
        return False
    return not rim.holds(box_of(_spots(shape.path)).moved(each.dx, each.dy), SLACK)
