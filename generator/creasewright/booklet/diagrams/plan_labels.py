"""Tags, names and lenses of a plan picture, set where there is room. mm on the page, the scene's origin."""

from collections.abc import Container, Sequence

from creasewright.booklet.diagrams.boxes import Box, box_of
from creasewright.booklet.diagrams.label_places import (
    BESIDE,
    Setting,
    edge_name,
    inside,
    leader_to,
    led_label,
    part_name,
    widest,
    wished_edge_name,
    wished_part_name,
)
from creasewright.booklet.diagrams.lens import Content, lens_drawing, lens_items, lens_views, link, place_lens, small_radius
from creasewright.booklet.diagrams.paper_fill import Visible
from creasewright.booklet.diagrams.picture_style import PictureStyle
from creasewright.booklet.diagrams.piece_tag import piece_tag, tag_side, tag_width
from creasewright.booklet.diagrams.plan_work import Work
from creasewright.booklet.diagrams.room import Room
from creasewright.booklet.diagrams.scene import Dimension, Named, Polygon2, Spot
from creasewright.booklet.drawing import Item
from creasewright.booklet.text_ruler import TextRuler
from creasewright.geometry.clip import total_area

TAG_HEIGHT = 0.34
"""A tag stands by choice in the middle of its facet, this far down it."""
LINE = 1.0
"""mm on the page: a layer that shows no wider reads as a line."""
AS_MUCH = 0.5
"""The share of what is seen of the piece that shows most, from which on another shows about as much."""
SAME_FACET = 0.05
"""mm on the page: a name's polygon within this of a facet's means that facet."""


def tag_items(
    work: Work, told: Container[str], told_only: bool, body: Box, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """One tag for each piece, on what shows of it, the largest facet first; beside the work with a leader if none has room.

    Of a piece that shows as a line only nothing is to be pointed at: it is tagged where its letter is `told`, and else not. `told_only`:
    of the others those that show most, and nothing that shows as a line, for there one looks at the whole.
    """
    items: list[Item] = []
    side = tag_side(style)
    pieces = dict.fromkeys((facet.source.letter, facet.source.part) for facet in work.facets if facet.source.letter)
    most = _showing_most(work) if told_only else ()
    for letter, part in pieces:
        if told_only and letter not in told and letter not in most:
            continue
        mine = [each for each in work.visible if each.facet.source.part == part and each.rings]
        wide = tag_width(letter, ruler, style)
        regions = sorted((each.rings for each in mine), key=lambda rings: -_box_area(rings))
        for rings in regions:
            box = inside(rings, wide, side, _tag_wish(rings), room)
            if box:
                room.take_box(box)
                items += piece_tag(letter, box.middle, ruler, style)
                break
        else:
            if regions and ((letter in told and not told_only) or max(map(widest, regions)) >= LINE):
                items += _led_tag(letter, [ring for rings in regions for ring in rings], body, room, ruler, style)
    return items


def _box_area(rings: Sequence[Polygon2]) -> float:
    box = box_of(spot for ring in rings for spot in ring)
    return box.width * box.height


def _ring_box_area(ring: Sequence[Spot]) -> float:
    return _box_area((tuple(ring),))


def _showing_most(work: Work) -> list[str]:
    """The letter of the piece of which most is seen, and those of which about as much is."""
    seen: dict[str, float] = {}
    for each in work.visible:
        source = each.facet.source
        if source.letter:
            seen[source.letter] = seen.get(source.letter, 0.0) + abs(total_area(each.rings))
    return [letter for letter, size in seen.items() if size >= AS_MUCH * max(seen.values())]


def _tag_wish(rings: Sequence[Polygon2]) -> Spot:
    largest = max(rings, key=_ring_box_area)
    box = box_of(largest)
    return box.middle[0], box.y0 + TAG_HEIGHT * box.height


def _led_tag(letter: str, rings: Sequence[Polygon2], body: Box, room: Room, ruler: TextRuler, style: PictureStyle) -> list[Item]:
    side, wide = tag_side(style), tag_width(letter, ruler, style)
    led = led_label([Setting(((letter, wide),), wide, side)], rings, body, room)
    items = leader_to(led, room, style)
    room.take_box(led.box)
    return [*items, *piece_tag(letter, led.box.middle, ruler, style)]


def name_items(
    names: Sequence[Named], work: Work, body: Box, scale: float, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """Names of edges first, as they have fewer places to go; those that may be left out are not set here."""
    items: list[Item] = []
    for name in sorted((one for one in names if not one.wish), key=lambda named: named.edge == ""):
        polygon = tuple((x * scale, y * scale) for x, y in name.polygon)
        if name.edge:
            items += edge_name(name.text, name.edge, box_of(polygon), room, ruler, style)
        else:
            items += part_name(name.text, polygon, _showing(name, polygon, work, scale), body, room, ruler, style)
    return items


def wished_items(
    names: Sequence[Named], work: Work, body: Box, scale: float, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """The names that may be left out, where there is room for them: those of parts first, as they tell more."""
    items: list[Item] = []
    for name in sorted((one for one in names if one.wish), key=lambda named: named.edge != ""):
        polygon = tuple((x * scale, y * scale) for x, y in name.polygon)
        if name.edge:
            items += wished_edge_name(name.text, name.edge, box_of(polygon), room, ruler, style)
        else:
            items += wished_part_name(name.text, _showing(name, polygon, work, scale), body, room, ruler, style)
    return items


def _showing(name: Named, polygon: Polygon2, work: Work, scale: float) -> Sequence[Polygon2]:
    """What shows of the facet that a name means; of an outline that is no facet's, the outline; nothing if it is hidden."""
    if name.panel is not None:
        return next((each.rings for each in work.visible if (each.facet.source.part, each.facet.source.panel) == name.panel), ())
    box = box_of(polygon)

    def is_meant(each: Visible) -> bool:
        lies = box_of(each.facet.source.polygon)
        return max(abs(a - b * scale) for a, b in zip(box, lies, strict=True)) < SAME_FACET

    meant = [each.rings for each in work.visible if is_meant(each)]
    return max(meant, key=lambda rings: sum(map(_ring_box_area, rings)), default=(polygon,))


def lens_group(
    dimensions: Sequence[Dimension], content: Content, body: Box, scale: float, room: Room, ruler: TextRuler, style: PictureStyle
) -> list[Item]:
    """All lenses of the picture."""
    items: list[Item] = []
    for view in lens_views(dimensions, scale):
        drawing = lens_drawing(view, content, ruler, style)
        at = view.middle[0] * scale, view.middle[1] * scale
        small = small_radius(view, scale)
        middle = place_lens(drawing, at, small, body.grown(BESIDE - 1.0), room)
        if middle is None:
            room.crowded += 1
            middle = body.x1 + 30.0, at[1]
        items += lens_items(drawing, at, small, middle, style)
        room.take_line(link(at, small, middle))
        room.take_box(Box(at[0] - small, at[1] - small, at[0] + small, at[1] + small))
        for box in drawing.boxes:
            room.take_box(box.moved(*middle))
    return items
