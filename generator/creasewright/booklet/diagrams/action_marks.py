"""Marks for what is done to the whole piece: beside a step's number, in a picture, and on the page that explains the marks.

Every mark is drawn in a box of its own, head-left at (0, 0), and says how large that is.
"""

from collections.abc import Callable
from math import cos, pi, sin

from msgspec import Struct

from creasewright.booklet.diagrams.arrow_heads import HEAD, NOTCH, SHAFT_DASH, arrow_head, trimmed
from creasewright.booklet.diagrams.boxes import circle, polyline
from creasewright.booklet.diagrams.picture_style import NORMAL, PictureStyle
from creasewright.booklet.diagrams.scene import Spot
from creasewright.booklet.drawing import Group, Item, Pen, Run, Shape, Words
from creasewright.booklet.text_ruler import TextRuler

LINE = 1.3
"""pt: shafts of these small arrows."""
HEAD_SIZE = 0.72
"""Their heads, as a share of a fold arrow's."""
AXIS_DASH = (5.0, 1.6, 0.9, 1.6)
"""pt: chain line."""


class ActionMark(Struct, frozen=True):
    items: tuple[Item, ...]
    width: float
    height: float
    """mm"""


def action_mark(kind: str, text: str, ruler: TextRuler, style: PictureStyle = NORMAL, size: float = 1.0) -> ActionMark:
    """`kind` is one of `turn over page`, `turn over pad`, `turn` (text: the angle), `press`, `press sideways`, `repeat`, `scale`.

    `size` multiplies the mark's usual size; text keeps its own. Raises KeyError for another kind.
    """
    items, width, height = _MARKS[kind](style)
    if kind in ("turn", "turn left") and text:
        run = Run(text, "Bold", 9.0 * style.label / 9.5)
        baseline = height / 2 + ruler.cap_height(run.face, run.size) / 2 / size
        items.append(Words(width / 2, baseline, (run,), "middle", role="mark text"))
    return ActionMark(tuple(_sized(item, size) for item in items), width * size, height * size)


def _sized(item: Item, size: float) -> Item:
    if size == 1.0:
        return item
    if isinstance(item, Shape):
        path = tuple((command[0], *(value * size for value in command[1:])) for command in item.path)
        return Shape(path, item.pen, item.fill, item.even_odd, item.role)
    if isinstance(item, Words):
        return Words(item.x * size, item.y * size, item.runs, item.anchor, item.turned, item.role)
    if isinstance(item, Group):
        return Group(tuple(_sized(inner, size) for inner in item.items), item.dx * size, item.dy * size, item.clip, item.role)
    return item


def _arc(centre: Spot, rx: float, ry: float, start: float, end: float, steps: int = 28) -> list[Spot]:
    """Places on an ellipse; angles in degrees, clockwise as seen with y down, 0 to the right."""
    angles = [(start + (end - start) * k / steps) * pi / 180 for k in range(steps + 1)]
    return [(centre[0] + rx * cos(a), centre[1] + ry * sin(a)) for a in angles]


def _arrow(spots: list[Spot], style: PictureStyle) -> list[Item]:
    body = trimmed(spots, (HEAD - NOTCH) * HEAD_SIZE)
    back = trimmed(spots, HEAD * HEAD_SIZE)[-1]
    return [
        Shape(polyline(body), Pen("ACC", LINE * style.weight), role="mark shaft"),
        arrow_head(spots[-1], back, True, style, HEAD_SIZE),
    ]


def _turn_over(style: PictureStyle, upright: bool) -> tuple[list[Item], float, float]:
    """An ellipse running round the axis: the near half solid with its head, a piece of the far half dashed."""
    long, short, reach = 5.2, 2.0, 4.8
    width, height = 2 * long + 1.6, 2 * reach
    centre = (width / 2, height / 2)
    near, far = _arc(centre, long, short, 0, 176), _arc(centre, long, short, 0, -84)
    axis = [(centre[0], centre[1] - reach), (centre[0], centre[1] + reach)]
    if not upright:
        near, far, axis = ([(y, width - x) for x, y in spots] for spots in (near, far, axis))
        width, height = height, width
    dash = tuple(part * 0.7 * style.weight for part in SHAFT_DASH)
    items: list[Item] = [
        Shape(polyline(axis), Pen("INK", 0.65 * style.weight, AXIS_DASH, "butt"), role="mark axis"),
        Shape(polyline(far), Pen("ACC", LINE * style.weight, dash, "butt"), role="mark shaft"),
    ]
    return [*items, *_arrow(near, style)], width, height


def _turn_over_page(style: PictureStyle) -> tuple[list[Item], float, float]:
    return _turn_over(style, upright=True)


def _turn_over_pad(style: PictureStyle) -> tuple[list[Item], float, float]:
    return _turn_over(style, upright=False)


def _turn(style: PictureStyle) -> tuple[list[Item], float, float]:
    radius = 4.6 * style.label / 9.5
    side = 2 * radius + 2.0
    return _arrow(_arc((side / 2, side / 2), radius, radius, 130, 410), style), side, side


def _turn_left(style: PictureStyle) -> tuple[list[Item], float, float]:
    radius = 4.6 * style.label / 9.5
    side = 2 * radius + 2.0
    return _arrow(_arc((side / 2, side / 2), radius, radius, 410, 130), style), side, side


def _press(style: PictureStyle) -> tuple[list[Item], float, float]:
    centre = (PRESS_RADIUS, PRESS_RADIUS)
    items: list[Item] = [
        Shape(circle(centre, PRESS_RADIUS - 0.3), Pen("ACC", LINE * style.weight), "WHITE", role="press ring"),
        Shape(circle(centre, 0.95), None, "ACC", role="press dot"),
    ]
    return items, 2 * PRESS_RADIUS, 2 * PRESS_RADIUS


PRESS_RADIUS = 2.5
"""mm, with half the ring's line."""


def _press_sideways(style: PictureStyle) -> tuple[list[Item], float, float]:
    items: list[Item] = [
        Shape(polyline([(0.4, 0.7), (0.4, 4.3)]), Pen("ACC", 1.7 * style.weight, cap="butt"), role="mark shaft"),
        Shape(polyline([(1.4, 0.7), (1.4, 4.3), (4.4, 2.5)], closed=True), None, "ACC", role="arrow head"),
    ]
    return items, 4.6, 5.0


def _repeat(style: PictureStyle) -> tuple[list[Item], float, float]:
    centre, radius = (3.2, 3.2), 2.6
    items = _arrow(_arc(centre, radius, radius, 195, 340), style) + _arrow(_arc(centre, radius, radius, 15, 160), style)
    return items, 6.4, 6.4


def _scale(style: PictureStyle) -> tuple[list[Item], float, float]:
    items: list[Item] = [
        Shape(circle((1.9, 1.9), 1.5), Pen("ACC", LINE * style.weight), role="mark shaft"),
        Shape(polyline([(3.0, 3.0), (4.7, 4.7)]), Pen("ACC", 1.7 * style.weight), role="mark shaft"),
    ]
    return items, 5.0, 5.0


_MARKS: dict[str, Callable[[PictureStyle], tuple[list[Item], float, float]]] = {
    "turn over page": _turn_over_page,
    "turn over pad": _turn_over_pad,
    "turn": _turn,
    "turn left": _turn_left,
    "press": _press,
    "press sideways": _press_sideways,
    "repeat": _repeat,
    "scale": _scale,
}
