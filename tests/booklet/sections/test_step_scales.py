"""How large the step pictures are: as large as half a row allows, one scale for a run of steps, no page for a last small row."""

import itertools
import re

from booklet.sections.kit_cases import kit
from creasewright.booklet.drawing import Words
from creasewright.booklet.sections.steps import build
from section_cases import items_of, shapes


def scales(design: str, system: str, page: str) -> list[str]:
    """Of the state lines, in the order of the steps."""
    section = build(kit(design, "steps", system, page))
    lines = ["".join(run.text for run in item.runs) for item in items_of(section) if isinstance(item, Words) and item.role == "state line"]
    return [found for line in lines for found in re.findall(r"\b\d[\d.]*:\d[\d.]*", line)]


def test_the_folio_changes_its_scale_at_most_once() -> None:
    # strips of 266.7 mm at 1:4 take 66.7 of the 88 mm of half a row. The closed folio, 105 mm wide, is drawn larger on A4; on
    # letter 1:3 would leave one step for a page of its own, and the pictures in space, at most twice as large, keep the plans' scale
    for system, page, all_scales in (("in", "letter", ["1:4"]), ("mm", "a4", ["1:4", "1:3"])):
        found = scales("seed-swap-folio", system, page)
        assert list(dict.fromkeys(found)) == all_scales
        assert sum(one != other for one, other in itertools.pairwise(found)) == len(all_scales) - 1


def test_a_plan_with_nothing_beside_it_takes_all_of_half_a_row() -> None:
    # 297 mm at 1:4 is 74.3 mm, and 85.5 - 74.3 = 11.2 mm are left beside it
    assert set(scales("plant-diary", "mm", "a4")) == {"1:4"}


def test_a_smaller_scale_saves_a_page_that_would_hold_one_row() -> None:
    # at 1:4 the picture of the result would stand alone on a second letter page
    context = kit("plant-diary", "steps")
    section = build(context)
    assert section is not None
    used = sum(block.space_before + block.height for block in section.blocks)
    assert used <= context.page.content_to - context.page.content_from
    assert set(scales("plant-diary", "in", "letter")) == {"1:5"} and shapes(section, "paper")
