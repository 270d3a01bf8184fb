"""The objects of a PDF file, as far as pages and what is drawn on them ask (ISO 32000-1, 7.3 and 7.5): files of our own making.

A file says by tables where each object starts; objects are read when asked for. Names become text with their slash, arrays
lists, dictionaries dicts, references `Reference`, numbers floats, strings bytes. Compressed object tables are not read: the
writer makes none.
"""

import re
import zlib
from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from creasewright.problems import CreasewrightError

_TOKEN = re.compile(
    rb"[\x00\t\n\x0c\r ]+|%[^\r\n]*"
    rb"|(?P<string>\((?:[^()\\]|\\.|\((?:[^()\\]|\\.)*\))*\)|<(?!<)[^>]*>)"
    rb"|(?P<name>/[^\x00\t\n\x0c\r \[\]<>(){}/%]*)"
    rb"|(?P<number>[+-]?(?:\d+\.?\d*|\.\d+))(?![^\x00\t\n\x0c\r \[\]<>(){}/%])"
    rb"|(?P<mark><<|>>|\[|\]|\{|\})"
    rb"|(?P<word>[^\x00\t\n\x0c\r \[\]<>(){}/%]+)",
    re.DOTALL,
)


class UnreadableFile(CreasewrightError):
    """The file is not laid out as our own writer lays it out."""


class Reference(Struct, frozen=True):
    number: int


class Word(Struct, frozen=True):
    """An operator or a keyword."""

    text: bytes


Value = Any
"""float, str (a name), bytes, list, dict, Reference, Word."""


def values(data: bytes, start: int = 0) -> Iterator[Value]:
    """Every value and word from `start` on; references stay three values (number, number, `R`)."""
    stack: list[list[Value]] = []
    kinds: list[bytes] = []
    for found in _TOKEN.finditer(data, start):
        kind, text = found.lastgroup, found.group()
        if kind is None:
            continue
        if kind == "mark":
            if text in (b"[", b"<<", b"{"):
                stack.append([])
                kinds.append(text)
                continue
            if not stack:
                raise UnreadableFile(f"a closing {text!r} closes nothing at byte {found.start()}")
            parts = _with_references(stack.pop())
            value: Value = dict(zip(parts[::2], parts[1::2], strict=True)) if kinds.pop() == b"<<" else parts
        elif kind == "number":
            value = float(text)
        elif kind == "name":
            value = text.decode("latin-1")
        elif kind == "string":
            value = text
        else:
            value = Word(text)
        if stack:
            stack[-1].append(value)
        else:
            yield value


def _with_references(parts: list[Value]) -> list[Value]:
    out: list[Value] = []
    for part in parts:
        if part == Word(b"R"):
            out[-2:] = [Reference(int(out[-2]))]
        else:
            out.append(part)
    return out


class PdfFile:
    """Read from the bytes of a whole file."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        self._starts: dict[int, int] = {}
        self._known: dict[int, Value] = {}
        self.trailer: dict[str, Value] = {}
        found = re.search(rb"startxref\s+(\d+)\s+%%EOF\s*$", data)
        if not found:
            raise UnreadableFile("the file does not end as a PDF ends")
        self._read_table(int(found.group(1)))

    def _read_table(self, start: int) -> None:
        """A cross-reference table and those before it; the newest entry of an object counts."""
        lines = re.compile(rb"(\d+) (\d+) ?[\r\n]+")
        if not self._data.startswith(b"xref", start):
            raise UnreadableFile("the table of objects is not where the file says")
        at = start + 4
        while self._data[at : at + 1].isspace():
            at += 1
        while head := lines.match(self._data, at):
            at = head.end()
            for number in range(int(head.group(1)), int(head.group(1)) + int(head.group(2))):
                if self._data[at + 17 : at + 18] == b"n":
                    self._starts.setdefault(number, int(self._data[at : at + 10]))
                at += 20
        trailer = next(value for value in values(self._data, at) if isinstance(value, dict))
        self.trailer = {**trailer, **self.trailer}
        if "/Prev" in trailer:
            self._read_table(int(trailer["/Prev"]))

    def get(self, value: Value) -> Value:
        """The value itself, or what a reference points to."""
        if not isinstance(value, Reference):
            return value
        if value.number not in self._known:
            self._known[value.number] = self._read_object(value.number)
        return self._known[value.number]

    def _read_object(self, number: int) -> Value:
        if number not in self._starts:
            raise UnreadableFile(f"object {number} is not in the file")
        start = self._data.index(b"obj", self._starts[number]) + 3
        parts: list[Value] = []
        for value in values(self._data, start):
            if value == Word(b"endobj"):
                break
            if value == Word(b"stream"):
                begin = self._data.index(b"stream", self._end_of_dictionary(start)) + 6
                begin += 2 if self._data[begin : begin + 2] == b"\r\n" else 1
                length = int(self.get(parts[0]["/Length"]))
                return {**parts[0], "stream": self._data[begin : begin + length]}
            parts.append(value)
        return _with_references(parts)[0]

    def _end_of_dictionary(self, start: int) -> int:
        depth = 0
        for found in _TOKEN.finditer(self._data, start):
            depth += {b"<<": 1, b">>": -1}.get(found.group(), 0)
            if depth == 0 and found.group() == b">>":
                return found.end()
        raise UnreadableFile(f"a dictionary has no end at byte {start}")

    def content(self, value: Value) -> bytes:
        """The bytes of a stream, or of several after one another, unpacked."""
        stream = self.get(value)
        if isinstance(stream, list):
            return b"\n".join(self.content(part) for part in stream)
        filters = self.get(stream.get("/Filter", []))
        for name in filters if isinstance(filters, list) else [filters]:
            if name != "/FlateDecode":
                raise UnreadableFile(f"a stream is packed as {name}, which is not read here")
        return zlib.decompress(stream["stream"]) if filters else bytes(stream["stream"])

    def pages(self) -> list[dict[str, Value]]:
        """Every page in order, with what it inherits from the nodes above it."""
        root = self.get(self.trailer["/Root"])
        return list(self._leaves(self.get(root["/Pages"]), {}))

    def _leaves(self, node: dict[str, Value], above: dict[str, Value]) -> Iterator[dict[str, Value]]:
        passed: dict[str, Value] = {key: node[key] for key in ("/Resources", "/MediaBox", "/CropBox", "/Rotate") if key in node}
        if "/Kids" not in node:
            yield {**above, **node}
            return
        for kid in self.get(node["/Kids"]):
            yield from self._leaves(self.get(kid), {**above, **passed})
