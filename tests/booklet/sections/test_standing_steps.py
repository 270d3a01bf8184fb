"""What the steps of boxes, bags and pop-ups say: sentences worked by hand from the designs, as a person would say them."""

import pytest

from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.sections.steps import build, step_cell
from creasewright.fitting.worked import Worked
from section_cases import context_of, said, shipped, written
from small_designs import worked_of

TRAY = """
blanks:
  tray:
    base: {width: 100 mm, height: 80 mm}
    flaps:
      wall: {at: each edge of base, depth: 30 mm}
      tab: {at: [ends of wall 1, ends of wall 3], depth: 10 mm, ends: 75}
steps:
"""


def texts(worked: Worked) -> list[str]:
    """The words of every step, one assembly after the other; bold and italics left out."""
    context = context_of(worked, "steps")
    found = []
    for steps in pictured_steps(worked):
        for run, picture in zip(steps.runs, steps.pictures, strict=True):
            text = step_cell(context, run, steps.parts, picture, False).text
            found.append(written(text.replace("*", "")))
    return found


def test_walls_and_tabs_of_one_fold_are_counted() -> None:
    folded = texts(worked_of(TRAY + "  - {lay: tray, up: back}\n  - {fold: [each wall, each tab], to: 90}"))[-1]
    assert folded == "Fold the four walls and the four tabs of A toward you until each stands at 90°."


def test_flaps_folded_flat_and_away_are_told_so() -> None:
    folded = texts(worked_of(TRAY + "  - {lay: tray, up: back}\n  - {mountain: each tab}"))[-1]
    assert folded == "Fold the four tabs of A away from you and crease."


def test_the_seedling_box_is_told_as_a_person_says_it() -> None:
    steps = texts(shipped("seedling-box", "mm"))
    assert steps[1:4] == [
        "Fold the top wall, the bottom wall and the four tabs of A toward you until each stands at 90°.",
        "Fold the two side walls of A toward you until each stands at 90°.",
        "Put tacky glue on the seed side of the four tabs of A, 3 mm from their edges. Press them against the inside of the two "
        "side walls of A and hold until the glue holds. (about 5 min)",
    ]
    # rooms of 1.4 and 1.2 mm (test_coverings.py): 0.6 mm on each side of the narrower, to the half millimetre below
    assert steps[-2:] == [
        "Turn the lid box upside down.", "Set the lid box over the tray box, as the arrow shows; it has 0.5 mm to spare all round.",
    ]  # fmt: skip


def test_walls_that_meet_are_told_by_what_meets_and_by_whole_degrees() -> None:
    # a wall of a regular pyramid leans by cos(fold) = tan(ends - 90) / tan(180 / n): tan 5° / tan 30° = 0.1515, 81.28°
    # (design-language.md, from spherical trigonometry); two such walls stand at 59.3° to each other's planes
    steps = texts(shipped("bulb-pot", "mm"))
    assert steps[1] == (
        "Fold the six walls and the six tabs of A toward you until each tab lies on the next wall and the edges meet. "
        "Then each wall has turned by 81° and each tab has turned by 59°."
    )
    assert steps[2].startswith("Put tacky glue on the front side of the six tabs of A, 3 mm from their edges. Press them against the")


def test_a_bag_is_named_by_its_bands_and_points() -> None:
    steps = texts(shipped("bulb-bag", "mm"))
    assert steps[2] == (
        "Open the rim of A and put glue stick along the bottom: a strip 6 mm wide, 3 mm from every edge. "
        "Close it onto the wall of A and press."
    )
    assert steps[5] == (
        "Open it once more between side c and side d. Put glue all over the seam of A, 3 mm from its edges. "
        "Close it again onto the side d of A and press."
    )
    assert steps[6].startswith("Open it out: the folds between seam and front, between front and side a, ")
    assert "stand at 90°, and those between side a and side b and between side c and side d lie flat again." in steps[6]
    assert steps[7].startswith("Fold the foot of A in along all its lines, as the picture shows.")
    assert steps[8] == "Set it down so that the foot front of A is on top."
    assert steps[9] == (
        "Put glue on the plain side of the four points of A, 3 mm from their edges. "
        "Press them onto the paper they lie on and hold until the glue holds."
    )
    assert steps[10] == "Turn bag A upside down."


def test_a_bag_that_lies_flat_only_by_bending_says_so() -> None:
    # flat, it is as wide as its face and as high as it stood
    text = said(build(context_of(shipped("bulb-bag", "mm"), "steps", "a4")))
    assert "It also folds along its lines to lie flat, 90 × 180 mm and about 3 mm thick. The paper gives way on the way there" in text


def test_folds_both_ways_that_stand_are_told_with_their_ways_and_followers_follow() -> None:
    steps = texts(shipped("welcome-card", "mm"))
    assert steps[1].startswith(
        "Fold toward you between wall and floor, between wall and top and between front and floor, and away from you between top "
        "and front, until each fold stands at 90°."
    )
    assert steps[3] == "Fold the wall of A over toward you and crease; the top and the front of A follow by themselves."


def test_paper_that_gives_way_is_told() -> None:
    folded = texts(worked_of(TRAY + "  - {lay: tray, up: back}\n  - {fold: each wall, to: 60, bending: yes}"))[-1]
    assert folded.endswith("until each stands at 60°. The paper gives way as it goes: ease it, do not force it.")


@pytest.mark.parametrize(("design", "size"), [("bulb-pot", "110 × 95 mm, 55 mm high"), ("seedling-box", "120 × 90 mm, 38 mm high")])
def test_what_stands_is_measured_in_all_three_ways(design: str, size: str) -> None:
    # the walls' own thickness lies outside the marks: the tray measures 120.4 x 90.4, 38.2 mm high
    assert f"measures about {size}." in said(build(context_of(shipped(design, "mm"), "steps")))


def test_a_fold_shown_before_it_is_done_is_said_to_be_part_way() -> None:
    text = said(build(context_of(shipped("seedling-box"), "steps")))
    # the walls of the tray and of the lid come up in two steps each, and stand open a little while their tabs are glued
    assert text.count("plain side up · part way") == text.count("part way") == 6
