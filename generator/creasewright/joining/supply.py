"""What a step needs from outside: worked-out numbers, materials, blanks and finished assemblies. The run gives it."""

from typing import Protocol

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.folding.state import State
from creasewright.reading.design import Text


class MaterialFacts(Struct, frozen=True):
    name: str
    kind: str
    thick: float
    width: float


class PartSpec(Struct, frozen=True):
    """A part of an assembly: `kind` is `blank`, `thing` or `assembly`."""

    path: str
    kind: str
    name: str
    mirrored: bool


class Supply(Protocol):
    def length(self, text: Text) -> float:
        """mm"""

    def number(self, text: Text) -> float:
        """A count or degrees."""

    def house(self, key: str) -> float:
        """A default length in mm: `setback`, `strip` and `narrow strip` (glue widths), `clearance`, `margin` (of sewing), `thread end`."""

    def material(self, name: str) -> MaterialFacts: ...

    def adhesives(self) -> tuple[MaterialFacts, ...]:
        """What a join may take where it names none: glue and tape, the usual one first."""

    def piece(self, spec: PartSpec) -> tuple[Blank, float | None]:
        """The blank of a part (mirrored where the part is) and its caliper."""

    def sub_state(self, assembly: str) -> State:
        """An assembly after all its steps."""

    def is_thing(self, name: str) -> bool: ...

    def scored_wrongly(self, spec: PartSpec) -> tuple[tuple[str, Blank], ...]:
        """The part's blank with one score measured from the other end, for each score where that makes a difference; by its name."""
