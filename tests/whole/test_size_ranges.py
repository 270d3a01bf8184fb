"""Every design works at both ends of every range it promises, and at all ends together, in both systems."""

import pytest
from test_designs import BOTH, named

from creasewright.checked import AtEnd, Checked, checked, checked_at_ends
from creasewright.problems import NOTES
from creasewright.reading.settings import MakerSettings, Tools
from creasewright.size_range import ends_of_ranges
from small_designs import worked_of


def done(path, system) -> Checked:
    return checked(path, system, 1, {}, MakerSettings(), Tools())


@pytest.mark.parametrize("pair", BOTH, ids=named)
def test_nothing_is_found_at_any_end_of_a_design_s_ranges(pair):
    ends: list[AtEnd] = list(checked_at_ends(pair[0], done(*pair), 1, {}, MakerSettings()))
    # a cut that a trimmer makes badly is the plan's of that size, and the maker is told to take knife and ruler
    told = {end.end: [f for f in end.findings if f.severity != NOTES and f.check != "trimmer"] for end in ends}
    found = {end.end: [str(p) for p in end.problems] + [str(f) for f in told[end.end]] for end in ends}
    assert {end: lines for end, lines in found.items() if lines} == {}


def test_ends_are_each_measure_s_own_and_all_together():
    worked = worked_of(
        "measures: {wide: {is: 50 mm, from: 40 mm, to: 60 mm}, lean: {is: 0, from: 0, to: 8}, tall: 30 mm}\n"
        "blanks:\n  card: {width: wide, height: tall}\n"
    )
    assert list(ends_of_ranges(worked)) == [
        ("wide 40 mm", {"wide": "40 mm"}),
        ("wide 60 mm", {"wide": "60 mm"}),
        ("lean 8", {"lean": "8"}),
        ("all at their lowest", {"wide": "40 mm", "lean": "0"}),
        ("all at their highest", {"wide": "60 mm", "lean": "8"}),
    ]


def test_ends_in_inches_are_written_in_inches():
    body = "measures: {wide: {is: 4 in, from: 3 1/8 in, to: 4 in}}\nblanks:\n  card: {width: wide, height: wide}\n"
    worked = worked_of(body, system="in")
    assert list(ends_of_ranges(worked)) == [("wide 3 1/8 in", {"wide": "3 1/8 in"})]
