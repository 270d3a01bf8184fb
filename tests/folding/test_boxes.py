"""Trays, prisms and tapered boxes: volumes from textbooks, closed solids judged by a mesh library, and boxes that do not close."""

from math import acos, degrees, radians, sqrt, tan

import pytest
from solids import closed_box

from small_designs import last_run, made, runs_of, with_steps

GLUE = "materials: {glue: {kind: glue}}\n"


def tray(length: float, breadth: float, depth: float, side_depth: float | None = None) -> str:
    side = depth if side_depth is None else side_depth
    return (
        f"tray: {{base: {{name: base, width: {length} mm, height: {breadth} mm}}, flaps: {{"
        f"head wall: {{at: head of base, depth: {depth} mm}}, tail wall: {{at: tail of base, depth: {depth} mm}}, "
        f"side wall: {{at: [left of base, right of base], depth: {side} mm}}, "
        f"tab: {{at: [ends of head wall, ends of tail wall], depth: 10 mm, ends: 75}}}}}}"
    )


WALLS = ["head wall", "tail wall", "side wall 1", "side wall 2"]
RISE = "{fold: [head wall, tail wall, each side wall, each tab], to: 90}"


# An open tray from a sheet with squares of x cut from its corners holds x (a - 2x)(b - 2x); the best x of a square is a / 6 and the
# volume then 2 a^3 / 27 (textbook problem). a = 120: 128 000; and the solved case of 12 by 18: x = 5 - sqrt 7, 228.16207, here times 10.
@pytest.mark.parametrize(
    ("a", "b", "x", "volume"),
    [(120, 120, 20, 128_000), (240, 240, 40, 1_024_000), (120, 180, 10 * (5 - sqrt(7)), 228_162.07), (90, 65, 15, 60 * 35 * 15)],
)
def test_a_folded_tray_holds_what_the_textbook_says(a, b, x, volume):
    state = made(GLUE + with_steps(tray(a - 2 * x, b - 2 * x, x), RISE, "{glue: each tab}"))
    solid = closed_box(state, "tray", "base", WALLS)
    assert solid.is_watertight
    assert solid.euler_number == 2
    assert abs(solid.volume) == pytest.approx(volume, rel=1e-7)
    walls = sum(state.blanks["tray"].panel(name).area for name in ["base", *WALLS])
    assert walls == pytest.approx(a * b - 4 * x * x)  # the sheet less its four corners, paper is only bent


def pot(sides: int, flare: float, depth: float = 55, tab_ends: float = 40, tab: float = 8) -> str:
    return (
        f"pot: {{base: {{name: base, sides: {sides}, side: 45 mm}}, flaps: {{"
        f"wall: {{at: each edge of base, depth: {depth} mm, ends: {90 + flare}}}, "
        f"tab: {{at: first end of each wall, depth: {tab} mm, ends: {tab_ends}}}}}}}"
    )


MEET = "{fold: [each wall, each tab], to: meet}"


@pytest.mark.parametrize(("sides", "flare"), [(3, 0), (4, 0), (5, 0), (6, 0), (6, 5), (6, 8), (8, 0), (8, 1), (5, -4), (4, 10)])
def test_walls_meet_at_the_angle_of_the_regular_pyramid(sides, flare):
    state = made(GLUE + with_steps(pot(sides, flare), "{lay: pot, up: back}", MEET, "{glue: each tab}"))
    angle = abs(state.angles[("pot", "wall 1")])
    # a wall of a regular frustum leans by its slant: cos(fold) = tan(ends - 90) / tan(180 / n), textbook geometry of the pyramid
    assert angle == pytest.approx(degrees(acos(tan(radians(flare)) / tan(radians(180 / sides)))), abs=1e-6)
    solid = closed_box(state, "pot", "base", [f"wall {k}" for k in range(1, sides + 1)])
    assert solid.is_watertight
    assert solid.euler_number == 2
    # prismatoid: h / 3 (A + B + sqrt(A B)) for a frustum; n-gon of side s: n s^2 / (4 tan(180 / n))
    top = 45 + 2 * 55 * tan(radians(flare))
    low, high = (sides * s * s / (4 * tan(radians(180 / sides))) for s in (45.0, top))
    lean = (high - low) and (top - 45) / (2 * tan(radians(180 / sides)))
    height = sqrt(55**2 - lean**2)
    assert abs(solid.volume) == pytest.approx(height / 3 * (low + high + sqrt(low * high)), rel=1e-6)


def test_a_square_pyramid_closes_over_its_base():
    # base 6, height 4: slant 5, volume 48 (textbook); walls are triangles with ends of atan(5 / 3) from the seam. Ten times as large
    ends = degrees(acos(30 / sqrt(30**2 + 50**2)))
    blank = (
        f"roof: {{base: {{name: base, sides: 4, side: 60 mm}}, flaps: {{wall: {{at: each edge of base, depth: 49.99 mm, ends: {ends}}}, "
        "tab: {at: first end of each wall, depth: 6 mm, ends: 30}}}"
    )
    state = made(GLUE + with_steps(blank, "{lay: roof, up: back}", MEET))
    solid = closed_box(state, "roof", "base", [f"wall {k}" for k in range(1, 5)])
    assert solid.is_watertight
    assert abs(solid.volume) == pytest.approx(48_000, rel=1e-4)


def test_tabs_lie_inside_the_walls_they_meet():
    state = made(GLUE + with_steps(tray(100, 70, 30), "{lay: tray, up: back}", RISE, "{glue: each tab}"))
    body = state.body_of("tray")
    for wall, tabs in (("side wall 1", {"tab 1", "tab 4"}), ("side wall 2", {"tab 2", "tab 3"})):
        stack = next(stack for stack in body.stacks if ("tray", wall) in stack.order)
        assert {key[1] for key in stack.order} == {wall, *tabs}
        outer = stack.order[0] if stack.normal[0] * (1 if wall.endswith("1") else -1) > 0 else stack.order[-1]
        assert outer == ("tray", wall)


# --- boxes that do not close ------------------------------------------------------------------------------------------


def test_a_wall_that_is_1_mm_short_is_refused_with_the_figure():
    run = last_run(GLUE + with_steps(tray(100, 70, 30, side_depth=29), "{lay: tray, up: back}", RISE.replace("to: 90", "to: meet")))
    assert run.refused == (
        "head wall of tray and side wall 1 of tray do not meet: their edges are 30.00 mm and 29.00 mm long, 1.00 mm apart",
        "make the two walls equally high there",
    )


def test_a_tube_with_a_wall_1_mm_short_misses_its_seam_by_that():
    # a ring of 40, 30, 40 and 29 mm: at 90 degrees the seam stands 1 mm off the first wall
    strip = "tube: {height: 60 mm, across: [a: 40 mm, b: 30 mm, c: 40 mm, d: 29 mm, seam: 8 mm]}"
    run = last_run(GLUE + with_steps(strip, "{fold: [a/b, b/c, c/d, d/seam], to: 90}", "{glue: seam, onto: a}"))
    assert run.refused is not None
    assert run.refused[0] == "seam of tube does not lie against a of tube (1.00 mm and 0.00° off a of tube)"


def test_walls_that_narrow_too_fast_never_meet():
    run = last_run(GLUE + with_steps(pot(6, -35, depth=20, tab_ends=30, tab=3), "{lay: pot, up: back}", MEET))
    assert run.refused is not None
    assert "never meet: at the nearest they are" in run.refused[0]


def lid_over(length: str, breadth: str) -> str:
    lid = tray(0, 0, 20).replace("tray:", "lid:").replace("width: 0 mm", f"width: {length}").replace("height: 0 mm", f"height: {breadth}")
    blanks = f"blanks:\n  {tray(100, 70, 30)}\n  {lid}\n"
    walls = "[head wall of {0}, tail wall of {0}, each side wall of {0}, each tab of {0}]"
    up = f"{{{{lay: {{0}}, up: back}}}}, {{{{fold: {walls}, to: 90}}}}, {{{{glue: each tab of {{0}}}}}}"
    one, two = (up.format(name) for name in ("tray", "lid"))
    return (
        GLUE + blanks + f"assemblies:\n  lower: {{steps: [{one}]}}\n  upper: {{steps: [{two}]}}\n"
        "  whole: {steps: [{turn over: upper}, {place: upper, around: lower, meet: centre}]}\n"
    )


def test_a_lid_goes_over_its_tray_with_the_room_that_calipers_leave():
    # caliper 0.3: the tray is 100.3 by 70.3 outside (one wall's half on each side; its tabs lie inside). The lid of 101.8 by 71.3 is
    # one caliper less inside across its head and tail walls, and two more where its own tabs lie inside the side walls
    run = runs_of(lid_over("101.8 mm", "71.3 mm"))[-1]
    assert run.refused is None
    fit = run.after.coverings[0]
    assert (fit.width, fit.height) == pytest.approx((100.3, 70.3))
    assert (fit.room_width, fit.room_height) == pytest.approx((101.8 - 0.3 - 2 * 0.3, 71.3 - 0.3))


def test_a_lid_that_forgot_its_own_tabs_is_refused_with_the_figure():
    # 100.3 + 0.3 + 0.1 ease, as if only the walls took room
    run = runs_of(lid_over("100.7 mm", "70.7 mm"))[-1]
    assert run.refused is not None
    assert run.refused[0] == "tray is 100.30 mm wide outside, but lid has 99.80 mm inside, 0.50 mm too little"


def test_a_panel_that_folds_into_another_is_refused_by_name():
    # two flaps of 60 mm on a base of 100 stand at 90 and then lean in by 30 more: they cross above the middle
    blank = "blank: {height: 50 mm, across: [left flap: 80 mm, base: 60 mm, right flap: 80 mm]}"
    run = last_run(with_steps(blank, "{fold: {left flap: 90, right flap: 90}}", "{fold: {left flap: 120, right flap: 120}}"))
    assert run.refused is not None
    assert "left flap of blank" in run.refused[0]
    assert "right flap of blank" in run.refused[0]


LEAVES = """
sheet:
  width: 60 mm
  height: 80 mm
  slits: {cut: {line: [[30 mm, 40 mm], [60 mm, 40 mm]]}}
  scores: {rise: {line: [[30 mm, 0 mm], [30 mm, 80 mm]]}}
  panels: {base: mid left, door: head-right, post: tail-right}
sail: {width: 20 mm, height: 70 mm}
"""
SAIL_UNDER = "{join: sail, under: door, meet: {left: {from: left, by: 5 mm}, head: {from: head, by: 5 mm}}}"


def test_a_piece_does_not_pass_through_a_wall_that_stands_on_its_line():
    # two leaves on one score; a sail under the upper leaf reaches under the lower one, which stands at 90
    run = last_run(GLUE + with_steps(LEAVES, SAIL_UNDER, "{fold: rise in post, to: 90}", "{fold: rise in door, to: 150}"))
    assert run.refused == ("sail would have to pass through post of sheet", "fold that one first or later, or the other way")


def test_it_may_come_as_near_as_the_wall_stands():
    run = last_run(GLUE + with_steps(LEAVES, SAIL_UNDER, "{fold: rise in post, to: 90}", "{fold: rise in door, to: 90}"))
    assert run.refused is None
