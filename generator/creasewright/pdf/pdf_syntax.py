"""Values in the syntax of a PDF file (ISO 32000-1, 7.3)."""

_PLAIN = frozenset(map(chr, range(32, 127)))
LITERAL_ESCAPES = {ord("\\"): "\\\\", ord("("): "\\(", ord(")"): "\\)", ord("\r"): "\\r"}
"""In a literal string every other byte stands for itself (7.3.4.2); a bare carriage return would be read as a line feed."""


def text_string(text: str) -> str:
    """A text string: literal where it is ASCII, else UTF-16 with a byte order mark, in hexadecimal."""
    if _PLAIN.issuperset(text):
        return f"({text.translate(LITERAL_ESCAPES)})"
    return f"<{(chr(0xFEFF) + text).encode('utf-16-be', 'replace').hex().upper()}>"


def number(value: float) -> str:
    """At most four decimals, none that are nought: 0.0001 pt is 0.00004 mm."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def numbers(values: tuple[float, ...]) -> str:
    return " ".join(map(number, values))


def reference(object_number: int) -> str:
    return f"{object_number} 0 R"
