"""The bulb pillow at the ends of its ranges, all together and each by itself, in both systems; and what its pack says."""

from itertools import product

import pytest

from creasewright.booklet.sections import score_guide, steps
from creasewright.checks.every_check import every_finding
from creasewright.checks.facts import Facts
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.geometry.arch import Arch
from creasewright.places import built_in_designs
from creasewright.reading.design import Design
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from section_cases import context_of, measures, said, shipped

TRIMMER = Trimmer(310, 12, 3)


def design() -> Design:
    return read_design(built_in_designs()["bulb-pillow"])


def ends() -> list[dict[str, str]]:
    """Every choice of lowest, written and highest for the three measures that have a range."""
    ranged = [measure for measure in design().measures if measure.lowest is not None]
    assert [measure.name for measure in ranged] == ["wide", "long", "bulge"]
    choices = [[(m.name, None), (m.name, str(m.lowest)), (m.name, str(m.highest))] for m in ranged]
    return [{name: value for name, value in one if value is not None} for one in product(*choices)]


@pytest.mark.parametrize("system", ["in", "mm"])
def test_it_can_be_built_at_every_end_of_its_ranges(system: str):
    for settings in ends():
        worked = work_out(design(), system, 1, settings)
        facts = Facts(worked, plans_of(worked, TRIMMER), TRIMMER)
        assert [str(finding) for finding in every_finding(facts)] == [], settings
        assert worked.finished is not None
        values = {measure.name: float(measure.values[0]) for measure in worked.measures}
        arch = Arch(values["wide"], values["bulge"])
        width, height, thick = worked.finished.size
        assert arch.width < width < arch.width + 0.33
        assert values["long"] <= height < values["long"] + 1.0
        assert thick == pytest.approx(2 * values["bulge"] + 0.33, abs=1e-6)
        assert worked.finished.bulk.greatest.mm == pytest.approx(thick)
        assert {face.looks for face in worked.stages[-1].faces} == {"up", "down", "head", "tail"}


def test_a_pillow_steeper_than_paper_bends_is_refused_with_the_figure():
    worked = work_out(design(), "mm", 1, {"bulge": "17 mm"})
    refused = next(run.refused for run in worked.assemblies[-1].runs if run.refused)
    # 80 · tan(22.5°) / 2 = 16.57; slope tan(2 atan(34 / 80)) = 1.04
    assert refused[0] == "the curved score `ear 2` leaves its ends at a slope of 1.04, and paper bends over it only under 1"
    assert refused[1] == "give it a rise under 16.6 mm (its chord is 80.0 mm)"


def test_its_curves_have_no_groove_and_are_scored_by_the_template():
    section = score_guide.build(context_of(shipped("bulb-pillow"), "score guide"))
    assert measures(section) == ["0", "3 1/4", "6 1/2", "7 in"]  # the straight folds alone
    text = said(section)
    assert "No groove guides curves: score along the curve with the template, A." in text
    assert "along the curve, with template A" in text.replace("  ", " ")


def test_the_steps_say_what_is_not_worked_out():
    text = said(steps.build(context_of(shipped("bulb-pillow"), "steps")))
    assert "Press the two long sides toward each other until the work bows, and push in ear 2, toward you," in text
    # slope tan(2 atan(1 / 3.25)) = 0.6798, acos(0.6798²) = 62°
    assert "the fold is 90° at the middle of a curve and 62° at its ends." in text
    assert "How the paper bends on the way there is not worked out" in text
    assert text.count("not worked out") == 1  # said where the work first bows
    assert "Push in ear 4, away from you, along its curve until it stands upright." in text
    assert "Bend toward you along every dashed curve, a little at a time from its middle to its ends, and let go again." in text
