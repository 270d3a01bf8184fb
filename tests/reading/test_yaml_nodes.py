"""The carrier: what is read as it stands, what is refused, and where."""

import pytest
import yaml

from creasewright.problems import ProblemsFound, Where
from creasewright.reading import yaml_nodes
from creasewright.reading.faults import Faults
from creasewright.reading.nodes import Mapping, Scalar, Sequence

LOADERS = [yaml.SafeLoader, *([yaml.CSafeLoader] if hasattr(yaml, "CSafeLoader") else [])]


@pytest.fixture(params=LOADERS, ids=lambda loader: loader.__name__, autouse=True)
def loader(request, monkeypatch):
    """Each test with both parsers: the one in C may be missing where the program runs."""
    monkeypatch.setattr(yaml_nodes, "LOADER", request.param)


def read(text: str) -> Mapping:
    faults = Faults()
    root = yaml_nodes.read_nodes(text, "f", faults, "first: line")
    faults.raise_if_any()
    return root


def test_every_value_is_text_with_its_place():
    root = read("a: no\nb: [1e3, 4:30]\n")
    assert root == Mapping(
        (
            (Scalar("a", Where("f", 1, 1), False), Scalar("no", Where("f", 1, 4), False)),
            (
                Scalar("b", Where("f", 2, 1), False),
                Sequence((Scalar("1e3", Where("f", 2, 5), False), Scalar("4:30", Where("f", 2, 10), False)), Where("f", 2, 4)),
            ),
        ),
        Where("f", 1, 1),
    )


@pytest.mark.parametrize(
    ("text", "value", "line", "column"),
    [
        ('a: "x, y"\n', "x, y", 1, 5),  # after the quote
        ("a: |\n   one two\n   three\n", "one two\nthree\n", 2, 4),  # the line below, after its indent
        ("a: >\n\n  folded\n  text\n", "\nfolded text\n", 2, 3),
        ("é: ü\n", "ü", 1, 4),  # columns count letters, not bytes
        ("\ufeffa: x\n", "x", 1, 4),
        ("# first\r\na: x\r\n", "x", 2, 4),
    ],
)
def test_a_value_s_place_is_its_first_character(text, value, line, column):
    assert read(text).entries[0][1] == Scalar(value, Where("f", line, column), value not in ("ü", "x"))


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("", ["f: the file is empty; begin it with `first: line`"]),
        ("# only a remark\n", ["f: the file is empty; begin it with `first: line`"]),
        ("just words\n", ["f:1:1: the file holds `just words` where keys and values were expected; begin it with `first: line`"]),
        ("- a\n", ["f:1:1: the file holds a list where keys and values were expected; begin it with `first: line`"]),
        ("a: 1\n---\nb: 2\n", ["f:2:1: a second document begins here; keep one design in one file"]),
        (
            "a: 1\nb: 2\na: 3\na: 4\n",
            [
                "f:3:1: `a` is written twice; first in line 1; keep one of the two",
                "f:4:1: `a` is written twice; first in line 1; keep one of the two",
            ],
        ),
        ("a: &x 1\nb: 2\n", ["f:1:4: `&x` gives a value a mark to be used elsewhere; write the value again where it is needed"]),
        ("a: 1\nb: *x\n", ["f:2:4: `*x` stands for a value written elsewhere; write the value again here"]),
        (
            "a: !!int 1\nb: !odd {}\n",
            [
                "f:1:4: `!!int` gives a value a type; take it out; every value is read as text",
                "f:2:4: `!odd` gives a value a type; take it out; every value is read as text",
            ],
        ),
        ("<<: {a: 1}\n", ["f:1:1: `<<` is not read; write the values again here"]),
        ("? {a: 1}\n: 2\n", ["f:1:3: a list or mapping stands where a key was expected; write a name, then a colon"]),
        ("a: {: 2}\n", ["f:1:5: a colon has no name before it; write the name"]),
        (": 2\n", ["f:1:1: a colon has no name before it; write the name"]),
        (
            "a:\n\tb: 1\n\tc: 2\n",
            [
                "f:2:1: a tab stands at the start of the line; indent with spaces",
                "f:3:1: a tab stands at the start of the line; indent with spaces",
            ],
        ),
        ("a: x\0\n", ["f:1:5: the character U+0000 is not text; take it out, or save the file as UTF-8"]),
        (
            "a: [up(1, 2), 3]\n",
            ['f:1:5: `up(1, 2)` holds a comma, which parts entries within {…} and […]; put it in quotes: "up(1, 2)"'],
        ),
        (
            "a: {b: up(1, max(2, 3)), c: 4}\n",
            [
                "f:1:8: `up(1, max(2, 3))` holds a comma, which parts entries within {…} and […]; "
                'put it in quotes: "up(1, max(2, 3))"'
            ],
        ),
        (
            "a: {b: Fold, c}\n",
            [
                "f:1:14: `c` has no value; add a colon and a value; "
                "if it belongs to the words before the comma, put them all in quotes"
            ],
        ),
    ],
)
def test_what_is_refused_is_named_with_its_place(text, faults):
    with pytest.raises(ProblemsFound) as caught:
        read(text)
    assert [str(problem) for problem in caught.value.problems] == faults


@pytest.mark.parametrize(
    ("text", "place", "what"),
    [
        ("a: b: c\n", (1, 5), "a colon stands where none was expected"),
        ("a: {b: 1\nc: 2\n", (2, 2), "the { of line 1, column 4 is not closed where it should be"),
        ("a: [1, 2\nb: 3\n", (2, 2), "the [ of line 1, column 4 is not closed where it should be"),
        ("a: 'words\nb: 1\n", (1, 4), "the quote that opens here is not closed"),
        ("a: @home\n", (1, 4), "`@` cannot begin a value"),
        ("a: * 2\n", (1, 5), "a value cannot begin here"),
        ("a:\n  - 1\n b: 2\n", (3, 2), "this does not line up with what is above it"),
        ("a: {b: 1} c\n", (1, 11), "this does not line up with what is above it"),
        ("- a\nb: 1\n", (2, 1), "this stands in a list and does not begin with `- `"),
        ("a: [1, , 2]\n", (1, 8), "a value was expected here before `,`"),
        ('a: "5\\q"\n', (1, 4), "a `\\` within double quotes is read as a code"),
        ("%YAML 3.0\n---\na: 1\n", (1, 1), "a line that begins with % is not read"),
    ],
)
def test_a_file_that_is_no_yaml_is_told_in_our_words(text, place, what):
    with pytest.raises(ProblemsFound) as caught:
        read(text)
    (problem,) = caught.value.problems
    assert ((problem.where.line, problem.where.column), problem.what) == (place, what)
    assert problem.hint


def test_forty_levels_are_read_and_one_more_is_not():
    # the file itself is the first level
    assert read("a: " + "[" * 39 + "]" * 39)
    with pytest.raises(ProblemsFound, match="nested more than 40 deep"):
        read("a: " + "[" * 40 + "]" * 40)


def test_twenty_thousand_values_are_read_and_no_more():
    # the mapping, its key and the list are three
    assert read("a: [" + "b," * 19_997 + "]")
    with pytest.raises(ProblemsFound, match="more than 20,000 values"):
        read("a: [" + "b," * 19_998 + "]")


def test_a_quoted_formula_is_left_alone():
    assert read('a: {b: "up(1, 2)", c: (1 + 2)}\n').entries
