"""Files from strangers: whatever they hold, reading ends soon, in a Design or in ProblemsFound."""

import re
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.problems import ProblemsFound
from creasewright.reading.design import Design
from creasewright.reading.read_design import read_design_text

HEAD = "creasewright: 1\ntitle: T\n"
FILES = sorted((Path(__file__).parent / "constructions").glob("*.yaml"))
SOON = 200_000
"""Calls of functions: counted, for time is another on every machine. The largest design of the project takes some 13,000 to read."""

HOSTILE = {
    "aliases that double": "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
    "lists in lists": "a: " + "[" * 100_000,
    "mappings in mappings": "a: " + "{a: " * 60_000,
    "dashes": "- " * 100_000,
    "question marks": "? " * 100_000,
    "ever deeper lines": "".join(" " * depth + "a:\n" for depth in range(600)),
    "ten million letters": "a: b\n" * 2_000_000,
    "thousands of unknown keys": "".join(f"k{number}: 1\n" for number in range(9_000)),
    "brackets that never close": HEAD + "x: [" + "(," * 9_000 + "]",
    "names nearly alike": HEAD
    + "papers:\n"
    + "".join(f" some paper with a long name {number}: {{sheet: A4}}\n" for number in range(499))
    + "blanks:\n"
    + "".join(f" b{number}: {{paper: sone paper with a lomg name b{number}, width: 1, height: 1}}\n" for number in range(110)),
    "copies of a long assembly": HEAD
    + "assemblies:\n m: {steps: [{fold: ["
    + "a," * 8_000
    + "]}]}\n"
    + "".join(f" c{number}: {{same as: m, where: {{m: m}}}}\n" for number in range(1_300)),
    "a chain of mirrors": HEAD
    + "papers: {p: {sheet: A4}}\nblanks:\n"
    + "".join(f" b{number}: {{mirror of: b{number + 1}}}\n" for number in range(4_500)),
    "stages from stages": HEAD + "stages: {" + ",".join(f"s{number}: {{from: s{number + 1}}}" for number in range(3_500)) + "}",
    "blank blocks": HEAD + "x:\n" + "".join(f" k{number}: |\n\n\n\n" for number in range(9_000)),
    "a very long name": HEAD + "papers:\n ? " + "a-" * 60_000 + "!\n : {}\n",
    "tabs": "\ta: 1\n" * 40_000,
    "bytes of nothing": "\0" * 1_000,
    "half a letter": "a: \ud800",
    "blanks": " " * 250_000,
    "lines": "\n" * 250_000,
    "colons": ": " * 100_000,
    "stars": "*" * 100_000,
    "marks of type": "!" * 100_000,
    "anchors": "&a " * 80_000,
}


@contextmanager
def soon() -> Iterator[None]:
    count = 0

    def called(_frame: object, event: str, _argument: object) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(called)
    try:
        yield
    finally:
        sys.setprofile(before)
    assert count < SOON


def ends_well(text: str) -> None:
    """Nothing but ProblemsFound is raised, and each problem has a place, a what and a hint."""
    try:
        with soon():
            assert isinstance(read_design_text(text, "d"), Design)
    except ProblemsFound as found:
        assert found.problems
        assert all(problem.where.file and problem.what and problem.hint for problem in found.problems)
        assert all(len(str(problem)) < 600 for problem in found.problems)


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_a_hostile_file_is_refused_soon(text):
    with pytest.raises(ProblemsFound):
        read_design_text(text, "d")
    ends_well(text)


@given(st.text(max_size=400))
def test_any_text_ends_well(text):
    ends_well(text)


@given(st.text(alphabet="ab :-{}[]|>\n\"'#,&*!%?()\t/1", max_size=200))
def test_any_text_of_the_carrier_s_own_marks_ends_well(text):
    ends_well(text)
    ends_well(HEAD + text)


VOCABULARY = """
creasewright, title, papers, materials, things, measures, blanks, assemblies, steps, stages, parts, finished, known
sheet, front, back, width, height, across, down, base, flaps, outline, like, inset, corners, edges, notches, holes
slits, scores, panels, cut, round, template, at, line, over, span, on, from, rise, fold, mountain, unfold, glue, join
place, insert, into, onto, between, meet, tie, around, turn, lay, up, to, say, stage, is, count, repeat, of, none
centre, head-left, 1, yes, mirror of, same as, where, cut away, all crossings, turn over, stick on, keep clear, a/b, 4
in | 100 mm
"""
WORDS = st.sampled_from(["", *re.split(", |\n", VOCABULARY.strip())])


def written(tree: object) -> str:
    """A tree as YAML in one line."""
    if isinstance(tree, dict):
        return "{" + ", ".join(f"? {key or 'x'} : {written(value)}" for key, value in tree.items()) + "}"
    if isinstance(tree, list):
        return "[" + ", ".join(written(item) for item in tree) + "]"
    return f'"{tree}"'


TREES = st.recursive(WORDS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(WORDS, inner, max_size=5), max_leaves=25)
TOP = ("papers", "materials", "things", "measures", "blanks", "assemblies", "steps", "stages", "parts", "finished", "known")


@settings(max_examples=300)
@given(st.dictionaries(st.sampled_from(TOP), TREES, max_size=6))
def test_any_tree_of_the_language_s_own_words_ends_well(tree):
    ends_well(HEAD + "".join(f"{key}: {written(value)}\n" for key, value in tree.items()))


@settings(max_examples=200)
@given(st.sampled_from(FILES), st.data())
def test_a_design_with_a_piece_taken_out_or_put_elsewhere_ends_well(file, data):
    text = file.read_text(encoding="utf-8")
    start = data.draw(st.integers(0, len(text) - 1))
    piece = text[start : start + data.draw(st.integers(1, 60))]
    rest = text[:start] + text[start + len(piece) :]
    place = data.draw(st.integers(0, len(rest)))
    ends_well(rest)
    ends_well(rest[:place] + piece + rest[place:])


@settings(max_examples=200)
@given(st.sampled_from(FILES), st.data())
def test_a_design_with_one_word_changed_ends_well(file, data):
    words = file.read_text(encoding="utf-8").split(" ")
    words[data.draw(st.integers(0, len(words) - 1))] = data.draw(WORDS | st.text(max_size=8))
    ends_well(" ".join(words))
