"""The adhesive of each joint: silent where it suits, exactly these words where not. The rules are common practice, no source."""

from pathlib import Path

import pytest

from creasewright.checks.adhesives_suit import adhesives_suit
from creasewright.checks.facts import Facts
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import TRIMMER, found_by, with_steps

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
MATERIALS = "materials: {glue: {kind: glue}, tape: {kind: tape, width: 12 mm}}\n"
FLAP = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm]}"
TISSUE = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.05 mm}}"
COPY = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.1 mm}}"
BOARD = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 2 mm}}"
CARD = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"


GLUE_ONLY = "materials: {glue: {kind: glue}}\n"


def found(glued: str, papers: str = CARD, blanks: str = FLAP) -> list[tuple[str, str, str]]:
    return found_by(adhesives_suit, MATERIALS + with_steps(blanks, "{fold: flap}", glued), papers)


@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
def test_every_built_in_design_glues_with_what_suits(design: Path):
    assert adhesives_suit(Facts(work_out(read_design(design), "in"), (), TRIMMER)) == []


def test_a_strip_of_glue_on_card_is_fine():
    assert found("{glue: flap, onto: page, along: tail}") == []


def test_wet_glue_on_tissue_is_told_where_it_is_named():
    assert found("{glue: flap, onto: page, along: tail, with: glue}", TISSUE) == [
        ("notes", "step 2 uses glue: paper under 0.09 mm cockles under wet glue, and shows it", "name a tape with `with:`")
    ]
    assert found("{glue: flap, onto: page, along: tail, with: tape, width: 12 mm}", TISSUE) == []
    assert found("{glue: flap, onto: page, along: tail}", TISSUE) == []


def test_a_kind_that_the_design_lacks_is_told():
    steps = ("{fold: flap}", "{glue: flap, onto: page, along: tail}")
    assert found_by(adhesives_suit, GLUE_ONLY + with_steps(FLAP, *steps), TISSUE) == [
        (
            "notes",
            "step 2 uses glue: paper under 0.09 mm cockles under wet glue, and shows it",
            "add a tape to `materials:`, no wider than its strip",
        )
    ]
    tape_only = "materials: {tape: {kind: tape, width: 12 mm}}\n"
    steps = ("{fold: flap}", "{glue: flap, onto: page}")
    assert found_by(adhesives_suit, tape_only + with_steps(FLAP, *steps), BOARD) == [
        ("notes", "step 2 uses tape: board wants wet glue", "add a glue to `materials:`")
    ]


def test_wet_glue_all_over_a_large_thin_face_is_told():
    large = "strip: {height: 200 mm, across: [flap: 120 mm, page: 150 mm]}"
    assert found("{glue: flap, onto: page, with: glue}", COPY, large) == [
        ("notes", "step 2 uses glue: so large a face of thin paper cockles under wet glue", "name a tape with `with:`")
    ]
    assert found("{glue: flap, onto: page, along: tail}", COPY, large) == []


def test_tape_all_over_board_is_told():
    assert found("{glue: flap, onto: page, with: tape}", BOARD) == [
        ("notes", "step 2 uses tape: board wants wet glue", "name a glue with `with:`")
    ]


def test_a_flap_too_narrow_for_its_strip_is_told():
    # 10 mm of flap less 3 mm at either edge leave 4 mm
    narrow = "strip: {height: 100 mm, across: [flap: 10 mm, page: 90 mm]}"
    assert found("{glue: flap, onto: page, along: right, width: 4 mm}", CARD, narrow) == []
    assert found("{glue: flap, onto: page, along: right, width: 6 mm}", CARD, narrow) == [
        (
            "warns",
            "the strip of step 2 should be 6 mm wide, but 4 mm is left between its margins",
            "make the flap wider, or `width:` or `setback:` smaller",
        )
    ]


def test_glue_up_to_the_edge_and_tape_wider_than_its_strip_are_told():
    assert found("{glue: flap, onto: page, along: tail, setback: 0 mm, with: glue}") == [
        ("notes", "the glue of step 2 runs to the edge and creeps out of it", "give it a `setback:`, or name a tape with `with:`")
    ]
    assert found("{glue: flap, onto: page, along: tail, with: tape, width: 6 mm}") == [
        ("warns", "tape is 12 mm wide, but the strip of step 2 6 mm", "take a narrower tape, or write `width: 12 mm`")
    ]
