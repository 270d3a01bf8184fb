"""The derived error of a clearance against 100,000 makers: cuts, scores and placements drawn at random, the paper folded for each of them.

Each model folds points of the flat paper over the lines as they really came out (a reflection, or a turn in space), and measures what is
left between them; it knows nothing of derivatives.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import pytest

from creasewright.hands.clearance import Clearance
from creasewright.hands.error_table import HandErrors
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.outcome import failing_share
from small_designs import with_steps, worked_of

MAKERS = 100_000
GLUE = "materials: {glue: {kind: glue}}\n"
ERRORS = HandErrors()
Many = npt.NDArray[np.float64]
Draw = Callable[[float], Many]


def hands(seed: int) -> Draw:
    """Errors of one operation, mm: normal, the table's value being 1.96 standard deviations."""
    random = np.random.default_rng(seed)
    return lambda error: random.normal(0.0, error / 1.96, MAKERS)


def over(point: Many, line: Many) -> Many:
    """A point of a strip folded over flat along a line."""
    return 2 * line - point


def the_one(body: str, kind: str, way: str = "") -> Clearance:
    return next(one for one in every_clearance(worked_of(body), ERRORS) if one.kind == kind and way in ("", one.way))


def agree(one: Clearance, rooms: Many) -> None:
    """Room and error within what is asked; the share that fails within what 100,000 makers can tell."""
    assert one.room.value == pytest.approx(float(rooms.mean()), abs=0.02)
    assert one.error(ERRORS) == pytest.approx(1.96 * float(rooms.std()), rel=0.02)
    share = failing_share(one.room.value, one.error(ERRORS))
    assert share == pytest.approx(float((rooms < 0).mean()), abs=0.006)


def test_an_inner_panel_short_of_the_fold_that_closes_over_it() -> None:
    card = "card: {height: 100 mm, across: [inner: 68 mm, middle: 70 mm, cover: 70 mm]}"
    one = the_one(with_steps(card, "{lay: card, up: back}", "{fold: inner}", "{fold: cover}"), "inner panel")
    draw = hands(1)
    first, second = 68 + draw(0.5), 138 + draw(0.5)
    bend = np.pi * 2 * 0.3 / 4  # of a fold that closes over one layer of 0.3 mm
    agree(one, second - over(np.zeros(MAKERS), first) - bend)


def test_two_doors_that_meet() -> None:
    card = "card: {height: 100 mm, across: [left gate: 39.5 mm, back: 80 mm, right gate: 39.5 mm]}"
    one = the_one(with_steps(card, "{lay: card, up: back}", "{fold: [left gate, right gate]}"), "gate")
    draw = hands(2)
    width, left, right = 159 + draw(0.8), 39.5 + draw(0.5), 119.5 + draw(0.5)
    agree(one, over(width, right) - over(np.zeros(MAKERS), left))


def test_an_insert_in_a_pocket_between_a_fold_and_a_strip_of_glue() -> None:
    things = "things: {seed card: {width: 78 mm, height: 89.5 mm, thick: 0.3 mm}}\n"
    strip = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}"
    steps = ["{fold: flap}", "{glue: flap, onto: page, along: tail, makes: slot}", "{insert: seed card, into: slot}"]
    body = GLUE + things + with_steps(strip, *steps)
    draw = hands(3)
    fold, right, tail = 50 + draw(0.5), 130 + draw(0.8), 100 + draw(0.8)
    agree(the_one(body, "insert", "wide"), right - fold - (78 + draw(0.5)))
    glue = 9 + draw(0.8)  # setback and strip, from the tail
    agree(the_one(body, "insert", "high"), tail - glue - (89.5 + draw(0.5)))


def turned(x: Many, line: Many, sign: int) -> tuple[Many, Many]:
    """A point of a strip whose end beyond a line is turned up to 90 degrees: how far along and how high it comes."""
    angle = np.pi / 2 * sign
    return line + (x - line) * np.cos(angle), (x - line) * np.sin(angle)


def test_a_sleeve_over_a_board_in_space() -> None:
    blanks = """
    board: {width: 60 mm, height: 50 mm}
    sleeve: {height: 50 mm, across: [left wall: 20 mm, roof: 61.2 mm, right wall: 20 mm]}
    """
    body = with_steps(blanks, "{fold: [left wall/roof, roof/right wall], to: 90}", "{place: sleeve, around: board, meet: centre}")
    draw = hands(4)
    left, right = 20 + draw(0.5), 81.2 + draw(0.5)
    walls = [turned(np.full(MAKERS, x), line, sign)[0] for x, line, sign in ((10.0, left, -1), (90.0, right, 1))]
    agree(the_one(body, "cover", "wide"), walls[1] - walls[0] - 0.3 - (60 + draw(0.8)))


def test_a_packet_between_slanted_folds() -> None:
    """A square on its corner, its flaps folded in along slanted scores; each score shifts along its own normal."""
    things = "things: {packet: {width: 58 mm, height: 40 mm, thick: 1 mm}}\n"
    square = """
    square:
      width: 120 mm
      height: 120 mm
      scores:
        left fold: {across: head-right, at: 75 mm}
        top fold: {across: head-left, at: 75 mm}
        right fold: {across: tail-left, at: 75 mm}
        bottom fold: {across: tail-right, at: 75 mm}
      cut away: all crossings
      panels: {pocket: centre, top flap: head-left, left flap: head-right, bottom flap: tail-right, right flap: tail-left}
    """
    steps = [
        "{lay: square, up: back, turned: -45}", "{fold: [left flap, right flap]}", "{fold: bottom flap}",
        "{glue: bottom flap, onto: [left flap, right flap], along: free edges, makes: inside}", "{insert: packet, into: inside}",
    ]  # fmt: skip
    one = the_one(GLUE + things + with_steps(square, *steps), "insert", "wide")
    draw = hands(5)
    # two parallel lines x - y = c, each off along its normal; the distance of a point of the one from the other
    half = np.sqrt(0.5)
    first, second = draw(0.5), draw(0.5)
    on_first = np.stack([45 + first * half, 0 - first * half])
    on_second = np.stack([0 + second * half, 45 - second * half])
    apart = (on_first[0] - on_second[0]) * half - (on_first[1] - on_second[1]) * half
    rooms = apart - (58 + draw(0.5))
    assert one.error(ERRORS) == pytest.approx(1.96 * float(rooms.std()), rel=0.02)


def test_a_patch_laid_with_an_edge_to_a_fold() -> None:
    """Its far edge against the edge of the page: the fold it is laid to, the eye, its own cut and the page's."""
    blanks = "strip: {height: 100 mm, across: [flap: 50 mm, page: 80 mm]}\npatch: {width: 72 mm, height: 60 mm}"
    meet = "meet: {left: {from: left, by: 6 mm}, head: {from: head, by: 20 mm}}"
    one = the_one(GLUE + with_steps(blanks, f"{{join: patch, onto: page, {meet}}}"), "inset", "wide")
    assert one.side == "right"
    draw = hands(6)
    fold, right = 50 + draw(0.5), 130 + draw(0.8)
    patch = fold + 6 + draw(0.8)
    rooms = right - (patch + 72 + draw(0.8))
    agree(one, rooms)


def test_a_band_cut_to_its_measure_and_one_cut_to_fit() -> None:
    """Round a board 100 wide: the way round is twice that, and the lap is closed by eye."""
    blanks = "board: {width: 100 mm, height: 80 mm}\nbelly: {height: 20 mm, width: girth of card + 23 mm%s}"
    text = "assemblies: {card: {parts: {board: 1}, steps: [{lay: board, up: back}]}, banded: {parts: {card: 1, belly: 1}, "
    text += "steps: [{band: belly, around: card, across: width, lap: 20 mm, with: glue}]}}\nfinished: {is: banded}\n"
    draw = hands(7)
    board, cut, lap, read = 100 + draw(0.8), draw(0.8), draw(0.8), draw(0.5)
    girth = 2 * board + 0.6
    for fitted, length in (("", 223.6 + cut), (", cut to fit: width", girth + 23 + cut + read)):
        body = GLUE + "blanks:\n  " + (blanks % fitted).replace("\n", "\n  ") + "\n" + text.replace(
            "{parts: {card: 1", "{parts: {card: card"
        )
        rooms = length - girth - np.pi * 0.3 - 20 + lap
        agree(the_one(body, "band"), rooms)
