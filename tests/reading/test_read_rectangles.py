"""Files of plain rectangles: read as they are written, and every fault of a bad one told with its line."""

from fractions import Fraction

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_rectangles import read_rectangles

TABLE = "name,width,height,count,turn\ndoor,64,40 1/2,12,yes\nshelf,96,96.5,5,no\n"
YAML = """
sheets: [{width: 192, height: 180, count: 20, price: 2.50, margin: 4}, {width: 100, height: 100, margin: [1, 2, 3, 4]}]
rectangles: [{name: door, width: 64, height: 40 1/2, count: 12, turn: yes}, {name: shelf, width: 96, height: 96.5, count: 5}]
"""


def test_a_table_and_a_yaml_file_say_the_same():
    table, other = read_rectangles(TABLE, "t.csv"), read_rectangles(YAML, "t.yaml")
    told = [[(r.name, r.width, r.height, r.count, r.may_turn) for r in one.rectangles] for one in (table, other)]
    assert told[0] == told[1] == [("door", 64, Fraction(81, 2), 12, True), ("shelf", 96, Fraction(193, 2), 5, False)]
    assert [(s.width, s.height, s.limit, s.price, s.margins) for s in other.sheets] == [
        (192, 180, 20, Fraction(5, 2), (4, 4, 4, 4)),
        (100, 100, None, 1, (1, 2, 3, 4)),
    ]


def test_names_and_counts_may_be_left_out():
    (one,) = read_rectangles("width,height\n3,4\n", "t.csv").rectangles
    assert (one.name, one.count, one.may_turn) == ("1", 1, False)


@pytest.mark.parametrize(
    ("file", "text", "faults"),
    [
        ("t.csv", "name,width,height,count\na,-64,0,12000000\n", [
            "t.csv:2:1: `-64` for `width` is negative; write a number such as 40, 40.5 or 40 1/2",
            "t.csv:2:1: `0` for `height` is nothing; write a size greater than nothing",
            "t.csv:2:1: `12000000` for `count` is not a whole number from 1 to 999999; write it as `count: 24`",
        ]),
        ("t.csv", "name,width,heigt\na,1,1\n", [
            "t.csv:1:1: `heigt` is not a column of the table; did you mean `height`?",
            "t.csv:1:1: the table has no column `height`; begin it with the line name,width,height,count,turn",
            "t.csv: there is no rectangle in the file; write one a line, with its width and height",
        ]),
        ("t.csv", "name,width,height\na,1,1\na,2,2,7\nb,x,1\n", [
            "t.csv:3:1: 4 values in a table of 3 columns; write one value for each column",
            "t.csv:3:1: there are two rectangles `a`; give each its own name, or one the count of both",
            "t.csv:4:1: `x` for `width` is not a number; write a number such as 40, 40.5 or 40 1/2",
        ]),
        ("t.csv", "width,height\n1,\n", ["t.csv:2:1: line 2 has no `height`; add `height: 40`"]),
        ("t.csv", "", ["t.csv: there is no rectangle in the file; write one a line, with its width and height"]),
        ("t.yaml", "rectangles: [{width: 2, height: 3}]\nsheets: [{width: 8, height: 9, margin: 4}]\n", [
            "t.yaml:2:10: nothing of sheet 1 is left to use; make its margins narrower",
        ]),
        ("t.yaml", "rectangles: [{width: 2, height: 3, turned: yes}]\nsheets: [{width: 8, height: 9, margin: [1, 2]}]\n", [
            "t.yaml:1:36: `turned` is not a key of rectangle 1; did you mean `turn`?",
            "t.yaml:2:32: `margin` has 2 values; write one, or [left, head, right, tail]",
        ]),
    ],
)  # fmt: skip
def test_what_cannot_be_used_is_told_in_one_run(file, text, faults):
    with pytest.raises(ProblemsFound) as caught:
        read_rectangles(text, file)
    assert sorted(map(str, caught.value.problems)) == sorted(faults)
