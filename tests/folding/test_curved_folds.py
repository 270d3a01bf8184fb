"""Curved scores folded: the panel a cylinder, the crease in a plane at 45°, the ear a mirror image; and what is refused."""

from math import hypot, isclose, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from creasewright.folding.bent_solid import bent_strips
from creasewright.folding.closing_error import closing
from creasewright.folding.curved import Curved, Ear, strips
from creasewright.folding.mirrored import mirrored_state, under_prefix
from creasewright.folding.solid_points import extents
from creasewright.geometry.arch import STEEPEST, Arch
from creasewright.geometry.clip import area
from creasewright.geometry.rigid_transform import apply, dot, minus, norm
from creasewright.joining.girth import girth
from small_designs import last_run, made, runs_of, with_steps

PILLOW = """
pillow:
  base: {name: front, width: WIDE, height: 140 mm}
  flaps:
    back: {at: right of front, depth: WIDE}
    seam: {at: right of back, depth: 12 mm, ends: 45}
    ear: {at: [head of front, tail of front, head of back, tail of back], depth: 0 mm, far rise: FAR, seam rise: RISE}
"""
FLAT = (
    "{lay: pillow, up: back}",
    "{fold: seam}",
    "{fold: back, stays: front}",
    "{glue: seam, onto: front}",
)
LOWER = "{fold: [ear 1, ear 2], to: 90, bending: yes}"
UPPER = "{mountain: [ear 3, ear 4], to: 90, bending: yes}"


def pillow(*steps, wide="80 mm", far="14 mm", rise="0 mm - 14 mm", blanks=PILLOW):
    return with_steps(blanks.replace("WIDE", wide).replace("FAR", far).replace("RISE", rise), *steps)


def closed(**sizes):
    return made(pillow(*FLAT, LOWER, UPPER, **sizes))


def at(state, panel, x, y):
    key = ("pillow", panel)
    return apply(state.placed[key], state.curved[key].point(x, y))


def test_a_closed_pillow_measures_what_its_arcs_say():
    state = closed()
    low, high = extents(state, state.bodies[0])
    thick = 0.3
    assert isclose(high[2] - low[2], 2 * 14 + thick, abs_tol=1e-6)
    width = Arch(80.0, 14.0).width
    assert width < high[0] - low[0] < width + thick  # the sheet's thickness leans out at the sides


def test_front_and_back_meet_along_both_sides():
    state = closed()
    for x, other in ((80, 80), (0, 160)):  # front's right side is back's left one; back's right side comes round to front's left
        for y in (14, 70, 154):
            assert norm(minus(at(state, "front", x, y), at(state, "back", other, y))) < 1e-6


def test_every_loop_of_a_bent_thing_closes():
    shut = closing(closed())
    assert shut.loops == 1  # the seam on the front
    assert shut.mm < 1e-9


def test_a_panel_bent_otherwise_than_its_neighbour_leaves_a_gap():
    state = closed()
    front = state.curved["pillow", "front"]
    flatter = replace(state, curved={**state.curved, ("pillow", "front"): replace(front, arch=Arch(80.0, 12.0))})
    # along the sides the flatter panel is wider: half of the difference, on each side
    wider = (Arch(80.0, 12.0).width - Arch(80.0, 14.0).width) / 2
    assert closing(flatter).mm > wider > 0.5


def test_an_ear_reaches_from_its_own_panel_to_the_other():
    state = closed()
    for x in (0, 20, 40, 60, 80):
        height = Arch(80.0, 14.0).height(x)
        own, tip = at(state, "ear 1", x, 14 + height), at(state, "ear 1", x, 14 - height)
        assert norm(minus(own, at(state, "front", x, 14 + height))) < 1e-9
        assert norm(minus(tip, at(state, "back", 160 - x, 14 + height))) < 1e-6


def test_the_crease_lies_in_a_plane_at_45_degrees_and_the_ear_is_the_mirror_image_in_it():
    curved = Curved(Arch(80.0, 14.0), (0.0, 100.0), (1.0, 0.0), 1.0)
    ear = Curved(Arch(80.0, 14.0), (0.0, 100.0), (1.0, 0.0), 1.0, 0.0, Ear(0.0, 1.0, 0.0))
    for s in (5.0, 33.0, 71.0):
        height = curved.arch.height(s)
        _, y, z = curved.point(s, 100 + height)
        assert isclose(y - 100, z, abs_tol=1e-9)
        for further in (1.0, 9.0):
            ahead, turned = curved.point(s, 100 + height - further), ear.point(s, 100 + height - further)
            assert turned == pytest.approx((ahead[0], 100 + ahead[2], ahead[1] - 100))  # y - 100 and z changed over


bent = st.builds(
    lambda chord, share, x, y, up, bows: (chord, share, x, y, up, bows),
    st.floats(40, 200), st.floats(0.02, STEEPEST * 0.98), st.floats(0.05, 0.95), st.floats(-10, 10), st.sampled_from([1.0, -1.0]),
    st.sampled_from([None, 1.0, -1.0]),
)  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(bent)
def test_bending_stretches_nothing(case):
    chord, share, part, t, up, bows = case
    arch = Arch(chord, chord * share)
    curved = Curved(arch, (3.0, 5.0), (0.6, 0.8), up, 0.0, Ear(2.0, bows, 0.5) if bows else None)
    s, h = chord * part, chord * 1e-5

    def place(s, t):
        return 3.0 + s * 0.6 - t * 0.8, 5.0 + s * 0.8 + t * 0.6

    here = curved.point(*place(s, t))
    for ds, dt in ((1, 0), (0, 1), (0.6, -0.8), (0.8, 0.6)):
        there = curved.point(*place(s + ds * h, t + dt * h))
        assert norm(minus(there, here)) / h == pytest.approx(1.0, rel=2e-3)
    normal = curved.normal(*place(s, t))
    assert norm(normal) == pytest.approx(1)
    for ds, dt in ((1, 0), (0, 1)):
        along = minus(curved.point(*place(s + ds * h, t + dt * h)), here)
        assert abs(dot(along, normal)) / h < 2e-3


def test_strips_of_a_bent_panel_add_up_to_it():
    state = closed()
    for panel in ("front", "ear 3", "seam"):
        key = ("pillow", panel)
        polygon = state.blanks["pillow"].panel(panel).polygon
        whole = sum(area(strip.corners) for strip in strips(state.curved[key], polygon))
        assert isclose(whole, area(polygon), rel_tol=1e-6)
        assert all(len(strip.corners) == len(strip.flat) == len(strip.on_ruling) for strip in bent_strips(state, key))


def test_a_ribbon_goes_round_a_bent_pillow_as_far_as_round_the_flat_one():
    state = closed()
    low, high = extents(state, state.bodies[0])
    around = girth(state, state.bodies[0], "width", (low[1] + high[1]) / 2)
    # bending stretches nothing: twice 80, and a full turn at half the thickness farther out, pi · 0.3; the section is of chords
    assert 160 < around < 160 + pi * 0.3 + 0.1


def test_an_ear_folded_later_lies_over_the_one_folded_before():
    state = closed()
    overs = {key[1]: curved.ear.over for key, curved in state.curved.items() if curved.ear}
    assert overs == {"ear 1": 0, "ear 2": 0, "ear 3": 0.3, "ear 4": 0.3}
    assert state.curved["pillow", "seam"].under == 0.3  # the front lies over the seam


def test_one_end_may_be_closed_before_the_other():
    state = made(pillow(*FLAT, "{fold: ear 2, to: 90, bending: yes}", "{mountain: ear 4, to: 90, bending: yes}"))
    assert {key[1] for key, curved in state.curved.items() if curved.ear} == {"ear 2", "ear 4"}
    assert len(state.curved) == 7
    low, high = extents(state, state.bodies[0])
    assert isclose(high[2] - low[2], 28.3, abs_tol=1e-6)


def test_the_mirror_image_of_a_pillow_is_as_large_and_twice_mirrored_is_unchanged():
    state = closed()
    image = mirrored_state(state)
    for one, other in zip(extents(state, state.bodies[0]), extents(image, image.bodies[0]), strict=True):
        assert one[1:] == pytest.approx(other[1:])
    own = sorted(round(p, 6) for low in extents(state, state.bodies[0]) for p in low)
    twice = mirrored_state(image)
    assert own == pytest.approx(sorted(round(p, 6) for low in extents(twice, twice.bodies[0]) for p in low))
    inside = under_prefix(state, "gift")
    assert extents(inside, inside.bodies[0]) == extents(state, state.bodies[0])


@settings(max_examples=15, deadline=None)
@given(st.integers(40, 100), st.floats(0.02, STEEPEST * 0.98))
def test_every_shallow_pillow_closes(wide, share):
    rise = round(wide * share, 3)
    state = closed(wide=f"{wide} mm", far=f"{rise:.3f} mm", rise=f"0 mm - {rise:.3f} mm")
    low, high = extents(state, state.bodies[0])
    assert isclose(high[2] - low[2], 2 * rise + 0.3, abs_tol=1e-6)
    assert high[0] - low[0] < wide + 0.3


BOX = PILLOW.replace("FAR", "14 mm").replace("RISE", "0 mm - 14 mm")
OTHER_EAR = BOX.replace(
    "[head of front, tail of front, head of back, tail of back]", "[head of front, tail of front]"
) + "    fin: {at: [head of back, tail of back], depth: 0 mm, far rise: 12 mm, seam rise: 0 mm - 12 mm}\n"


@pytest.mark.parametrize(
    ("body", "what", "hint"),
    [
        (
            pillow(*FLAT, "{fold: ear 1, to: 90}"),
            "`ear 1` is a curved score, which bends the paper on both sides of it", "add `bending: yes`",
        ),
        (
            pillow(*FLAT, "{fold: ear 1, to: 60, bending: yes}"),
            "the curved score `ear 1` is folded to 60°, and only 90° is worked out", "write `to: 90`",
        ),
        (
            pillow(*FLAT, "{fold: {ear 1: 90, back: 180}, bending: yes}"),
            "`back` is straight and folds together with a curved score", "fold the curved scores in a step of their own",
        ),
        (
            # tan(2 atan(2 · 17 / 80)) = 1.037; 80 · tan(22.5°) / 2 = 16.569
            pillow(*FLAT, LOWER, rise="0 mm - 17 mm"),
            "the curved score `ear 1` leaves its ends at a slope of 1.04, and paper bends over it only under 1",
            "give it a rise under 16.6 mm (its chord is 80.0 mm)",
        ),
        (
            pillow(*FLAT, "{mountain: [ear 1, ear 2], to: 90, bending: yes}"),
            "back of pillow would bend into front of pillow, which lies on it",
            "fold the ears towards the other panel: turn the work over, or write `mountain` for `fold`",
        ),
        (
            pillow(*FLAT, LOWER, "{fold: [ear 3, ear 4], to: 90, bending: yes}"),
            "back of pillow is bent the other way: ear 3 of pillow must go to the side on which its other ears are",
            "turn the work over first, or write `mountain` for `fold`",
        ),
        (
            # arcs that rise 14 and 16: 2 deeper than the section at its middle
            pillow(*FLAT, LOWER, far="16 mm"),
            "ear 1 of pillow is 2.0 mm too deep: it would reach through back of pillow",
            "give it less `depth` or `far rise`: its two arcs may rise together by twice the score's rise",
        ),
        (
            pillow(*FLAT, LOWER, "{mountain: [fin 1, fin 2], to: 90, bending: yes}", blanks=OTHER_EAR),
            "back of pillow is bent 14.0 mm high over 80.0 mm, and the curved score of fin 1 of pillow rises 12.0 mm over 80.0 mm",
            "give all curved scores of the thing one chord and one rise",
        ),
        (
            # a seam that ends square lies over the curve of the ear and is glued to it
            pillow(
                "{lay: pillow, up: back}", "{fold: seam}", "{fold: back, stays: front}", "{glue: seam, onto: [front, ear 1]}", LOWER,
                blanks=BOX.replace("ends: 45", "ends: 89"),
            ),
            "ear 1 of pillow hangs on a curved score and is held by seam of pillow too",
            "let a plain flap hang there: nothing glued to it (cut that panel's ends back, `ends: 45`) and no score on it",
        ),
        (
            pillow("{lay: pillow, up: back}", LOWER),
            "back of pillow reaches 80.0 mm past the curved score of ear 1 of pillow, and bends with it",
            "let the curved score run from side to side, and fold what stands over first",
        ),
        (
            pillow("{lay: pillow, up: back}", "{fold: seam}", "{fold: back, to: 90, stays: front}", LOWER),
            "the fold between front of pillow and back of pillow does not run along a side of front of pillow, "
            "which bends from side to side",
            "fold it flat, along a side that runs from ear to ear",
        ),
        (
            pillow(
                "{lay: pillow, up: back}", "{fold: seam}", "{fold: back, stays: front}", "{glue: seam, onto: [front, back]}", LOWER,
            ),
            "back of pillow and seam of pillow are held together, and would have to bend apart",
            "glue them only along the sides that run from ear to ear",
        ),
        (
            pillow(*FLAT, LOWER, "{unfold: back}"),
            "front of pillow stands bent by its curved scores, and what happens to it now is not worked out",
            "do this before the curved scores are folded",
        ),
        (
            with_steps(
                "card: {width: 80 mm, height: 60 mm, scores: {s: {line: [[0 mm, 20 mm], [80 mm, 20 mm]], rise: 8 mm}}}",
                "{lay: card, up: back}", "{fold: s, to: 90, bending: yes}",
            ),
            "the curved score of part 1 of card bows out of part 2 of card, and only one that bows into it is worked out",
            "turn its curve round (as a flap: a `seam rise` under 0)",
        ),
    ],
)  # fmt: skip
def test_a_curved_fold_that_is_not_worked_out_is_refused_in_these_words(body, what, hint):
    assert last_run(body).refused == (what, hint)


def test_a_single_sheet_bends_alone():
    body = with_steps(
        "card: {width: 80 mm, height: 60 mm, scores: {s: {line: [[80 mm, 20 mm], [0 mm, 20 mm]], rise: 8 mm}}}",
        "{lay: card, up: back}", "{fold: s, to: 90, bending: yes}",
    )  # fmt: skip
    assert [run.refused for run in runs_of(body)] == [None, None]
    state = made(body)
    low, high = extents(state, state.bodies[0])
    assert isclose(high[0] - low[0], Arch(80.0, 8.0).width, abs_tol=0.3)
    assert hypot(high[2] - low[2]) > 8
