"""Take a field from a mapping as a type, or note a problem.

A field that is missing or has the wrong shape yields a stand-in. No one sees it: a problem was noted, so reading ends in
ProblemsFound.
"""

from collections.abc import Iterable, Iterator

from creasewright.nearest_name import did_you_mean
from creasewright.problems import Where
from creasewright.reading.design import Text
from creasewright.reading.faults import Faults, any_of, shown
from creasewright.reading.names import check_name
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence

MOST_COMPARED = 30_000
"""Letters of a name times letters of all known names. For more no nearest one is sought: a stranger's file shall be quick."""


class Fields:
    """One mapping, taken key by key; `finish` names what was left over."""

    def __init__(self, mapping: Mapping, of: str, faults: Faults, where: Where | None = None, unread: bool = False) -> None:
        self.of = of
        """What the mapping describes, for messages: blank `lid`."""
        self.unread = unread
        """There was no mapping; that has been told, so no key is called missing."""
        self.where = where or mapping.where
        self.faults = faults
        self._left = {key.text: (key, node) for key, node in mapping.entries}
        self._places = {key.text: key.where for key, _ in mapping.entries}
        self._known: list[str] = []

    def has(self, key: str) -> bool:
        return key in self._places

    def place(self, key: str) -> Where:
        """Where the key stands; the mapping's own place if it has no such key."""
        return self._places.get(key, self.where)

    def node(self, key: str) -> Node | None:
        """The value of `key`, which counts as known from now on."""
        self._known.append(key)
        _, node = self._left.pop(key, (None, None))
        return node

    def missing(self, key: str, example: str = "…") -> None:
        if not self.unread:
            self.faults.note(self.where, f"{self.of} has no `{key}`", f"add `{key}: {example}`")

    def text(self, key: str) -> Text | None:
        node = self.node(key)
        return None if node is None else one_text(node, key, self.faults)

    def need_text(self, key: str, example: str = "…") -> Text:
        text = self.text(key)
        if text is None and not self.has(key):
            self.missing(key, example)
        return text or Text("", self.where)

    def texts(self, key: str) -> tuple[Text, ...]:
        """One value or a list of values; nothing if the key is absent."""
        node = self.node(key)
        return () if node is None else some_texts(node, key, self.faults)

    def need_texts(self, key: str, example: str = "…") -> tuple[Text, ...]:
        texts = self.texts(key)
        if not self.has(key):
            self.missing(key, example)
        return texts

    def word(self, key: str, words: tuple[str, ...], default: str) -> str:
        return self.word_or_none(key, words) or default

    def word_or_none(self, key: str, words: tuple[str, ...]) -> str | None:
        text = self.text(key)
        if text is None:
            return None
        if text.text not in words:
            self.faults.note(text.where, f"{shown(text.text)} for `{key}` is not {any_of(words)}", meant(text.text, words))
            return None
        return text.text

    def yes(self, key: str) -> bool:
        return self.word(key, ("yes", "no"), "no") == "yes"

    def whole(self, key: str) -> Text | None:
        """A whole number, as text."""
        text = self.text(key)
        if text is not None and not (text.text.isascii() and text.text.isdigit() and len(text.text) < 10):
            self.faults.note(
                text.where,
                f"{shown(text.text)} for `{key}` is not a whole number",
                f"write it with digits only, as in `{key}: 24`",
            )
            return None
        return text

    def mapping(self, key: str) -> Mapping | None:
        node = self.node(key)
        return None if node is None else as_mapping(node, f"`{key}`", self.faults)

    def named(self, key: str, noun: str) -> Iterator[tuple[Scalar, Node]]:
        """The entries of a mapping of names."""
        mapping = self.mapping(key)
        for name, node in mapping.entries if mapping else ():
            check_name(name, noun, self.faults)
            yield name, node

    def items(self, key: str) -> tuple[Node, ...]:
        """The entries of a list; one that is not in a list counts as a list of one."""
        node = self.node(key)
        if node is None:
            return ()
        return node.items if isinstance(node, Sequence) else (node,)

    def later(self, key: str, hint: str) -> bool:
        """Refuse a key whose meaning is settled and not built yet; true if it was there."""
        if self.has(key):
            self.node(key)
            self.faults.note(self.place(key), f"`{key}` is not part of version 1 yet", hint)
            return True
        return False

    def drop_rest(self) -> None:
        """Look at no further key."""
        self._left.clear()

    def finish(self, elsewhere: dict[str, str] | None = None) -> None:
        """Name each key that nothing asked for. `elsewhere`: known keys that do not belong here, and where they do."""
        for name, (key, _) in self._left.items():
            if elsewhere and name in elsewhere:
                self.faults.note(key.where, f"{shown(name)} does not belong to {self.of}", elsewhere[name])
            else:
                self.faults.note(key.where, f"{shown(name)} is not a key of {self.of}", meant(name, self._known, "take it out"))


def meant(name: str, known: Iterable[str], otherwise: str = "") -> str:
    """A hint: the nearest known name or the few there are; `otherwise` where there are none, or too many to compare."""
    names = list(known)
    few = len(name) * sum(map(len, names)) <= MOST_COMPARED
    return (did_you_mean(name, names) if few else "") or otherwise


def text_of(scalar: Scalar) -> Text:
    return Text(scalar.text.rstrip("\n"), scalar.where)


def one_text(node: Node, key: str, faults: Faults) -> Text | None:
    if isinstance(node, Scalar):
        if node.text.strip():
            return text_of(node)
        faults.note(node.where, f"`{key}` has no value", "write it after the colon, or take the key out")
    else:
        what = "a list" if isinstance(node, Sequence) else "keys and values"
        faults.note(node.where, f"`{key}` holds {what} where one value was expected", f"write one value after `{key}:`")
    return None


def some_texts(node: Node, key: str, faults: Faults) -> tuple[Text, ...]:
    nodes = node.items if isinstance(node, Sequence) else (node,)
    if not nodes:
        faults.note(node.where, f"`{key}` holds an empty list", "write at least one value, or take the key out")
    texts = (one_text(one, key, faults) for one in nodes)
    return tuple(text for text in texts if text is not None)


def as_mapping(node: Node, what: str, faults: Faults) -> Mapping | None:
    if isinstance(node, Mapping):
        return node
    written = "a list" if isinstance(node, Sequence) else shown(node.text) if node.text else "nothing"
    faults.note(
        node.where,
        f"{what} holds {written} where keys and values were expected",
        "write `key: value` lines under it, or {key: value}",
    )
    return None


def fields_of(node: Node, of: str, faults: Faults, where: Where) -> Fields:
    """The fields of the thing `of`, whose name stands at `where`. If the node is no mapping: none, and none is called missing."""
    mapping = as_mapping(node, of, faults)
    return Fields(mapping or Mapping((), node.where), of, faults, where, unread=mapping is None)
