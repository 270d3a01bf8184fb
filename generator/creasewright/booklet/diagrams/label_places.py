"""Where labels go: piece tags, names of parts, names of edges. Nothing is placed by hand; places are tried in a fixed order.

Order   inside the part with 1.2 mm clear all round; outside, beside it; with a leader. Never over a line, a mark, a label.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from heapq import heapify, heappop
from itertools import islice
from math import dist, hypot, inf
from typing import Any

from msgspec import Struct

from creasewright.booklet.diagrams.boxes import Box, box_about, box_of, polyline
from creasewright.booklet.diagrams.line_code import THIN
from creasewright.booklet.diagrams.picture_style import POINT, PictureStyle
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Polygon2, Spot
from creasewright.booklet.diagrams.visible_lines import level_hits, spans
from creasewright.booklet.drawing import Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

CLEAR = 1.2
"""mm round a label inside a part"""
BESIDE = 1.7
"""mm between an edge and its name"""
APART = 0.5
"""mm between a label outside and anything else"""
STEP = 1.6
"""mm between places tried"""
LEADING = 1.2
"""Of the type size, line to line."""
DOT = 0.5
"""mm: radius of a leader's dot"""
DOTS_APART = 2.0
"""mm between the dots of two leaders."""
DEEP, NEARLY_AS_DEEP = 2.0, 0.75
"""mm from the rim at which a dot is well inside its part; the share of the greatest depth that will do in a smaller part."""
RINGS = (4.0, 8.0, 12.0, 16.0)
"""mm off the work at which labels with leaders stand."""
LEADER_END = 0.8
"""mm from the end of a leader to its label."""
NEARLY = 1 - 1e-9
"""Keeps a least length under the length in spite of rounding."""
LONGEST = 28.0
"""mm: a longer leader is hard to follow."""
SHORT, THICK = 14.0, 1.0
"""mm: the leader of a name that may be left out is no longer; a part that shows no wider is not named so."""
CLOSE_PLACES = 9
"""How many places beside an edge are close to it."""
COMPARED, CROSSING, HIGHER = 12, 4.0, 0.5
"""How many clear leaders are compared; mm of length that one crossed line counts for, and each mm by which the picture grows higher."""


class Setting(Struct, frozen=True):
    """A label in one or two lines: its size, its lines with their widths."""

    lines: tuple[tuple[str, float], ...]
    width: float
    height: float
    """From the top of the first line's capitals to the last baseline, plus descenders."""


def settings(text: str, ruler: TextRuler, style: PictureStyle) -> list[Setting]:
    """The label in one line and, if it has several words, in two lines of about equal width."""
    words = text.split()
    splits = [(" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words))]
    found = [_setting((text,), ruler, style)]
    if splits:
        found.append(min((_setting(split, ruler, style) for split in splits), key=lambda each: each.width))
    return found


def _setting(lines: Sequence[str], ruler: TextRuler, style: PictureStyle) -> Setting:
    measured = tuple((line, ruler.width(line, style.label_face, style.label)) for line in lines)
    up = ruler.cap_height(style.label_face, style.label)
    height = up * 1.3 + (len(lines) - 1) * style.label * LEADING * POINT
    return Setting(measured, max(width for _, width in measured), height)


def label_words(setting: Setting, box: Box, anchor: str, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The lines in their box: flush to its right for `end`, to its left for `start`, centred for `middle`."""
    x = {"start": box.x0, "middle": box.middle[0], "end": box.x1}[anchor]
    first = box.y0 + ruler.cap_height(style.label_face, style.label) * 1.02
    step = style.label * LEADING * POINT
    return [
        Words(x, first + k * step, (Run(line, style.label_face, style.label),), anchor, role="label")
        for k, (line, _) in enumerate(setting.lines)
    ]


def inner_places(rings: Sequence[Polygon2], width: float, height: float, towards: Spot) -> Iterator[Box]:
    """Boxes centred inside the rings (even-odd), nearest to `towards` first."""
    whole = box_of(spot for ring in rings for spot in ring)
    half_w, half_h = width / 2, height / 2
    across, down = int((whole.width - width) / STEP), int((whole.height - height) / STEP)
    if across < 0 or down < 0:
        return
    tx, ty = towards
    hits = level_hits(rings, ty)
    if (len(hits) - bisect_right(hits, tx)) % 2:
        yield Box(tx - half_w, ty - half_h, tx + half_w, ty + half_h)
    xs = [whole.x0 + half_w + (k + 0.5) * STEP for k in range(across + 1)]
    ys = [whole.y0 + half_h + (n + 0.5) * STEP for n in range(down + 1)]
    # most are not asked for: a row waits until nothing nearer than the row itself is left
    rows = sorted(((1.3 * abs(y - ty), n, y) for n, y in enumerate(ys)), reverse=True)
    waiting: list[tuple[float, int, int, float, float]] = []
    while rows or waiting:
        while rows and (not waiting or rows[-1][0] <= waiting[0][0]):
            _, n, y = rows.pop()
            hits = level_hits(rings, y)
            for k, x in enumerate(xs):
                if (len(hits) - bisect_right(hits, x)) % 2:
                    waiting.append((hypot(x - tx, 1.3 * (y - ty)), k, n, x, y))
            heapify(waiting)
        if waiting:
            _, _, _, x, y = heappop(waiting)
            yield Box(x - half_w, y - half_h, x + half_w, y + half_h)


def inside(rings: Sequence[Polygon2], width: float, height: float, towards: Spot, room: Room) -> Box | None:
    """The first clear place inside, with a generous margin if possible, with half of it if not."""
    if not rings:
        return None
    close: Box | None = None
    near = room.near(box_of(spot for ring in rings for spot in ring).grown(CLEAR))
    for place in inner_places(rings, width, height, towards):
        if room.has_room(place) and near.is_clear(place.grown(CLEAR / 2)):
            if near.is_clear(place.grown(CLEAR)):
                return place
            close = close or place
    return close


def edge_places(side: str, piece: Box, setting: Setting) -> Iterator[Box]:
    """Outside one edge of the piece, at its middle first, then along it, then farther off."""
    w, h = setting.width, setting.height
    for off in (BESIDE, BESIDE + 3, BESIDE + 6.5, BESIDE + 10, BESIDE + 14):
        for share in (0.5, 0.4, 0.3, 0.6, 0.7, 0.2, 0.8, 0.1, 0.9):
            x = piece.x0 + share * piece.width
            y = piece.y0 + share * piece.height
            if side == "head":
                yield Box(x - w / 2, piece.y0 - off - h, x + w / 2, piece.y0 - off)
            elif side == "tail":
                yield Box(x - w / 2, piece.y1 + off, x + w / 2, piece.y1 + off + h)
            elif side == "left":
                yield Box(piece.x0 - off - w, y - h / 2, piece.x0 - off, y + h / 2)
            else:
                yield Box(piece.x1 + off, y - h / 2, piece.x1 + off + w, y + h / 2)


EDGE_ANCHOR = {"head": "middle", "tail": "middle", "left": "end", "right": "start"}


def edge_name(text: str, side: str, piece: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The name of an outer edge, outside it; beside an upright edge in two lines if it has two words."""
    ways = settings(text, ruler, style)
    if side in ("left", "right"):
        ways.reverse()
    for limited in (True, False):
        for setting in ways:
            for box in edge_places(side, piece, setting):
                if (room.has_room(box) or not limited) and room.is_clear(box.grown(APART)):
                    return _set(setting, box, EDGE_ANCHOR[side], room, ruler, style)
    room.crowded += 1
    box = next(edge_places(side, piece, ways[0]))
    return _set(ways[0], box, EDGE_ANCHOR[side], room, ruler, style)


def part_name(
    text: str, part: Polygon2, rings: Sequence[Polygon2], body: Box, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """The name of a part: inside what shows of it (`rings`), else with a leader; `part` is the whole of it, maybe hidden."""
    ways = settings(text, ruler, style)
    if rings:
        largest = max(rings, key=lambda ring: box_of(ring).width * box_of(ring).height)
        for setting in ways:
            box = inside(rings, setting.width, setting.height, box_of(largest).middle, room)
            if box:
                return _set(setting, box, "middle", room, ruler, style)
    return _led(ways, rings or (part,), body, room, ruler, style)


def wished_edge_name(text: str, side: str, piece: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The name of an outer edge close beside it, if there is a clear place that makes the picture no higher."""
    (setting, *_) = settings(text, ruler, style)
    for box in islice(edge_places(side, piece, setting), CLOSE_PLACES):
        if room.has_room(box) and not room.grows_higher(box) and room.is_clear(box.grown(CLEAR)):
            return _set(setting, box, EDGE_ANCHOR[side], room, ruler, style)
    return []


def wished_part_name(
    text: str, rings: Sequence[Polygon2], body: Box, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """The name of a part inside what shows of it, or at a short leader; nothing where neither is clear, or the picture grew higher."""
    ways = settings(text, ruler, style)
    if not rings or widest(rings) < THICK:
        return []
    largest = max(rings, key=lambda ring: box_of(ring).width * box_of(ring).height)
    for setting in ways:
        box = inside(rings, setting.width, setting.height, box_of(largest).middle, room)
        if box:
            return _set(setting, box, "middle", room, ruler, style)
    tries = _clear_tries(_tries(ways, dot_places(rings, room), body, room), room, across=False)
    low = [one for one in tries if not room.grows_higher(one[2].box) and dist(one[2].dot, one[2].near) <= SHORT]
    apart = [one for one in low if room.is_clear(one[2].box.grown(CLEAR))]
    if not apart:
        return []
    led = min(apart, key=_by_length)[2]
    return [*leader_to(led, room, style), *_set(led.setting, led.box, led.anchor, room, ruler, style)]


def _set(setting: Setting, box: Box, anchor: str, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    room.take_box(box)
    return label_words(setting, box, anchor, ruler, style)


class Led(Struct, frozen=True):
    """A label at the free end of a leader."""

    setting: Setting
    box: Box
    anchor: str
    near: Spot
    """Where the leader ends at the label."""
    dot: Spot


def _led(
    ways: Sequence[Setting], rings: Sequence[Polygon2], body: Box, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """Text outside the work, a straight leader from its near end to a dot on the part."""
    led = led_label(ways, rings, body, room)
    items = leader_to(led, room, style)
    return [*items, *_set(led.setting, led.box, led.anchor, room, ruler, style)]


def led_label(ways: Sequence[Setting], rings: Sequence[Polygon2], body: Box, room: Room) -> Led:
    """The clear place with the shortest leader, crossings counted as length; over a dimension, outside the limits, or crowded, if there
    is none. A leader across half the picture is crowded too: at a smaller scale there may be room nearer."""
    dots = dot_places(rings, room)
    for limited in (True, False):
        for across in (False, True):
            clear = _clear_tries(_tries(ways, dots, body, room if limited else None), room, across)
            if clear:
                best = min(clear, key=_by_length)[2]
                room.crowded += dist(best.dot, best.near) > LONGEST
                return best
            room.crowded += 1
    return next(_tries(ways, dots, body, None))[2]


def _clear_tries(tries: Iterator["Try"], room: Room, across: bool) -> list["Try"]:
    """The first clear ones; `across`: also such as run across a dimension or another leader."""
    clear: list[Try] = []
    least = inf
    for length, order, led in tries:
        if length > least:
            break  # all that follow are longer still
        if _led_is_clear(led, room) and (across or not room.barred(led.dot, led.near)):
            counted = length + CROSSING * room.crossed(led.dot, led.near) + HIGHER * room.grows_higher(led.box)
            clear.append((counted, order, led))
            least = min(least, clear[-1][0])
            if len(clear) == COMPARED:
                break
    return clear


Place = tuple[tuple[float, float, float, float], str, Spot]
"""Where a label may stand outside the work: the corners of its box, its anchor, where its leader ends."""
Try = tuple[float, tuple[int, int, int], Led]
"""How long the leader is, the place's number (setting, ring, place), the label."""


def _by_length(one: tuple[Any, ...]) -> Any:
    return one[:2]


def _length(one: tuple[Any, ...]) -> Any:
    return one[0]


def _tries(ways: Sequence[Setting], dots: Sequence[Spot], body: Box, room: Room | None) -> Iterator[Try]:
    """The places, those with the shortest leaders first; with `room`, only those within its limits.

    No leader of a ring is shorter than from the ring to the box of all dots: the next ring waits unlisted until then, as most are not
    asked for.
    """
    x0, y0, x1, y1 = box_of(dots)
    gap = min(x0 - body.x0, y0 - body.y0, body.x1 - x1, body.y1 - y1) - LEADER_END
    waiting: list[tuple[float, tuple[int, int, int], Setting, Place, Spot]] = []
    for ring, off in enumerate(RINGS):
        for way, setting in enumerate(ways):
            more = 1.0 if way else 0.0
            for number, place in enumerate(led_places(body, setting, off)):
                if room is not None and not room.has_room(place[0]):
                    continue
                near_x, near_y = place[2]
                far = [hypot(x - near_x, y - near_y) for x, y in dots]
                length = min(far)
                waiting.append((length + more, (way, ring, number), setting, place, dots[far.index(length)]))
        waiting.sort(key=_by_length)
        beyond = (gap + RINGS[ring + 1]) * NEARLY if ring + 1 < len(RINGS) else inf
        ready = bisect_left(waiting, beyond, key=_length)
        for length, order, setting, (corners, anchor, near), dot in waiting[:ready]:
            yield length, order, Led(setting, Box(*corners), anchor, near, dot)
        del waiting[:ready]


def _led_is_clear(led: Led, room: Room) -> bool:
    return room.is_clear(led.box.grown(APART)) and not room.crosses(led.dot, led.near)


def leader_to(led: Led, room: Room, style: PictureStyle) -> list[Item]:
    """The leader of a label, noted in the room; the label itself is not."""
    room.take_line((led.dot, led.near), bars=True)
    room.take_box(box_about(led.dot, 2 * DOT, 2 * DOT))
    room.dots.append(led.dot)
    return leader(led.dot, led.near, style)


def leader(dot: Spot, near: Spot, style: PictureStyle) -> list[Item]:
    x, y = dot
    k = DOT * 0.5523
    round_dot = (
        ("M", x + DOT, y),
        ("C", x + DOT, y + k, x + k, y + DOT, x, y + DOT), ("C", x - k, y + DOT, x - DOT, y + k, x - DOT, y),
        ("C", x - DOT, y - k, x - k, y - DOT, x, y - DOT), ("C", x + k, y - DOT, x + DOT, y - k, x + DOT, y),
        ("Z",),
    )  # fmt: skip
    return [
        Shape(polyline((dot, near)), Pen("INK", THIN * style.weight), role="leader"),
        Shape(round_dot, None, "INK", role="leader dot"),
    ]


def led_places(body: Box, setting: Setting, off: float) -> Iterator[Place]:
    """Round the work, `off` mm off it."""
    x0, y0, x1, y1 = body
    w, h = setting.width, setting.height
    left, right, head, tail = x0 - off, x1 + off, y0 - off, y1 + off
    for k in range(int(body.height / 3) + 2):
        y = y1 - k * 3.0
        yield (right, y - h / 2, right + w, y + h / 2), "start", (right - LEADER_END, y)
        yield (left - w, y - h / 2, left, y + h / 2), "end", (left + LEADER_END, y)
    for k in range(int(body.width / 4) + 1):
        x = x0 + k * 4.0
        middle = (x + (x + w)) / 2
        yield (x, tail, x + w, tail + h), "middle", (middle, tail - LEADER_END)
        yield (x, head - h, x + w, head), "middle", (middle, head + LEADER_END)


def dot_places(rings: Sequence[Polygon2], room: Room) -> list[Spot]:
    """Places well inside the rings (even-odd): off everything that is taken, off other dots, and deep, each if there are such."""
    found = _inner_spots(rings)
    if not found:
        return [box_of(spot for ring in rings for spot in ring).middle]
    apart = [one for one in found if all(dist(one[2], dot) >= DOTS_APART for dot in room.dots)] or found
    for size in (2.2, 1.2):
        clear = [one for one in apart if room.is_clear(box_about(one[2], size, size))]
        if clear:
            return _deep(clear)
    return _deep(apart)


def widest(rings: Sequence[Polygon2]) -> float:
    """mm: how wide the rings' inside is where it is widest, about."""
    return 2 * max((depth for depth, _, _ in _inner_spots(rings)), default=0.0)


def _inner_spots(rings: Sequence[Polygon2]) -> list[tuple[float, float, Spot]]:
    """Places inside, each with how far the rim is across or along the page, whichever is nearer, and the other way."""
    whole = box_of(spot for ring in rings for spot in ring)
    turned = [[(y, x) for x, y in ring] for ring in rings]
    found: list[tuple[float, float, Spot]] = []
    for share in (0.5, 0.25, 0.75, 0.12, 0.88, 0.03, 0.97):
        y = whole.y0 + share * whole.height
        for x0, x1 in spans(rings, y):
            for at in (0.5, 0.2, 0.8):
                x = x0 + at * (x1 - x0)
                across = min(at, 1 - at) * (x1 - x0)
                along = max((min(y - y0, y1 - y) for y0, y1 in spans(turned, x)), default=0.0)
                found.append((min(across, along), max(across, along), (x, y)))
    return found


def _deep(found: Sequence[tuple[float, float, Spot]]) -> list[Spot]:
    """Of the places those about as deep as any, or deep enough."""
    least = min(DEEP, NEARLY_AS_DEEP * max(depth for depth, _, _ in found))
    deep = [one for one in found if one[0] >= least]
    least = min(2 * DEEP, NEARLY_AS_DEEP * max(length for _, length, _ in deep))
    return [spot for _, length, spot in deep if length >= least]
