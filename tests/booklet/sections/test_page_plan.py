import pytest

from creasewright.booklet.drawing import Words
from creasewright.booklet.section import Section
from creasewright.booklet.sections import page_plan
from section_cases import alternatives, context_of, items_of, said, shipped


def plan(design: str = "plant-diary", system: str = "in", page: str = "letter") -> Section | None:
    return page_plan.build(context_of(shipped(design, system), "page plan", page))


def test_the_upper_row_of_the_one_sheet_booklet_is_drawn_upside_down() -> None:
    # from memory: in the eight-page booklet of one sheet with one slit the four pages of one row stand on their heads
    (found,) = page_plan.page_plans(shipped("plant-diary"))
    over = {"four": 180, "five": 180, "six": 180, "seven": 180}
    assert found.turns == {**over, "one": 0, "two": 0, "three": 0, "eight": 0}
    assert found.side == "front"


def test_it_is_said_in_words_as_well() -> None:
    text = said(plan())
    assert "Upside down: four, five, six, seven." in text
    assert "Right way up: one, two, three, eight." in text
    assert "Upside down: four, five, six, seven." in alternatives(plan())[0]


def test_pages_are_named_where_their_panels_lie() -> None:
    # rows of the design: seven six five four over eight one two three, four columns of 11 in
    names = {
        item.runs[0].text: (item.x, item.y) for item in items_of(plan()) if isinstance(item, Words) and item.role == "page name"
    }
    rows = (("seven", "six", "five", "four"), ("eight", "one", "two", "three"))
    for row in rows:
        xs = [names[name][0] for name in row]
        assert xs == sorted(xs)
        assert len({round(names[name][1], 3) for name in row}) == 1
    assert names["seven"][1] < names["eight"][1]


@pytest.mark.parametrize("design", ["seed-swap-folio", "swap-day-card", "seed-packet-envelope"])
def test_other_designs_have_no_page_plan(design: str) -> None:
    assert plan(design) is None


@pytest.mark.parametrize("page", ["letter", "a4", "half letter", "a5"])
@pytest.mark.parametrize("system", ["in", "mm"])
def test_it_fits_every_page(system: str, page: str) -> None:
    context = context_of(shipped("plant-diary", system), "page plan", page)
    section = page_plan.build(context)
    assert section is not None
    assert (
        sum(block.height + block.space_before for block in section.blocks) <= context.page.content_to - context.page.content_from
    )
