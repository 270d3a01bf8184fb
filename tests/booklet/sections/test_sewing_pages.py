"""Pages of the sewn booklet and the banded card: what the maker is told, what is bought, and what there is to beware of."""

from itertools import pairwise

import pytest

from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.pictured_steps import pictured_steps
from creasewright.booklet.sections import materials, print_it_true, steps
from creasewright.booklet.tools_needed import dangers, tool_needs
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from section_cases import TRADE_WORDS, context_of, said, shipped


def sewing_run() -> tuple[StepRun, int, int]:
    for k, assembly in enumerate(pictured_steps(shipped("recipe-booklet", "mm"))):
        for n, run in enumerate(assembly.runs):
            if isinstance(run.written.action, design.Sew):
                return run, k, n
    raise AssertionError("no step sews")


def test_the_step_tells_the_holes_the_thread_and_its_way() -> None:
    text = said(steps.build(context_of(shipped("recipe-booklet", "mm"), "steps")))
    assert "3 holes" in text
    assert "at 25 mm, 70 mm and 115 mm from the top of the fold" in text
    # 183.28 and two ends of 100, cut to the next centimetre
    assert "390 mm of waxed linen thread" in text
    assert "begin inside: out at 2, in at 1, out at 3, in at 2" in text


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("name", ["recipe-booklet", "open-day-card"])
def test_steps_speak_the_reader_s_words(name: str, system: str) -> None:
    text = said(steps.build(context_of(shipped(name, system), "steps"))).lower()
    assert not [word for word in TRADE_WORDS if word in text]


def test_the_picture_shows_each_hole_once_and_every_stretch_of_the_thread() -> None:
    run, assembly, step = sewing_run()
    plan = pictured_steps(shipped("recipe-booklet", "mm"))[assembly].pictures[step].plan
    assert plan is not None
    assert [prick.text for prick in plan.pricks] == ["1", "2", "3"]
    heights = [prick.spot[1] for prick in plan.pricks]
    assert [b - a for a, b in pairwise(heights)] == pytest.approx([45, 45])
    # out at 2: outside to 1, inside from 1 to 3, outside back to 2
    assert [stitch.hidden for stitch in plan.stitches] == [True, False, True]
    ends = [(stitch.start[1] - heights[0], stitch.end[1] - heights[0]) for stitch in plan.stitches]
    assert ends == [pytest.approx((45, 0)), pytest.approx((0, 90)), pytest.approx((90, 45))]
    assert len(run.after.sewings) == 1


def test_the_pricking_guide_is_as_long_as_the_fold_and_has_the_holes_on_its_own_fold() -> None:
    worked = shipped("recipe-booklet", "mm")
    (guide,) = kit_templates(context_of(worked, "templates"))
    assert guide.name == "pricking guide"
    assert guide.letters == ("A", "B")
    assert {float(x) for x, _ in guide.polygon} == {0, 60}
    assert {float(y) for _, y in guide.polygon} == {0, 140}
    assert [(float(hole.centre.x), float(hole.centre.y)) for hole in guide.holes] == [(30, 25), (30, 70), (30, 115)]
    assert kit_templates(context_of(shipped("open-day-card", "mm"), "templates")) == ()


def test_awl_needle_and_thread_stand_among_the_tools_and_the_cautions_only_where_something_is_sewn() -> None:
    sewn, banded = (context_of(shipped(name, "mm"), "materials") for name in ("recipe-booklet", "open-day-card"))
    # the knife trims the open edge
    assert {"needle", "awl", "cord", "knife"} <= set(dangers(sewn.worked, tool_needs(sewn.worked, sewn.plans, sewn.board)))
    assert not {"needle", "awl", "cord"} & set(dangers(banded.worked, tool_needs(banded.worked, banded.plans, banded.board)))
    text = said(materials.build(sewn))
    assert "Awl" in text
    assert "Needle for the thread" in text
    assert "sews A and B" in text
    assert "1 of 390 mm" in text
    cautions = said(print_it_true.build(context_of(shipped("recipe-booklet", "mm"), "print it true")))
    assert "Count the needles before and after." in cautions
    assert "Prick straight down onto the pad" in cautions


def test_the_band_is_told_with_its_lap_and_the_glue_on_it_alone() -> None:
    text = said(steps.build(context_of(shipped("open-day-card", "mm"), "steps")))
    # the card is 150 high and the band 45: (150 - 45) / 2 = 52.5 from the top, 53 on the ruler
    assert "its top edge 53 mm from the top" in text
    assert "its ends overlap by 20 mm at the back" in text
    assert "Put glue stick on the overlap only" in text
