"""Joints: amounts and times. The times and the film of 0.15 mm are common practice, no source."""

import pytest

from creasewright.booklet.amounts import bought_millilitres, bought_rolls
from creasewright.commands.adhesive_lines import adhesive_lines
from creasewright.fitting.adhesives import joints_of, millilitres, minutes, waiting
from small_designs import with_steps, worked_of

GLUE = "materials: {glue: {kind: glue}}\n"
STRIP = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm]}"
GLUED = ("{fold: flap}", "{glue: flap, onto: page, along: tail}")


def test_a_strip_of_glue_has_its_length_width_and_volume():
    worked = worked_of(GLUE + with_steps(STRIP, *GLUED))
    (joint,) = joints_of(worked)
    # 30 mm of flap less 3 mm at either end; 6 mm wide; 0.15 mm deep: 24 x 6 x 0.15 = 21.6 mm³
    assert joint.length == pytest.approx(24)
    assert joint.narrowest == pytest.approx(6)
    assert joint.mm2 == pytest.approx(144)
    assert millilitres(worked, "glue") == pytest.approx(0.0216)


def test_the_longest_drying_counts_where_no_step_waits_for_it():
    assert waiting(worked_of(GLUE + with_steps(STRIP, *GLUED))).dry == 10
    assert waiting(worked_of(GLUE + with_steps(STRIP, *GLUED, "{press: strip, for: 1 h 30 min}"))).dry == 90
    assert waiting(worked_of(with_steps(STRIP, "{fold: flap}"))).dry == 0


def test_holding_is_counted_for_every_joint():
    assert waiting(worked_of(GLUE + with_steps(STRIP, *GLUED))).hold == pytest.approx(0.5)


@pytest.mark.parametrize(("text", "value"), [("30 min", 30), ("2 h", 120), ("1 h 30 min", 90), ("45 s", 0.75), ("1.5 h", 90)])
def test_times_are_read(text: str, value: float):
    assert minutes(text) == pytest.approx(value)


@pytest.mark.parametrize("text", ["overnight", "", "30", "30 min or so"])
def test_what_is_no_time_is_none(text: str):
    assert minutes(text) is None


def test_amounts_are_rounded_up_as_one_buys_them():
    assert [bought_millilitres(ml) for ml in (0.02, 3.0, 3.1, 11.0)] == ["1 ml", "3 ml", "4 ml", "15 ml"]
    assert bought_rolls(9_999, "mm") == (1, "10 m")
    assert bought_rolls(10_001, "in") == (2, "33 ft")


def test_check_tells_the_adhesive_of_each_joint_and_why():
    both = "materials: {glue: {kind: glue}, tape: {kind: tape, width: 12 mm}}\n"
    tissue = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.05 mm}}"
    named = ("{fold: flap}", "{glue: flap, onto: page, with: glue}")
    assert adhesive_lines(worked_of(both + with_steps(STRIP, *GLUED))) == [
        "",
        "Adhesive",
        "  step 2: glue (chosen; wet glue or tape would do), strips 6 mm wide, hold 30 s, dry 10 min",
    ]
    assert adhesive_lines(worked_of(both + with_steps(STRIP, *GLUED), tissue))[2:] == [
        "  step 2: tape (chosen; tape suits thin paper), strips 12 mm wide, hold 5 s"
    ]
    assert adhesive_lines(worked_of(both + with_steps(STRIP, *named), tissue))[2:] == [
        "  step 2: glue (named; tape suits thin paper), all over, hold 30 s, dry 10 min"
    ]
    assert adhesive_lines(worked_of(with_steps(STRIP, "{fold: flap}"))) == []
