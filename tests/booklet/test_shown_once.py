"""Measures that are the same in picture after picture stand in the first of an assembly."""

from creasewright.booklet.glue_measures import SETBACK, WIDTH
from creasewright.booklet.pictured_steps import PicturedSteps, pictured_steps
from small_designs import with_steps, worked_of


def shown(steps: PicturedSteps) -> list[list[tuple[str, str]]]:
    """Of every step: what its measures are of, and their values."""
    return [[(dim.of, dim.text) for dim in picture.plan.dimensions if dim.of] if picture.plan else [] for picture in steps.pictures]


def test_each_measure_is_shown_in_the_first_picture_of_an_assembly_that_has_it_and_in_no_other() -> None:
    blanks = "card: {height: 100 mm, across: [left flap: 30 mm, page: 80 mm, right flap: 30 mm]}"
    glue = "along: tail, width: {wide}, setback: 3 mm"
    left, right = (f"{{{{glue: {side} flap, onto: page, {glue}}}}}" for side in ("left", "right"))
    folds = ("{lay: card, up: back}", "{fold: left flap}", "{fold: right flap}")

    def of_steps(first: str, second: str) -> list[list[tuple[str, str]]]:
        (steps,) = pictured_steps(worked_of(with_steps(blanks, *folds, left.format(wide=first), right.format(wide=second))))
        return shown(steps)[3:]

    assert of_steps("6 mm", "6 mm") == [[(WIDTH, "6 mm"), (SETBACK, "3 mm")], []]
    assert of_steps("6 mm", "8 mm") == [[(WIDTH, "6 mm"), (SETBACK, "3 mm")], [(WIDTH, "8 mm")]]
