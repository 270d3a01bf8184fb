"""Numbers, colours and texts of a page layout, taken from fields; each fault noted, each value within its limits."""

import re

from creasewright.problems import Where
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, one_text
from creasewright.reading.nodes import Sequence
from creasewright.reading.page_layout import Template

_NUMBER = re.compile(r"[0-9]{1,5}(\.[0-9]{1,4})?")
_COLOUR = re.compile(r"#[0-9A-Fa-f]{6}")
LONGEST_TEXT = 20_000
"""Letters in one text template."""


def number(fields: Fields, key: str, least: float, most: float, unit: str, default: float | None = None) -> float:
    """A plain number of `unit` between `least` and `most`. Without a default the key has to be there."""
    if default is not None and not fields.has(key):
        fields.text(key)
        return default
    text = fields.need_text(key, f"{least:g}")
    if not text.text:
        return least
    return _checked(text.text, key, text.where, least, most, unit, fields.faults)


def whole(fields: Fields, key: str, least: int, most: int) -> int:
    value = number(fields, key, least, most, "")
    if value != int(value):
        fields.faults.note(fields.place(key), f"{value:g} for `{key}` is not a whole number", "write it with digits only")
    return int(value)


def numbers(fields: Fields, key: str, least: float, most: float, unit: str, count: int) -> tuple[float, ...]:
    """A list of at most `count` numbers; none if the key is absent."""
    node = fields.node(key)
    if node is None:
        return ()
    nodes = node.items if isinstance(node, Sequence) else (node,)
    if len(nodes) > count:
        fields.faults.note(node.where, f"`{key}` holds {len(nodes)} numbers", f"write {count} at most")
    texts = [one_text(one, key, fields.faults) for one in nodes[:count]]
    return tuple(_checked(text.text, key, text.where, least, most, unit, fields.faults) for text in texts if text)


def colour_value(text: str, name: str, where: Where, faults: Faults) -> str:
    if _COLOUR.fullmatch(text):
        return text.upper()
    faults.note(
        where, f"{shown(text)} for `{name}` is not a colour", 'write # and six digits 0-9 A-F, in quotes, as in "#1F262B"'
    )
    return "#000000"


def colour_name(fields: Fields, key: str, palette: dict[str, str], default: str = "INK") -> str:
    text = fields.text(key)
    if text is None:
        return default
    if text.text not in palette:
        what = f"{shown(text.text)} for `{key}` is not in the palette"
        fields.faults.note(text.where, what, "add it to `palette`, or name one that is there")
    return text.text


def template(fields: Fields, key: str) -> Template | None:
    text = fields.text(key)
    if text is None:
        return None
    if len(text.text) > LONGEST_TEXT:
        fields.faults.note(text.where, f"`{key}` holds {len(text.text):,} letters", f"write {LONGEST_TEXT:,} at most")
    return Template(text.text[:LONGEST_TEXT], text.where)


def _checked(text: str, key: str, where: Where, least: float, most: float, unit: str, faults: Faults) -> float:
    of_unit = f" {unit}" if unit else ""
    if not _NUMBER.fullmatch(text):
        what = f"{shown(text)} for `{key}` is not a plain number{' of ' + unit if unit else ''}"
        faults.note(where, what, f"write it as in `{key}: {least:g}`")
        return least
    value = float(text)
    if not least <= value <= most:
        faults.note(where, f"{text} for `{key}` is not between {least:g} and {most:g}{of_unit}", "write a number between these")
        return least
    return value
