"""Sheet plans keep their promises, on demands made up at random and on published ones."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from creasewright.cutting.demand import Piece
from creasewright.cutting.plan import TooLarge
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.cutting.verify import faults_of
from cutting.cutting_cases import TRIMMER, piece, pieces_of, stock, times

# Sheet; width, height and count of each piece; fewest sheets, the same whether all pieces may turn or none.
PUBLISHED = {
    # Berkey & Wang, J. Oper. Res. Soc. 38 (1987) 423-429, class 1, n = 20, no. 2; both proved by the bound.
    "class 1": (
        (10, 10),
        "2 2 2, 6 8 1, 10 2 1, 1 3 1, 8 4 1, 3 10 1, 1 9 2, 1 5 1, 6 3 1, 1 1 1, 4 2 1, 9 2 1, 9 5 1, 4 7 1, 3 4 1, 9 7 1, 4 1 1,"
        " 9 8 1",
        5,
    ),
    # Christofides & Whitlock 1977, problem 1 (cgcut1), as bin packing; area 225 on sheets of 150, so at least 2.
    "cgcut1": ((15, 10), "8 4 2, 3 7 1, 8 2 3, 3 4 5, 3 3 2, 3 2 2, 2 1 1", 2),
    # Beasley, Oper. Res. 33 (1985) 49-64 (the reference from memory), ngcut5 as bin packing; area 353 on 150, so at least 3.
    "ngcut5": ((15, 10), "10 3 2, 9 3 1, 12 2 3, 11 3 1, 12 3 3, 11 1 3, 2 10 1", 3),
    # Lodi, Martello & Vigo, INFORMS J. Comput. 11 (1999) 345-357, class 9, n = 20, no. 1.
    "class 9": (
        (100, 100),
        "56 75 1, 97 77 1, 62 73 1, 98 84 1, 71 50 1, 76 93 1, 83 55 2, 97 88 1, 67 71 1, 64 99 1, 80 89 1, 85 87 1, 70 60 1,"
        " 57 53 1, 89 85 1, 84 98 1, 85 61 1, 62 70 1, 10 42 1",
        19,
    ),
}

sizes = st.integers(min_value=1, max_value=24)
kits = st.lists(st.tuples(sizes, sizes, st.integers(min_value=1, max_value=3)), min_size=1, max_size=6)
halves = st.integers(min_value=1, max_value=48).map(lambda n: Fraction(n, 2))


@st.composite
def demands(draw: st.DrawFn) -> list[Piece]:
    count = draw(st.integers(min_value=1, max_value=7))
    return [
        Piece(f"p{n}", draw(halves), draw(halves), draw(st.integers(min_value=0, max_value=4)), draw(st.booleans()))
        for n in range(count)
    ]


@settings(deadline=None)
@given(demands(), st.tuples(*[st.integers(min_value=0, max_value=3)] * 4))
def test_every_plan_gives_exactly_its_demand_by_cuts_that_can_be_made(pieces, lost):
    plan = plan_rectangles(pieces, [stock(22, 20, lost)], TRIMMER)
    assert faults_of(plan, pieces) == []


@settings(deadline=None, max_examples=50)
@given(kits)
def test_leave_to_turn_never_costs_a_sheet(kit):
    unturned = plan_rectangles(pieces_of(kit, may_turn=False), [stock(24, 24)], TRIMMER)
    turned = plan_rectangles(pieces_of(kit, may_turn=True), [stock(24, 24)], TRIMMER)
    assert turned.sheet_count <= unturned.sheet_count


@settings(deadline=None, max_examples=40)
@given(kits, st.integers(min_value=2, max_value=12), st.booleans())
def test_a_class_never_takes_more_than_its_kits_planned_one_by_one(kit, makers, may_turn):
    pieces = pieces_of(kit, may_turn=may_turn)
    one = plan_rectangles(pieces, [stock(24, 24)], TRIMMER)
    together = plan_rectangles(times(pieces, makers), [stock(24, 24)], TRIMMER)
    assert faults_of(together, times(pieces, makers)) == []
    assert together.sheet_count <= makers * one.sheet_count


@pytest.mark.parametrize("name", PUBLISHED)
@pytest.mark.parametrize("may_turn", [False, True])
def test_published_demands_take_the_published_number_of_sheets(name, may_turn):
    (width, height), written, fewest = PUBLISHED[name]
    kit = [tuple(int(number) for number in line.split()) for line in written.split(",")]
    pieces = pieces_of(kit, may_turn=may_turn)
    plan = plan_rectangles(pieces, [stock(width, height)], TRIMMER)
    assert faults_of(plan, pieces) == []
    assert plan.sheet_count == fewest
    assert plan.lower_bound <= fewest


def test_the_same_demand_gives_the_same_plan():
    pieces = pieces_of([(12, 9, 4), (7, 5, 6), (20, 3, 2)], may_turn=True)
    assert plan_rectangles(pieces, [stock(24, 24)], TRIMMER) == plan_rectangles(pieces, [stock(24, 24)], TRIMMER)


def test_sheets_cut_alike_are_one_plan_with_a_count():
    # Four 150 mm squares fill a sheet of 300 mm; thirty makers with four each take thirty such sheets.
    plan = plan_rectangles([piece("square", 150, 150, 120)], [stock(300, 300)], TRIMMER)
    assert [sheet.count for sheet in plan.sheets] == [30]
    assert (plan.sheet_count, plan.lower_bound, plan.proved) == (30, 30, True)


def test_a_class_shares_sheets_where_single_kits_waste_them():
    # One 100 x 300 strip a maker: three to a sheet of 300 mm, so 30 makers take 10 sheets, not 30.
    plan = plan_rectangles([piece("strip", 100, 300, 30)], [stock(300, 300)], TRIMMER)
    assert plan.sheet_count == 10


def test_a_piece_larger_than_the_sheet_is_listed_and_the_others_are_planned():
    pieces = [piece("cover", 310, 100), piece("page", 100, 100)]
    plan = plan_rectangles(pieces, [stock(305, 305, (0, 0, 0, 10))], TRIMMER)
    cover = pieces[0]
    assert plan.too_large == (TooLarge("cover", cover.width, cover.height, False, Fraction(305), Fraction(295)),)
    assert [placement.key for placement in plan.sheets[0].placements] == ["page"]
    assert faults_of(plan, pieces) == []


def test_a_piece_that_fits_only_turned_is_turned_if_it_may():
    allowed, forbidden = piece("strip", 200, 290, may_turn=True), piece("strip", 200, 290)
    assert plan_rectangles([allowed], [stock(297, 210)], TRIMMER).sheets[0].placements[0].turned
    assert plan_rectangles([forbidden], [stock(297, 210)], TRIMMER).too_large[0].key == "strip"


def test_nothing_wanted_takes_no_sheet_and_that_is_proved():
    plan = plan_rectangles([replace(piece("page", 10, 10), count=0)], [stock(20, 20)], TRIMMER)
    assert (plan.sheets, plan.sheet_count, plan.lower_bound, plan.proved) == ((), 0, 0, True)
    assert plan_rectangles([], [stock(20, 20)], TRIMMER).sheet_count == 0
