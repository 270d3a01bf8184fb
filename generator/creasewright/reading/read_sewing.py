"""Sewing as written: the parts, the line, its holes and the way of the thread."""

from creasewright.reading.design import Sew
from creasewright.reading.fields import Fields


def read_sew(verb: str, fields: Fields) -> Sew:
    return Sew(
        parts=fields.need_texts(verb),
        along=fields.need_text("along", "verso/recto"),
        stations=fields.need_texts("stations", "3"),
        margin=fields.text("margin"),
        order=fields.texts("order"),
        from_=fields.word("from", ("inside", "outside"), "inside"),
        with_=fields.need_text("with", "thread"),
        ends=fields.text("ends"),
    )
