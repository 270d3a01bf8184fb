"""A length of a tool or a sheet, in one system or in both; one alone holds for both."""

from fractions import Fraction

from creasewright.reading.design import Text
from creasewright.reading.faults import Faults
from creasewright.reading.fields import Fields
from creasewright.reading.settings import ToolLength
from creasewright.units.misread import Misread
from creasewright.units.read_length import read_length
from creasewright.units.spellings import LENGTH


def read_tool_length(fields: Fields, key: str, usual: ToolLength) -> ToolLength:
    """`12 in`, `305 mm`, or `12 in | 305 mm`, in either order. One alone holds for both systems."""
    text = fields.text(key)
    if text is None:
        return usual
    return tool_length(text, fields.faults, usual)


def tool_length(text: Text, faults: Faults, usual: ToolLength) -> ToolLength:
    parts = [part.strip() for part in text.text.split("|")]
    lengths = [_one_length(part, text, faults) for part in parts]
    metric = [_is_metric(part) for part in parts]
    if len(parts) > 2 or (len(parts) == 2 and metric[0] == metric[1]):
        faults.note(text.where, f"`{text.text}` is not one length in inches and one in mm", "write it as 12 in | 305 mm")
    if any(length <= 0 for length in lengths):
        return usual
    return ToolLength(
        lengths[metric.index(False)] if False in metric else lengths[0],
        lengths[metric.index(True)] if True in metric else lengths[0],
    )


def _is_metric(length: str) -> bool:
    found = LENGTH.fullmatch(length)
    return found is not None and found["inch"] is None


def _one_length(part: str, text: Text, faults: Faults) -> Fraction:
    """In mm; 0, with a problem noted, where it is none."""
    try:
        length = read_length(part).mm
    except Misread as misread:
        faults.note(text.where, misread.what, misread.hint)
        return Fraction(0)
    if length <= 0:
        faults.note(text.where, f"`{part}` is nothing", "write a length greater than nothing")
    return length
