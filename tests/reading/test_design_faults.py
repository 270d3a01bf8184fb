"""Designs that cannot be used: each fault with its place and its words, all in one run."""

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


def faults_of(text: str) -> list[str]:
    with pytest.raises(ProblemsFound) as caught:
        read_design_text(text, "d")
    return [str(problem) for problem in caught.value.problems]


def test_two_plain_pieces_are_a_design_without_steps():
    design = read_design_text(BLANKS, "d")
    assert [blank.name for blank in design.blanks] == ["a", "b"]
    assert [(assembly.name, assembly.parts, assembly.steps) for assembly in design.assemblies] == [("", None, ())]


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        (
            "title: T\n",
            [
                "d:1:1: the design has no blanks; add `blanks:` with a name and a shape for each piece",
                "d:1:1: the file does not say `creasewright: 1`; begin it with `creasewright: 1`, the version of the language it is written in",
            ],
        ),
        (
            "creasewright: 2\n",
            ["d:1:15: `2` is not a version of the language that is read here, which is 1; write `creasewright: 1`"],
        ),
        (
            "creasewright: 1\n",
            [
                "d:1:1: the design has no `title`; add `title: …`",
                "d:1:1: the design has no blanks; add `blanks:` with a name and a shape for each piece",
            ],
        ),
        (
            HEAD,
            ["d:1:1: the design has no blanks; add `blanks:` with a name and a shape for each piece"],
        ),
        (
            HEAD + "blanks: 5\n",
            [
                "d:4:1: the design has no blanks; add `blanks:` with a name and a shape for each piece",
                "d:4:9: `blanks` holds `5` where keys and values were expected; write `key: value` lines under it, or {key: value}",
            ],
        ),
        (
            BLANKS + "levle: easy\n",
            ["d:5:1: `levle` is not a key of the design; did you mean `level`?"],
        ),
        (
            BLANKS + "level: hard\n",
            ["d:5:8: `hard` for `level` is not easy, steady or exacting; write one of these"],
        ),
        (
            BLANKS + "time: two hours\n",
            ["d:5:7: `two hours` for `time` is not a whole number; write it with digits only, as in `time: 24`"],
        ),
        (
            BLANKS + "papers: {x: {sheet: A4}}\n",
            ["d:5:1: `papers` is written twice; first in line 3; keep one of the two"],
        ),
        (
            "creasewright: 1\ntitle: T\npapers: {Card: {sheet: A4}, 2nd: {sheet: A4}, left: {}, back of box: {sheet: A4}, ok: {sheet: [1 in, 2 in, 3 in], front: oneway, sides differ: maybe, pack: few, brand strip: {egde: tail}}}\n",
            [
                "d:1:1: the design has no blanks; add `blanks:` with a name and a shape for each piece",
                "d:3:10: `Card` is not a name for a paper; write `card`",
                "d:3:29: `2nd` begins with a digit, as a number does; begin the name with a letter",
                "d:3:47: `left` is a place on every piece, not a name for a paper; add a word to it",
                "d:3:47: paper `left` has no `sheet`; add `sheet: letter | A4`",
                "d:3:57: `back of box` holds the word `of`, which joins names; leave out `of`",
                "d:3:88: `sheet` of paper `ok` has 3 values; write a size such as letter | A4, or [width, height]",
                "d:3:122: `oneway` for `front` is not plain, one-way, two-way, all-over or by panel; did you mean `one-way`?",
                "d:3:144: `maybe` for `sides differ` is not yes or no; write one of these",
                "d:3:157: `few` for `pack` is not a whole number; write it with digits only, as in `pack: 24`",
                "d:3:162: the brand strip of paper `ok` has no `width`; add `width: 1/2 in | 12 mm`",
                "d:3:176: `egde` is not a key of the brand strip of paper `ok`; did you mean `edge`?",
            ],
        ),
        (
            "creasewright: 1\ntitle: T\nmaterials: {card: {kind: glu}}\n",
            [
                "d:1:1: the design has no blanks; add `blanks:` with a name and a shape for each piece",
                "d:3:26: `glu` for `kind` is not glue, tape, foam, ribbon, thread or cord; did you mean `glue`?",
            ],
        ),
        (
            BLANKS + "things: {photo: {width: 3 in}}\nmeasures: {p: [1 in, 2 in, 3 in], q: {from: 1 in}, r: }\n",
            [
                "d:5:10: thing `photo` has no `height`; add `height: …`",
                "d:6:15: `p` lists 3 formulas; write one formula, or a pair of two",
                "d:6:35: measure `q` has no `is`; add `is: …`",
                "d:6:52: `r` has no value; add a colon and a value; if it belongs to the words before the comma, put them all in quotes",
            ],
        ),
        (
            HEAD
            + "blanks: {a: {paper: crad, width: 1 in, height: 2 in}, b: {mirror of: aa}, c: {same as: a, where: {w: 2}}, d: {mirror of: d}, e: {mirror of: f}, f: {mirror of: e}}\n",
            [
                "d:4:21: `crad` is not a paper of this design; did you mean `card`?",
                "d:4:70: `aa` is not a blank of this design; did you mean `a`?",
                "d:4:99: `w` is not a measure of this design; add it to `measures`",
                "d:4:122: `d` takes its shape from itself; give one of them a shape of its own",
                "d:4:160: `e` takes its shape from itself (e > f > e); give one of them a shape of its own",
            ],
        ),
        (
            HEAD
            + "blanks:\n  a: {width: 1 in, across: [x: 1 in, x: 2 in], height: 2 in}\n  b: {across: {x: 1 in}}\n  c: {across: [x]}\n  d: {height: 1 in, across: [{repeat: 3}]}\n",
            [
                "d:5:7: `width` and `across` both say how large blank `a` is; leave out `width`; the bands add up to it",
                "d:5:38: a second band is named `x`; the first stands in line 5; rename one of the two",
                "d:6:3: blank `b` has no height; add `height: …`, or bands with `down: [name: size, …]`",
                "d:6:15: `across` is not a list of bands; write `across: [name: size, name: size]`",
                "d:7:3: blank `c` has no height; add `height: …`, or bands with `down: [name: size, …]`",
                "d:7:16: `x` in `across` is not a band; write `name: size`",
                "d:8:30: the repeat in `across` has no `of`; add `of: [name: size]`",
            ],
        ),
        (
            HEAD
            + "blanks:\n  a: {base: {sides: 6, width: 3 in}, flaps: {w: {depth: 3 in, over: a}, v: 3 in}}\n  b: {mirror of: a, width: 3 in}\n  c: {mirror of: a, same as: b}\n  d: {width: 1 in, height: 1 in, inset: 3 mm}\n",
            [
                "d:5:7: the base of blank `a` has no `side`; add `side: …`",
                "d:5:24: `width` does not belong to the base of blank `a`; leave it out, or leave out `sides`",
                "d:5:46: flap `w` has no `at`; add `at: tail of base`",
                "d:5:63: `over` of flap `w` needs two places along the edge; write `over: [from, to]`",
                "d:5:76: flap `v` holds `3 in` where keys and values were expected; write `key: value` lines under it, or {key: value}",
                "d:6:21: `width` does not belong to blank `b`; leave it out; the shape is given already",
                "d:7:21: blank `c` has a shape from `mirror of` and one from `same as`; keep one of the two",
                "d:8:34: `inset` does not belong to blank `d`; use it with `like`",
            ],
        ),
        (
            HEAD + "blanks:\n  a: {outline: [[0 mm, 0 mm], {to: [1 in, 0 mm], by: [a, b]}]}\n",
            [
                "d:5:7: the outline of blank `a` has fewer than three points; list its points clockwise, each [x, y]",
                "d:5:50: `by` is not part of version 1 yet; use `rise` for an arc, or several points",
            ],
        ),
        (
            HEAD
            + "blanks:\n  a: {width: 1 in, height: 1 in, corners: {headleft: {cut: 1 in}, all: {}}, edges: {head: {}}, notches: [{at: 3, width: 1 mm}], holes: {h: {at: [1]}}, slits: {s: {}}, cut away: [[a]], turn: 45, grain: none, sizes: outer}\n",
            [
                "d:5:44: `headleft` is not a corner; did you mean `head-left`?",
                "d:5:67: corner `all` of blank `a` needs either `cut` or `round`; write {cut: [along head, along side]} or {round: 6 mm}",
                "d:5:85: edge `head` has no `rise`; add `rise: …`",
                "d:5:106: a notch of blank `a` has no `depth`; add `depth: …`",
                "d:5:137: hole `h` has no `across`; add `across: 3 mm`",
                "d:5:145: `at` holds something else than a point; write [x, y], or a place such as head-left or centre",
                "d:5:160: slit `s` needs either a `line` or a score that it is `on`; write {line: [p, q]} or {on: A/B, over: [bands]}",
                "d:5:179: `cut away` of blank `a` needs two scores; write [[A, B]], or `all crossings`",
                "d:5:191: `45` for `turn` is not 0, 90, 180 or 270; write one of these",
                "d:5:202: `none` for `grain` is not height or width; write one of these",
                "d:5:215: `outer` for `sizes` is not score to score, inside or outside; write one of these",
            ],
        ),
        (
            HEAD
            + 'blanks:\n  a:\n    width: 1 in\n    height: 1 in\n    scores: {x: {from: left}, y: {from: left, line: [a, b]}, z: {}, a/b/c: none, q: {at: 3 mm}, r: {line: [a, b, c]}}\n    panels: |\n      one two\n      three\n      "Four x" -\n',
            [
                "d:8:14: score `x` has no `at`; add `at: 20 mm`",
                "d:8:47: score `y` is placed by `from` and by `line`; keep one of the two",
                "d:8:62: score `z` does not say where it runs; write {from: left, at: 20 mm}, {line: [p, q]}, or none to take it away",
                "d:8:69: `a/b/c` is not a score between two panels; write the two names with one / between them",
                "d:8:82: score `q` does not say where it runs; write {from: left, at: 20 mm}, {line: [p, q]}, or none to take it away",
                "d:8:107: `line` needs two points; write `line: [from, to]`, each a place or [x, y]",
                "d:11:7: row 2 of the panel map is 1 wide, and row 1 is 2; write - where a cell has no name, and quotes round two words",
                "d:12:7: `Four x` is not a name for a panel; write `four x`",
            ],
        ),
        (
            BLANKS + "steps:\n  - foldd: a\n",
            ["d:6:5: step 1 has `foldd`, which is not an action, and no other; did you mean `fold`?"],
        ),
        (
            BLANKS + "steps:\n  - {fold: a, glue: b}\n",
            ["d:6:15: `fold` and `glue` stand in one step; make two steps of it"],
        ),
        (
            BLANKS + "steps:\n  - {join: a}\n",
            ["d:6:5: `join` in step 1 does not say where it goes; add `onto: …`"],
        ),
        (
            BLANKS + "steps:\n  - {join: a, onto: b, under: b}\n",
            ["d:6:24: `join` in step 1 goes `onto` one thing and `under` another; keep one of the two"],
        ),
        (
            BLANKS + "steps:\n  - {insert: a}\n",
            ["d:6:5: `insert` in step 1 does not say where it goes; add `into: …`"],
        ),
        (
            BLANKS + "steps:\n  - {place: a, onto: b, with: glue}\n",
            [
                "d:6:25: `with` is not a key of `place` in step 1; write one of `around`, `between`, `by`, `into`, `makes`, `meet`, `onto`, `picture` and 8 more"
            ],
        ),
        (
            BLANKS + "steps:\n  - {tie: ribbon}\n",
            [
                "d:6:5: `tie` in step 1 has no `around`; add `around: …`",
                "d:6:11: `ribbon` is not a material of this design; add it to `materials`",
            ],
        ),
        (
            BLANKS + "steps:\n  - {glue: a, meet: 3}\n",
            ["d:6:21: `meet` of `glue` in step 1 is neither `centre` nor pairs of lines; write {edge: line, edge: line}"],
        ),
        (
            BLANKS + "steps:\n  - {glue: a, meet: {a: b, c: d, e: {from: f}}}\n",
            [
                "d:6:21: `meet` of `glue` in step 1 has 3 pairs; keep one across and one along",
                "d:6:34: `e` in `meet` has no `by`; add `by: …`",
            ],
        ),
        (
            BLANKS + "steps:\n  - {lay: a, up: top}\n",
            ["d:6:18: `top` for `up` is not front or back; write one of these"],
        ),
        (
            BLANKS + "steps:\n  - {fold: a, say: Fold it, then press}\n",
            [
                "d:6:29: `then press` has no value; add a colon and a value; if it belongs to the words before the comma, put them all in quotes"
            ],
        ),
        (
            BLANKS + "steps:\n  - fold a\n",
            [
                "d:6:5: step 1 holds `fold a` where keys and values were expected; write `key: value` lines under it, or {key: value}"
            ],
        ),
        (
            BLANKS + "steps:\n  - {}\n",
            ["d:6:5: step 1 has no action; add what is done, such as `fold: …` or `check: …`"],
        ),
        (
            BLANKS + "steps:\n  - {tuck: a}\n",
            ["d:6:5: `tuck` in step 1 does not say where it goes; add `under: …`, `between: [a, b]` or `into: …`"],
        ),
        (
            BLANKS + "steps:\n  - {sew: a, with: x}\n",
            ["d:6:6: `sew` is not part of version 1 yet; show this step with `press` or `check`, and put it in words with `say`"],
        ),
        (
            BLANKS + "steps:\n  - {unfold: a, to: meet}\n",
            ["d:6:21: `to: meet` is not part of version 1 yet; write the angle in degrees"],
        ),
        (
            BLANKS + "steps:\n  - {fold: {a: up(1, 2), b: 3}}\n",
            ['d:6:16: `up(1, 2)` holds a comma, which parts entries within {…} and […]; put it in quotes: "up(1, 2)"'],
        ),
        (
            BLANKS + "steps:\n  - {trim: a, with: tmplate}\n",
            ["d:6:21: `tmplate` is not a template of this design; add `template: …` to the corner, edge or notch that it is for"],
        ),
        (
            BLANKS + "steps:\n  - {say: hello}\n",
            ["d:6:5: step 1 has no action; add what is done, such as `fold: …` or `check: …`"],
        ),
        (
            BLANKS + "steps:\n  - {glue: a, with: glu, stage: Open}\n",
            [
                "d:6:21: `glu` is not a material of this design; add it to `materials`",
                "d:6:33: `Open` is not a name for a stage; write `open`",
            ],
        ),
        (
            BLANKS
            + "steps: [{fold: a, stage: x}, {fold: b, stage: x}]\nstages: {y: {from: z, fold: a}, w: {from: w}, v: {fold: a, unfold: b}}\nfinished: {is: box, upright: [a in opn]}\n",
            [
                "d:5:30: a second stage is named `x`; the first stands in line 5; rename one of the two",
                "d:6:20: `z` is not a stage of this design; did you mean `v`?",
                "d:6:43: `w` is reached from itself; begin it `from` a stage that a step makes",
                "d:6:51: `unfold` and `fold` stand in one stage; make two stages, the second `from` the first",
                "d:7:16: `box` is not an assembly of this design; take out `is`",
                "d:7:36: `opn` is not a stage of this design; write one of `closed`, `v`, `w`, `x`, `y`",
            ],
        ),
        (
            BLANKS + "assemblies: {x: {parts: {a: 1, q: 1, c: aa}}, y: {parts: [x, y, y], steps: []}, z: {}}\nsteps: []\n",
            [
                "d:5:32: `q` is not a blank, a thing or an assembly of this design; did you mean `a`?",
                "d:5:41: `aa` is not a blank, a thing or an assembly of this design; did you mean `a`?",
                "d:5:62: `y` is a part of itself; name what it is made of",
                "d:5:65: `y` is a part of itself; name what it is made of",
                "d:5:65: `y` is written twice in `parts`; write it once, with its count: {y: 2}",
                "d:5:81: assembly `z` has no `steps`; add `steps: […]`",
                "d:6:1: `steps` stands beside `assemblies`; move it under a name in `assemblies`",
            ],
        ),
        (
            BLANKS
            + "assemblies: {x: {parts: {p: y}}, y: {parts: {q: x}}, u: {same as: v}, w: {same as: x, where: {aa: b}}, t: {same as: x, steps: []}}\n",
            [
                "d:5:49: `x` is a part of itself (x > y > x); name what it is made of",
                "d:5:67: `v` is not an assembly with steps of its own; did you mean `x`?",
                "d:5:95: `aa` is not a name of this design; did you mean `a`?",
                "d:5:120: assembly `t` has `same as` and `steps`; keep one of the two",
            ],
        ),
        (
            BLANKS + "things: {a: {width: 1 in, height: 1 in}}\n",
            ["d:4:10: `a` is a blank here and a thing in line 5; rename one of the two"],
        ),
        (
            BLANKS + "known: [{check: x}, y]\n",
            [
                "d:5:9: an entry of `known` has no `because`; add `because: your reason`",
                "d:5:21: an entry of `known` holds `y` where keys and values were expected; write `key: value` lines under it, or {key: value}",
            ],
        ),
        (
            BLANKS + "finished: front\n",
            [
                "d:5:11: `finished` holds `front` where keys and values were expected; write `key: value` lines under it, or {key: value}"
            ],
        ),
        (
            BLANKS + "about:\nmaker: [a, b]\n",
            [
                "d:5:7: `about` has no value; write it after the colon, or take the key out",
                "d:6:8: `maker` holds a list where one value was expected; write one value after `maker:`",
            ],
        ),
    ],
)
def test_a_design_is_told_all_its_faults(text, faults):
    assert faults_of(text) == faults
