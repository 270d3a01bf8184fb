"""What the finished thing is, and the findings its author accepts, as written."""

from creasewright.problems import Where
from creasewright.reading.design import FaceWish, Finished, Known, Text
from creasewright.reading.fields import Fields, fields_of
from creasewright.reading.nodes import Node

IN = " in "


def read_finished(top: Fields) -> Finished:
    node = top.node("finished")
    if node is None:
        return Finished(top.where, None, None, (), ())
    fields = fields_of(node, "`finished`", top.faults, top.place("finished"))
    finished = Finished(
        where=fields.where,
        is_=fields.text("is"),
        front=fields.text("front"),
        upright=tuple(_wish(text) for text in fields.texts("upright")),
        expect=fields.texts("expect"),
    )
    fields.finish()
    return finished


def read_known(top: Fields) -> tuple[Known, ...]:
    return tuple(_known(node, top) for node in top.items("known"))


def _wish(text: Text) -> FaceWish:
    """`panel of part in stage`, parted at the last `in`."""
    panel, found, stage = text.text.rpartition(IN)
    if not found:
        return FaceWish(text, None)
    column = text.where.column + len(panel) + len(IN)
    return FaceWish(Text(panel, text.where), Text(stage, Where(text.where.file, text.where.line, column)))


def _known(node: Node, top: Fields) -> Known:
    fields = fields_of(node, "an entry of `known`", top.faults, node.where)
    check = fields.need_text("check", "the check's name, as the report gives it")
    known = Known(check.text, node.where, fields.text("about"), fields.need_text("because", "your reason"))
    fields.finish()
    return known
