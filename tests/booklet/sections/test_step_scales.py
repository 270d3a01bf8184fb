"""How large the step pictures are: as large as half a row allows, one scale for a run of steps, no page for a last small row."""

import itertools
import re

from booklet.sections.kit_cases import kit
from creasewright.booklet.drawing import Words
from creasewright.booklet.sections.steps import build
from section_cases import items_of


def scales(design: str, system: str, page: str) -> list[str]:
    """Of the state lines, in the order of the steps."""
    section = build(kit(design, "steps", system, page))
    lines = ["".join(run.text for run in item.runs) for item in items_of(section) if isinstance(item, Words) and item.role == "state line"]
    return [found for line in lines for found in re.findall(r"\b\d[\d.]*:\d[\d.]*", line)]


def test_the_folio_changes_its_scale_at_most_once() -> None:
    # strips of 266.7 mm at 1:4 take 66.7 of the 88 mm of half a row. The closed folio, 105 mm wide, is drawn larger
    for system, page in (("in", "letter"), ("mm", "a4")):
        found = scales("seed-swap-folio", system, page)
        assert list(dict.fromkeys(found)) == ["1:4", "1:3"]
        assert sum(one != other for one, other in itertools.pairwise(found)) == 1


def test_a_plan_with_nothing_beside_it_takes_all_of_half_a_row() -> None:
    # 297 mm at 1:4 is 74.3 mm, and 85.5 - 74.3 = 11.2 mm are left beside it
    assert set(scales("plant-diary", "mm", "a4")) == {"1:4"}
