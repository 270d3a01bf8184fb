"""Nodes put together as the parser meets them, without recursion: depth is counted, not suffered.

This file does not know the parser; see `yaml_nodes.py`.
"""

from msgspec import Struct, field

from creasewright.problems import Where
from creasewright.reading.faults import Faults, shown
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence
from creasewright.reading.split_formulas import rejoin_entries, rejoin_items

MOST_NODES = 20_000
MOST_DEPTH = 40


class _Open(Struct):
    """A list or mapping whose end is still to come."""

    where: Where
    is_mapping: bool
    in_brackets: bool
    """Written with {…} or […]."""
    items: list[Node] = field(default_factory=list)
    entries: list[tuple[Scalar, Node]] = field(default_factory=list)
    key: Scalar | None = None


class NodeBuilder:
    def __init__(self, faults: Faults) -> None:
        self.root: Node | None = None
        self._faults = faults
        self._open: list[_Open] = []
        self._count = 0

    def scalar(self, scalar: Scalar) -> None:
        self._count_one(scalar.where)
        self._put(scalar)

    def begin(self, where: Where, is_mapping: bool, in_brackets: bool) -> None:
        self._count_one(where)
        parent = self._open[-1] if self._open else None
        if parent is not None and parent.is_mapping and parent.key is None:
            raise self._faults.stop(where, "a list or mapping stands where a key was expected", "write a name, then a colon")
        if len(self._open) >= MOST_DEPTH:
            raise self._faults.stop(where, f"this is nested more than {MOST_DEPTH} deep", "write it flatter")
        self._open.append(_Open(where, is_mapping, in_brackets))

    def end(self) -> None:
        done = self._open.pop()
        if done.is_mapping:
            self._put(self._mapping(done))
        else:
            items = rejoin_items(done.items, self._faults) if done.in_brackets else done.items
            self._put(Sequence(tuple(items), done.where))

    def _count_one(self, where: Where) -> None:
        self._count += 1
        if self._count > MOST_NODES:
            raise self._faults.stop(where, f"the file holds more than {MOST_NODES:,} values", "take out what is not part of it")

    def _put(self, node: Node) -> None:
        if not self._open:
            self.root = node
            return
        parent = self._open[-1]
        if not parent.is_mapping:
            parent.items.append(node)
        elif parent.key is None:
            assert isinstance(node, Scalar)
            parent.key = node
        else:
            parent.entries.append((parent.key, node))
            parent.key = None

    def _mapping(self, done: _Open) -> Mapping:
        entries = done.entries
        if done.in_brackets:
            entries = [entry for entry in rejoin_entries(entries, self._faults) if self._has_value(*entry)]
        first: dict[str, Scalar] = {}
        kept = []
        for key, value in entries:
            if key.text in first:
                self._twice(key, first[key.text])
            elif self._is_key(key):
                first[key.text] = key
                kept.append((key, value))
        return Mapping(tuple(kept), done.where)

    def _has_value(self, key: Scalar, value: Node) -> bool:
        """Within {…} a word alone is a key without value, most often the rest of a text that a comma has cut."""
        has = not isinstance(value, Scalar) or bool(value.text) or value.quoted
        if not has:
            self._faults.note(
                key.where,
                f"{shown(key.text)} has no value",
                "add a colon and a value; if it belongs to the words before the comma, put them all in quotes",
            )
        return has

    def _twice(self, key: Scalar, earlier: Scalar) -> None:
        self._faults.note(
            key.where, f"{shown(key.text)} is written twice; first in line {earlier.where.line}", "keep one of the two"
        )

    def _is_key(self, key: Scalar) -> bool:
        if not key.text:
            self._faults.note(key.where, "a colon has no name before it", "write the name")
        elif key.text == "<<" and not key.quoted:
            self._faults.note(key.where, "`<<` is not read", "write the values again here")
        else:
            return True
        return False
