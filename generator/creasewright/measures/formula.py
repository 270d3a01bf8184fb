"""What a formula can be, once read: a tree of these.

Every node holds the text it was read from, for messages, and its place in the file. Nothing is worked out here.

    comparison = formula (< <= = >= >) formula
    formula    = sum ["|" sum]                       the same in inches and in mm, in either order
    sum        = term {("+" | "-") term}
    term       = factor {("*" | "/") factor}
    factor     = ["-"] atom
    atom       = number | length | name | call | quality | "(" formula ")"
    quality    = QUALITY "of" THING ["when" STAGE]
"""

from fractions import Fraction

from msgspec import Struct

from creasewright.problems import Where

FUNCTIONS = ("min", "max", "sqrt", "abs", "sin", "cos", "tan", "asin", "acos", "atan", "up", "down", "near", "if")

LENGTH_QUALITIES = (
    "caliper", "width", "height", "thick", "left", "right", "head", "tail", "length", "room width", "room height", "room depth",
    "outside width", "outside height", "bulk", "bulk at spine", "bulk at fore edge", "girth",
)  # fmt: skip
"""Qualities that are lengths."""

QUALITIES = (*LENGTH_QUALITIES, "grammage")
"""What can be asked of a paper, thing, blank, panel, edge, pocket or assembly: `QUALITY of THING`."""


class NumberLiteral(Struct, frozen=True):
    text: str
    where: Where
    value: Fraction


class LengthLiteral(Struct, frozen=True):
    text: str
    where: Where
    mm: Fraction
    system: str
    """`in` or `mm`, as written."""


class Pair(Struct, frozen=True):
    """The design's own number in each system."""

    text: str
    where: Where
    inches: "Formula"
    millimetres: "Formula"


class Name(Struct, frozen=True):
    text: str
    where: Where
    name: str


class Quality(Struct, frozen=True):
    text: str
    where: Where
    word: str
    """One of QUALITIES."""
    of: str
    """The thing as written: `page of left strip`, `page/centre of left strip`."""
    when: str | None
    """The stage; None: after all steps."""


class Call(Struct, frozen=True):
    text: str
    where: Where
    function: str
    """One of FUNCTIONS but `if`."""
    arguments: tuple["Formula", ...]


class Choice(Struct, frozen=True):
    """`if(a < b, x, y)`."""

    text: str
    where: Where
    condition: "Comparison"
    if_so: "Formula"
    if_not: "Formula"


class Binary(Struct, frozen=True):
    text: str
    where: Where
    """Of the operator."""
    operator: str
    """`+`, `-`, `*` or `/`."""
    left: "Formula"
    right: "Formula"


class Negate(Struct, frozen=True):
    text: str
    where: Where
    inner: "Formula"


class Comparison(Struct, frozen=True):
    text: str
    where: Where
    """Of the operator."""
    operator: str
    """`<`, `<=`, `=`, `>=` or `>`."""
    left: "Formula"
    right: "Formula"


Formula = NumberLiteral | LengthLiteral | Pair | Name | Quality | Call | Choice | Binary | Negate
