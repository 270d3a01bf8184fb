"""What a gate's measure may be off by good hands, against 100,000 makers who cut, score and place at random."""

from fractions import Fraction

import numpy as np
import numpy.typing as npt
import pytest

from creasewright.fitting.gates import Gate, gates_of
from creasewright.fitting.worked import Worked
from creasewright.hands.error_table import HandErrors
from creasewright.hands.gate_leeway import gate_leeway, leeway_mark
from section_cases import shipped
from small_designs import with_steps, worked_of

MAKERS = 100_000
ERRORS = HandErrors()
GLUE = "materials: {glue: {kind: glue}}\n"


def drawn(seed: int, error: float) -> npt.NDArray[np.float64]:
    return np.random.default_rng(seed).normal(0.0, error / 1.96, MAKERS)


def every_gate(worked: Worked) -> list[Gate]:
    return [gate for gates in gates_of(worked).values() for gate in gates]


def agrees(worked: Worked, gate: Gate, measured: npt.NDArray[np.float64]) -> None:
    assert gate.measure.mm == pytest.approx(float(measured.mean()), abs=0.02)
    assert gate_leeway(worked, gate, ERRORS) == pytest.approx(1.96 * float(measured.std()), rel=0.02)


def test_from_a_fold_to_an_edge():
    """Both are set from one edge: the fold by the score's error, the far edge by the cut's."""
    strip = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm, cover: 80 mm]}"
    worked = worked_of(GLUE + with_steps(strip, "{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}"))
    (gate,) = every_gate(worked)
    agrees(worked, gate, (200 + drawn(1, 0.8)) - (30 + drawn(2, 0.5)))


def test_over_two_pieces_the_eye_counts_too():
    """A tab is put down by eye with its left edge on a score of the base."""
    blanks = """
    base: {height: 60 mm, across: [main: 90 mm, edge: 10 mm]}
    tab: {width: 50 mm, height: 60 mm}
    """
    worked = worked_of(GLUE + with_steps(blanks, "{glue: tab, onto: base, meet: {left: main/edge, head: head}}"))
    dry = next(gate for gate in every_gate(worked) if gate.measure.mm == pytest.approx(140.0))
    agrees(worked, dry, 90 + drawn(3, 0.5) + drawn(4, 0.8) + 50 + drawn(5, 0.8))


@pytest.mark.parametrize(("left", "wide"), [(8, 60), (0, 70)])
def test_a_border_errs_by_the_eye_and_at_the_far_side_by_both_cuts_too(left, wide):
    blanks = f"base: {{width: 100 mm, height: 80 mm}}\nslip: {{width: {wide} mm, height: 50 mm}}"
    worked = worked_of(GLUE + with_steps(blanks, f"{{join: slip, onto: base, meet: {{left: {{from: left, by: {left} mm}}, head: head}}}}"))
    gate = next(one for one in every_gate(worked) if one.measure.sides)
    eye, base, slip = drawn(6, 0.8), drawn(7, 0.8), drawn(8, 0.8)
    if left:  # at the left, where both are measured from
        assert gate.measure.sides == ("left",)
        agrees(worked, gate, left + eye)
    else:
        assert gate.measure.sides[0] == "right"
        agrees(worked, gate, (100 + base) - (wide + eye + slip))


def on_its_corner(corners: str) -> tuple[Worked, Gate]:
    """A square of 200 mm stood on its corner, its upper corner folded down: from its left tip to its right one."""
    sheet = f"sheet: {{width: 200 mm, height: 200 mm, scores: {{fold: {{across: head-left, at: 70 mm}}}}, corners: {{{corners}}}}}"
    worked = worked_of(with_steps(sheet, "{lay: sheet, turned: 45}", "{fold: fold, stage: folded}"))
    return worked, every_gate(worked)[-1]


@pytest.mark.parametrize(("corners", "off"), [("", 0), ("head-right: {round: 20 mm}, tail-left: {round: 20 mm}", 20)])
def test_a_tip_errs_by_the_edges_that_meet_in_it(corners, off):
    """Also where it is rounded on a piece that is cut straight. Left and head edge are what is measured from."""
    long = 2**0.5 * 200 - 2 * (2**0.5 - 1) * off
    agrees(*on_its_corner(corners), long + (drawn(9, 0.8) + drawn(10, 0.8)) / 2**0.5)


def test_a_rounding_drawn_from_a_template_errs_by_itself():
    both = "head-right: {round: 20 mm}, tail-left: {round: 20 mm}"
    traced = ERRORS.of("traced")
    long = 2**0.5 * 200 - 2 * (2**0.5 - 1) * 20
    agrees(*on_its_corner(f"{both}, tail-right: {{cut: [10 mm, 30 mm]}}"), long + drawn(11, traced) + drawn(12, traced))


def test_what_stands_is_as_high_as_from_the_line_it_stands_on_to_the_one_it_ends_with():
    """The bag: from the fold of its foot, which lies on the table, to the fold of its rim."""
    worked = shipped("bulb-bag")
    gate = next(one for one in every_gate(worked) if one.measure.way == "depth")
    agrees(worked, gate, gate.measure.mm + drawn(13, 0.5) - drawn(14, 0.5))


def test_where_panels_are_bent_or_a_lid_rests_on_a_box_nothing_is_said():
    gates = [(shipped(name), name, gate) for name in SOME for gate in every_gate(shipped(name))]
    without = {(name, gate.number) for worked, name, gate in gates if gate_leeway(worked, gate, ERRORS) is None}
    assert without == {("bulb-pillow", 8), ("bulb-pillow", 10), ("seedling-box", 2)}


SOME = ("bulb-pillow", "seedling-box", "seed-packet-envelope", "bulb-bag", "bulb-pot", "garden-journal")


def test_a_mark_at_least_and_the_nearest():
    strip = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm, cover: 80 mm]}"
    body = GLUE + with_steps(strip, "{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}")
    for system, mark in (("mm", Fraction(1)), ("in", Fraction(127, 80))):
        worked = worked_of(body, system=system)
        assert leeway_mark(worked, every_gate(worked)[0], ERRORS) == mark


def test_no_mistake_that_the_ruler_tells_lies_within_it():
    told = 0
    for name in ("seed-swap-folio", "swap-day-card", "bulb-bag", "seed-packet-envelope"):
        worked = shipped(name)
        for gate in every_gate(worked):
            mark = leeway_mark(worked, gate, ERRORS)
            for one in gate.symptoms:
                off = abs(one.mm - gate.measure.mm) if one.mm is not None else 0.0
                if mark is not None and off >= 1.5:
                    told += 1
                    assert float(mark) < off
    assert told > 3
    # with hands that err by more than a mistake changes the measure, nothing is said
    worked = shipped("swap-day-card")
    clumsy = HandErrors(scored=5.0, trimmed=8.0)
    close = [g for g in every_gate(worked) if any(s.mm is not None and 1.5 <= abs(s.mm - g.measure.mm) < 8 for s in g.symptoms)]
    assert close
    assert all(leeway_mark(worked, gate, clumsy) is None for gate in close)
