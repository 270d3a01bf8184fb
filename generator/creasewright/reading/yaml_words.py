"""What a file that is not well-formed YAML is told, in our words.

The C parser and the other one word their faults differently, so faults are told apart by parts of those words.
"""

from msgspec import Struct

QUOTE_IT = "put the words in quotes"


class SyntaxFault(Struct, frozen=True):
    """What the parser met. Lines and columns count from 0."""

    problem: str
    context: str
    line: int
    column: int
    opened: tuple[int, int]
    """Where the thing being read began; the fault's own place if the parser did not say."""
    met: str
    """The character at the fault; empty at the end."""


def in_our_words(fault: SyntaxFault) -> tuple[int, int, str, str]:
    """Line and column to name (from 0), what, and hint."""
    for part_of_context, part_of_problem, tell in TABLE:
        if part_of_context in fault.context and part_of_problem in fault.problem:
            return tell(fault)
    return (
        fault.line, fault.column, "this cannot be read as it is written",
        "compare the line with its neighbours: indentation, colons, quotes and brackets",
    )  # fmt: skip


def _colon(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return fault.line, fault.column, "a colon stands where none was expected", (
        "give each key a line of its own, indented like its neighbours; put words that hold a colon in quotes"
    )  # fmt: skip


def _no_name(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return fault.line, fault.column, "a colon has no name before it", "write the name"


def _open_bracket(fault: SyntaxFault) -> tuple[int, int, str, str]:
    opening, closing = ("{", "}") if "mapping" in fault.context else ("[", "]")
    line, column = fault.opened
    return fault.line, fault.column, f"the {opening} of line {line + 1}, column {column + 1} is not closed where it should be", (
        f"add {closing}, or put words that hold a comma, a colon or a bracket in quotes"
    )  # fmt: skip


def _open_quote(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return *fault.opened, "the quote that opens here is not closed", "add the same quote at the end of the words"


def _odd_start(fault: SyntaxFault) -> tuple[int, int, str, str]:
    met = f"`{fault.met}` cannot begin a value" if fault.met.strip() else "a value cannot begin here"
    return fault.line, fault.column, met, QUOTE_IT


def _indent(fault: SyntaxFault) -> tuple[int, int, str, str]:
    if fault.met == ":":
        return _no_name(fault)
    return fault.line, fault.column, "this does not line up with what is above it", (
        "indent it like its neighbours; nothing may follow a closing quote or bracket"
    )  # fmt: skip


def _no_item(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return (
        fault.line,
        fault.column,
        "this stands in a list and does not begin with `- `",
        "begin it with `- `, or indent it as the list's owner is",
    )


def _no_value(fault: SyntaxFault) -> tuple[int, int, str, str]:
    if fault.met == ":":
        return _no_name(fault)
    met = f" before `{fault.met}`" if fault.met.strip() else ""
    return fault.line, fault.column, f"a value was expected here{met}", "write the value, or take out the extra comma or bracket"


def _escape(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return *fault.opened, "a `\\` within double quotes is read as a code", "use single quotes round these words"


def _version(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return fault.line, fault.column, "a line that begins with % is not read", "take the line out"


def _too_deep(fault: SyntaxFault) -> tuple[int, int, str, str]:
    return fault.line, fault.column, "brackets stand in brackets far too deep", "write it flatter"


TABLE = (
    ("", "nesting depth", _too_deep),
    ("", "mapping values are not allowed", _colon),
    ("quoted scalar", "escape character", _escape),
    ("quoted scalar", "unexpected end", _open_quote),
    ("quoted scalar", "document separator", _open_quote),
    ("flow mapping", "expected ',' or '}'", _open_bracket),
    ("flow sequence", "expected ',' or ']'", _open_bracket),
    ("", "cannot start any token", _odd_start),
    ("", "alphabetic or numeric", _odd_start),
    ("block collection", "expected", _no_item),
    ("block mapping", "expected", _indent),
    ("", "block sequence entries are not allowed", _indent),
    ("", "node content", _no_value),
    ("", "incompatible YAML document", _version),
    ("directive", "", _version),
)
