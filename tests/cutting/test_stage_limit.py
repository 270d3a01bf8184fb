"""A limit on stages holds for every cut of the plan, as counted here from the cuts alone."""

from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.cutting.demand import Effort, Wishes
from creasewright.cutting.plan import Cut, SheetPlan
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.cutting.verify import faults_of
from cutting.cutting_cases import TRIMMER, piece, pieces_of, stock

SHORT = Effort(iterations=400, rounds=20, polish=30)
sizes = st.integers(min_value=1, max_value=20)
kits = st.lists(st.tuples(sizes, sizes, st.integers(1, 3)), min_size=1, max_size=5)


def stages(sheet: SheetPlan) -> int:
    """The most changes of direction on the way to a piece, the first cuts counting as one, a piece's last trim as none."""
    from_part = {cut.piece_rect: cut for cut in sheet.cuts}
    whole = (0, 0, sheet.stock.width, sheet.stock.height)

    def deepest(part: tuple, direction: str, stage: int) -> int:
        cut: Cut | None = from_part.get(part)
        if cut is None:
            return stage
        last = cut.kept.box not in from_part and cut.other.box not in from_part and cut.other.kind == "offcut"
        if last and cut.direction != direction:
            return stage
        here = stage + (cut.direction != direction)
        sides = [side for side in (cut.kept, cut.other) if side.kind == "pieces"]
        return max(deepest(side.box, cut.direction, here) for side in sides)

    return deepest(whole, "", 0)


@settings(deadline=None, max_examples=60)
@given(kits, st.integers(min_value=1, max_value=3), st.booleans())
def test_no_plan_changes_direction_more_often_than_wished(kit, limit, may_turn):
    pieces = pieces_of(kit, may_turn=may_turn)
    plan = plan_rectangles(pieces, [stock(24, 24)], TRIMMER, Wishes(stages=limit), SHORT)
    assert faults_of(plan, pieces) == []
    assert max(stages(sheet) for sheet in plan.sheets) <= limit


@settings(deadline=None, max_examples=25)
@given(kits, st.integers(min_value=1, max_value=3))
def test_a_limit_on_stages_never_saves_a_sheet_where_both_are_proved(kit, limit):
    pieces = pieces_of(kit, may_turn=False)
    free = plan_rectangles(pieces, [stock(24, 24)], TRIMMER, Wishes(), SHORT)
    bound = plan_rectangles(pieces, [stock(24, 24)], TRIMMER, Wishes(stages=limit), SHORT)
    if free.proved and bound.proved:
        assert free.sheet_count <= bound.sheet_count


def test_shelves_alone_take_more_sheets_than_nested_strips():
    # 6 x 6 in a corner of 10 x 10 leaves an L: with three stages 4 x 10 and 6 x 4 go beside it, with one stage nothing more
    # than strips of full height does: 6 x 6 and 4 x 10, then 6 x 4 on a sheet of its own.
    pieces = [piece("square", 6, 6), piece("tall", 4, 10), piece("flat", 6, 4)]
    assert plan_rectangles(pieces, [stock(10, 10)], TRIMMER, Wishes(stages=2)).sheet_count == 1
    assert plan_rectangles(pieces, [stock(10, 10)], TRIMMER, Wishes(stages=1)).sheet_count == 2
