"""`Glue and waiting`: steps that glue alike share a row, none is left out, and the time in all is told once."""

import re

import pytest

from creasewright.booklet.drawing import Tagged, Words
from creasewright.booklet.sections.steps import build
from creasewright.booklet.waiting_blocks import waiting_blocks
from creasewright.fitting.adhesives import joints_of
from section_cases import DESIGNS, context_of, every_item, said, shipped, written


def rows(design: str, system: str = "in") -> list[list[str]]:
    """The table's cells, row after row."""
    blocks = waiting_blocks(context_of(shipped(design, system), "steps"))
    found = []
    for row in (item for item in every_item(item for block in blocks for item in block.items) if isinstance(item, Tagged)):
        if row.kind == "TR":
            cells = [[word for word in every_item(cell.items) if isinstance(word, Words)] for cell in row.items]
            found.append([written(" ".join("".join(run.text for run in word.runs) for word in cell)) for cell in cells])
    return found[1:]


def test_steps_that_glue_alike_share_a_row_also_those_of_a_mirrored_assembly() -> None:
    assert [row[0] for row in rows("seed-swap-folio")] == [
        "3, 5 of the front block and the back block",
        "6 of the front block and the back block",
        "2, 3 of the folio",
        "6 of the folio",
    ]


def test_other_steps_of_another_assembly_stand_on_a_line_of_their_own() -> None:
    assert "2 of the front cover 11, 12 of the album" in [row[0] for row in rows("season-album")]


@pytest.mark.parametrize("design", DESIGNS)
def test_no_joint_is_left_out_or_told_twice_and_no_two_rows_say_the_same(design: str) -> None:
    told = rows(design)
    joints = joints_of(shipped(design))
    # with the names of its assemblies a line of steps stands for each of them
    lines = [found for row in told for found in re.findall(r"([0-9, ]*[0-9])([^0-9]*)", row[0])]
    count = sum(len(numbers.split(", ")) * (1 + names.count(" and the ")) for numbers, names in lines)
    assert count == len({(joint.assembly, joint.step, joint.material) for joint in joints}) == len(joints)
    assert len({tuple(row[1:]) for row in told}) == len(told)


def test_the_time_in_all_stays_with_the_last_row_and_a_page_that_goes_on_is_headed_so() -> None:
    head, *rest = waiting_blocks(context_of(shipped("season-album"), "steps"))
    assert rest[-2].keep_with_next
    assert {block.head.title for block in (head, *rest) if block.head} == {"Glue and waiting"}
    assert [block.head.begins for block in (head, *rest) if block.head] == [True] + [False] * len(rest)


def test_what_is_slid_in_waits_once_for_the_glue_before_it() -> None:
    folio = said(build(context_of(shipped("seed-swap-folio"), "steps")))
    # each block: three joints, then two cards; the middle pocket stays empty
    assert folio.count("Wait until the glue is dry.") == 2
    assert folio.count("Wait until the glue is dry. Rub out the pencilled letter E. Slide seed card E into the front pocket") == 2
    assert "Wait until the glue is dry. Slide the seed packet" in said(build(context_of(shipped("seed-packet-envelope"), "steps")))
    # the journal's case is pressed for two hours before its block goes in
    assert "Wait until" not in said(build(context_of(shipped("garden-journal"), "steps")))
