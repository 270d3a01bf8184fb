"""The side that a standing thing shows, in the state line of its step: up, or inside once walls stand all round."""

import pytest

from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.result_pictures import result_picture
from creasewright.booklet.side_words import up_words
from creasewright.booklet.step_views import StepPicture
from section_cases import context_of, shipped
from small_designs import worked_of


def solid(design: str, system: str = "in") -> list[str]:
    context = context_of(shipped(design, system), "steps")
    pictures = [picture for steps in pictured_steps(context.worked) for picture in steps.pictures]
    return [up_words(context, picture) for picture in pictures if picture.space is not None]


@pytest.mark.parametrize("system", ["in", "mm"])
def test_a_box_shows_its_inside_up_until_all_its_walls_stand(system: str) -> None:
    # each box with two walls up, with the others on their way, with these ajar for the glue; the lid turned over; the lid over the tray
    making = ["plain side up"] * 3
    assert solid("seedling-box", system) == [*making, *making, "seed side up", "plain side inside"]
    steps = pictured_steps(shipped("seedling-box", system))[0]
    made = result_picture(steps.runs[-1].after, steps.runs[-1].parts, steps.parts)
    assert (made.up, made.inside) == (("tray", "back"), True)


def test_a_bag_upside_down_shows_its_bottom_and_upright_its_inside() -> None:
    assert solid("bulb-bag")[2:] == ["sprig side up", "sprig side up", "plain side inside", "plain side inside"]


def test_a_wall_behind_a_floor_is_no_room() -> None:
    assert solid("welcome-card") == ["sprig side up"] * 3


def test_what_is_closed_like_a_book_or_a_tube_gets_no_second_name_for_its_lie() -> None:
    # gates over a back, a cover round its pages, a bag lying open: large panels of one piece lie both ways up
    assert solid("open-day-card") == [""]
    assert solid("garden-journal")[1:] == ["", ""]
    assert solid("bulb-bag")[:2] == ["", ""]


WALLS = """
blanks:
  tray:
    base: {width: 100 mm, height: 80 mm}
    flaps: {wall: {at: each edge of base, depth: 30 mm}}
steps:
  - {lay: tray, up: SIDE}
  - {fold: [WHICH], to: ANGLE}
"""


@pytest.mark.parametrize(
    ("which", "angle", "side", "shown"),
    [
        ("wall 1, wall 2, wall 3, wall 4", "90", "back", ("back", True)),
        ("wall 1, wall 2, wall 3", "90", "back", ("back", False)),
        ("wall 1, wall 2, wall 3, wall 4", "45", "front", ("front", False)),
        ("wall 1, wall 2, wall 3, wall 4", "-90", "front", ("front", False)),  # they hang down
    ],
)
def test_walls_all_round_make_an_inside(which: str, angle: str, side: str, shown: tuple[str, bool]) -> None:
    worked = worked_of(WALLS.replace("SIDE", side).replace("WHICH", which).replace("ANGLE", angle))
    steps = pictured_steps(worked)[-1]
    made: StepPicture = result_picture(steps.runs[-1].after, steps.runs[-1].parts, steps.parts)
    assert (made.up, made.inside) == (("tray", shown[0]), shown[1])
