"""`check --grooves`: sizes that bring scores over grooves, tried on a shipped design."""

from pathlib import Path

import pytest

from creasewright.checked import checked
from creasewright.commands.groove_lines import groove_lines
from creasewright.groove_sizes import better_sizes
from creasewright.places import built_in_designs
from creasewright.reading.settings import MakerSettings, Tools


def lines(name: str, units: str) -> list[str]:
    path: Path = built_in_designs()[name]
    done = checked(path, units, 1, {}, MakerSettings(), Tools())
    return list(groove_lines(done, better_sizes(path, done, 1, {}, MakerSettings())))


def test_a_gate_of_a_groove_s_width_is_found_with_what_else_it_changes() -> None:
    # the gates' scores lie at 63 and 193 of 256: 63, 193 and 256 less either are no fives. With gates of 65 they lie at 65 and 195, but
    # 130 of face less twice 65 leaves nothing of the 3 mm between the doors
    said = lines("open-day-card", "mm")
    assert "  gate 65 mm in place of 63 mm: none of 2 scores stay off" in said
    after = said[said.index("  gate 65 mm in place of 63 mm: none of 2 scores stay off") + 1 :]
    assert after[0] == "    card 260 × 150 mm, now 256 × 150 mm"
    assert after[1].startswith("    warns (gate): ")


@pytest.mark.parametrize("name", ["bulb-pillow", "swap-day-card"])
def test_nothing_is_tried_where_every_score_is_on_a_setting(name: str) -> None:
    assert lines(name, "mm") == ["\nGrooves", "  every score is on a setting of the score board"]


def test_sizes_at_which_a_step_is_refused_are_passed_over() -> None:
    # a seam of 10 mm, within a groove of 15, cannot be joined: it comes to lie against the bag's foot
    assert any(line.startswith("  half 20 mm in place of 22 mm: none of 5") for line in lines("bulb-bag", "mm"))


def test_two_measures_are_changed_together_where_no_one_brings_all_scores_over_grooves() -> None:
    # the lining's scores lie w - j + 4, then j, then the spine s, then j apart, with w = 130, j = 7 and s = 19 (12 thick): 127, 134, 153
    # and 160 of 287. Outer ones are on a groove where w - j + 4 or w + j + s + 4 is a five, inner ones where w + 4 or w + 4 + s is. One
    # more of w makes 135 a five, and one less of s keeps 131 + 7 + 18 + 4 = 160 one
    said = lines("garden-journal", "mm")
    assert said[1] == "  block width 131 mm in place of 130 mm and block thickness 11 mm in place of 12 mm: none of 2 scores stay off"
    assert "    lining 288 × 192 mm, now 287 × 192 mm" in said


def test_scores_beside_no_straight_edge_are_told_apart_as_no_size_helps_them() -> None:
    assert lines("bulb-pot", "mm") == [
        "\nGrooves",
        "  beside the scores that are off no edge is straight enough to lie against the stop: no size brings them over a groove",
    ]
