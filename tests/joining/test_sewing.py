"""A sewn line: what the needle passes, and how the leaves and the cover turn about it."""

from math import cos, radians
from textwrap import dedent, indent

import pytest

from creasewright.folding.heights import heights
from creasewright.folding.state import State, front_normal
from creasewright.folding.transforms import held_at
from creasewright.geometry.rigid_transform import apply, compose, dot, minus
from creasewright.joining.bodies import stack_of
from creasewright.joining.run_step import StepRun
from small_designs import last_run, made, runs_of, with_steps

PAPERS = """papers:
  text: {sheet: [600 mm, 600 mm], caliper: 0.1 mm}
  stock: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}
"""
THREAD = "materials: {thread: {kind: thread}}\n"
BLANKS = """
leaf: {paper: text, height: 140 mm, across: [verso: 100 mm, recto: 100 mm]}
cover: {paper: stock, height: 144 mm, across: [back: 102 mm, spine: 2 mm, front: 102 mm]}
"""
GATHER = [
    "{place: leaf 2 to last, onto: leaf 1}",
    "{lay: cover, up: back}",
    "{place: leaf 1, by: leaf 1, onto: spine of cover, meet: {verso/recto of leaf 1: middle of spine, head: {from: head, by: 2 mm}}}",
]
SEW = "{sew: [each leaf, cover], along: verso/recto of leaf 1, stations: 3, margin: 25 mm, with: thread, ends: 100 mm}"
CLOSE = "{fold: {verso/recto of each leaf: 180, back/spine: 90, spine/front: 90}}"


def body(*steps: str, leaves: int = 3) -> str:
    return THREAD + with_steps(BLANKS, *steps) + f"parts: {{leaf: {leaves}, cover: 1}}\n"


def refused(*steps: str) -> tuple[str, str] | None:
    return last_run(body(*steps), PAPERS).refused


def test_the_needle_passes_every_leaf_and_the_spine_at_each_hole():
    (sewing,) = made(body(*GATHER, SEW), PAPERS).sewings
    assert set(sewing.parts) == {"leaf 1", "leaf 2", "leaf 3", "cover"}
    assert sewing.stations == pytest.approx((25, 70, 115))
    assert sewing.order == (2, 1, 3, 2)
    # on the leaf's own fold; on the cover 102 + 1 from its left edge, and 2 further down, since it overhangs by so much
    assert [spot for part, spot in sewing.pricks if part == "leaf 2"] == [
        pytest.approx((100, 25)), pytest.approx((100, 70)), pytest.approx((100, 115)),
    ]  # fmt: skip
    assert next(spot for part, spot in sewing.pricks if part == "cover") == pytest.approx((103, 27))
    # 2 * (115 - 25), and four passes through three leaves of 0.1 and a cover of 0.3; two ends of 100
    assert sewing.way == pytest.approx(180 + 4 * 0.6)
    assert sewing.length == pytest.approx(180 + 4 * 0.6 + 200)


@pytest.mark.parametrize("angle", [180, 90, 40])
def test_the_leaves_turn_about_the_sewn_line_half_as_far_as_they_are_folded_on_either_side(angle: int):
    state = made(body(*GATHER, SEW, f"{{fold: verso/recto of each leaf, to: {angle}}}"), PAPERS)
    spine = front_normal(state.placed[("cover", "spine")])
    for name in ("verso", "recto"):
        leaf = front_normal(state.placed[("leaf 1", name)])
        # the leaf's front looked the same way as the cover's back; each half turns by half of the angle
        assert abs(dot(leaf, spine)) == pytest.approx(cos(radians(angle / 2)), abs=1e-9)
    seam = [apply(state.placed[("leaf 1", name)], (100.0, 0.0, 0.0)) for name in ("verso", "recto")]
    on_spine = apply(state.placed[("cover", "spine")], (103.0, 2.0, 0.0))
    assert seam[0] == pytest.approx(seam[1], abs=1e-9)
    assert seam[0] == pytest.approx(on_spine, abs=1e-9)


def closed() -> tuple[StepRun, State]:
    run = runs_of(body(*GATHER, SEW, CLOSE), PAPERS)[-1]
    assert run.refused is None
    return run, run.after


def test_closed_the_leaves_lie_nested_midway_between_the_covers():
    _, state = closed()
    whole = state.body_of("cover")
    stack = stack_of(whole, ("leaf 1", "verso"))
    order = [part for part, _ in stack.order]
    assert order == ["leaf 1", "leaf 2", "leaf 3", "leaf 3", "leaf 2", "leaf 1"]
    found = heights(state, whole, stack)
    # six layers of 0.1, the fold in the middle of them
    assert min(low for low, _ in found.values()) == pytest.approx(-0.3)
    assert max(high for _, high in found.values()) == pytest.approx(0.3)
    covers = [state.placed[("cover", name)] for name in ("back", "front")]
    leaf = apply(state.placed[("leaf 1", "verso")], (50.0, 10.0, 0.0))
    away = [dot(minus(apply(cover, (spot, 12.0, 0.0)), leaf), stack.normal) for cover, spot in zip(covers, (50.0, 156.0), strict=True)]
    assert sorted(away) == pytest.approx([-1.0, 1.0], abs=1e-9)


def test_open_again_everything_lies_where_it_was_sewn():
    runs = runs_of(body(*GATHER, SEW, CLOSE, "{unfold: [verso/recto of each leaf, back/spine, spine/front]}"), PAPERS)
    sewn, opened = runs[-3].after, runs[-1].after
    assert runs[-1].refused is None
    spread = {key: placed for key, placed in opened.placed.items() if key[0] == "leaf 3"}
    one, other = (state.placed[("cover", "spine")] for state in (sewn, opened))
    for key, placed in spread.items():
        before = [a - b for a, b in zip(sewn.placed[key].shift, one.shift, strict=True)]
        after = [a - b for a, b in zip(placed.shift, other.shift, strict=True)]
        assert sum(v * v for v in before) == pytest.approx(sum(v * v for v in after), abs=1e-6)


def test_a_signature_sewn_without_a_cover_folds_as_before():
    steps = [
        "{place: leaf 2 to last, onto: leaf 1}",
        "{sew: each leaf, along: verso/recto of leaf 1, stations: [30 mm, 60 mm, 110 mm], with: thread}",
    ]
    state = made(body(*steps, "{fold: verso/recto of each leaf}"), PAPERS)
    (sewing,) = state.sewings
    assert sewing.stations == (30, 60, 110)
    assert sewing.ends == 100
    assert sewing.way == pytest.approx(160 + 4 * 0.3)
    assert all(bond.kind == "place" for bond in state.bonds)


@pytest.mark.parametrize(
    ("steps", "what"),
    [
        ([SEW], "leaf 2 does not lie with leaf 1"),
        (
            [GATHER[0], "{fold: verso/recto of each leaf}", SEW.replace("[each leaf, cover]", "each leaf")],
            "the score verso/recto of leaf 1 is folded",
        ),
        ([*GATHER, SEW.replace("[each leaf, cover]", "cover")], "leaf 1 has the line, but is not among the parts that are sewn"),
        ([*GATHER, SEW.replace("[each leaf, cover]", "each leaf")], "spine of cover lies on the line too"),
        ([*GATHER, SEW.replace("stations: 3", "stations: [20 mm, 150 mm]")], "a station lies outside the line, which is 140.0 mm long"),
        ([*GATHER, SEW.replace("stations: 3", "stations: 3, order: [2, 1, 2, 3]")], None),
    ],
)  # fmt: skip
def test_a_line_that_cannot_be_sewn_is_refused(steps: list[str], what: str | None):
    found = [run.refused[0] for run in runs_of(body(*steps), PAPERS) if run.refused is not None]
    assert (found[0].startswith(what) if what is not None else not found)


def test_a_mirrored_booklet_hinges_on_its_sewn_line_too():
    steps = "".join(f"      - {step}\n" for step in (*GATHER, SEW, CLOSE))
    text = (
        f"{THREAD}blanks:\n{indent(dedent(BLANKS).strip(), '  ')}\nassemblies:\n"
        f"  book:\n    parts: {{leaf: 3, cover: 1}}\n    steps:\n{steps}"
        "  pair:\n    parts: {left book: book, right book: mirrored book}\n    steps: [{lay: left book}, {lay: right book}]\n"
    )
    state = made(text, PAPERS)
    assert [sewing.line[0] for sewing in state.sewings] == ["left book/leaf 1", "right book/leaf 1"]
    for bond in state.bonds:
        there, here = state.placed[bond.second], compose(state.placed[bond.first], held_at(state, bond, state.angles))
        assert there.turn == pytest.approx(here.turn, abs=1e-9)
        assert there.shift == pytest.approx(here.shift, abs=1e-6)
    # on the mirror image the holes lie as far from the right edge as they lay from the left
    holes = {sewing.line[0].split("/")[0]: dict(sewing.pricks)[sewing.line[0]] for sewing in state.sewings}
    assert holes["left book"] == pytest.approx((100, 115))
    assert holes["right book"] == pytest.approx((100, 115))


def test_leaves_beside_the_line_are_not_sewn():
    aside = GATHER[2].replace("middle of spine", "spine/front")
    steps = [*GATHER[:2], aside, SEW]
    # the fold then lies on a score of the cover: it is sewn along that, and nothing hinges
    state = made(body(*steps), PAPERS)
    assert all(bond.hinge is None for bond in state.bonds)
