"""Small templates together on few pages: each is laid into the free rectangle that holds it nearest the head of the window.

The free room of a page is kept as all the largest empty rectangles, overlapping each other; whatever is placed
cuts each of them into the up to four that remain around it. All in mm from the window's head-left corner, y down.
"""

from collections.abc import Callable

from msgspec import Struct

from creasewright.booklet.tiling.placing import Layout, Placed, place, turned_size
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.window import Window

GAP = 6.0
"""Between templates, and between them and the frame where there is room."""
Rectangle = tuple[float, float, float, float]
"""Left, head, right, tail."""


class _Item(Struct, frozen=True):
    key: str
    """Empty: the place kept for the check square."""
    sizes: tuple[tuple[float, float, float], ...]
    """Turn, width and height of each way that it fits the window."""

    @property
    def area(self) -> float:
        return self.sizes[0][1] * self.sizes[0][2]

    @property
    def longest(self) -> float:
        return max(self.sizes[0][1:])


def fits_one_window(template: Template, window: Window) -> bool:
    return bool(_ways(template, window))


def share_pages(
    templates: tuple[Template, ...], window: Window, square: float, holds_square: Callable[[tuple[Placed, ...]], bool]
) -> list[Layout]:
    """Templates that each fit one window, on few pages.

    `square` is the side of the place a check square asks for, with its clearance; a page on which `holds_square` finds
    none free of cuts is filled again with that place kept, unless it then holds no template.
    """
    if not templates:
        return []
    by_key = {template.key: template for template in templates}
    items = [_Item(template.key, _ways(template, window)) for template in templates]
    plans: list[list[Layout]] = []
    for in_order in (
        sorted(items, key=lambda item: -item.area),
        sorted(items, key=lambda item: -item.longest),
        sorted(items, key=lambda item: -item.sizes[0][2]),
    ):
        plans.append(_filled_pages(in_order, by_key, window, square, holds_square))
    order = {template.key: k for k, template in enumerate(templates)}
    best = min(plans, key=len)
    return sorted(best, key=lambda layout: min(order[one.template.key] for one in layout.placed))


def _ways(template: Template, window: Window) -> tuple[tuple[float, float, float], ...]:
    sizes = [(turn, *turned_size(template, turn)) for turn in (0.0, 90.0)]
    return tuple(way for way in sizes if way[1] <= window.width + 1e-9 and way[2] <= window.height + 1e-9)


def _filled_pages(
    items: list[_Item],
    by_key: dict[str, Template],
    window: Window,
    square: float,
    holds_square: Callable[[tuple[Placed, ...]], bool],
) -> list[Layout]:
    left = items
    pages: list[Layout] = []
    kept = _Item("", ((0.0, square, square),))
    while left:
        page = _one_page(left, window)
        placed = _templates_on(page, by_key)
        if not holds_square(placed):
            for order in (sorted([*left, kept], key=lambda item: -item.area), [kept, *left]):
                again = _one_page(order, window)
                if "" in again and len(again) > 1:
                    page, placed = again, _templates_on(again, by_key)
                    break
        pages.append(Layout(placed, ((0, 0),)))
        left = [item for item in left if item.key not in page]
    return pages


def _templates_on(page: dict[str, tuple[float, float, float]], by_key: dict[str, Template]) -> tuple[Placed, ...]:
    return tuple(place(by_key[key], turn, x, y) for key, (turn, x, y) in page.items() if key)


def _one_page(items: list[_Item], window: Window) -> dict[str, tuple[float, float, float]]:
    """What goes on one page, taken in order: turn and head-left corner of each by key."""
    first = items[0].sizes[0]
    across, down = min(GAP, (window.width - first[1]) / 2), min(GAP, (window.height - first[2]) / 2)
    # every item is taken GAP wider and higher than it is, and so is the room
    free: list[Rectangle] = [(across, down, window.width - across + GAP, window.height - down + GAP)]
    page: dict[str, tuple[float, float, float]] = {}
    for item in items:
        places = [
            (head, left, turn, left + width + GAP, head + height + GAP)
            for turn, width, height in item.sizes
            for left, head, right, tail in free
            if left + width + GAP <= right + 1e-9 and head + height + GAP <= tail + 1e-9
        ]
        if places:
            head, left, turn, right, tail = min(places)
            page[item.key] = (turn, left, head)
            free = _without(free, (left, head, right, tail))
    return page


def _without(free: list[Rectangle], taken: Rectangle) -> list[Rectangle]:
    """The largest empty rectangles once `taken` is filled."""
    left, head, right, tail = taken
    parts: list[Rectangle] = []
    for one in free:
        if one[0] >= right or one[2] <= left or one[1] >= tail or one[3] <= head:
            parts.append(one)
            continue
        around = (
            (one[0], one[1], left, one[3]),
            (right, one[1], one[2], one[3]),
            (one[0], one[1], one[2], head),
            (one[0], tail, one[2], one[3]),
        )
        parts.extend(part for part in around if part[2] - part[0] > GAP and part[3] - part[1] > GAP)
    return [part for part in set(parts) if not any(other != part and _holds(other, part) for other in parts)]


def _holds(outer: Rectangle, inner: Rectangle) -> bool:
    return outer[0] <= inner[0] and outer[1] <= inner[1] and outer[2] >= inner[2] and outer[3] >= inner[3]
