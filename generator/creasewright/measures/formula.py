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

from dataclasses import dataclass
from fractions import Fraction

from creasewright.problems import Where

FUNCTIONS = ("min", "max", "sqrt", "abs", "sin", "cos", "tan", "asin", "acos", "atan", "up", "down", "near", "if")

LENGTH_QUALITIES = (
    "caliper", "width", "height", "thick", "left", "right", "head", "tail", "length", "room width", "room height", "room depth",
    "outside width", "outside height", "bulk", "bulk at spine", "bulk at fore edge", "girth",
)  # fmt: skip
"""Qualities that are lengths."""

QUALITIES = (*LENGTH_QUALITIES, "grammage")
"""What can be asked of a paper, thing, blank, panel, edge, pocket or assembly: `QUALITY of THING`."""


@dataclass(frozen=True)
class NumberLiteral:
    text: str
    where: Where
    value: Fraction


@dataclass(frozen=True)
class LengthLiteral:
    text: str
    where: Where
    mm: Fraction
    system: str
    """`in` or `mm`, as written."""


@dataclass(frozen=True)
class Pair:
    """The design's own number in each system."""

    text: str
    where: Where
    inches: "Formula"
    millimetres: "Formula"


@dataclass(frozen=True)
class Name:
    text: str
    where: Where
    name: str


@dataclass(frozen=True)
class Quality:
    text: str
    where: Where
    word: str
    """One of QUALITIES."""
    of: str
    """The thing as written: `page of left strip`, `page/centre of left strip`."""
    when: str | None
    """The stage; None: after all steps."""


@dataclass(frozen=True)
class Call:
    text: str
    where: Where
    function: str
    """One of FUNCTIONS but `if`."""
    arguments: tuple["Formula", ...]


@dataclass(frozen=True)
class Choice:
    """`if(a < b, x, y)`."""

    text: str
    where: Where
    condition: "Comparison"
    if_so: "Formula"
    if_not: "Formula"


@dataclass(frozen=True)
class Binary:
    text: str
    where: Where
    """Of the operator."""
    operator: str
    """`+`, `-`, `*` or `/`."""
    left: "Formula"
    right: "Formula"


@dataclass(frozen=True)
class Negate:
    text: str
    where: Where
    inner: "Formula"


@dataclass(frozen=True)
class Comparison:
    text: str
    where: Where
    """Of the operator."""
    operator: str
    """`<`, `<=`, `=`, `>=` or `>`."""
    left: "Formula"
    right: "Formula"


Formula = NumberLiteral | LengthLiteral | Pair | Name | Quality | Call | Choice | Binary | Negate
