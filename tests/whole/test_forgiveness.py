"""No built-in design ships with a clearance that more than 1 maker in 100 would use up."""

from pathlib import Path

import pytest

from creasewright.hands.error_table import HandErrors
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.outcome import failing_share
from creasewright.reading.read_design import read_design
from creasewright.size_range import ends_of_ranges
from creasewright.work_out import work_out

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
NONE = ("bulb-pillow", "bulb-pot", "plant-diary")
"""Nothing goes into another thing there, and no fold closes over a free edge."""


@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["in", "mm"])
def test_no_clearance_fails_more_than_one_maker_in_a_hundred_at_either_end_of_any_range(design: Path, system: str) -> None:
    written = read_design(design)
    worked = work_out(written, system)
    settings = [{}, *(values for _, values in ends_of_ranges(worked))]
    for values in settings:
        found = every_clearance(work_out(written, system, settings=values), HandErrors())
        assert bool(found) == (design.stem not in NONE)
        assert [(one.what, one.way) for one in found if failing_share(one.room.value, one.error(HandErrors())) > 0.0102] == []
        assert all(one.room.slopes for one in found)
