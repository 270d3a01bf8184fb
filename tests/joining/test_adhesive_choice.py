"""The adhesive that a joint is given where its step names none: one test a rule. All rules are common practice, no source."""

import pytest

from creasewright.fitting.adhesives import joints_of
from small_designs import with_steps, worked_of

BOTH = "materials: {glue: {kind: glue}, wide: {kind: tape, width: 12 mm}, slim: {kind: tape, width: 6 mm}}\n"
FLAP = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm]}"
TWO = "card: {width: 80 mm, height: 60 mm}\nmat: {width: 60 mm, height: 40 mm}"
STRIP = "{glue: flap, onto: page, along: tail}"
LARGE = "strip: {height: 200 mm, across: [flap: 120 mm, page: 150 mm]}"


def paper(caliper: str) -> str:
    return f"papers: {{card: {{sheet: [600 mm, 600 mm], caliper: {caliper}}}}}"


def chosen(glued: str, caliper: str = "0.3 mm", blanks: str = FLAP, materials: str = BOTH) -> tuple[str, str, float]:
    """Material, reason, width of its strips."""
    steps = ("{fold: flap}", glued) if "flap" in glued else (glued,)
    joint = joints_of(worked_of(materials + with_steps(blanks, *steps), paper(caliper)))[-1]
    assert joint.chosen == ("with:" not in glued)
    return joint.material, joint.why, joint.width


def test_where_either_would_do_the_usual_one_is_taken():
    assert chosen(STRIP) == ("glue", "", 6)
    # the one named `glue`, wherever it stands; else the first
    assert chosen(STRIP, materials="materials: {slim: {kind: tape, width: 6 mm}, glue: {kind: glue}}\n") == ("glue", "", 6)
    assert chosen(STRIP, materials="materials: {slim: {kind: tape, width: 6 mm}, paste: {kind: glue}}\n") == ("slim", "", 6)


def test_board_takes_wet_glue_also_where_tape_is_the_usual_one():
    tape_first = "materials: {slim: {kind: tape, width: 6 mm}, paste: {kind: glue}}\n"
    assert chosen("{glue: flap, onto: page}", "2 mm", materials=tape_first) == ("paste", "board", 0)


def test_thin_paper_takes_tape():
    # from 0.09 mm on either would do
    assert chosen(STRIP, "0.08 mm")[:2] == ("wide", "thin")
    assert chosen(STRIP, "0.09 mm")[:2] == ("glue", "")


def test_a_large_thin_face_takes_tape_but_not_its_strips():
    # 120 mm by 200 mm less 3 mm at every edge: 114 x 194 = 22,116 mm², more than 15,000
    assert chosen("{glue: flap, onto: page}", "0.1 mm", LARGE)[:2] == ("wide", "large")
    assert chosen(STRIP, "0.1 mm", LARGE)[:2] == ("glue", "")
    assert chosen("{glue: flap, onto: page}", "0.2 mm", LARGE)[:2] == ("glue", "")


@pytest.mark.parametrize("place", ["onto: card, meet: {left: left, head: head}", "onto: card, meet: centre"])
def test_what_is_put_to_its_lines_takes_wet_glue(place: str):
    tape_first = "materials: {slim: {kind: tape, width: 6 mm}, paste: {kind: glue}}\n"
    assert chosen(f"{{join: mat, {place}}}", blanks=TWO, materials=tape_first)[:2] == ("paste", "slides")
    assert chosen(f"{{stick on: mat, {place}}}", blanks=TWO, materials=tape_first)[:2] == ("slim", "")


def test_a_strip_that_runs_to_the_edge_takes_tape_for_glue_creeps_out_and_shows():
    assert chosen("{glue: flap, onto: page, along: tail, setback: 0 mm}")[:2] == ("wide", "shows")
    assert chosen("{glue: flap, onto: page, along: tail, setback: 1 mm}")[:2] == ("glue", "")


def test_what_the_step_names_it_gets():
    assert chosen("{glue: flap, onto: page, along: tail, with: glue}", "0.05 mm") == ("glue", "thin", 6)


def test_of_tapes_the_widest_that_leaves_its_margins_is_taken_and_the_strip_is_as_wide_as_it():
    # 30 mm of flap hold 12 mm and 3 mm at either side; 14 mm leave 8 between the margins, which 12 mm of tape do not go into
    assert chosen("{glue: flap, onto: page, along: right}", "0.05 mm") == ("wide", "thin", 12)
    narrow = "strip: {height: 100 mm, across: [flap: 14 mm, page: 90 mm]}"
    assert chosen("{glue: flap, onto: page, along: right}", "0.05 mm", narrow) == ("slim", "thin", 6)
    assert chosen("{glue: flap, onto: page, along: right, width: 8 mm}", "0.05 mm") == ("slim", "thin", 8)


def test_a_strip_of_glue_is_made_narrower_where_its_margins_leave_no_more():
    # 10 mm of flap less 3 mm at either side leave 4 mm: the narrow strip of 3 mm goes there, the usual one of 6 mm does not
    narrow = "strip: {height: 100 mm, across: [flap: 10 mm, page: 90 mm]}"
    assert chosen("{glue: flap, onto: page, along: right}", blanks=narrow) == ("glue", "", 3)
    assert chosen("{glue: flap, onto: page, along: right, width: 6 mm}", blanks=narrow) == ("glue", "", 6)


def test_a_design_that_lists_none_has_glue_and_tape_at_hand():
    assert chosen(STRIP, materials="") == ("glue", "", 6)
    assert chosen(STRIP, "0.05 mm", materials="") == ("double-sided tape", "thin", 6)
    ribbon = "materials: {glue: {kind: ribbon}}\n"
    assert chosen(STRIP, materials=ribbon) == ("double-sided tape", "", 6)


def test_the_other_tries_leave_nothing_behind():
    steps = ("{fold: flap}", STRIP)
    worked = worked_of(BOTH + with_steps(FLAP, *steps), paper("0.05 mm"))
    state = worked.assemblies[-1].runs[-1].after
    assert [area.material for area in state.glue] == ["wide"]
    assert [bond.material for bond in state.bonds] == ["wide"]
