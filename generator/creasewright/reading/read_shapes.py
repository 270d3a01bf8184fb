"""The shape of a blank as written: a sheet, bands, a base with flaps, an outline, or one derived from others."""

from collections.abc import Callable

from creasewright.problems import Where
from creasewright.reading.design import (
    Band,
    Flap,
    FlapsShape,
    LikeShape,
    MirrorShape,
    OutlinePoint,
    OutlineShape,
    Repeat,
    SameShape,
    Shape,
    SheetShape,
    Text,
    WrapShape,
)
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, fields_of, one_text
from creasewright.reading.names import check_name
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence
from creasewright.reading.places import read_line, read_place

DERIVED = ("mirror of", "same as", "like", "wrap")
GOES_WITH = {
    "width": "leave it out; the shape is given already",
    "height": "leave it out; the shape is given already",
    "across": "leave it out; the shape is given already",
    "down": "leave it out; the shape is given already",
    "flaps": "give the blank a `base` for them to grow from",
    "where": "use it with `same as`",
    "inset": "use it with `like`",
    "seen from": "use it with `like`",
    "turned": "use it with `like`",
    "gaps": "use it with `wrap`",
    "turn-in": "use it with `wrap`",
    "corner gap": "use it with `wrap`",
}
"""Keys of one shape, and what to do with one that stands beside another shape."""


def read_shape(fields: Fields) -> Shape:
    """The one shape that the blank's keys give."""
    shapes = [key for key in ("base", "outline", *DERIVED) if fields.has(key)]
    if len(shapes) > 1:
        fields.faults.note(
            fields.place(shapes[1]),
            f"{fields.of} has a shape from `{shapes[0]}` and one from `{shapes[1]}`",
            "keep one of the two",
        )
        for key in (*shapes[1:], *GOES_WITH):
            fields.node(key)
    return READERS[shapes[0]](fields) if shapes else _sheet(fields)


def _sheet(fields: Fields) -> SheetShape:
    shape = SheetShape(fields.text("width"), fields.text("height"), _bands(fields, "across"), _bands(fields, "down"))
    for size, bands in (("width", "across"), ("height", "down")):
        if fields.has(size) and fields.has(bands):
            fields.faults.note(
                fields.place(size),
                f"`{size}` and `{bands}` both say how large {fields.of} is",
                f"leave out `{size}`; the bands add up to it",
            )
        elif not fields.has(size) and not fields.has(bands) and not fields.unread:
            fields.faults.note(
                fields.where, f"{fields.of} has no {size}", f"add `{size}: …`, or bands with `{bands}: [name: size, …]`"
            )
    return shape


def _bands(fields: Fields, key: str) -> tuple[Band | Repeat, ...]:
    node = fields.node(key)
    if node is None:
        return ()
    bands = _list_of_bands(node, key, fields.faults)
    _name_twice(bands, fields.faults)
    return bands


def _list_of_bands(node: Node, key: str, faults: Faults) -> tuple[Band | Repeat, ...]:
    bands: list[Band | Repeat] = []
    if not isinstance(node, Sequence) or not node.items:
        faults.note(node.where, f"`{key}` is not a list of bands", f"write `{key}: [name: size, name: size]`")
        return ()
    for item in node.items:
        if not isinstance(item, Mapping):
            written = shown(item.text) if isinstance(item, Scalar) else "a list"
            faults.note(item.where, f"{written} in `{key}` is not a band", "write `name: size`")
        elif any(name.text == "repeat" for name, _ in item.entries):
            bands.append(_repeat(item, key, faults))
        else:
            bands.extend(_band(name, size, faults) for name, size in item.entries)
    return tuple(bands)


def _band(name: Scalar, size: Node, faults: Faults) -> Band:
    check_name(name, "band", faults)
    return Band(name.text, name.where, one_text(size, name.text, faults) or Text("", name.where))


def _repeat(item: Mapping, key: str, faults: Faults) -> Repeat:
    fields = Fields(item, f"the repeat in `{key}`", faults)
    times = fields.need_text("repeat")
    of = fields.node("of")
    if of is None:
        fields.missing("of", "[name: size]")
    bands = _list_of_bands(of, "of", faults) if of else ()
    fields.finish()
    for inner in bands:
        if isinstance(inner, Repeat):
            faults.note(inner.where, "a repeat stands within a repeat", "write the inner bands one by one")
    return Repeat(item.where, times, tuple(band for band in bands if isinstance(band, Band)))


def _name_twice(bands: tuple[Band | Repeat, ...], faults: Faults) -> None:
    seen: dict[str, Where] = {}
    for item in bands:
        for band in item.bands if isinstance(item, Repeat) else (item,):
            if band.name in seen:
                faults.note(
                    band.where,
                    f"a second band is named {shown(band.name)}; the first stands in line {seen[band.name].line}",
                    "rename one of the two",
                )
            seen.setdefault(band.name, band.where)


def _flaps(fields: Fields) -> FlapsShape:
    node = fields.node("base") or Mapping((), fields.where)
    base = fields_of(node, f"the base of {fields.of}", fields.faults, fields.place("base"))
    name = base.text("name")
    if name:
        check_name(Scalar(name.text, name.where, True), "panel", fields.faults)
    regular = base.has("sides") or base.has("side")
    shape = FlapsShape(
        base=name.text if name else "base",
        width=None if regular else base.need_text("width"),
        height=None if regular else base.need_text("height"),
        sides=base.need_text("sides", "6") if regular else None,
        side=base.need_text("side") if regular else None,
        flaps=tuple(_flap(flap, node, fields.faults) for flap, node in fields.named("flaps", "flap")),
    )
    base.finish({"width": "leave it out, or leave out `sides`", "height": "leave it out, or leave out `sides`"})
    return shape


def _flap(name: Scalar, node: Node, faults: Faults) -> Flap:
    fields = fields_of(node, f"flap {shown(name.text)}", faults, name.where)
    at = fields.need_texts("at", "tail of base")
    depth = fields.need_text("depth")
    ends = fields.text("ends")
    over = fields.texts("over")
    if fields.has("over") and len(over) != 2:
        faults.note(fields.place("over"), f"`over` of {fields.of} needs two places along the edge", "write `over: [from, to]`")
    rises = fields.text("far rise"), fields.text("seam rise")
    fields.finish()
    return Flap(name.text, name.where, at, depth, ends, (over[0], over[1]) if len(over) == 2 else None, *rises)


def _outline(fields: Fields) -> OutlineShape:
    points = tuple(_outline_point(node, fields) for node in fields.items("outline"))
    if len(points) < 3:
        fields.faults.note(
            fields.place("outline"),
            f"the outline of {fields.of} has fewer than three points",
            "list its points clockwise, each [x, y]",
        )
    return OutlineShape(points)


def _outline_point(node: Node, blank: Fields) -> OutlinePoint:
    if not isinstance(node, Mapping):
        return OutlinePoint(read_place(node, "outline", blank.faults), None, None)
    fields = Fields(node, f"the outline of {blank.of}", blank.faults)
    to = fields.node("to")
    if to is None:
        fields.missing("to", "[x, y]")
    by = read_line(fields.node("by"), "by", blank.faults)
    edge, rise = fields.text("edge"), fields.text("rise")
    if by is not None and rise is not None:
        blank.faults.note(rise.where, "`rise` and `by` stand at one point of an outline", "keep `rise` for an arc, `by` for a curve")
    point = OutlinePoint(read_place(to or Scalar("-", node.where, True), "to", blank.faults), rise, edge, by)
    if edge:
        check_name(Scalar(edge.text, edge.where, True), "edge", blank.faults)
    fields.finish()
    return point


def _mirror(fields: Fields) -> MirrorShape:
    return MirrorShape(fields.need_text("mirror of"))


def _same(fields: Fields) -> SameShape:
    of = fields.need_text("same as")
    replaced = []
    mapping = fields.mapping("where")
    for name, node in mapping.entries if mapping else ():
        formula = one_text(node, name.text, fields.faults)
        if formula:
            replaced.append((Text(name.text, name.where), formula))
    return SameShape(of, tuple(replaced))


def _like(fields: Fields) -> LikeShape:
    return LikeShape(
        fields.need_texts("like"),
        fields.text("inset"),
        fields.word("seen from", ("front", "back"), "front"),
        fields.text("turned"),
    )


def _wrap(fields: Fields) -> WrapShape:
    boards = fields.need_texts("wrap")
    shape = WrapShape(boards, fields.text("gaps"), fields.need_text("turn-in", "5/8 in | 15 mm"), fields.text("corner gap"))
    if len(boards) > 1 and shape.gaps is None and not fields.has("gaps"):
        fields.faults.note(
            fields.place("wrap"), f"{fields.of} goes round {len(boards)} boards, but does not say how far apart they lie",
            "add `gaps: 1/4 in | 7 mm`",
        )  # fmt: skip
    return shape


READERS: dict[str, Callable[[Fields], Shape]] = {
    "base": _flaps,
    "outline": _outline,
    "mirror of": _mirror,
    "same as": _same,
    "like": _like,
    "wrap": _wrap,
}
