"""What panels are called on templates: as steps and their pictures call them, and by no number that none says."""

import re

import pytest

from booklet.sections.kit_cases import kit
from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.sections import steps
from creasewright.booklet.template_names import template_names
from section_cases import DESIGNS, said, shipped


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize(("system", "page"), [("in", "letter"), ("mm", "a4")])
def test_a_template_calls_a_panel_by_no_number_that_the_steps_do_not_say(design: str, system: str, page: str) -> None:
    told = said(steps.build(kit(design, "steps", system, page)))
    for template in kit_templates(kit(design, "templates", system, page)):
        if template.letters and "guide" not in template.key:
            for name, _ in template.panel_names:
                assert not re.search(r"\d", name) or re.search(rf"\b{name}\b", told), (template.key, name)


def test_numbers_stay_where_a_fold_is_told_by_them() -> None:
    cloth = next(blank for blank in shipped("garden-journal", "mm").blanks if blank.name == "case cloth")
    names = template_names(cloth, {"joint 1/spine board", "spine board/joint 2"})
    assert names["joint 1"] == "joint 1" and names["spine board"] == "spine board"
    assert {names[f"head turn-in {k}"] for k in range(1, 6)} == {"head turn-in"}
    assert template_names(cloth, ())["joint 1"] == "joint"


def test_where_bands_cross_a_panel_goes_by_both_and_slanted_parts_by_none() -> None:
    bag = next(blank for blank in shipped("bulb-bag", "mm").blanks if blank.name == "bag")
    names = template_names(bag, ())
    assert names["foot front"] == "foot front"
    assert not [name for name in names.values() if "part of" in name or name[-1].isdigit()]
