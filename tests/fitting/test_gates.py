"""Gates: each classic mistake is found where it first shows, a right piece shows nothing, and the measure tells them apart."""

import pytest

from creasewright.fitting.gates import Gate, gates_of
from creasewright.fitting.mistakes import MistakenSteps, mistakes_of
from section_cases import shipped
from small_designs import with_steps, worked_of

ONE_WAY = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way}}"
PLAIN = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"
TWO_SIDED = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: all-over}}"
GLUE = "materials: {glue: {kind: glue}}\n"
STRIP = "strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm, cover: 80 mm]}"
POCKET = ("{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}")


def gates(body: str, papers: str = ONE_WAY) -> tuple[Gate, ...]:
    return next(iter(gates_of(worked_of(body, papers)).values()))


def told(gate: Gate) -> list[tuple[str, str, str]]:
    return [(one.mistake.kind, one.mistake.part, one.mistake.score) for one in gate.symptoms]


def test_a_gate_stands_before_the_glue_and_at_the_end():
    found = gates(GLUE + with_steps(STRIP, *POCKET, "{fold: page/cover}"))
    assert [(gate.number, gate.kind) for gate in found] == [(2, "dry"), (3, "end")]


def test_a_piece_that_lies_turned_over_shows_before_the_glue():
    dry = gates(GLUE + with_steps(STRIP, *POCKET, "{fold: page/cover}"))[0]
    assert ("flipped", "strip", "") in told(dry)


def test_a_score_from_the_wrong_edge_shows_before_the_glue_and_is_what_the_measure_tells():
    dry = gates(GLUE + with_steps(STRIP, *POCKET, "{fold: page/cover}"))[0]
    # scores at 30 and 120 of 200 mm; from the other edge at 80 and 170: the flap is 80 wide, the page 90, the cover 30
    wrong = next(one for one in dry.symptoms if one.mistake.kind == "wrong end")
    assert wrong.mistake.score == "across"
    assert dry.measure.over_all and dry.measure.way == "width"
    assert dry.measure.mm == pytest.approx(170.0)
    assert wrong.mm == pytest.approx(120.0)  # the flap lies on the page; page and cover are 90 + 30


def test_a_print_that_stands_on_its_head_shows():
    dry = gates(GLUE + with_steps(STRIP, *POCKET))[0]
    assert ("upside down", "strip", "") in told(dry)


def test_a_plain_sheet_cannot_lie_upside_down():
    found = gates(GLUE + with_steps(STRIP, *POCKET), PLAIN)
    assert all(one.mistake.kind != "upside down" for gate in found for one in gate.symptoms)


def test_turning_over_what_is_alike_on_both_sides_and_both_ways_is_no_mistake():
    found = gates(with_steps("card: {width: 80 mm, down: [upper: 60 mm, lower: 60 mm]}", "{fold: lower}"), PLAIN)
    assert [told(gate) for gate in found] == [[]]


def test_two_lefts_show():
    first = "near strip: {height: 100 mm, across: [flap: 30 mm, page: 90 mm], corners: {head-left: {cut: [20 mm, 60 mm]}}}"
    body = f"{first}\nfar strip: {{mirror of: near strip}}"
    join = "{join: far strip, by: page of far strip, onto: page of near strip, meet: {left: flap/page of near strip, head: head}}"
    steps = ("{fold: flap of near strip}", "{fold: flap of far strip}", join)
    found = gates(GLUE + with_steps(body, *steps), PLAIN)
    assert "two alike" in [kind for gate in found for kind, part, _ in told(gate) if part == "far strip"]


def test_all_folds_the_same_way_shows():
    body = with_steps("card: {height: 60 mm, across: [a: 40 mm, b: 42 mm, c: 44 mm]}", "{fold: a/b}", "{mountain: b/c}")
    assert ("same way", "card", "") in told(gates(body)[-1])


def test_glue_at_the_mouth_is_told_at_the_step_that_glues_while_it_can_be_wiped_out():
    found = gates(GLUE + with_steps(STRIP, *POCKET, "{fold: page/cover}"))
    assert ("mouth", "strip", "") in told(found[0])
    assert (found[0].number, found[0].kind, found[0].pocket) == (2, "dry", "slot")
    assert "mouth" not in [kind for kind, _, _ in told(found[-1])]


def test_without_a_mistake_that_a_measure_shows_the_measure_is_one_that_the_steps_made():
    # 100 x 60 folded to 58 x 60: 60 is a size of the cut piece, 58 is made by the fold
    found = gates(with_steps("card: {height: 60 mm, across: [upper: 58 mm, lower: 42 mm]}", "{fold: lower}"), PLAIN)
    assert found[-1].measure.mm == pytest.approx(58.0)


def test_a_template_printed_small_shows_in_the_measure():
    body = with_steps(
        "card: {width: 100 mm, height: 80 mm, scores: {ear: {line: [[40 mm, 0 mm], [0 mm, 50 mm]]}}}",
        "{lay: card, stage: flat}",
        "{fold: ear}",
    )
    first = gates(body, PLAIN)[0]
    small = next(one for one in first.symptoms if one.mistake.kind == "small print")
    assert small.mm == pytest.approx(0.97 * first.measure.mm)


def test_of_templates_printed_small_all_pieces_come_out_small():
    # beside the card, whose fold no board guides, a slip with a slanted edge and a level fold; it has a template too
    card = "card: {width: 100 mm, height: 80 mm, scores: {ear: {line: [[40 mm, 0 mm], [0 mm, 50 mm]]}}}"
    slip = "slip: {width: 60 mm, height: 40 mm, corners: {head-right: {cut: [10 mm, 10 mm]}}, scores: {fold: {from: head, at: 20 mm}}}"
    worked = worked_of(with_steps(f"{card}\n{slip}", "{lay: card}", "{lay: slip}", "{fold: ear}"), PLAIN)
    small = next(m for m in mistakes_of(worked.assemblies[-1], worked.papers, worked.pieces) if m.kind == "small print")
    assert {path: float(blank.width) for path, blank in small.blanks.items()} == pytest.approx({"card": 97.0, "slip": 58.2})
    # the slip alone is scored on the board, which has its fold right however small the template
    alone = worked_of(with_steps(slip, "{lay: slip}"), PLAIN)
    assert all(m.kind != "small print" for m in mistakes_of(alone.assemblies[-1], alone.papers, alone.pieces))


def test_straight_pieces_are_not_printed_and_so_not_printed_small():
    found = gates(GLUE + with_steps(STRIP, *POCKET))
    assert all(one.mistake.kind != "small print" for gate in found for one in gate.symptoms)


def test_without_a_mistake_the_steps_come_out_as_they_did():
    worked = worked_of(GLUE + with_steps(STRIP, *POCKET, "{fold: page/cover}"), ONE_WAY)
    assembly = worked.assemblies[-1]
    right = {run.number: run.after.placed for run in assembly.runs}
    upside = next(m for m in mistakes_of(assembly, worked.papers, worked.pieces) if m.kind == "upside down")
    assert {number: run.after.placed for number, run in MistakenSteps(assembly, upside).up_to(len(assembly.runs)).items()} == right


def test_what_stands_at_the_rim_of_a_low_box_counts_with_its_thickness():
    # the seedling box's lid before its glue: 123 x 92 mm between the folds of its walls, half a wall of 0.4 mm outside each; it is low
    # enough to be looked at as a plan
    gate = next(iter(gates_of(shipped("seedling-box", "mm"))["lid box"]))
    assert gate.measure.way == "width"
    assert gate.measure.mm == pytest.approx(123.4)


def test_before_several_parts_are_glued_in_one_step_the_measure_runs_over_all_of_them():
    # boards of 129, 19 and 129 mm with two gaps of 7: 291; the cloth under them is 321 wide, a size that was cut
    worked = shipped("garden-journal", "mm")
    gate = gates_of(worked)[worked.assemblies[-1].name][0]
    assert (gate.number, gate.kind, gate.measure.part, gate.measure.way) == (2, "dry", "laid", "width")
    assert gate.measure.mm == pytest.approx(129 + 7 + 19 + 7 + 129)


def test_a_bare_piece_that_is_the_same_on_both_sides_cannot_be_turned_over_wrongly():
    blanks = "card: {across: [a: 40 mm, b: 60 mm], height: 50 mm}\nlabel: {width: 20 mm, height: 30 mm}"
    glued = "{glue: label, onto: a, meet: centre}"
    worked = worked_of(GLUE + with_steps(blanks, "{lay: card}", glued), PLAIN)
    found = mistakes_of(worked.assemblies[-1], worked.papers, worked.pieces)
    assert [one.part for one in found if one.kind == "flipped"] == ["card"]


SLIP = "base: {width: 100 mm, height: 80 mm}\nslip: {width: 60 mm, height: 50 mm}"


def put(left: int, head: int) -> str:
    return f"{{join: slip, onto: base, meet: {{left: {{from: left, by: {left} mm}}, head: {{from: head, by: {head} mm}}}}}}"


@pytest.mark.parametrize(
    ("left", "head", "mm", "sides"),
    [
        # 100 - 60 - 8 = 32 at the right, 80 - 50 - 8 = 22 at the tail
        (8, 8, 8.0, ("left", "head")),
        # 100 - 60 - 20 = 20 at the right, 80 - 50 - 20 = 10 at the tail: 20 at three sides
        (20, 20, 20.0, ("left", "head", "right")),
        # flush at the left and the head: 40 at the right
        (0, 0, 40.0, ("right",)),
    ],
)
def test_what_is_laid_inside_another_is_measured_by_its_place_which_the_step_can_spoil(left, head, mm, sides):
    gate = gates(GLUE + with_steps(SLIP, put(left, head), "{turn over: base, like: page}"), TWO_SIDED)[0]
    assert (gate.kind, gate.measure.part, gate.measure.sides) == ("dry", "slip", sides)
    assert gate.measure.mm == pytest.approx(mm)
    # as drawn, it runs from the slip's edge to the base's
    assert abs(gate.measure.end[0] - gate.measure.start[0]) + abs(gate.measure.end[1] - gate.measure.start[1]) == pytest.approx(mm)


def test_what_stands_out_over_another_is_measured_over_all():
    # 60 mm of slip from 60 on: the whole is 120 wide, which neither was before
    gate = gates(GLUE + with_steps(SLIP, put(60, 8)), TWO_SIDED)[0]
    assert gate.measure.over_all
    assert gate.measure.mm == pytest.approx(120.0)


def test_a_stage_that_comes_with_glue_is_measured_before_it_and_once_more():
    # the liner hides no mistake of its own; the sheet is plain and square to everything
    found = gates(GLUE + with_steps(SLIP, "{join: slip, onto: base, meet: {left: left, head: head}, stage: lined}"), PLAIN)
    assert [(gate.number, gate.kind, gate.again) for gate in found] == [(1, "dry", True)]


def test_a_later_gate_measures_what_the_one_before_did_not():
    # 92 x 90 folded in half twice: 46 wide, which is still so when it is 45 high
    steps = ("{fold: one/two, stage: narrow}", "{fold: upper/lower}")
    found = gates(with_steps("card: {across: [one: 46 mm, two: 46 mm], down: [upper: 45 mm, lower: 45 mm]}", *steps), PLAIN)
    assert [(gate.number, gate.measure.way, round(gate.measure.mm)) for gate in found] == [(1, "width", 46), (2, "height", 45)]
