"""What lies between two faces may be glued to both: a page block in its case."""

import pytest

from creasewright.fitting.adhesives import joints_of
from section_cases import shipped


@pytest.mark.parametrize(("system", "mm2"), [("mm", 2 * 130 * 190), ("in", 2 * 127 * 190.5)])
def test_both_outer_faces_of_the_block_are_glued_all_over(system: str, mm2: float) -> None:
    worked = shipped("garden-journal", system)
    joint = next(each for each in joints_of(worked) if each.step == 7)
    assert joint.mm2 == pytest.approx(mm2)
    assert (joint.material, joint.kind, joint.strips) == ("glue", "glue", False)
    areas = [area for area in worked.assemblies[-1].runs[6].after.glue if area.step == 7]
    assert {area.side for area in areas} == {"front", "back"}
    assert {area.onto[0] for area in areas} == {"front board", "back board"}
