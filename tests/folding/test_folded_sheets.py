"""Sheets folded several times: layers, sizes and page orders that are known from elsewhere."""

from itertools import permutations
from math import floor
from pathlib import Path

import pytest

from creasewright.folding.layer_solver import Rules
from creasewright.folding.panel_graph import links
from creasewright.folding.state import State, front_normal
from creasewright.geometry.rigid_transform import rotate
from creasewright.joining.run_step import StepRun
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import Seen, from_the_table, made, seen_at, with_steps

DESIGNS = Path(__file__).parents[2] / "designs"

# ISO 216, as the media names of PWG 5101.1 tabulate it (openprinting cups, media table): mm
A_SIZES = {"A3": (297, 420), "A4": (210, 297), "A5": (148, 210), "A6": (105, 148), "A7": (74, 105), "A8": (52, 74)}


def size_of(state: State, part: str) -> tuple[float, float]:
    boxes = [seen_at(state, key) for key in from_the_table(state, part)]
    wide = max(b.right for b in boxes) - min(b.left for b in boxes)
    high = max(b.tail for b in boxes) - min(b.head for b in boxes)
    return wide, high


@pytest.mark.parametrize(("large", "small"), [("A3", "A4"), ("A4", "A5"), ("A5", "A6"), ("A6", "A7"), ("A7", "A8")])
def test_a_sheet_of_the_a_series_folded_across_its_height_is_the_next_size(large: str, small: str):
    wide, high = A_SIZES[large]
    sheet = f"sheet: {{width: {wide} mm, down: [upper: {high / 2} mm, lower: {high / 2} mm]}}"
    state = made(with_steps(sheet, "{fold: upper/lower}"))
    folded = sorted(size_of(state, "sheet"))
    # ISO 216 rounds each half down to whole millimetres
    assert [floor(side) for side in folded] == sorted(A_SIZES[small])
    assert folded == sorted((wide, high / 2))


@pytest.mark.parametrize("times", [1, 2, 3, 4])
def test_n_folds_one_way_give_two_to_the_nth_layers(times: int):
    # 2, 4, 8, 16 layers: every fold doubles the stack
    count = 2**times
    strip = f"strip: {{height: 40 mm, across: [{{repeat: {count}, of: [part: 20 mm]}}]}}"
    steps = []
    for fold in range(times):
        wide = count // 2**fold
        # the stack is `wide` parts across from the left; it is halved in its middle, right over left, through all layers
        lines = [f"part {k}/part {k + 1}" for k in range(1, count) if k % wide == wide // 2]
        steps.append(f"{{fold: [{', '.join(lines)}], stays: part 1}}")
    state = made(with_steps(strip, *steps))
    order = from_the_table(state, "strip")
    assert len(order) == count
    assert {seen_at(state, key) for key in order} == {Seen(0, 0, 20, 40)}
    assert sorted(set(order)) == sorted(order)
    # halving a list right over left: the right half, reversed, lies on the left half
    expected = [[k] for k in range(1, count + 1)]
    while len(expected) > 1:
        half = len(expected) // 2
        expected = [left + right[::-1] for left, right in zip(expected[:half], reversed(expected[half:]), strict=True)]
    assert [int(name.removeprefix("part ")) for _, name in order] == expected[0]


LETTER_FOLDS = [
    # trade guides print 3 11/16, 3 11/16, 3 5/8 in for a sheet of 11 in: (11 + 1/16) / 3 = 3.6875, less 1/16
    (11 * 25.4, 25.4 / 16, 3.6875 * 25.4, 3.625 * 25.4),
    # outer = (297 + 1.5) / 3 = 99.5, inner = 99.5 - 1.5 = 98
    (297.0, 1.5, 99.5, 98.0),
]


@pytest.mark.parametrize(("sheet", "less", "outer", "inner"), LETTER_FOLDS)
def test_the_inner_panel_of_a_letter_fold_ends_short_of_the_fold_by_what_it_is_narrower(
    sheet: float, less: float, outer: float, inner: float
):
    card = "card: {height: 100 mm, across: [inner: wide - less, middle: wide, cover: wide]}"
    measures = f"measures: {{sheet: {sheet!r} mm, less: {less!r} mm, wide: (sheet + less) / 3}}\n"
    state = made(measures + with_steps(card, "{lay: card, up: back}", "{fold: inner}", "{fold: cover}"))
    widths = {panel.name: panel.polygon for panel in state.blanks["card"].panels}
    assert {name: round(max(x for x, _ in p) - min(x for x, _ in p), 9) for name, p in widths.items()} == {
        "inner": round(inner, 9), "middle": round(outer, 9), "cover": round(outer, 9)
    }  # fmt: skip
    assert float(state.blanks["card"].width) == pytest.approx(sheet)
    middle, tucked = seen_at(state, ("card", "middle")), seen_at(state, ("card", "inner"))
    # seen from the back the inner panel hangs on the right and reaches to the left, where the cover folds over it
    assert tucked.right == middle.right
    assert tucked.left - middle.left == pytest.approx(less, abs=1e-5)
    assert [name for _, name in from_the_table(state, "card")] == ["middle", "inner", "cover"]


def test_a_z_fold_alternates_and_keeps_every_panel_on_the_one_before():
    card = "card: {height: 100 mm, across: [a: 70 mm, b: 70 mm, c: 70 mm]}"
    state = made(with_steps(card, "{fold: a/b, mountain: b/c, stays: b}"))
    assert [name for _, name in from_the_table(state, "card")] == ["c", "b", "a"]
    assert {seen_at(state, key) for key in from_the_table(state, "card")} == {Seen(70, 0, 140, 100)}


# --- page orders ------------------------------------------------------------------------------------------------------

# Right-angle folds of one sheet, from a simulation of stacked layers worked elsewhere. The inside is the side that looks up
# before the first fold; the outside is seen after the sheet is turned over like a page.
# R: right over left, T: top over bottom, L: left over right.
RIGHT_ANGLE = {
    "L": ([[2, 3]], [[4, 1]]),
    "TL": ([[3, 6], [2, 7]], [[5, 4], [8, 1]]),
    "RTL": ([[7, 10, 11, 6], [2, 15, 14, 3]], [[5, 12, 9, 8], [4, 13, 16, 1]]),
}


def folded_sheet(codes: str) -> State:
    columns = "abcd"[: 4 if "R" in codes else 2]
    across = ", ".join(f"{c}: 50 mm" for c in columns)
    rows = "down: [top: 70 mm, bottom: 70 mm]" if "T" in codes else "height: 70 mm"
    base = "bottom b" if "T" in codes else "b"
    wishes = {
        "R": f"{{fold: b/c, stays: {base}}}",
        "T": f"{{fold: top/bottom, stays: {base}}}",
        "L": f"{{fold: [a/b, c/d], stays: {base}}}" if "R" in codes else f"{{fold: a/b, stays: {base}}}",
    }
    return made(with_steps(f"sheet: {{across: [{across}], {rows}}}", *(wishes[code] for code in codes)))


def pages(state: State) -> dict[tuple[str, str], int]:
    """(panel, side of the paper) to page number, turning leaves from the topmost side to the lowest."""
    found = {}
    view = state.body_of("sheet").view
    for number, key in enumerate(reversed(from_the_table(state, "sheet"))):
        looks_up = rotate(view, front_normal(state.placed[key]))[2] < 0
        upper, lower = ("front", "back") if looks_up else ("back", "front")
        found[(key[1], upper)], found[(key[1], lower)] = 2 * number + 1, 2 * number + 2
    return found


@pytest.mark.parametrize("codes", RIGHT_ANGLE)
def test_right_angle_folds_bring_the_pages_into_their_known_order(codes: str):
    state = folded_sheet(codes)
    numbers = pages(state)
    columns = "abcd"[: 4 if "R" in codes else 2]
    rows = ["top ", "bottom "] if "T" in codes else [""]
    inside = [[numbers[(f"{row}{column}", "front")] for column in columns] for row in rows]
    outside = [[numbers[(f"{row}{column}", "back")] for column in reversed(columns)] for row in rows]
    assert (inside, outside) == RIGHT_ANGLE[codes]


@pytest.mark.parametrize("codes", ["TL", "RTL"])
def test_after_right_angle_folds_the_top_row_stands_on_its_head(codes: str):
    state = folded_sheet(codes)
    for (_, panel), placed in state.placed.items():
        up = rotate(placed.turn, (0.0, -1.0, 0.0))
        assert up == pytest.approx((0.0, 1.0 if panel.startswith("top") else -1.0, 0.0))


def booklet_runs() -> list[StepRun]:
    return list(work_out(read_design(DESIGNS / "plant-diary.yaml"), "mm").assemblies[-1].runs)


def test_the_one_sheet_booklet_closes_with_its_pages_in_order():
    last = booklet_runs()[-1]
    assert last.refused is None
    names = [name for _, name in from_the_table(last.after, "sheet")]
    order = names if names.index("one") > names.index("eight") else names[::-1]
    # leaves from the top: the cover one, then two and three back to back, four and five, six and seven, and eight last; the grid
    # (7 6 5 4 over 8 1 2 3, top row upside down) was derived elsewhere by hand
    assert order[::-1] == ["one", "two", "three", "four", "five", "six", "seven", "eight"]


def test_one_order_only_closes_the_one_sheet_booklet():
    last = booklet_runs()[-1]
    body = last.after.body_of("sheet")
    assert len(body.stacks) == 1
    stack = body.stacks[0]
    rules = Rules(last.after, list(links(last.after, body.parts)), stack)
    # all 8! = 40 320 orders of the eight panels
    fitting = [order for order in permutations(stack.order) if rules.allows(list(order))]
    assert fitting == [stack.order]
