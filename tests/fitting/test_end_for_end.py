"""What a piece whose print stands on its head went through the wrong way round: its sheet only where the sheet can tell."""

import pytest

from creasewright.fitting.end_for_end import LAID, SCORED, SHAPED, SHEET, TEMPLATE, is_shaped, turned_when
from small_designs import with_steps, worked_of

PAPER = "papers: {{card: {{sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way{back}}}}}"
CUT = "corners: {head-left: {cut: [20 mm, 60 mm]}}"


def turned(card: str, back: str = "") -> tuple[str, bool]:
    worked = worked_of(with_steps(f"card: {{{card}}}", "{lay: card}"), PAPER.format(back=back))
    blank = worked.assemblies[-1].runs[-1].after.blanks["card"]
    return turned_when(blank, worked.papers["card"]), is_shaped(blank)


@pytest.mark.parametrize(
    ("card", "wanted"),
    [
        ("width: 80 mm, height: 60 mm", (LAID, False)),
        ("height: 60 mm, across: [a: 40 mm, b: 40 mm]", (LAID, False)),  # half a turn changes the two panels over
        ("height: 60 mm, across: [a: 40 mm, b: 42 mm]", (SCORED, False)),
        (f"height: 90 mm, across: [a: 40 mm, b: 42 mm], {CUT}", (TEMPLATE, True)),
        ("width: 80 mm, height: 60 mm, corners: {head-left: {round: 5 mm}}", (SHAPED, True)),
        ("width: 80 mm, height: 60 mm, corners: {all: {round: 5 mm}}", (LAID, True)),
    ],
)
def test_an_oblong_of_a_print_that_is_the_same_all_over_was_turned_after_it_was_cut(card, wanted):
    assert turned(card) == wanted


def test_pages_drawn_on_a_sheet_tell_the_ends_of_an_oblong_apart():
    assert turned("height: 60 mm, across: [a: 40 mm, b: 42 mm]", ", back: by panel")[0] == SHEET
