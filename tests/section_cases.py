"""Sections for tests: the shipped designs and small ones, set with the shipped layout; and what a section says and draws."""

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

from booklet.square_ruler import SquareRuler
from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Group, Item, Mark, Shape, Tagged, Words
from creasewright.booklet.section import Section
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.fitting.worked import Worked
from creasewright.problems import Finding
from creasewright.reading.read_design import read_design
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_words import read_words
from creasewright.reading.settings import Tools
from creasewright.work_out import work_out

ROOT = Path(__file__).parents[1]
DESIGNS = tuple(sorted(path.stem for path in (ROOT / "designs").glob("*.yaml")))
TRADE_WORDS = (
    "blank",
    "caliper",
    "grammage",
    "imposition",
    "offcut",
    "signature",
    "head edge",
    "tail edge",
    "mountain",
    "valley",
)
"""Words of the trade that a reader never meets."""


@cache
def shipped(design: str, system: str = "in") -> Worked:
    return work_out(read_design(ROOT / "designs" / f"{design}.yaml"), system)


def context_of(worked: Worked, key: str, page: str = "letter", findings: tuple[Finding, ...] = ()) -> PackContext:
    layout = read_layout(ROOT / "layouts" / "pack.yaml")
    section = next(section for section in layout.sections if section.key == key)
    tools = Tools()
    trimmer = Trimmer(*(length.mm(worked.system) for length in (tools.longest_cut, tools.narrowest_strip, tools.least_trim)))
    words = read_words(ROOT / "layouts" / "words-home.yaml")
    plans = plans_of(worked, trimmer)
    return PackContext(worked, plans, findings, tools, layout, section, layout.page(page), SquareRuler(), words)


def every_item(items: Iterable[Item]) -> Iterator[Item]:
    for item in items:
        yield item
        if isinstance(item, Group | Tagged | Mark):
            yield from every_item(item.items)


def items_of(section: Section | None) -> list[Item]:
    assert section is not None
    return list(every_item(item for block in section.blocks for item in block.items))


def said(section: Section | None) -> str:
    """All text of a section, line after line, fractions as they are written: `4 1/8 in`."""
    lines = ["".join(run.text for run in item.runs) for item in items_of(section) if isinstance(item, Words)]
    return written(" ".join(lines))


def written(text: str) -> str:
    return text.replace("\u2064", " ").replace("\u2044", "/").replace("\u00a0", " ")


def measures(section: Section | None) -> list[str]:
    """The values in drawings."""
    return [written(item.runs[0].text) for item in items_of(section) if isinstance(item, Words) and item.role == "measure"]


def alternatives(section: Section | None) -> list[str]:
    return [written(item.alt) for item in items_of(section) if isinstance(item, Tagged) and item.alt]


def shapes(section: Section | None, role: str) -> list[Shape]:
    return [item for item in items_of(section) if isinstance(item, Shape) and item.role.startswith(role)]
