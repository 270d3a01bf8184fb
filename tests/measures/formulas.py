"""Shared by the tests of formulas: a text at a place, and a lookup of plain values."""

from dataclasses import dataclass, field
from fractions import Fraction

from creasewright.measures.evaluate import evaluate, evaluate_comparison
from creasewright.measures.parse_formula import parse_comparison, parse_formula
from creasewright.problems import NOWHERE, Problem, ProblemsFound, Where
from creasewright.reading.design import Text
from creasewright.units.quantity import Quantity, mm, number
from creasewright.units.ruler import ruler_of


@dataclass(frozen=True)
class Values:
    """Names and qualities (`width of page`) to what they are worth."""

    names: dict[str, Quantity] = field(default_factory=dict)
    qualities: dict[str, Quantity] = field(default_factory=dict)

    def name(self, name: str, where: Where, /) -> Quantity:
        return self.names[name]

    def quality(self, word: str, of: str, when: str | None, where: Where, /) -> Quantity:
        asked = f"{word} of {of}" + (f" when {when}" if when else "")
        if asked not in self.qualities:
            raise ProblemsFound([Problem(where, f"`{of}` is not a part", "write the name of a part")])
        return self.qualities[asked]


VALUES = Values(
    {"flap": mm(40), "page width": mm(105), "tall": mm(150), "leaves": number(6), "flare": number(5)},
    {"caliper of card": mm(Fraction("0.27")), "bulk at spine of album when closed": mm(7), "grammage of card": number(216)},
)


def at(text: str, line: int = 0, column: int = 0) -> Text:
    return Text(text, Where("folio.yaml", line, column) if line else NOWHERE)


def parsed(text: str, values: Values = VALUES):
    return parse_formula(at(text), frozenset(values.names))


def worked(text: str, system: str = "mm", values: Values = VALUES, convert: str = "round", note=None) -> Quantity:
    return evaluate(parsed(text, values), system, values, ruler_of(system), convert, note)


def compared(text: str, system: str = "mm", values: Values = VALUES):
    return evaluate_comparison(parse_comparison(at(text), frozenset(values.names)), system, values, ruler_of(system))
