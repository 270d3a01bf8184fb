"""`same as` of an assembly: the model's parts, steps and stages with some names replaced."""

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from creasewright.problems import Where
from creasewright.reading.design import Assembly, PartWritten, Step, Text
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, meant, one_text

MOST_COPIED = 20_000
"""Texts that all copies of a file may come to; each copy counts COPY_COST more. So a small file cannot fill the memory."""
COPY_COST = 50

Rename = Callable[[str], str]


class Copier:
    """Fills the assemblies that are `same as` another."""

    def __init__(self, written: Mapping[str, Assembly], known: frozenset[str]) -> None:
        """`written`: the assemblies that may be copied; `known`: every name that may stand in their texts."""
        self._written = written
        self._known = known
        self._left = MOST_COPIED

    def copy(self, empty: Assembly, model: Text, fields: Fields) -> Assembly:
        """`empty` with what its model holds; `fields` are those of the copy."""
        names = self._replaced(fields)
        for key in ("parts", "steps", "stages"):
            if fields.has(key):
                fields.faults.note(fields.place(key), f"{fields.of} has `same as` and `{key}`", "keep one of the two")
        fields.finish()
        found = self._written.get(model.text)
        if found is None:
            hint = meant(model.text, self._written, "give it steps of its own")
            fields.faults.note(model.where, f"{shown(model.text)} is not an assembly with steps of its own", hint)
            return empty
        self._left -= COPY_COST + sum(1 for _ in _texts_in((found.parts, found.steps, found.stages)))
        if self._left < 0:
            raise fields.faults.stop(model.where, "the copies come to more than can be read", "leave out some `same as`")
        rename = _renamer(names, self._known)
        steps = tuple(_step(step, rename) for step in found.steps)
        return Assembly(empty.name, empty.where, _renamed(found.parts, rename), steps, _renamed(found.stages, rename))

    def _replaced(self, fields: Fields) -> dict[str, str]:
        names = {}
        mapping = fields.mapping("where")
        for key, node in mapping.entries if mapping else ():
            new = one_text(node, key.text, fields.faults)
            for name, where in ((key.text, key.where), (new.text, new.where)) if new else ():
                if name not in self._known:
                    fields.faults.note(
                        where, f"{shown(name)} is not a name of this design", meant(name, self._known, "write a blank's name")
                    )
            if new:
                names[key.text] = new.text
        return names


def _renamer(names: Mapping[str, str], known: frozenset[str]) -> Rename:
    """Replaces whole names, the longest known name first, so that `tray` does not change `tray box`."""
    if not names:
        return lambda text: text
    in_the_way = {name for name in known if any(old in name for old in names)}
    longest_first = sorted(in_the_way | set(names), key=len, reverse=True)
    pattern = re.compile(r"(?<![\w-])(?:" + "|".join(map(re.escape, longest_first)) + r")(?![\w-])")
    return lambda text: pattern.sub(lambda match: names.get(match.group(), match.group()), text)


def _step(step: Step, rename: Rename) -> Step:
    """The action alone is renamed; what the maker is told stays as written."""
    return replace(step, action=_renamed(step.action, rename))


def _renamed(value: Any, rename: Rename) -> Any:
    """`value` with every Text renamed, and every part that is named after its blank."""
    if isinstance(value, Text):
        return Text(rename(value.text), value.where)
    if isinstance(value, tuple):
        return tuple(_renamed(item, rename) for item in value)
    if isinstance(value, PartWritten) and value.name == value.is_.text:
        return replace(value, name=rename(value.name), is_=_renamed(value.is_, rename))
    if isinstance(value, Struct) and not isinstance(value, Where):
        return replace(value, **{name: _renamed(getattr(value, name), rename) for name in value.__struct_fields__})
    return value


def _texts_in(value: Any) -> Iterator[Text]:
    if isinstance(value, Text):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts_in(item)
    elif isinstance(value, Struct) and not isinstance(value, Where):
        for name in value.__struct_fields__:
            yield from _texts_in(getattr(value, name))
