"""Areas of adhesive, worked out by hand."""

import pytest

from creasewright.folding.state import GlueArea
from creasewright.geometry.clip import area
from small_designs import last_run, made, with_steps

GLUE = "materials: {glue: {kind: glue}}\n"
FLAP = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}"


def glued(along: str) -> list[GlueArea]:
    return list(made(GLUE + with_steps(FLAP, "{fold: flap}", f"{{glue: flap, onto: page{along}}}")).glue)


def mm2(areas: list[GlueArea]) -> float:
    return sum(abs(area(patch.polygon)) for patch in areas)


@pytest.mark.parametrize(
    ("along", "expected"),
    [
        # all of the contact, 50 x 100, 3 mm in from every edge: 44 x 94
        ("", 44 * 94),
        # a strip of 6 mm along the tail edge of 50, 3 mm in at both ends: 44 x 6
        (", along: tail", 44 * 6),
        (", along: tail, width: 10 mm", 44 * 10),
        (", along: tail, setback: 5 mm", 40 * 6),
        # head and tail: two strips apart
        (", along: [head, tail]", 2 * 44 * 6),
        # seen folded over, the free long edge looks right; with the tail it makes an L: 94 x 6 and (44 - 6) x 6
        (", along: [right, tail]", 94 * 6 + 38 * 6),
        # free edges are head, tail and the one opposite the score: a U of 94 x 6 and two arms of 38 x 6
        (", along: free edges", 94 * 6 + 2 * 38 * 6),
    ],
)
def test_adhesive_keeps_its_setback_and_strips_their_width(along: str, expected: float):
    areas = glued(along)
    assert mm2(areas) == pytest.approx(expected, abs=0.01)
    assert {(patch.panel, patch.onto, patch.side) for patch in areas} == {(("strip", "flap"), ("strip", "page"), "front")}


def test_the_length_of_a_strip_is_that_of_its_middle_line():
    # an L, 94 along one side and 44 along the other, 6 wide: its middle line is 94 - 3 + 44 - 3 = 132
    assert sum(patch.length for patch in glued(", along: [right, tail]")) == pytest.approx(132, abs=0.01)
    assert [patch.length for patch in glued("")] == [0.0]


def test_the_area_lies_in_the_flat_frame_of_its_panel():
    (patch,) = glued(", along: tail")
    xs, ys = [x for x, _ in patch.polygon], [y for _, y in patch.polygon]
    # the flap reaches from 0 to 50 and 0 to 100 in its own blank: 3 mm in, 6 mm wide
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((3, 47, 91, 97))


def test_adhesive_is_clipped_to_what_it_lies_on():
    # the flap reaches 10 mm past the page (60 against 50): contact 50 x 100
    wide = FLAP.replace("50 mm, page: 80", "60 mm, page: 50")
    state = made(GLUE + with_steps(wide, "{fold: flap, stays: page}", "{glue: flap, onto: page}"))
    assert mm2(list(state.glue)) == pytest.approx(44 * 94, abs=0.01)


def test_an_overlap_narrower_than_its_setbacks_has_no_room_for_adhesive():
    run = last_run(GLUE + with_steps(FLAP.replace("50 mm", "5 mm"), "{fold: flap}", "{glue: flap, onto: page}"))
    assert run.refused == (
        "no room for adhesive between strip and what it lies on",
        "make the overlap wider, the setback smaller, or name other sides in `along:`",
    )


def test_a_flap_that_lies_against_nothing_is_refused():
    run = last_run(GLUE + with_steps(FLAP, "{glue: flap, onto: page}"))
    assert run.refused == (
        "flap of strip does not lie against page of strip",
        "fold it there first, or name the panel that it does lie on",
    )


def test_what_is_placed_takes_no_adhesive_and_still_moves_along():
    blanks = FLAP + "\nslip: {width: 30 mm, height: 40 mm}"
    state = made(
        GLUE + with_steps(blanks, "{place: slip, onto: flap, meet: centre}", "{fold: flap, stays: page}")
    )
    assert state.glue == ()
    assert [bond.kind for bond in state.bonds] == ["place"]


def test_strips_along_all_four_sides_make_a_frame_without_what_it_surrounds():
    # 100 x 80, 3 in: 94 x 74 outside, 6 less on every side inside: 82 x 62
    blanks = "page: {width: 100 mm, height: 80 mm}\nslip: {width: 100 mm, height: 80 mm}"
    state = made(GLUE + with_steps(blanks, "{join: slip, onto: page, along: [head, tail, left, right]}"))
    assert mm2(list(state.glue)) == pytest.approx(94 * 74 - 82 * 62, abs=0.01)
    # its middle line is 2 * (88 + 68)
    assert sum(patch.length for patch in state.glue) == pytest.approx(2 * (88 + 68), abs=0.01)
