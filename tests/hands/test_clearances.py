"""Which clearances a design has, and what makes them: the causes of each with their slopes."""

from pathlib import Path

import pytest

from creasewright.hands.clearance import Clearance
from creasewright.hands.error_table import HandErrors, hand_errors
from creasewright.hands.every_clearance import every_clearance
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import with_steps, worked_of

ERRORS = HandErrors()
GLUE = "materials: {glue: {kind: glue}}\n"


DESIGNS = Path(__file__).parents[2] / "designs"


def of_design(design: str, system: str = "in") -> list[Clearance]:
    return list(every_clearance(work_out(read_design(DESIGNS / f"{design}.yaml"), system), ERRORS))


def of_body(body: str) -> list[Clearance]:
    return list(every_clearance(worked_of(body), ERRORS))


def told(one: Clearance) -> dict[str, float]:
    return {f"{cause.operation} {cause.part}/{cause.line}": round(slope, 4) for cause, slope in one.room.slopes.items()}


def test_a_card_in_a_pocket_errs_by_its_fold_its_far_score_and_its_own_cut() -> None:
    one = next(one for one in of_design("seed-swap-folio") if one.kind == "insert" and one.way == "wide")
    assert one.what == "seed card 1 in front pocket"
    # the page lies between two scores of the strip
    assert told(one) == {
        "scored left strip/flap/page": -1.0, "scored left strip/page/centre": 1.0, "trimmed seed card 1/right": -1.0,
    }  # fmt: skip
    assert one.room.value == pytest.approx(6.35)


def test_a_page_block_has_as_much_room_as_the_spine_board_is_wide() -> None:
    # the cover folds at the two edges of its spine board, wherever that lies: only its own cut counts
    thick = next(one for one in of_design("garden-journal") if one.way == "thick" and one.kind == "insert")
    assert told(thick) == {"trimmed spine board/right": 1.0}


def test_a_liner_laid_with_one_border_all_round_errs_by_half_of_every_edge() -> None:
    liner = next(one for one in of_design("seed-packet-envelope") if one.kind == "inset" and one.way == "wide")
    assert {abs(slope) for name, slope in told(liner).items() if not name.startswith("placed")} == {0.5}
    assert [abs(slope) for name, slope in told(liner).items() if name.startswith("placed")] == [1.0]


def test_boards_err_against_each_other_by_eye_and_cut() -> None:
    gap = next(one for one in of_design("garden-journal") if one.kind == "board gap")
    assert told(gap) == {"placed back board/x": -1.0, "placed spine board/x": 1.0, "trimmed back board/right": -1.0}


def test_what_is_there_several_times_alike_is_one_with_a_count() -> None:
    gaps = [one for one in of_design("season-album") if one.kind == "wrap" and one.thing.startswith("gap")]
    assert [one.times for one in gaps] == [6]


def test_a_design_without_anything_to_fit_has_no_clearance() -> None:
    assert of_design("plant-diary") == []


def test_a_bought_thing_errs_by_the_ruler() -> None:
    packet = next(one for one in of_design("seed-packet-envelope") if one.kind == "insert")
    assert "measured seed packet/right" in told(packet)
    assert packet.remedy == "make pocket {more} larger"


def test_the_error_follows_the_makers_own_hands() -> None:
    one = next(one for one in of_design("seed-swap-folio") if one.kind == "insert")
    steady = hand_errors({"trimmed": 0.4, "scored": 0.25})
    assert one.error(steady) == pytest.approx(one.error(ERRORS) / 2)


def test_where_two_lines_bound_a_room_the_worse_is_taken_and_said() -> None:
    # both boards end at the tail: the one is laid by its head edge, the other too, but the far one errs by its own cut besides
    high = next(one for one in of_design("garden-journal") if one.kind == "insert" and one.way == "high")
    assert high.worse == "from front board to back board"


def test_a_size_cut_to_fit_leaves_the_errors_of_the_thing_behind() -> None:
    band = next(one for one in of_design("open-day-card") if one.kind == "band")
    # 0.8 trimmed, 0.5 measured, 0.8 for the lap: sqrt(0.64 + 0.25 + 0.64) = 1.24; cut to its measure it would err by 1.81
    assert band.error(ERRORS) == pytest.approx(1.2369, abs=1e-3)
    assert {cause.operation for cause in band.room.slopes} == {"trimmed", "measured", "placed"}
    assert band.worse == "`up(girth of gate card + ease + lap)` taken to move with what it rounds"


def test_an_insert_cut_to_fit_its_pocket() -> None:
    sheet = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}\ncard: {height: 60 mm, width: room width of slot - 2 mm%s}"
    steps = ["{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}", "{insert: card, into: slot}"]
    plain, fitted = (
        next(one for one in of_body(GLUE + with_steps(sheet % more, *steps)) if one.kind == "insert" and one.way == "wide")
        for more in ("", ", cut to fit: width")
    )
    # sqrt(0.5² + 0.8² + 0.8²) against sqrt(0.8² + 0.5²)
    assert plain.error(ERRORS) == pytest.approx(1.2369, abs=1e-3)
    assert fitted.error(ERRORS) == pytest.approx(0.9434, abs=1e-3)
    assert plain.room.value == pytest.approx(fitted.room.value)


def test_a_flap_must_stay_inside_the_page_it_lands_on() -> None:
    # folded over, its edge lies as far again beyond the score as the score from the edge it was measured from: the score counts twice
    body = with_steps("strip: {height: 100 mm, across: [flap: 76 mm, page: 80 mm]}", "{lay: strip, up: back}", "{fold: flap}")
    one = next(one for one in of_body(body) if one.kind == "flap")
    assert one.what == "flap of strip short of the edge of page"
    assert one.room.value == pytest.approx(4.0)
    assert told(one) == {"scored strip/flap/page": -2.0, "trimmed strip/right": 1.0}
    even = body.replace("flap: 76 mm", "flap: 80 mm")
    assert [one.kind for one in of_body(even)] == []
