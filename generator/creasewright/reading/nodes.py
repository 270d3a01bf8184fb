"""The nodes of a file: text, lists and mappings, each with its place. Everything is text: no word turns into a number."""

from dataclasses import dataclass
from typing import TypeAlias

from creasewright.problems import Where


@dataclass(frozen=True)
class Scalar:
    text: str
    where: Where
    """The first character of the text itself: after the opening quote, or in the line below a `|`."""
    quoted: bool
    """In quotes or a `|` block, so meant as it stands."""


@dataclass(frozen=True)
class Sequence:
    items: "tuple[Node, ...]"
    where: Where


@dataclass(frozen=True)
class Mapping:
    entries: "tuple[tuple[Scalar, Node], ...]"
    """In file order; each key once."""
    where: Where


Node: TypeAlias = Scalar | Sequence | Mapping
