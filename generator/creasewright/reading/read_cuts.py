"""Changes to a blank's shape as written: corners, edges, notches, holes, slits, crossings cut away."""

from creasewright.reading.design import Corner, EdgeChange, HoleWritten, Notch, Place, SlitWritten, Text
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of, meant, some_texts
from creasewright.reading.names import CORNERS, check_name
from creasewright.reading.nodes import Node, Scalar
from creasewright.reading.places import read_line, read_place


def read_corners(blank: Fields) -> tuple[Corner, ...]:
    mapping = blank.mapping("corners")
    return tuple(_corner(which, node, blank) for which, node in (mapping.entries if mapping else ()))


def read_edges(blank: Fields) -> tuple[EdgeChange, ...]:
    mapping = blank.mapping("edges")
    return tuple(_edge(which, node, blank) for which, node in (mapping.entries if mapping else ()))


def read_notches(blank: Fields) -> tuple[Notch, ...]:
    return tuple(_notch(node, blank) for node in blank.items("notches"))


def read_holes(blank: Fields) -> tuple[HoleWritten, ...]:
    return tuple(_hole(name, node, blank) for name, node in blank.named("holes", "hole"))


def read_slits(blank: Fields) -> tuple[SlitWritten, ...]:
    return tuple(_slit(name, node, blank) for name, node in blank.named("slits", "slit"))


def read_cut_away(blank: Fields) -> tuple[tuple[Text, ...], ...]:
    """Pairs of scores, or `all crossings` alone."""
    pairs = []
    for node in blank.items("cut away"):
        pair = some_texts(node, "cut away", blank.faults)
        if isinstance(node, Scalar) and node.text == "all crossings":
            return (pair,)
        if len(pair) != 2:
            blank.faults.note(node.where, f"`cut away` of {blank.of} needs two scores", "write [[A, B]], or `all crossings`")
        pairs.append(pair)
    return tuple(pairs)


def read_template(fields: Fields) -> str | None:
    text = fields.text("template")
    return check_name(Scalar(text.text, text.where, True), "template", fields.faults) if text else None


def _corner(which: Scalar, node: Node, blank: Fields) -> Corner:
    if which.text not in (*CORNERS, "all"):
        blank.faults.note(which.where, f"{shown(which.text)} is not a corner", meant(which.text, (*CORNERS, "all"), ""))
    fields = fields_of(node, f"corner {shown(which.text)}", blank.faults, which.where)
    cut, rounded = fields.texts("cut"), fields.text("round")
    if fields.has("cut") == fields.has("round") and not fields.unread:
        blank.faults.note(
            which.where,
            f"{fields.of} of {blank.of} needs either `cut` or `round`",
            "write {cut: [along head, along side]} or {round: 6 mm}",
        )
    if len(cut) > 2:
        blank.faults.note(
            fields.place("cut"), f"`cut` of {fields.of} has {len(cut)} values", "write [along head or tail, along side]"
        )
    corner = Corner(which.text, which.where, cut or None, rounded, read_template(fields))
    fields.finish()
    return corner


def _edge(which: Scalar, node: Node, blank: Fields) -> EdgeChange:
    fields = fields_of(node, f"edge {shown(which.text)}", blank.faults, which.where)
    change = EdgeChange(which.text, which.where, fields.need_text("rise"), read_template(fields))
    fields.finish()
    return change


def _notch(node: Node, blank: Fields) -> Notch:
    fields = fields_of(node, f"a notch of {blank.of}", blank.faults, node.where)
    notch = Notch(
        node.where, _at(fields), fields.need_text("width"), fields.need_text("depth"), fields.yes("round"), read_template(fields)
    )
    fields.finish()
    return notch


def _hole(name: Scalar, node: Node, blank: Fields) -> HoleWritten:
    fields = fields_of(node, f"hole {shown(name.text)}", blank.faults, name.where)
    hole = HoleWritten(name.text, name.where, _at(fields), fields.need_text("across", "3 mm"))
    fields.finish()
    return hole


def _at(fields: Fields) -> Place:
    node = fields.node("at")
    if node is None:
        fields.missing("at", "[x, y]")
        return Place(fields.where, None, None)
    return read_place(node, "at", fields.faults)


def _slit(name: Scalar, node: Node, blank: Fields) -> SlitWritten:
    fields = fields_of(node, f"slit {shown(name.text)}", blank.faults, name.where)
    slit = SlitWritten(
        name.text, name.where, read_line(fields.node("line"), "line", blank.faults), fields.texts("on"), fields.texts("over")
    )
    if fields.has("line") == fields.has("on") and not fields.unread:
        blank.faults.note(
            name.where,
            f"{fields.of} needs either a `line` or a score that it is `on`",
            "write {line: [p, q]} or {on: A/B, over: [bands]}",
        )
    fields.finish()
    return slit
