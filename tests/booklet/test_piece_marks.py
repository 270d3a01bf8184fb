"""Pieces of one letter bear one mark where they are treated alike, and numbers where they are not."""

from creasewright.booklet.part_words import as_seen, part_words
from creasewright.booklet.piece_marks import marked_parts, part_marks
from section_cases import shipped
from small_designs import worked_of

TWO_WAYS = """
blanks:
  strip: {height: 100 mm, across: [a: 30 mm, b: 70 mm]}
assemblies:
  inner: {parts: {strip: 1}, steps: [{fold: a}]}
  outer: {parts: {strip: 1}, steps: [{mountain: a}]}
  all:
    parts: {low: inner, middle: outer, high: inner}
    steps:
      - {join: middle, by: b of strip, onto: b of strip of low, meet: {right: right, head: head}}
      - {join: high, by: b of strip, onto: b of strip of middle, meet: {right: right, head: head}}
"""


def test_the_folio_s_strips_are_told_apart_by_block() -> None:
    marks = part_marks(shipped("seed-swap-folio"))
    assert {part: mark for part, mark in marks.items() if mark[0] in "AB"} == {
        "front block/left strip": "A1",
        "front block/right strip": "B1",
        "back block/right strip": "A2",  # the back block is a mirror image: its right strip has the left one's shape
        "back block/left strip": "B2",
    }
    assert {mark for part, mark in marks.items() if "card" in part} == {"E"}  # no fold lines: all alike


def test_equal_pieces_scored_alike_share_a_mark_and_those_scored_apart_do_not() -> None:
    worked = worked_of(TWO_WAYS)
    (piece,) = worked.pieces
    assert marked_parts(worked, piece) == (("A1", ("low/strip", "high/strip")), ("A2", ("middle/strip",)))


def test_names_in_a_mirrored_block_change_left_and_right_over() -> None:
    worked = shipped("seed-swap-folio")
    assert part_words(worked, "front block/left strip") == "left strip of the front block"
    assert part_words(worked, "back block/left strip") == "right strip of the back block"
    assert part_words(worked, "back block/front pocket") == "front pocket of the back block"
    assert as_seen("top-left, Right and leftover") == "top-right, Left and leftover"
