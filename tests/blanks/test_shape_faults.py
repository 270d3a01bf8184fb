"""What a blank is refused for, in these words."""

from fractions import Fraction as F

import pytest

from blanks.written_blanks import Measured, faults_of, measured, text, written
from creasewright.blanks.shape_blank import shape_blank
from creasewright.problems import ProblemsFound

SHEET = "width: 100 mm\nheight: 60 mm\n"
BANDS = "height: 60 mm\nacross: [a: 50 mm, b: 50 mm]\n"


@pytest.mark.parametrize("source", [SHEET, BANDS, SHEET + "scores: {s: {from: left, at: 20 mm}}"])
def test_a_sound_blank_has_no_fault(source):
    assert faults_of(source) == []


@pytest.mark.parametrize(
    ("source", "what", "hint"),
    [
        (
            "height: 60 mm\nacross: [a: 50 mm, page: 20 mm - 23 mm]",
            "the band `page`, `20 mm - 23 mm`, comes to -3 mm", "make it more than 0",
        ),
        ("width: 0 mm\nheight: 60 mm", "the width `0 mm` comes to 0 mm", "make it more than 0"),
        ("width: 50 mm", "`sheet` has no height", "give `height`, or bands in that direction"),
        (
            "height: 60 mm\nacross: [a: 50 mm, {repeat: 0, of: [c: 1 mm]}, b: 1 mm]",
            "`repeat: 0` comes to 0", "repeat the bands at least once",
        ),
        (
            BANDS + "scores: {s: {from: head, at: 20 mm, span: [[0 mm, 20 mm], [70 mm, 20 mm]]}}",
            "score `s` ends inside the panel, at [70 mm, 20 mm]", "run it to an edge, a score or a slit",
        ),
        (SHEET + "scores: {s: {from: left, at: 120 mm}}", "score `s` has no part inside the blank", "move it onto the blank"),
        (
            BANDS + "scores: {s: {from: left, at: 50 mm}}",
            "score `s` lies on `a/b`", "leave one of them out",
        ),
        (
            BANDS + "scores: {a/c: none}",
            "`a/c` is no score of the bands or flaps here (a/b)",
            "say where it runs: `from` and `at`, `across` and `at`, or `line`",
        ),
        (
            SHEET + "scores: {s: {line: [centre, centre]}}",
            "both ends of `s` are one place", "give it two different points",
        ),
        (
            SHEET + "scores: {s: {line: [centre, mid top]}}",
            "`mid top` is no point",
            "write [x, y] or one of head-left, mid head, head-right, mid left, centre, mid right, "
            "tail-left, mid tail, tail-right",
        ),
        (
            SHEET + "corners: {head-left: {round: 70 mm}}",
            "`round: 70 mm` needs 70 mm of an edge that has 60 mm left", "make it smaller",
        ),
        (
            SHEET + "corners: {head-left: {cut: [20 mm, 61 mm]}}",
            "the cut of the head-left corner needs 61 mm of an edge that has 60 mm left", "make it smaller",
        ),
        (
            SHEET + "edges: {head: {rise: 51 mm}}",
            "`rise: 51 mm` comes to 51 mm over an edge of 100 mm", "keep a rise to half its edge",
        ),
        (
            SHEET + "notches: [{at: centre, width: 10 mm, depth: 5 mm}]",
            "a notch 10 mm wide does not fit there on a straight edge",
            "put it on an edge, at least half its width from the ends",
        ),
        (
            SHEET + "holes: {eye: {at: [1 mm, 30 mm], across: 3 mm}}",
            "the hole `eye`, 3 mm across, runs over an edge", "move it further in",
        ),
        (
            SHEET + "slits: {s: {line: [[110 mm, 0 mm], [120 mm, 30 mm]]}}",
            "the slit `s` has no part inside the blank", "move it onto the blank",
        ),
        (
            SHEET + "slits: {s: {line: [mid head, mid tail]}}",
            "no score joins `part 2` to the rest of `sheet`", "end the slit or cut before the edge, or make it two blanks",
        ),
        (
            SHEET + "cut away: [[a, b]]\nscores: {a: {from: left, at: 20 mm}}",
            "`b` is no score of this blank", "known here: a",
        ),
        (
            SHEET + "cut away: [[a, b]]\nscores: {a: {from: left, at: 20 mm}, b: {from: left, at: 30 mm}}",
            "`a` and `b` do not cross on the sheet", "name two scores that cross",
        ),
        (
            BANDS + "panels: |\n  one two three",
            "the map has 1 rows of 3 names, the scores and slits make 1 rows of 2",
            "write one name for each place, `-` for none",
        ),
        (BANDS + "panels: |\n  one one", "`one` names two panels", "give each panel its own name"),
        (
            BANDS + "panels: {x: mid left, y: [20 mm, 20 mm]}",
            "one panel is called both `x` and `y`", "leave one of the names out",
        ),
        (
            BANDS + "panels: {x: [120 mm, 20 mm]}",
            "`x` finds no panel: its point lies outside the blank", "choose a point on the blank",
        ),
        (BANDS + "panels: {b: mid left}", "two panels are called `b`", "give one of them another name under `panels`"),
        (
            "base: {width: 50 mm, height: 50 mm}\nflaps: {f: {at: top of base, depth: 10 mm}}",
            "`top of base` names no edge for `f`",
            "write for example `tail of base`, `each edge of base` or `ends of front`",
        ),
        (
            "base: {width: 50 mm, height: 50 mm}\nflaps: {f: {at: head of lid, depth: 10 mm}}",
            "`lid` is no base or flap of this blank", "known here: base",
        ),
        (
            "base: {width: 50 mm, height: 50 mm}\nflaps: {f: {at: head of base, depth: 30 mm, ends: 45}}",
            "the ends of `f` at 45° meet before its depth of 30 mm (head of base)", "make it less deep, or its ends steeper",
        ),
        (
            # a tab on a flap that cannot be is not a second fault
            "base: {width: 50 mm, height: 50 mm}\n"
            "flaps: {f: {at: head of base, depth: 0 mm - 1 mm}, t: {at: ends of f, depth: 9 mm}}",
            "the depth of `f`, `0 mm - 1 mm`, comes to -1 mm", "make it more than 0",
        ),
        (
            "base: {width: 50 mm, height: 50 mm}\nflaps: {f: {at: head of base, depth: 0 mm}}",
            "the depth of `f`, `0 mm`, comes to 0 mm", "make it more than 0",
        ),
        (
            """
base: {width: 50 mm, height: 50 mm}
flaps:
  head wall: {at: head of base, depth: 30 mm}
  left wall: {at: left of base, depth: 30 mm}
  tab: {at: first end of head wall, depth: 10 mm, ends: 110}
""",
            "flap `tab` lies over `left wall` on the flat sheet", "make it less deep, or its `ends` smaller",
        ),
        (
            "outline: [[0 mm, 0 mm], [0 mm, 10 mm], [10 mm, 0 mm]]",
            "the outline of `sheet` runs anticlockwise", "list its points the other way round",
        ),
        (
            "outline: [[0 mm, 0 mm], [10 mm, 10 mm], [10 mm, 0 mm], [0 mm, 10 mm]]",
            "the outline of `sheet` crosses itself at [5 mm, 5 mm]", "list its points in the order they follow round the edge",
        ),
        (
            BANDS + "sizes: inside",
            "the sizes of `sheet` are inside sizes, which need the thickness of its paper",
            "give the paper its `caliper`, or write `sizes: score to score`",
        ),
    ],
)  # fmt: skip
def test_a_blank_that_cannot_be(source, what, hint):
    assert faults_of(source) == [(what, hint)]


def test_all_faults_of_a_blank_come_at_once():
    source = "height: nonsense\nacross: [a: 50 mm, b: more nonsense]\nholes: {eye: {at: centre, across: pin}}"
    assert [what for what, _ in faults_of(source)] == [
        "`more nonsense` is no length", "`nonsense` is no length", "`pin` is no length",
    ]  # fmt: skip
    source = SHEET + "corners: {head-left: {round: 70 mm}}\nscores: {s: {line: [centre, mid top]}, t: {from: page, at: 1 mm}}"
    assert len(faults_of(source)) == 3


def test_a_blank_must_say_its_paper_where_there_are_several():
    blank = written("sheet", {"width": "10 mm", "height": "10 mm"})
    with pytest.raises(ProblemsFound) as caught:
        shape_blank(blank, None, Measured({}, {"sheet": blank}), F(1))
    assert [p.what for p in caught.value.problems] == ["`sheet` says no paper, and there are several"]


@pytest.mark.parametrize(
    ("like", "what"),
    [
        ("like: [lid of strip]", "`lid` is no panel of `strip`"),
        ("like: [a]", "`a` does not say of which blank"),
        ("like: [a of strip, c of strip]", "the panels of `like` do not lie together: they make 2 pieces"),
        ("like: [a of strip], inset: 40 mm", "`inset: 40 mm` comes to 40 mm, which leaves nothing of the panels"),
    ],
)
def test_a_like_blank_that_cannot_be(like, what):
    source = "blanks:\n  strip: {height: 60 mm, across: [a: 50 mm, b: 50 mm, c: 50 mm]}\n  lining: {" + like + "}\n"
    with pytest.raises(ProblemsFound) as caught:
        measured(source).blank(text("lining"))
    assert [p.what for p in caught.value.problems] == [what]
