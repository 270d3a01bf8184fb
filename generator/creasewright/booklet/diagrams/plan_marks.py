"""Arrows and marks of a plan picture: where they go, and what they take. mm on the page, the scene's origin."""

import itertools
from collections.abc import Sequence
from math import cos, hypot, pi, sin

from creasewright.booklet.diagrams.action_marks import PRESS_RADIUS, action_mark
from creasewright.booklet.diagrams.arrow_heads import WIDE, head_corners
from creasewright.booklet.diagrams.boxes import Box, box_about, box_of
from creasewright.booklet.diagrams.dimension_line import value_size, value_words
from creasewright.booklet.diagrams.fold_arrow import fold_arrow, fold_curve, ground_tone, tuck_edge, tuck_span
from creasewright.booklet.diagrams.page_facet import Chain
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side, tag_width
from creasewright.booklet.diagrams.plan_work import Work
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import FoldArrow, PlanScene, Polygon2, SlideArrow, Spot
from creasewright.booklet.diagrams.slide_arrow import block_corners, leaving, slide_arrow, slide_span
from creasewright.booklet.drawing import Group, Item
from creasewright.booklet.text_ruler import TextRuler
from creasewright.geometry.clip import intersection
from creasewright.geometry.deepest import deepest_place
from creasewright.geometry.offset import inset

WELL_IN = 4.0
"""mm from the rim of the place where a piece is laid to the tip of its arrow, at the least, where it has so much room."""
REPEAT_BELOW = 5.0
"""mm between a picture and the repeat mark under it."""


def fold_items(arrow: FoldArrow, work: Work, scale: float, room: Room, style: PictureStyle) -> tuple[list[Item], Chain]:
    """The arrow, on its emptier side, and the way it goes."""
    start, end = ((x * scale, y * scale) for x, y in (arrow.start, arrow.end))
    edge_at = 0.5
    if arrow.kind == "tuck":
        start, end, edge_at = tuck_span(start, end, tuck_edge(start, end, work.facets))
        curve: Chain = (start, end)
    else:
        first = _to_the_right(start, end)
        curve = min((fold_curve(start, end, left) for left in (first, not first)), key=lambda each: _crowd(each, room))
    items = fold_arrow(arrow.kind, curve, ground_tone(start, end, work.facets), style, edge_at)
    take_arrow(curve, room)
    return items, curve


def _to_the_right(start: Spot, end: Spot) -> bool:
    """Which way of bulging (`left` of `fold_curve`) goes to the right, or for a level arrow to the head."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return dy > 0 if abs(dy) > 0.2 * abs(dx) else dx < 0 if dy > 0 else dx > 0


def _crowd(curve: Sequence[Spot], room: Room) -> int:
    """How many taken lines and boxes the curve's neighbourhood meets."""
    return sum(not room.is_clear(box_about(spot, WIDE, WIDE)) for spot in curve[2:-2:3])


def angle_items(arrow: FoldArrow, curve: Chain, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """The angle of a fold that stops short of lying flat, at the clear place nearest to the arrow's middle or tip."""
    if arrow.kind != "lift" or arrow.angle in (0.0, 180.0):
        return []
    text = f"{arrow.angle:g}°"
    size = value_size(text, ruler, style)
    for off in range(2, 15):
        for x, y in (curve[len(curve) // 2], curve[-1]):
            for turn in range(16):
                co, si = cos(turn * pi / 8), sin(turn * pi / 8)
                centre = x + (off + size[0] / 2) * co, y + (off + size[1] / 2) * si
                box = box_about(centre, *size)
                if room.has_room(box) and room.is_clear(box.grown(0.6)):
                    room.take_box(box)
                    return [value_words(text, centre, ruler, style)]
    room.crowded += 1
    return []


def take_arrow(curve: Chain, room: Room) -> None:
    """The curve with the breadth of its head all along."""
    half = WIDE / 2
    for a, b in itertools.pairwise(curve):
        dx, dy = b[0] - a[0], b[1] - a[1]
        way = hypot(dx, dy) or 1.0
        nx, ny = -dy / way * half * 0.7, dx / way * half * 0.7
        room.take_line(((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny)))
        room.take_line(((a[0] - nx, a[1] - ny), (b[0] - nx, b[1] - ny)))
    for tip, back in ((curve[-1], curve[-2]), (curve[0], curve[1])):
        room.take_box(box_of(head_corners(tip, back)))


def slide_items(slide: SlideArrow, work: Work, scale: float, room: Room, style: PictureStyle) -> list[Item]:
    spot = landing_spot(slide, scale)
    end = spot[0] * scale, spot[1] * scale
    start = end[0] + (slide.start[0] - slide.end[0]) * scale, end[1] + (slide.start[1] - slide.end[1]) * scale
    start, end = slide_span(start, end, leaving(start, end, work.facets))
    corners = block_corners(start, end)
    room.take_line((*corners, corners[0]))
    room.take_line((start, end))
    return [slide_arrow(start, end, style)]


def landing_spot(slide: SlideArrow, scale: float) -> Spot:
    """In the scene: well inside of what is seen of the place where a piece goes, on the work if it can be, as deep as can be."""
    if not slide.seen:
        return slide.end
    inner = [piece for polygon in slide.seen for piece in inset(polygon, WELL_IN / scale)]
    return deepest_place(intersection(inner, slide.work) or inner or slide.seen)[0]


def press_items(work: Work, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """A ring and dot on each glued seam under the paper; with no seam, on what moves, else on the largest facet."""
    places = [_middle_of(ring) for ring in work.hidden_glue]
    if not places:
        shown = [each for each in work.visible if each.rings]
        moving = [each for each in shown if each.facet.source.moves] or shown
        largest = max(moving, key=lambda each: each.facet.box.width * each.facet.box.height, default=None)
        places = [_middle_of(largest.rings[0])] if largest else []
    items: list[Item] = []
    mark = action_mark("press", "", ruler, style)
    for x, y in places:
        box = box_about((x, y), 2 * PRESS_RADIUS, 2 * PRESS_RADIUS)
        room.take_box(box)
        items.append(Group(mark.items, box.x0, box.y0, role="press"))
    return items


def _middle_of(ring: Polygon2) -> Spot:
    return sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring)


def repeat_items(letters: Sequence[str], body: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    """Under the picture: two half-circle arrows and the tags of the other pieces."""
    mark = action_mark("repeat", "", ruler, style)
    side = tag_side(style)
    widths = [tag_width(letter, ruler, style) for letter in letters]
    width = mark.width + sum(wide + 1.6 for wide in widths)
    height = max(mark.height, side)
    top = max(body.y1 + REPEAT_BELOW, (room.extent or body).y1 + 2.5)
    left = body.middle[0] - width / 2
    middle = top + height / 2
    items: list[Item] = [Group(mark.items, left, middle - mark.height / 2, role="repeat")]
    x = left + mark.width
    for letter, wide in zip(letters, widths, strict=True):
        items += piece_tag(letter, (x + 1.6 + wide / 2, middle), ruler, style)
        x += 1.6 + wide
    room.take_box(Box(left, top, left + width, top + height))
    return items


def actions_in_picture(scene: PlanScene) -> tuple[bool, tuple[str, ...]]:
    """Whether to press, and the letters of pieces to repeat with; every other action stands beside the step's number."""
    press = any(action.kind == "press" for action in scene.actions)
    letters = tuple(
        letter for action in scene.actions if action.kind == "repeat" for letter in action.text.replace(",", " ").split()
    )
    return press, letters
