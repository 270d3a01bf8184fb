"""A pattern as nested strips: what must be cut apart, without saying where on the sheet it lies.

Block   one piece, or parts laid in a row (parted by down cuts) or in a column (parted by across cuts). Along the row or column
        its size is that of its parts together; across it, that of the largest part, and the others have something trimmed off.

Laying the strips anew, parts pushed together and the largest first, gathers what is left over into fewer and larger offcuts and
brings equal settings side by side.
"""

from collections.abc import Sequence
from itertools import groupby

from msgspec import Struct

from creasewright.cutting.plan import Direction
from creasewright.cutting.whole_numbers import Laid


class Block(Struct, frozen=True):
    """Nested strips, in whole units. A block with no parts is the piece `index`."""

    width: int
    height: int
    cuts: Direction
    """The direction of the cuts between the parts; without meaning for one piece."""
    parts: tuple["Block", ...]
    index: int
    turned: bool


def blocks_of(pattern: Sequence[Laid], gather: bool = True) -> list[Block]:
    """The pattern as strips across first and as strips down first, where edge-to-edge cuts allow. Empty: no such cuts part it.

    Without `gather` parts that are equally short are trimmed one by one, which takes more cuts and fewer stages.
    """
    if len(pattern) == 1:
        return [_one(pattern[0])]
    directions: tuple[Direction, Direction] = ("across", "down")
    blocks = [_parted(pattern, cuts, gather) for cuts in directions]
    return [block for block in blocks if block is not None]


def _one(laid: Laid) -> Block:
    return Block(laid.width, laid.height, "across", (), laid.which, laid.turned)


def _parted(group: Sequence[Laid], cuts: Direction, gather: bool) -> Block | None:
    """The group parted in this direction first; inside a part the other direction comes next, and so on in turn."""
    slabs = _slabs(group, cuts)
    if len(slabs) == 1:
        return None
    parts: list[Block] = []
    for slab in slabs:
        part = _one(slab[0]) if len(slab) == 1 else _parted(slab, _other(cuts), gather)
        if part is None:
            return None
        parts.append(part)
    return _joined(_gathered(parts, cuts) if gather else parts, cuts)


def _slabs(group: Sequence[Laid], cuts: Direction) -> list[list[Laid]]:
    """The finest division of the group by cuts of one direction that meet no piece."""
    start, size = (2, 4) if cuts == "across" else (1, 3)
    slabs: list[list[Laid]] = []
    end = -1
    for laid in sorted(group, key=lambda piece: piece[start]):
        if laid[start] >= end:
            slabs.append([])
        slabs[-1].append(laid)
        end = max(end, laid[start] + laid[size])
    return slabs


def _gathered(parts: list[Block], cuts: Direction) -> list[Block]:
    """Parts that are equally short for their strip go together, so that one cut trims them all."""
    longest = max(_length(part, cuts) for part in parts)
    gathered: list[Block] = []
    for length, group in groupby(sorted(parts, key=lambda part: _length(part, cuts)), lambda part: _length(part, cuts)):
        alike = list(group)
        gathered += alike if length == longest or len(alike) == 1 else [_joined(alike, cuts)]
    return gathered


def _joined(parts: list[Block], cuts: Direction) -> Block:
    """Parts side by side, the thickest first, equal ones together."""
    ordered = sorted(parts, key=lambda part: (-_thickness(part, cuts), -_length(part, cuts), _shape(part)))
    thickness = sum(_thickness(part, cuts) for part in ordered)
    length = max(_length(part, cuts) for part in ordered)
    width, height = (length, thickness) if cuts == "across" else (thickness, length)
    return Block(width, height, cuts, tuple(ordered), -1, False)


def _shape(block: Block) -> tuple[int, ...]:
    """Tells blocks of one size apart, so that the order never hangs on how they were found."""
    return (block.index, *(number for part in block.parts for number in (part.width, part.height, *_shape(part))))


def _thickness(part: Block, cuts: Direction) -> int:
    """Across the cuts."""
    return part.height if cuts == "across" else part.width


def _length(part: Block, cuts: Direction) -> int:
    """Along the cuts."""
    return part.width if cuts == "across" else part.height


def _other(cuts: Direction) -> Direction:
    return "down" if cuts == "across" else "across"
