"""The file in which measured printers are kept."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.problems import ProblemsFound
from creasewright.reading.read_printers import printer_named, printers_text, read_printers_text
from creasewright.units.printer import Printer, Reading

KEPT = """
kitchen:
  letter:
    across: 178.6 mm of 7 in
    along: 203 mm of 8 in
    margins: {left: 4 mm, top: 5 mm, right: 4 mm, bottom: 12 mm}
    back: 0.5 mm right
  a4: {across: 180 mm of 180 mm, along: 211 mm of 210 mm}
"""


def test_printers_are_kept_by_name_and_paper():
    letter, a4 = read_printers_text(KEPT, "p")
    assert (letter.name, letter.page, a4.name, a4.page) == ("kitchen", "letter", "kitchen", "a4")
    assert letter.across == Reading(Fraction("178.6"), Fraction("177.8"))
    assert letter.margins == (4, 5, 4, 12)
    assert letter.back == (Fraction(1, 2), 0)
    assert a4.scale == (1.0, pytest.approx(211 / 210))


@pytest.mark.parametrize("text", ["", "# nothing is kept\n", "\n\n"])
def test_an_empty_file_keeps_no_printer(text):
    assert read_printers_text(text, "p") == ()


LENGTHS = st.fractions(0, 20, max_denominator=64).map(lambda part: Fraction(round(part * 64), 64))
READINGS = st.builds(Reading, st.integers(195, 205).map(Fraction), st.just(Fraction(200)))
PRINTERS = st.builds(
    Printer,
    st.sampled_from(["desk", "the old one", "x-2"]),
    st.sampled_from(["letter", "a4"]),
    READINGS,
    READINGS,
    st.tuples(LENGTHS, LENGTHS, LENGTHS, LENGTHS),
    st.tuples(LENGTHS, LENGTHS.map(lambda length: -length)),
)


@given(st.lists(PRINTERS, unique_by=lambda one: (one.name, one.page)))
def test_what_is_written_is_read_again(printers):
    assert {(one.name, one.page): one for one in read_printers_text(printers_text(printers), "p")} == {
        (one.name, one.page): one for one in printers
    }


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("Desk: {}\n", ["p:1:1: `Desk` is not a name for a printer; use small letters and digits, 30 at most"]),
        ("desk: {a5: {}}\n", ["p:1:8: `a5` is not a key of printer `desk`; did you mean `a4`?"]),
        (
            "desk:\n  a4: {across: 180 mm of 180 mm}\n",
            ["p:2:3: `a4` of `desk` has no `along`; add `along: 178.6 mm of 180 mm`"],
        ),
        (
            "desk:\n  a4: {across: 126 mm of 180 mm, along: 210 mm of 210 mm, margins: {left: 4}}\n",
            [
                "p:2:16: 126 mm of 180 mm means that the printer prints at 70.0 %, and at most 3 % off is put right;"
                " print the test page at 100 % (not “fit to page”) and measure again",
                "p:2:59: `margins` has no `bottom`; add `bottom: 4 mm`",
                "p:2:59: `margins` has no `right`; add `right: 4 mm`",
                "p:2:59: `margins` has no `top`; add `top: 4 mm`",
                "p:2:75: 4 has no unit; write 4 mm or 4 in",
            ],
        ),
    ],
)
def test_a_faulty_file_tells_line_and_remedy(text, faults):
    with pytest.raises(ProblemsFound) as caught:
        read_printers_text(text, "p")
    assert [str(problem) for problem in caught.value.problems] == faults


def test_a_printer_is_found_by_name_and_paper_or_a_way_on_is_told():
    kept = read_printers_text(KEPT, "p")
    assert printer_named("kitchen", "a4", kept, "p") == kept[1]
    measure = "print `creasewright test-page --page a4` on it and measure, or make the pack for any printer: `--printer none`"
    for name, of, told in (
        ("kitchen", kept[:1], f"p: printer `kitchen` has not been measured on a4 paper; {measure}"),
        ("kichen", kept, "p: no printer is called `kichen`; did you mean `kitchen`?"),
        ("attic", (), f"p: no printer is called `attic`; {measure}"),
    ):
        with pytest.raises(ProblemsFound) as caught:
            printer_named(name, "a4", of, "p")
        assert [str(problem) for problem in caught.value.problems] == [told]
