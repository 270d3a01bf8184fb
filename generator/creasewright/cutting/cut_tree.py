"""From nested strips to cuts on one sheet: a tree in which every knot is one cut through a part in hand.

CutKnot   a part in hand, and the cut that divides it into a part kept under the stop and another
Leaf      a part that is done: a piece, an offcut, or a strip lost at the sheet's margin

The order among knots that do not depend on each other is left open; see `cut_order.py`. Frame: the whole sheet, in whole units.
"""

from collections.abc import Callable
from typing import NamedTuple

from msgspec import Struct

from creasewright.cutting.blocks import Block
from creasewright.cutting.plan import Direction, Edge, SideKind


class Part(NamedTuple):
    """A rectangle of paper: its head-left corner on the sheet and its size."""

    x: int
    y: int
    width: int
    height: int


class Leaf(Struct, frozen=True):
    """A part that needs no more cuts. `index` is the piece's, or -1."""

    part: Part
    kind: SideKind
    index: int = -1
    turned: bool = False


class CutKnot(Struct, frozen=True):
    """One cut. The kept part is the one between `from_edge` and the cut; its width is the setting."""

    part: Part
    direction: Direction
    from_edge: Edge
    setting: int
    level: int
    """0 for the cuts that free the first strips, then 1 for those within them, and so on."""
    kept: "Tree"
    other: "Tree"


Tree = CutKnot | Leaf


class Sheet(NamedTuple):
    """A sheet and the strips lost at its left, head, right and tail."""

    width: int
    height: int
    left: int
    head: int
    right: int
    tail: int


def trees_of(block: Block, sheet: Sheet, fewest_stages: bool = False) -> list[Tree]:
    """The ways worth comparing of cutting the block from a sheet, the lost strips first.

    With `fewest_stages` strips are freed before anything is trimmed, so that the direction changes as seldom as it can.
    """
    usable = Part(sheet.left, sheet.head, sheet.width - sheet.left - sheet.right, sheet.height - sheet.head - sheet.tail)
    insides = [_untrimmed(block, usable, 0)] if fewest_stages else [_tree(block, usable, 0), _ends_first(block, usable)]
    return [_without_margins(Part(0, 0, sheet.width, sheet.height), sheet, inside) for inside in dict.fromkeys(insides)]


def _without_margins(part: Part, sheet: Sheet, inside: Tree) -> Tree:
    """Cuts off the strips at left, head, right and tail, each set from the edge opposite to it."""
    x, y, width, height = part
    if sheet.left:
        rest, lost = Part(x + sheet.left, y, width - sheet.left, height), Part(x, y, sheet.left, height)
        return _margin(part, "down", "right", rest, lost, sheet._replace(left=0), inside)
    if sheet.head:
        rest, lost = Part(x, y + sheet.head, width, height - sheet.head), Part(x, y, width, sheet.head)
        return _margin(part, "across", "tail", rest, lost, sheet._replace(head=0), inside)
    if sheet.right:
        rest, lost = Part(x, y, width - sheet.right, height), Part(x + width - sheet.right, y, sheet.right, height)
        return _margin(part, "down", "left", rest, lost, sheet._replace(right=0), inside)
    if sheet.tail:
        rest, lost = Part(x, y, width, height - sheet.tail), Part(x, y + height - sheet.tail, width, sheet.tail)
        return _margin(part, "across", "head", rest, lost, sheet._replace(tail=0), inside)
    return inside


def _margin(part: Part, direction: Direction, edge: Edge, rest: Part, lost: Part, sheet: Sheet, inside: Tree) -> CutKnot:
    setting = rest.width if direction == "down" else rest.height
    return CutKnot(part, direction, edge, setting, -1, _without_margins(rest, sheet, inside), Leaf(lost, "margin"))


def _tree(block: Block, part: Part, level: int) -> Tree:
    """Trims the part to the length of the block's strips, then frees strip by strip from the head or left edge."""
    if not block.parts:
        return _one_piece(block, part, level)
    spare = part.width - block.width if block.cuts == "across" else part.height - block.height
    if spare:
        trim: Direction = "down" if block.cuts == "across" else "across"
        kept, other = _divided(part, trim, block.width if trim == "down" else block.height)
        return _knot(part, trim, level, _strips(block.parts, block.cuts, kept, level, _tree), Leaf(other, "offcut"))
    return _strips(block.parts, block.cuts, part, level, _tree)


def _untrimmed(block: Block, part: Part, level: int) -> Tree:
    """As `_tree`, but strips are freed at the part's full length, and only the pieces themselves are trimmed."""
    return _strips(block.parts, block.cuts, part, level, _untrimmed) if block.parts else _one_piece(block, part, level)


def _ends_first(block: Block, part: Part) -> Tree:
    """As `_tree`, but what is left beyond the last strip comes off before all else, over the part's whole length."""
    spare = part.height - block.height if block.cuts == "across" else part.width - block.width
    if not block.parts or not spare:
        return _tree(block, part, 0)
    kept, other = _divided(part, block.cuts, block.height if block.cuts == "across" else block.width)
    return _knot(part, block.cuts, 0, _tree(block, kept, 0), Leaf(other, "offcut"))


def _strips(parts: tuple[Block, ...], cuts: Direction, part: Part, level: int, within: Callable[[Block, Part, int], Tree]) -> Tree:
    thickness = parts[0].height if cuts == "across" else parts[0].width
    whole = part.height if cuts == "across" else part.width
    if thickness == whole:
        return within(parts[0], part, level + 1)
    kept, other = _divided(part, cuts, thickness)
    rest = _strips(parts[1:], cuts, other, level, within) if len(parts) > 1 else Leaf(other, "offcut")
    return _knot(part, cuts, level, within(parts[0], kept, level + 1), rest)


def _one_piece(block: Block, part: Part, level: int) -> Tree:
    """Trims a part to one piece, the larger offcut first, so that it stays whole."""
    right, below = part.width - block.width, part.height - block.height
    if not right and not below:
        return Leaf(part, "pieces", block.index, block.turned)
    direction: Direction = "across" if below * part.width > right * part.height else "down"
    kept, other = _divided(part, direction, block.height if direction == "across" else block.width)
    return _knot(part, direction, level, _one_piece(block, kept, level), Leaf(other, "offcut"))


def _divided(part: Part, direction: Direction, setting: int) -> tuple[Part, Part]:
    """The part next to the head or left edge, and the other."""
    x, y, width, height = part
    if direction == "across":
        return Part(x, y, width, setting), Part(x, y + setting, width, height - setting)
    return Part(x, y, setting, height), Part(x + setting, y, width - setting, height)


def _knot(part: Part, direction: Direction, level: int, kept: Tree, other: Tree) -> CutKnot:
    setting = kept.part.height if direction == "across" else kept.part.width
    return CutKnot(part, direction, "head" if direction == "across" else "left", setting, level, kept, other)
