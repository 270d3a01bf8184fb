"""The order of the steps: silent where everything can be got at, and exactly these words where it cannot."""

from pathlib import Path

import pytest

from creasewright.checks.facts import Facts
from creasewright.checks.order_of_work import order_of_work
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import TRIMMER, found_by, with_steps

DESIGNS = sorted((Path(__file__).parents[2] / "designs").glob("*.yaml"))
GLUE = "materials: {glue: {kind: glue}, ribbon: {kind: ribbon}}\nthings: {seed packet: {width: 60 mm, height: 80 mm}}\n"
STRIP = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm]}"
COVER = "lid: {width: 90 mm, height: 100 mm}"
POCKETED = "strip: {height: 100 mm, across: [page: 70 mm, front: 70 mm, lap: 20 mm]}"
HOLED = "card: {width: 80 mm, height: 60 mm, holes: {eye: {at: [20 mm, 30 mm], across: 4 mm}}}\nlining: {width: 80 mm, height: 60 mm}"


def found(blanks: str, *steps: str) -> list[tuple[str, str, str]]:
    return found_by(order_of_work, GLUE + with_steps(blanks, *steps))


@pytest.mark.parametrize("design", DESIGNS, ids=lambda path: path.stem)
def test_every_built_in_design_is_made_in_an_order_that_works(design: Path):
    assert order_of_work(Facts(work_out(read_design(design), "mm"), (), TRIMMER)) == []


def test_glue_under_a_panel_that_is_glued_over_it_cannot_be_reached():
    steps = ("{fold: flap}", "{join: lid, onto: [flap, page], meet: {left: left, head: head}}", "{glue: flap, onto: page}")
    assert found(f"{STRIP}\n{COVER}", *steps) == [
        (
            "blocks",
            "step 3 glues flap of strip, over which lid is closed by step 2",
            "put step 3 before step 2",
        )
    ]


def test_glue_under_a_panel_that_is_only_folded_over_it_can_be_reached():
    strip = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm, cover: 88 mm]}"
    assert found(strip, "{fold: flap}", "{fold: cover}", "{glue: flap, onto: page}") == []


def test_a_pocket_whose_opening_was_folded_over_and_glued_takes_nothing_more():
    flaps = "{front: {at: left of base, depth: 70 mm}, lid: {at: head of base, depth: 25 mm}}"
    blanks = f"bag: {{base: {{width: 70 mm, height: 90 mm}}, flaps: {flaps}}}"
    shut = (
        "{fold: front}", "{glue: front, onto: base, along: [tail, right], makes: pouch}",
        "{fold: lid}", "{glue: lid, onto: front}", "{insert: seed packet, into: pouch}",
    )  # fmt: skip
    told = found(blanks, *shut)
    assert told[0] == (
        "blocks", "step 5 puts seed packet into pouch, which step 4 has closed", "put step 5 before step 4",
    )  # fmt: skip
    assert told[1:] == [
        ("warns", "seed packet is sealed into pouch for ever", "leave the last fold unglued, or say with `known:` that it is meant so")
    ]
    assert found(blanks, *shut[:2], "{insert: seed packet, into: pouch}", "{fold: lid}") == []


def test_a_ribbon_cannot_be_threaded_through_a_hole_that_a_lining_covers():
    lined = "{join: lining, onto: card, meet: centre}"
    thread = "{tie: ribbon, around: card, path: [eye of card], ends: 50 mm}"
    assert found(HOLED, lined, thread) == [
        ("blocks", "step 2 threads a hole of card that lining covers since step 1", "put step 2 before step 1")
    ]
    assert found(HOLED, thread, lined) == []


def test_decoration_on_a_wall_that_stands_is_easier_while_it_lay_flat():
    box = "tray: {base: {width: 60 mm, height: 60 mm}, flaps: {wall: {at: each edge of base, depth: 50 mm}}}"
    box += "\nmat: {width: 40 mm, height: 30 mm}"
    up, mat = "{fold: [each wall], to: 90}", "{stick on: mat, onto: wall 1, meet: centre}"
    assert found(box, "{lay: tray, up: back}", up, mat) == [
        ("notes", "step 3 decorates wall 1 of tray when it stands already; it is easier while it lies flat", "put step 3 before step 2")
    ]
    assert found(box, "{lay: tray, up: back}", mat, up) == []


FOLDER = "card: {height: 100 mm, across: [a: 80 mm, b: 80 mm]}\nmat: {width: 60 mm, height: 80 mm}"


def test_decoration_on_the_one_panel_that_stands_is_easier_while_it_lay_flat():
    # half of the card lies on the table still
    up, mat = "{fold: b, to: 90, stays: a}", "{stick on: mat, onto: b, meet: centre}"
    assert found(FOLDER, "{lay: card, up: back}", up, mat) == [
        ("notes", "step 3 decorates b of card when it stands already; it is easier while it lies flat", "put step 3 before step 2")
    ]
    assert found(FOLDER, "{lay: card, up: back}", up, "{stick on: mat, onto: a, meet: centre}") == []


def test_decoration_under_a_panel_that_is_folded_over_it_is_easier_while_it_lay_open():
    over, mat = "{fold: b}", "{stick on: mat, under: a, meet: centre}"
    assert found(FOLDER, "{lay: card, up: back}", over, mat) == [
        ("notes", "step 3 decorates a of card when b of card lies over it; it is easier while it lies open", "put step 3 before step 2")
    ]
    # on the outside nothing lies over it
    assert found(FOLDER, "{lay: card, up: back}", over, "{stick on: mat, onto: a, meet: centre}") == []
