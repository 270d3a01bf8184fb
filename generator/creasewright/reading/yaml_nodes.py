"""A file's text to nodes; the only importer of yaml.

Only the parser's events are used: nothing is typed, constructed or executed. Anchors, aliases, tags and merge keys are refused,
and size, depth and number of nodes are limited, so a stranger's file costs no more than its length.
"""

import re
from collections.abc import Iterator

import yaml

from creasewright.problems import Where
from creasewright.reading.faults import Faults, shown
from creasewright.reading.node_builder import NodeBuilder
from creasewright.reading.nodes import Mapping, Node, Scalar
from creasewright.reading.yaml_words import SyntaxFault, in_our_words

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
MOST_BYTES = 256 * 1024
MOST_BLANK_LINES = 10
"""At the start of a block text; its column is not looked for below them."""
NOT_TEXT: re.Pattern[str] = yaml.reader.Reader.NON_PRINTABLE
"""Characters that YAML 1.1 section 5.1 does not admit as printable."""
TAB_FIRST = re.compile(r"^ *\t[ \t]*(?=[^ \t\r\n#])", re.MULTILINE)
LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
"""Line breaks of YAML 1.1 section 5.4, so that lines count as the parser counts them."""


def read_nodes(text: str, file: str, faults: Faults, begin: str) -> Mapping:
    """The mapping that the whole file is. Notes what can be read past, raises ProblemsFound at what cannot.

    `begin`: the first line of such a file, told where it holds something else.
    """
    text = text.removeprefix("\ufeff")
    _refuse_odd_characters(text, file, faults)
    lines = LINE_END.split(text)
    builder = NodeBuilder(faults)
    try:
        for event in _events(text):
            _pass_on(event, builder, file, lines, faults)
    except yaml.YAMLError as error:
        raise _in_our_words(error, file, lines, faults) from None
    return _whole_file(builder.root, file, faults, begin)


def too_big(size: int) -> tuple[str, str]:
    """What and hint for a file of `size` bytes."""
    return f"the file holds {size:,} bytes, and {MOST_BYTES:,} is the most that is read", "take out what is not part of it"


def _events(text: str) -> Iterator[yaml.Event]:
    loader = LOADER(text)
    try:
        while (event := loader.get_event()) is not None:
            yield event
    finally:
        loader.dispose()


def _pass_on(event: yaml.Event, builder: NodeBuilder, file: str, lines: list[str], faults: Faults) -> None:
    if isinstance(event, yaml.ScalarEvent):
        _refuse_marks(event, file, faults)
        builder.scalar(_scalar(event, file, lines))
    elif isinstance(event, yaml.CollectionStartEvent):
        _refuse_marks(event, file, faults)
        builder.begin(_where(event, file), isinstance(event, yaml.MappingStartEvent), bool(event.flow_style))
    elif isinstance(event, yaml.CollectionEndEvent):
        builder.end()
    elif isinstance(event, yaml.AliasEvent):
        raise faults.stop(
            _where(event, file), f"{shown(f'*{event.anchor}')} stands for a value written elsewhere", "write the value again here"
        )
    elif isinstance(event, yaml.DocumentStartEvent) and builder.root is not None:
        raise faults.stop(_where(event, file), "a second document begins here", "keep one design in one file")


def _where(event: yaml.Event, file: str) -> Where:
    mark = event.start_mark
    return Where(file, mark.line + 1, mark.column + 1) if mark else Where(file)


def _refuse_marks(event: "yaml.ScalarEvent | yaml.CollectionStartEvent", file: str, faults: Faults) -> None:
    if event.anchor is not None:
        faults.note(
            _where(event, file),
            f"{shown(f'&{event.anchor}')} gives a value a mark to be used elsewhere",
            "write the value again where it is needed",
        )
    if event.tag is not None:
        faults.note(
            _where(event, file),
            f"{shown(_tag_as_written(event.tag))} gives a value a type",
            "take it out; every value is read as text",
        )


def _tag_as_written(tag: str) -> str:
    return "!!" + tag.removeprefix("tag:yaml.org,2002:") if tag.startswith("tag:yaml.org,2002:") else tag


def _scalar(event: yaml.ScalarEvent, file: str, lines: list[str]) -> Scalar:
    where = _where(event, file)
    if event.style in ("|", ">"):
        where = Where(file, *_block_start(lines, where.line - 1))
    elif event.style:
        where = Where(file, where.line, where.column + 1)
    return Scalar(event.value.replace("\t", " "), where, bool(event.style))


def _block_start(lines: list[str], header: int) -> tuple[int, int]:
    """Line and column (from 1) of the first character of a block text whose `|` stands in line `header` (from 0)."""
    for line in lines[header + 1 : header + 1 + MOST_BLANK_LINES]:
        if line.strip():
            return header + 2, len(line) - len(line.lstrip(" ")) + 1
    return header + 2, 1


def _refuse_odd_characters(text: str, file: str, faults: Faults) -> None:
    size = len(text) if len(text) > MOST_BYTES else len(text.encode("utf-8", "surrogatepass"))
    if size > MOST_BYTES:
        raise faults.stop(Where(file), *too_big(size))
    odd = NOT_TEXT.search(text)
    if odd:
        raise faults.stop(
            _place(text, odd.start(), file),
            f"the character U+{ord(odd.group()):04X} is not text",
            "take it out, or save the file as UTF-8",
        )
    tabs = [match.start() + match.group().index("\t") for match in TAB_FIRST.finditer(text)]
    for start in tabs:
        faults.note(_place(text, start, file), "a tab stands at the start of the line", "indent with spaces")
    if tabs:
        faults.raise_if_any()


def _place(text: str, offset: int, file: str) -> Where:
    before = LINE_END.split(text[:offset])
    return Where(file, len(before), len(before[-1]) + 1)


def _whole_file(root: Node | None, file: str, faults: Faults, begin: str) -> Mapping:
    if isinstance(root, Mapping):
        return root
    if root is None or (isinstance(root, Scalar) and not root.text):
        raise faults.stop(Where(file), "the file is empty", f"begin it with `{begin}`")
    written = shown(root.text) if isinstance(root, Scalar) else "a list"
    raise faults.stop(root.where, f"the file holds {written} where keys and values were expected", f"begin it with `{begin}`")


def _in_our_words(error: yaml.YAMLError, file: str, lines: list[str], faults: Faults) -> Exception:
    mark = getattr(error, "problem_mark", None)
    if mark is None:
        return faults.stop(Where(file), "the file cannot be read as it is written", "save it as plain text in UTF-8")
    line, column = mark.line, mark.column
    opened = getattr(error, "context_mark", None) or mark
    met = lines[line][column : column + 1] if line < len(lines) else ""
    fault = SyntaxFault(
        getattr(error, "problem", None) or "",
        getattr(error, "context", None) or "",
        line,
        column,
        (opened.line, opened.column),
        met,
    )
    line, column, what, hint = in_our_words(fault)
    return faults.stop(Where(file, line + 1, column + 1), what, hint)
