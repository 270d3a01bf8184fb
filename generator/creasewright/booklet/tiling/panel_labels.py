"""What is written inside a template: the piece's tag, the names of its panels, which way the print runs. mm of the page, y down.

Each stands as near its place as there is room, without crossing a line; where a piece is too small, beside it with a leader.
"""

from collections.abc import Callable
from math import cos, dist, hypot, radians, sin

from msgspec import Struct

from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler
from creasewright.booklet.tiling.free_space import FreeSpace
from creasewright.booklet.tiling.inner_point import inner_point, nearest_on
from creasewright.booklet.tiling.placing import Placed
from creasewright.booklet.tiling.print_glyph import LONG, WIDE, print_glyph
from creasewright.booklet.tiling.spots import Spot, moved, spot
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.template_form import circle_path, line_path, polygon_path
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.geometry.outline import Polygon
from creasewright.geometry.point import Point

CLEAR = 1.2
TAG, CLIP, BETWEEN_TAGS = 5.2, 1.5, 1.5
NEAR, FAR = 60.0, 150.0
"""mm that a label may move within its panel, and beyond it with a leader."""
LINE_GAP = 1.3
APART = 30.0
"""mm: two panels of one name that lie nearer than this share it."""
NEAR_INSIDE = 3.0
"""mm: a panel whose nearest clear place is farther from its middle is too small to be named without a leader."""
MOST_LED = 16
"""Names of one template: of more, those that have no room are left out, for leaders would run all over it."""
EDGE_REACH = 14.0
"""mm that the name of an edge stands from its middle."""
INSIDE = 2.5
"""mm that a leader's dot lies within its piece."""
LEADER_PEN = Pen("INK", 0.4)


class Block(Struct, frozen=True):
    """Something to place: its size, and its items once its middle is known."""

    width: float
    height: float
    draw: Callable[[float, float], list[Item]]


class LabelRoom(Struct, frozen=True):
    """Where labels of one page may stand."""

    space: FreeSpace
    """All that is drawn; what is placed here is marked in it."""
    lines: FreeSpace
    """Cuts and scores alone: a label belongs to its place if no line runs between them."""
    pieces: dict[str, Polygon]
    """Every template on the page by its key: a label on a leader stands in none of them."""


class LabelWords(Struct, frozen=True):
    """What the labels of a template say besides its own name."""

    shared: bool
    """Several templates are on the page: each says its own count and side; else the page's head does."""
    measure: tuple[str, ...]
    """Its long measure, where no line could carry it: in parts that may be set below each other."""
    tile: TileWords


def labels(placed: Placed, shift: Spot, room: LabelRoom, words: LabelWords, ruler: TextRuler) -> list[Item]:
    """The labels of one template on one page; `shift` takes the grid frame to the page."""
    template, space = placed.template, room.space
    names = template.panel_names or ((template.name, Point(*inner_point(template.polygon))),)
    items: list[Item] = []
    stand: dict[str, list[Spot]] = {}
    unseen: dict[str, Spot] = {}
    for k, (name, at) in enumerate(names):
        x, y = moved(placed.to_grid, spot(at))
        inside = (x + shift[0], y + shift[1])
        if not (space.left <= inside[0] < space.left + space.columns and space.head <= inside[1] < space.head + space.rows):
            continue
        place = room.lines.nearest_free(inside, 2.0, 2.0, NEAR) or inside
        panel_name = text_block(name, "Italic", 10.5, ruler)
        if k == 0:
            arrow = _arrow(placed, ruler) + _grain(placed, words.tile, ruler)
            facts = [[*blocks, *arrow] for blocks in _facts(template, words, ruler)]
            items.extend(_main_labels([*_tags(template), panel_name], facts, place, room, room.pieces[template.key]))
            stand[name] = [place]
        elif not any(dist(place, other) < APART for other in stand.get(name, ())):
            seen = _if_seen(panel_name, place, room) if dist(place, inside) < NEAR_INSIDE else None
            items.extend(seen or [])
            if seen:
                stand.setdefault(name, []).append(place)
            else:
                unseen.setdefault(name, inside)
    if len({name for name, _ in names}) <= MOST_LED:
        for name, target in unseen.items():
            if name not in stand:
                items += _led_across(text_block(name, "Italic", 10.5, ruler), target, room)
    return items + _edge_names(placed, shift, room, words.tile, ruler)


def _edge_names(placed: Placed, shift: Spot, room: LabelRoom, words: TileWords, ruler: TextRuler) -> list[Item]:
    """Beside the middle of each named edge, within the piece where there is room; else outside it."""
    items: list[Item] = []
    for name, start, end in placed.template.edge_names:
        (x0, y0), (x1, y1) = moved(placed.to_grid, spot(start)), moved(placed.to_grid, spot(end))
        x, y = (x0 + x1) / 2 + shift[0], (y0 + y1) / 2 + shift[1]
        space = room.space
        if not (space.left <= x < space.left + space.columns and space.head <= y < space.head + space.rows):
            continue
        block = text_block(words.edge.format(name=name), "Italic", 9.5, ruler)
        found = space.nearest_free((x, y), block.width + 2 * CLEAR, block.height + 2 * CLEAR, EDGE_REACH)
        items += _put(block, found, space) if found else []
    return items


def _main_labels(first: list[Block], facts: list[list[Block]], place: Spot, room: LabelRoom, piece: Polygon) -> list[Item]:
    """All in one stack in sight of the place, with the facts in one line or in several; else tag and name in sight and
    the facts by themselves; what has no room there stands outside all pieces, on a leader."""
    for more in facts:
        whole = _if_seen(stack([*first, *more]), place, room)
        if whole is not None:
            return whole
    items: list[Item] = []
    unseen: list[Block] = []
    for block in (stack(first), *facts[-1]):
        seen = _if_seen(block, place, room)
        items.extend(seen or [])
        if seen is None:
            unseen.append(block)
    return items + (_with_leader(stack(unseen), place, room, piece) if unseen else [])


def _if_seen(block: Block, place: Spot, room: LabelRoom) -> list[Item] | None:
    found = room.space.nearest_free(place, block.width + 2 * CLEAR, block.height + 2 * CLEAR, NEAR, room.lines)
    return _put(block, found, room.space) if found else None


def _put(block: Block, at: Spot, space: FreeSpace) -> list[Item]:
    space.mark_box((at[0] - block.width / 2, at[1] - block.height / 2, at[0] + block.width / 2, at[1] + block.height / 2))
    return block.draw(*at)


def _with_leader(block: Block, place: Spot, room: LabelRoom, piece: Polygon) -> list[Item]:
    outside = room.space.copy()
    for other in room.pieces.values():
        outside.mark_polygon(other)
    found = outside.nearest_free(place, block.width + 2 * CLEAR, block.height + 2 * CLEAR, FAR)
    if found is None:
        return []
    return _led(block, found, _just_inside(piece, found, place), room)


def _led_across(block: Block, target: Spot, room: LabelRoom) -> list[Item]:
    """In the nearest clear place, whatever lines run between, with a leader into the panel."""
    found = room.space.nearest_free(target, block.width + 2 * CLEAR, block.height + 2 * CLEAR, NEAR)
    return _led(block, found, target, room) if found else []


def _led(block: Block, found: Spot, target: Spot, room: LabelRoom) -> list[Item]:
    """The block at `found`, a leader from its border to the target, and a dot there."""
    dx, dy = target[0] - found[0], target[1] - found[1]
    # the leader leaves the block where the line to the target crosses its border
    across = (block.width / 2 + 0.8) / abs(dx) if dx else 1.0
    down = (block.height / 2 + 0.8) / abs(dy) if dy else 1.0
    part = min(across, down, 1.0)
    start = (found[0] + dx * part, found[1] + dy * part)
    items = _put(block, found, room.space)
    room.space.mark_line((*start, *target))
    dot = Shape(circle_path(target, 0.5), fill="INK", role="leader dot")
    return [*items, Shape(line_path(start, target), LEADER_PEN, role="leader"), dot]


def _just_inside(piece: Polygon, seen_from: Spot, middle: Spot) -> Spot:
    """A place in the piece near the border that faces `seen_from`."""
    borders = zip(piece, (*piece[1:], piece[0]), strict=True)
    x, y = min(
        (nearest_on(a, b, seen_from) for a, b in borders), key=lambda at: hypot(at[0] - seen_from[0], at[1] - seen_from[1])
    )
    dx, dy = middle[0] - x, middle[1] - y
    part = min(1.0, INSIDE / max(hypot(dx, dy), 1e-9))
    return x + dx * part, y + dy * part


def stack(blocks: list[Block], gap: float = 2.6) -> Block:
    height = sum(block.height for block in blocks) + gap * (len(blocks) - 1)

    def draw(x: float, y: float) -> list[Item]:
        items: list[Item] = []
        top = y - height / 2
        for block in blocks:
            items.extend(block.draw(x, top + block.height / 2))
            top += block.height + gap
        return items

    return Block(max(block.width for block in blocks), height, draw)


def text_block(text: str, face: str, size: float, ruler: TextRuler) -> Block:
    tall = ruler.cap_height(face, size)

    def draw(x: float, y: float) -> list[Item]:
        return [Words(x, y + tall / 2, (Run(text, face, size),), "middle", role="label")]

    return Block(ruler.width(text, face, size), tall + ruler.descent(face, size) * 0.5, draw)


def _tags(template: Template) -> list[Block]:
    count = len(template.letters)
    if not count:
        return []
    pitch = TAG + BETWEEN_TAGS

    def draw(x: float, y: float) -> list[Item]:
        first = x - pitch * (count - 1) / 2
        return [item for k, letter in enumerate(template.letters) for item in tag(letter, first + k * pitch, y)]

    return [Block(pitch * count - BETWEEN_TAGS, TAG, draw)]


def tag(letter: str, x: float, y: float) -> list[Item]:
    """A white square with its head-right corner clipped, the letter inside; its middle at (x, y)."""
    half = TAG / 2
    path = polygon_path(
        (x - half, y - half), (x + half - CLIP, y - half), (x + half, y - half + CLIP), (x + half, y + half), (x - half, y + half)
    )
    return [
        Shape(path, Pen("INK", 0.65), "WHITE", role="tag"),
        Words(x, y + 1.3, (Run(letter, "Black", 10.0),), "middle", role="tag"),
    ]


def _facts(template: Template, words: LabelWords, ruler: TextRuler) -> list[list[Block]]:
    """Ways to set the facts, the widest first."""
    parts = [part for part in (template.count, template.paper, template.side_up) if part and words.shared]
    lines = [" · ".join(parts)] if parts else []
    wide, narrow = [lines, [" ".join(words.measure)]], [parts, list(words.measure)]
    return [[_lines(texts, ruler) for texts in way if any(texts)] for way in (wide, narrow)]


def _grain(placed: Placed, words: TileWords, ruler: TextRuler) -> list[Block]:
    """A plain two-headed arrow along the grain."""
    if placed.template.grain is None:
        return []
    direction = placed.template.grain + placed.turn
    turn = radians(direction)
    wide = abs(sin(turn)) * LONG + abs(cos(turn)) * WIDE
    tall = abs(cos(turn)) * LONG + abs(sin(turn)) * WIDE
    whole = wide + 2.4 + ruler.width(words.grain, "Regular", 9.5)
    rise = ruler.cap_height("Regular", 9.5)

    def draw(x: float, y: float) -> list[Item]:
        left = x - whole / 2
        glyph = print_glyph("grain", direction, (left + wide / 2, y))
        return [*glyph, Words(left + wide + 2.4, y + rise / 2, (Run(words.grain, "Regular", 9.5),), role="label")]

    return [Block(whole, max(tall, rise), draw)]


def _lines(texts: list[str], ruler: TextRuler) -> Block:
    return stack([text_block(text, "Regular", 9.0, ruler) for text in texts], LINE_GAP)


def _arrow(placed: Placed, ruler: TextRuler) -> list[Block]:
    arrow = placed.template.print_arrow
    if arrow is None:
        return []
    direction = arrow.direction + placed.turn
    turn = radians(direction)
    wide = abs(sin(turn)) * LONG + abs(cos(turn)) * WIDE
    tall = abs(cos(turn)) * LONG + abs(sin(turn)) * WIDE
    words = ruler.width(arrow.text, "Regular", 9.5)
    rise = ruler.cap_height("Regular", 9.5)
    whole = wide + 2.4 + words

    def draw(x: float, y: float) -> list[Item]:
        left = x - whole / 2
        glyph = print_glyph(arrow.kind, direction, (left + wide / 2, y))
        return [*glyph, Words(left + wide + 2.4, y + rise / 2, (Run(arrow.text, "Regular", 9.5),), role="label")]

    return [Block(whole, max(tall, rise), draw)]
