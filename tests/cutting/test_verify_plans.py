"""The checker of plans rejects planted faults."""

from fractions import Fraction

import pytest
from msgspec.structs import replace

from creasewright.cutting.plan import PaperPlan, Placement, SheetPlan
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.cutting.verify import faults_of, separable
from cutting.cutting_cases import TRIMMER, piece, stock

PIECES = [piece("strip", 265, 150, 2)]


def sound() -> PaperPlan:
    return plan_rectangles(PIECES, [stock(305, 305)], TRIMMER)


def with_sheet(**changes: object) -> PaperPlan:
    plan = sound()
    return replace(plan, sheets=(replace(plan.sheets[0], **changes),))


def with_cut(place: int, **changes: object) -> PaperPlan:
    cuts = list(sound().sheets[0].cuts)
    cuts[place] = replace(cuts[place], **changes)
    return with_sheet(cuts=tuple(cuts))


def with_placement(**changes: object) -> PaperPlan:
    first, *others = sound().sheets[0].placements
    return with_sheet(placements=(replace(first, **changes), *others))


def test_a_sound_plan_has_no_faults():
    assert faults_of(sound(), PIECES) == []


@pytest.mark.parametrize(
    "plan, told",
    [
        (with_placement(y=Fraction(100)), "overlap"),
        (with_placement(x=Fraction(60)), "leaves the usable area"),
        (with_placement(width=Fraction(264)), "wanted 265 x 150"),
        (with_placement(turned=True), "must not be"),
        (with_placement(key="lid"), "nobody asked for it"),
        (with_sheet(count=2), "4 cut, 2 wanted"),
        (with_sheet(placements=sound().sheets[0].placements[:1]), "1 cut, 2 wanted"),
        (with_sheet(offcuts=()), "left unnamed"),
        (with_sheet(cuts=sound().sheets[0].cuts[:2]), "do not give the part"),
        (with_cut(1, setting=Fraction(155)), "not the width of the part kept"),
        (with_cut(2, same_setting=False), "'same setting' is wrong"),
        (with_cut(1, from_edge="left"), "not parallel"),
        (with_cut(1, piece_rect=(Fraction(0), Fraction(0), Fraction(305), Fraction(305))), "not in hand"),
        (with_cut(0, number=7), "comes at place"),
        (replace(sound(), sheet_count=2), "stated"),
        (replace(sound(), lower_bound=2), "bound"),
        (replace(sound(), proved=False), "proof"),
    ],
)
def test_a_planted_fault_is_found(plan, told):
    assert any(told in fault for fault in faults_of(plan, PIECES))


def test_a_pinwheel_is_not_cuttable_edge_to_edge():
    # Four 2 x 1 pieces round a 1 x 1 hole in a 3 x 3 square: each straight line through it meets a piece.
    boxes = [(0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2)]
    exact = [tuple(Fraction(number) for number in box) for box in boxes]
    assert not separable(exact)
    assert separable(exact[:3])
    placements = tuple(Placement(f"p{n}", *box, False) for n, box in enumerate(exact))
    pieces = [piece(f"p{n}", box[2], box[3]) for n, box in enumerate(boxes)]
    sheet = SheetPlan(stock(3, 3), 1, placements, (), ())
    plan = PaperPlan("card", (sheet,), 1, 1, Fraction(1), Fraction(1), True, 0, (), (), (), False)
    assert "sheet 1: no edge-to-edge cuts part the pieces" in faults_of(plan, pieces)
