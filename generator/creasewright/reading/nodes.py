"""The nodes of a file: text, lists and mappings, each with its place. Everything is text: no word turns into a number."""

from typing import TypeAlias

from msgspec import Struct

from creasewright.problems import Where


class Scalar(Struct, frozen=True):
    text: str
    where: Where
    """The first character of the text itself: after the opening quote, or in the line below a `|`."""
    quoted: bool
    """In quotes or a `|` block, so meant as it stands."""


class Sequence(Struct, frozen=True):
    items: "tuple[Node, ...]"
    where: Where


class Mapping(Struct, frozen=True):
    entries: "tuple[tuple[Scalar, Node], ...]"
    """In file order; each key once."""
    where: Where


Node: TypeAlias = Scalar | Sequence | Mapping
