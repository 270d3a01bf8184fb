"""Designs that cannot be used: each fault with its place and its words, all in one run.

The cases stand in `faulty_designs.txt`.
"""

import re
from pathlib import Path

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.read_design import read_design_text

HEAD = """\
creasewright: 1
title: T
papers: {card: {sheet: A4}}
"""
"""Three lines."""
BLANKS = HEAD + "blanks: {a: {width: 1 in, height: 1 in}, b: {width: 1 in, height: 1 in}}\n"
"""Four lines, a sound design of two plain pieces."""
HEADS = {"all": "", "after HEAD": HEAD, "after BLANKS": BLANKS}
CASE = re.compile(r"^=== (.*)\n--- (.*)\n([\s\S]*?)\n?--- faults\n([\s\S]*?)\n(?:\n|\Z)", re.MULTILINE)
CASES = CASE.findall((Path(__file__).parent / "faulty_designs.txt").read_text(encoding="utf-8") + "\n")


def faults_of(text: str) -> list[str]:
    with pytest.raises(ProblemsFound) as caught:
        read_design_text(text, "d")
    return [str(problem).removeprefix("d:") for problem in caught.value.problems]


def test_two_plain_pieces_are_a_design_without_steps():
    design = read_design_text(BLANKS, "d")
    assert [blank.name for blank in design.blanks] == ["a", "b"]
    assert [(assembly.name, assembly.parts, assembly.steps) for assembly in design.assemblies] == [("", None, ())]


def test_all_cases_of_the_file_are_run():
    assert len(CASES) == (Path(__file__).parent / "faulty_designs.txt").read_text(encoding="utf-8").count("\n=== ")


@pytest.mark.parametrize(("head", "text", "faults"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_a_design_is_told_all_its_faults(head, text, faults):
    assert faults_of(f"{HEADS[head]}{text}\n") == faults.splitlines()


@pytest.mark.parametrize(
    "entry",
    [
        "subtitle: Ten cards\nmaker: Heron Paper\nversion: '2'\nlevel: exacting\n",
        "known: [{check: prints upright, about: back, because: it is seen from the other side}]\n",
        "steps: [{check: a, who: teacher, takes: 5 min, picture: {turn: 30}}, {dry: b, for: 30 min}]\n",
        "steps: [{stick on: b, onto: a, reveal: 3 mm, with: glue}]\nmaterials: {glue: {kind: glue}}\n",
    ],
)
def test_what_may_be_left_out_may_also_be_said(entry):
    assert read_design_text(BLANKS + entry, "d").blanks


def test_a_paper_says_what_the_shop_says():
    text = BLANKS.replace(
        "sheet: A4",
        "sheet: [12 in, 12 in], brand strip: 1/2 in, ragged: 1/8 in, pack: 24, price: 12.50 EUR, core: white, "
        "called: Meadow card",
    )
    (paper,) = read_design_text(text, "d").papers
    assert paper.brand_strip is not None
    assert (paper.brand_strip.edge, str(paper.brand_strip.width)) == ("tail", "1/2 in")
    assert [str(paper.ragged), str(paper.pack), str(paper.price), str(paper.core)] == ["1/8 in", "24", "12.50 EUR", "white"]
    assert str(paper.called) == "Meadow card"


def test_no_word_turns_into_something_else():
    text = BLANKS.replace("card", "on", 1) + "about: 4:30\nmaker: no\nversion: 1e3\n"
    design = read_design_text(text, "d")
    assert (design.papers[0].name, str(design.about), str(design.maker), str(design.version)) == ("on", "4:30", "no", "1e3")


def test_names_may_hold_letters_of_any_language_and_inner_hyphens():
    design = read_design_text(BLANKS.replace("a: {width", "turn-in für tür 2: {width"), "d")
    assert design.blanks[0].name == "turn-in für tür 2"


def test_more_than_a_hundred_faults_end_the_reading():
    faults = faults_of(BLANKS + "".join(f"word{number}: 1\n" for number in range(300)))
    assert len(faults) == 101
    assert sum("100 faults were found, and reading ended here; mend these first" in fault for fault in faults) == 1
