"""Cuts that a step makes: silent where the paper lies by itself, exactly these words where something else would be cut with it."""

from pathlib import Path

import pytest

from creasewright.checks.cut_in_time import cut_in_time
from creasewright.checks.facts import Facts
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import TRIMMER, found_by, with_steps

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
GLUE = "materials: {glue: {kind: glue}}\n"
NOTCHED = (
    "strip: {height: 100 mm, across: [flap: 40 mm, page: 90 mm], "
    "notches: [{at: [0 mm, 50 mm], width: 20 mm, depth: 10 mm, round: yes, template: thumb}]}"
)
FOLD, POCKET = "{fold: flap}", "{glue: flap, onto: page, along: [head, tail], makes: front pocket}"
THUMB = "{trim: strip, with: thumb}"
MATTED = "card: {width: 80 mm, height: 60 mm}\nmat: {width: 60 mm, height: 40 mm, corners: {all: {round: 5 mm}}}"
HOLED = "card: {width: 80 mm, height: 60 mm, holes: {eye: {at: [20 mm, 30 mm], across: 4 mm}}}\nlining: {width: 80 mm, height: 60 mm}"
SLIT = "sheet: {height: 80 mm, across: [a: 50 mm, b: 50 mm], slits: {heart: {line: [[20 mm, 40 mm], [40 mm, 40 mm]]}}}"


def found(blanks: str, *steps: str) -> list[tuple[str, str, str]]:
    return found_by(cut_in_time, GLUE + with_steps(blanks, *steps))


@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
def test_every_built_in_design_cuts_in_time(design: Path):
    assert cut_in_time(Facts(work_out(read_design(design), "mm"), (), TRIMMER)) == []


def test_a_thumb_notch_is_cut_before_its_pocket_closes():
    assert found(NOTCHED, FOLD, POCKET, THUMB) == [
        (
            "warns",
            "step 3 trims flap of strip when front pocket is closed already: the cut goes through page of strip too",
            "put step 3 before step 2",
        )
    ]
    assert found(NOTCHED, THUMB, FOLD, POCKET) == []


def test_a_notch_is_easier_before_its_flap_is_folded_over():
    assert found(NOTCHED, FOLD, THUMB, POCKET) == [
        (
            "notes",
            "step 2 trims flap of strip when page of strip lies against it: the cut goes through page of strip too",
            "put step 2 before step 1",
        )
    ]


def test_corners_are_rounded_before_the_piece_is_glued_down():
    stick = "{stick on: mat, onto: card, meet: centre}"
    assert found(MATTED, stick, "{round: mat}") == [
        ("warns", "step 2 rounds mat when card lies against it for good: the cut goes through card too", "put step 2 before step 1")
    ]
    assert found(MATTED, "{round: mat}", stick) == []


def test_a_corner_that_stands_out_beyond_what_it_is_glued_to_is_easier_before():
    # the mat's head stands 30 mm out beyond the card, and only its two corners there are rounded
    blanks = "card: {width: 80 mm, height: 60 mm}\nmat: {width: 60 mm, height: 40 mm, "
    blanks += "corners: {head-left: {round: 5 mm}, head-right: {round: 5 mm}}}"
    out = "{stick on: mat, onto: card, meet: {left: left, head: {from: head, by: -30 mm}}}"
    assert found(blanks, out, "{round: mat}") == [
        ("notes", "step 2 rounds mat when it is glued already; it is easier before", "put step 2 before step 1")
    ]


def test_a_hole_is_punched_before_a_lining_covers_it():
    lined = "{join: lining, onto: card, meet: centre}"
    assert found(HOLED, lined, "{punch: eye of card}") == [
        ("warns", "step 2 punches card when lining lies against it for good: the cut goes through lining too", "put step 2 before step 1")
    ]
    assert found(HOLED, "{punch: eye of card}", lined) == []


def test_a_slit_is_cut_while_the_sheet_lies_open():
    assert found(SLIT, FOLD.replace("flap", "a"), "{cut: heart}") == [
        ("notes", "step 2 cuts a of sheet when b of sheet lies against it: the cut goes through b of sheet too", "put step 2 before step 1")
    ]
    assert found(SLIT, "{cut: heart}", FOLD.replace("flap", "a")) == []


def test_a_slit_between_two_panels_that_lie_beside_each_other_cuts_nothing_else():
    beside = "sheet: {across: [a: 50 mm, b: 50 mm], down: [top: 40 mm, low: 40 mm], slits: {half: {on: a/b, over: [top]}}}"
    assert found(beside, "{lay: sheet}", "{cut: half}") == []


def test_pieces_that_are_cut_together_on_purpose_are_not_told():
    both = "card: {width: 80 mm, height: 60 mm, corners: {all: {round: 5 mm}}}\nlid: {same as: card}"
    assert found(both, "{place: lid, onto: card}", "{round: [card, lid]}") == []


def test_a_line_is_scored_before_it_is_folded():
    strip = "strip: {height: 100 mm, across: [a: 40 mm, b: 90 mm]}"
    assert found(strip, "{fold: a}", "{score: a/b}") == [
        ("notes", "step 2 scores a/b of strip when step 1 has folded it already", "put step 2 before step 1")
    ]
    assert found(strip, "{score: a/b}", "{fold: a}") == []
