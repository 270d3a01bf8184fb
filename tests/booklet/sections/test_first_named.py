"""Panels in the steps of the shipped designs: which panel is meant is seen when its name is first read."""

from collections.abc import Sequence

import pytest
from msgspec.structs import replace

from creasewright.booklet.diagrams.scales import Scale
from creasewright.booklet.diagrams.scene import Picture
from creasewright.booklet.drawing import Words
from creasewright.booklet.part_words import reader_name
from creasewright.booklet.sections import steps
from creasewright.booklet.step_cells import CellMaker
from creasewright.booklet.step_rows import SizedCell, StepCell
from creasewright.booklet.told_names import ITALIC
from creasewright.pdf.fonts import FontRuler
from section_cases import DESIGNS, context_of, every_item, shipped

SELDOM = ("bulb-bag", "bulb-pot", "plant-diary", "seedling-box", "welcome-card")
"""Designs whose flat work is told by bands, lines and things, or that stand before a panel is called by name."""


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[SizedCell]:
    """The steps' cells in order, filled while a section is built."""
    cells: list[SizedCell] = []
    sized = CellMaker.sized

    def kept(self: CellMaker, each: Sequence[StepCell], common: Scale | None, last: str = "") -> list[SizedCell]:
        found = sized(self, each, common, last)
        cells.extend(found)
        return found

    monkeypatch.setattr(CellMaker, "sized", kept)
    return cells


def words_of(picture: Picture) -> set[str]:
    """Every word of the labels: a name of two may stand in two lines."""
    labels = [one for one in every_item(picture.items) if isinstance(one, Words) and one.role == "label"]
    return {word for label in labels for run in label.runs for word in run.text.split()}


@pytest.mark.parametrize(("system", "page"), [("in", "letter"), ("mm", "a4")])
@pytest.mark.parametrize("design", DESIGNS)
def test_a_panel_called_by_name_in_a_flat_picture_is_named_there_or_was_before(
    design: str, system: str, page: str, drawn: list[SizedCell]
) -> None:
    context = replace(context_of(shipped(design, system), "steps", page), text=FontRuler())
    words = dict(context.word_pairs())
    assert steps.build(context)
    named: set[str] = set()
    told = 0
    for cell in drawn:
        plan = cell.cell.picture.plan
        here = words_of(cell.picture)
        panels = {reader_name(lambda key: words.get(key, key), facet.panel) for facet in (plan.facets if plan else ())}
        named |= {name for name in panels if set(name.split()) <= here}
        called = set(ITALIC.findall(cell.cell.text)) & panels
        assert called <= named, (cell.cell.number, cell.cell.text, called - named)
        told += len(called)
    assert bool(told) == (design not in SELDOM)
