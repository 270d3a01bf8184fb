"""Designs that stand, at both ends of every measure's range, all together and one at a time, in both unit systems."""

from itertools import chain

import pytest

from creasewright.checked import Checked, checked
from creasewright.places import built_in_designs
from creasewright.problems import NOTES
from creasewright.reading.settings import MakerSettings, Tools

STANDING = ("bulb-bag", "bulb-pot", "seedling-box", "welcome-card")
CASES = [(name, units) for name in STANDING for units in ("in", "mm")]


def worked_with(name: str, units: str, measures: dict[str, str]) -> Checked:
    return checked(built_in_designs()[name], units, 1, measures, MakerSettings(), Tools())


def ends(name: str, units: str) -> dict[str, tuple[str, str]]:
    """Lowest and highest of each measure with a range, as `--set` takes them."""
    found = {}
    for measure in worked_with(name, units, {}).worked.measures:
        if measure.lowest is not None and measure.highest is not None:
            unit = " mm" if measure.power else ""
            found[measure.name] = (f"{float(measure.lowest):.6f}{unit}", f"{float(measure.highest):.6f}{unit}")
    return found


@pytest.mark.parametrize(("name", "units"), CASES)
def test_a_standing_design_works_out_at_both_ends_of_its_ranges(name: str, units: str) -> None:
    ranges = ends(name, units)
    assert len(ranges) >= 3
    together = [{measure: pair[end] for measure, pair in ranges.items()} for end in (0, 1)]
    # the first measures of a design are its size: each of them at its other end as well
    crossed = [{**together[end], measure: ranges[measure][1 - end]} for measure in list(ranges)[:2] for end in (0, 1)]
    for measures in chain(together, crossed):
        done = worked_with(name, units, measures)
        assert [str(finding) for finding in done.findings if finding.severity != NOTES] == [], measures
        assert all(run.refused is None for assembly in done.worked.assemblies for run in assembly.runs), measures


def test_the_lid_keeps_its_room_at_every_size() -> None:
    # inside, the lid clears the tray by twice the ease at least, up to the next mark of the ruler (design-language.md §7.6);
    # a wall's mid-plane rule leaves a caliper in hand
    for units in ("in", "mm"):
        ranges = ends("seedling-box", units)
        for end in (0, 1):
            done = worked_with("seedling-box", units, {measure: pair[end] for measure, pair in ranges.items()})
            assert done.worked.finished is not None
            (fit,) = done.worked.finished.state.coverings
            assert fit.room_width is not None and fit.room_height is not None
            assert 0.9 < fit.room_width - fit.width < 4.0
            assert 0.9 < fit.room_height - fit.height < 4.0
