"""Designs that stand, at the ends of their ranges: what `test_size_ranges` lets pass, and the room of the lid."""

import pytest

from creasewright.checked import Checked, checked, checked_at_ends
from creasewright.places import built_in_designs
from creasewright.problems import NOTES
from creasewright.reading.settings import MakerSettings, Tools
from creasewright.size_range import ends_of_ranges

STANDING = ("bulb-bag", "bulb-pot", "seedling-box", "welcome-card")
CASES = [(name, units) for name in STANDING for units in ("in", "mm")]


def worked_with(name: str, units: str, measures: dict[str, str]) -> Checked:
    return checked(built_in_designs()[name], units, 1, measures, MakerSettings(), Tools())


@pytest.mark.parametrize(("name", "units"), CASES)
def test_a_standing_design_is_cut_with_the_trimmer_alone_at_every_end(name: str, units: str) -> None:
    ends = list(checked_at_ends(built_in_designs()[name], worked_with(name, units, {}), 1, {}, MakerSettings()))
    assert len(ends) >= 6
    assert {end.end: [str(f) for f in end.findings if f.severity != NOTES] for end in ends} == {end.end: [] for end in ends}


@pytest.mark.parametrize("units", ["in", "mm"])
def test_the_lid_keeps_its_room_at_every_size(units: str) -> None:
    # twice the ease of 0.5 mm or 1/32 in at least, and up to the next mark of the ruler (design-language.md §7.6)
    ends = ends_of_ranges(worked_with("seedling-box", units, {}).worked)
    for _, measures in ends:
        done = worked_with("seedling-box", units, measures)
        assert done.worked.finished is not None
        (fit,) = done.worked.finished.state.coverings
        assert fit.room_width is not None and fit.room_height is not None
        assert 0.99 < fit.room_width - fit.width < 4.0
        assert 0.99 < fit.room_height - fit.height < 4.0
