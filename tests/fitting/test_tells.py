"""What a gate says of a mistake is so: each claim is held against the right and the mistaken state, point by point and normal by normal."""

from functools import lru_cache
from pathlib import Path

import pytest

from creasewright.fitting.gate_measures import READS
from creasewright.fitting.gates import AssemblyGates, Symptom, gates_of, main_body
from creasewright.fitting.looks import Looking, is_flat, top_down, turned
from creasewright.fitting.tell import Tell
from creasewright.fitting.tells import seen_tells, without_twins
from creasewright.fitting.worked import Worked
from creasewright.folding.overlaps import seen_polygon
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.outline import Polygon
from creasewright.geometry.rigid_transform import Vector, rotate
from creasewright.reading.read_design import read_design
from creasewright.work_out import work_out
from small_designs import runs_of, with_steps, worked_of

DESIGNS = Path(__file__).parents[2] / "designs"
NAMES = (
    "seed-swap-folio",
    "swap-day-card",
    "open-day-card",
    "seed-packet-envelope",
    "plant-diary",
    "recipe-booklet",
    "bulb-pot",
    "seedling-box",
    "welcome-card",
    "bulb-bag",
    "garden-journal",
)
STEP = 2.0
"""mm between the points at which one looks at flat work."""
WAYS: dict[str, Vector] = {
    "up": (0.0, 0.0, -1.0),
    "down": (0.0, 0.0, 1.0),
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
    "head": (0.0, -1.0, 0.0),
    "tail": (0.0, 1.0, 0.0),
}
Points = dict[PanelKey, list[tuple[float, float]]]
Case = tuple[Worked, Symptom, Looking, Looking, State, Body]


@lru_cache(maxsize=1)
def cases(name: str) -> list[Case]:
    """Every symptom that is told, with the right state and body at the same step, and how the right and the wrong one look."""
    worked = work_out(read_design(DESIGNS / f"{name}.yaml"), "in")
    found: list[Case] = []
    for assembly in worked.assemblies:
        if not assembly.runs or assembly.supply is None or assembly.mirrored:
            continue
        gates = AssemblyGates(worked, assembly)
        for gate in gates_of(worked)[assembly.name]:
            for symptom in gate.symptoms:
                run = assembly.runs[symptom.at - 1]
                right = turned(main_body(run), 0.0, over=symptom.over)
                found.append((worked, symptom, gates.looking, gates.looking_at(symptom.mistake), run.after, right))
    return found


def inside(polygon: Polygon, x: float, y: float) -> bool:
    found = False
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (bx - ax) * (y - ay) / (by - ay):
            found = not found
    return found


def seen_points(state: State, body: Body) -> Points:
    """Flat work looked at point by point: which panel is the topmost there."""
    shapes = [(key, seen_polygon(state, key, body.view)) for key in top_down(state, body)]
    xs = [x for _, shape in shapes for x, _ in shape]
    ys = [y for _, shape in shapes for _, y in shape]
    found: Points = {}
    y = min(ys) + STEP / 2
    while y < max(ys):
        x = min(xs) + STEP / 2
        while x < max(xs):
            key = next((key for key, shape in shapes if inside(shape, x, y)), None)
            if key is not None:
                found.setdefault(key, []).append((x, y))
            x += STEP
        y += STEP
    return found


def faces(state: State, body: Body, key: PanelKey, side: str) -> Vector:
    """Where that side of a panel looks, in the maker's view."""
    normal = rotate(body.view, front_normal(state.placed[key]))
    return normal if side == "front" else (-normal[0], -normal[1], -normal[2])


def towards(way: Vector, other: Vector) -> float:
    return sum(a * b for a, b in zip(way, other, strict=True))


def panels_of(tell: Tell, right: Points, wrong: Points) -> list[PanelKey]:
    if tell.panel:
        return [(tell.part, tell.panel)]
    return [key for key in right if key[0] == tell.part and len(right[key]) > 20 and len(wrong.get(key, [])) > 20]


@pytest.mark.parametrize("name", NAMES)
def test_every_mistake_is_told_by_a_fact(name):
    assert cases(name)
    assert [s.mistake.kind for _, s, *_ in cases(name) if s.tell.kind == "none" and s.mistake.kind != "mouth"] == []


@pytest.mark.parametrize("name", NAMES)
def test_a_side_that_is_told_is_up_on_the_wrong_one_and_down_on_the_right_one(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        if tell.kind != "side":
            continue
        mine, other = seen_points(state, right), seen_points(symptom.state, symptom.body)
        keys = panels_of(tell, mine, other)
        assert keys
        for key in keys:
            assert mine[key] and other[key]
            assert towards(faces(state, right, key, tell.right), WAYS["up"]) > 0.99
            assert towards(faces(symptom.state, symptom.body, key, tell.wrong), WAYS["up"]) > 0.99
            assert tell.right != tell.wrong


@pytest.mark.parametrize("name", NAMES)
def test_a_panel_that_is_told_to_show_shows_on_the_wrong_one_alone(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        if tell.kind not in ("bare", "covered") or tell.looks:
            continue
        key = (tell.part, tell.panel)
        was, now = (len(seen_points(*one).get(key, [])) for one in ((state, right), (symptom.state, symptom.body)))
        shows, hides = (now, was) if tell.kind == "bare" else (was, now)
        assert shows * STEP**2 > 50.0
        assert hides <= shows / 6
        body, at, side = (
            (symptom.body, symptom.state, tell.wrong) if tell.kind == "bare" else (right, state, tell.right)
        )
        if side:
            assert towards(faces(at, body, key, side), WAYS["up"]) > 0.99


@pytest.mark.parametrize("name", NAMES)
def test_a_place_that_is_told_is_where_it_lies(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        if tell.kind != "place":
            continue
        axis = 0 if tell.wrong in ("left", "right") else 1
        for points, word in ((seen_points(state, right), tell.right), (seen_points(symptom.state, symptom.body), tell.wrong)):
            every = [spot[axis] for spots in points.values() for spot in spots]
            own = [spot[axis] for spot in points[(tell.part, tell.panel)]]
            off = (min(own) + max(own)) / 2 - (min(every) + max(every)) / 2
            assert off > STEP if word in ("right", "tail") else off < -STEP


@pytest.mark.parametrize("name", NAMES)
def test_a_part_that_is_told_to_show_mostly_a_side_does(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        if tell.kind != "mostly":
            continue
        for at, body, side in ((state, right, tell.right), (symptom.state, symptom.body, tell.wrong)):
            points = {key: len(spots) for key, spots in seen_points(at, body).items() if key[0] == tell.part}
            own = sum(count for key, count in points.items() if towards(faces(at, body, key, side), WAYS["up"]) > 0.99)
            assert own > 0.55 * sum(points.values())


@pytest.mark.parametrize("name", NAMES)
def test_a_panel_lies_at_the_side_where_one_is_told_to_look_for_it(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        mine, other = (state, right), (symptom.state, symptom.body)
        for (at, body), word in ((mine if tell.kind == "covered" else other, tell.lies), (mine, tell.lay)):
            if not word:
                continue
            axis = 0 if word in ("left", "right") else 1
            points = seen_points(at, body)
            every = [spot[axis] for spots in points.values() for spot in spots]
            own = [spot[axis] for spot in points[(tell.part, tell.panel)]]
            off = (min(own) + max(own)) / 2 - (min(every) + max(every)) / 2
            assert off > STEP if word in ("right", "tail") else off < -STEP


@pytest.mark.parametrize("name", NAMES)
def test_faces_of_standing_work_look_as_told(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        key = (tell.part, tell.panel)
        if tell.kind == "faces":
            assert towards(faces(state, right, key, tell.right), WAYS[tell.looks]) > 0.7
            assert towards(faces(symptom.state, symptom.body, key, tell.wrong), WAYS[tell.looks]) > 0.7
        if tell.kind == "looks":
            assert towards(faces(state, right, key, tell.side), WAYS[tell.right]) > 0.7
            assert towards(faces(symptom.state, symptom.body, key, tell.side), WAYS[tell.wrong]) > 0.7


@pytest.mark.parametrize("name", NAMES)
def test_a_print_that_is_told_stands_so(name):
    for _, symptom, looking, wrong, state, right in cases(name):
        tell = symptom.tell
        if tell.kind != "print" or not is_flat(state, right) or tell.looks:
            continue
        keys = panels_of(tell, seen_points(state, right), seen_points(symptom.state, symptom.body))
        assert keys
        for key in keys:
            was, now = looking.of(state, right, key), wrong.of(symptom.state, symptom.body, key)
            assert was[1] == now[1]  # the same side, or it would be told as such
            assert (str(was[2]), str(now[2])) == (tell.right, tell.wrong)


@pytest.mark.parametrize("name", NAMES)
def test_a_size_that_is_told_is_what_the_panel_or_the_whole_has(name):
    for _, symptom, _, _, state, right in cases(name):
        tell = symptom.tell
        if tell.kind != "size" or not (is_flat(state, right) and is_flat(symptom.state, symptom.body)):
            continue
        axis = {"width": 0, "height": 1}[tell.way]
        for (at, body), told in (((state, right), tell.mm[0]), ((symptom.state, symptom.body), tell.mm[1])):
            points = seen_points(at, body)
            own = points[(tell.part, tell.panel)] if tell.panel else [spot for spots in points.values() for spot in spots]
            span = max(spot[axis] for spot in own) - min(spot[axis] for spot in own)
            assert span == pytest.approx(told, abs=2.5 * STEP)
        assert abs(tell.mm[0] - tell.mm[1]) >= READS


@pytest.mark.parametrize("name", NAMES)
def test_a_mistake_lies_as_the_steps_leave_it_or_is_turned_over_where_it_looks_right_from_above(name):
    for _, symptom, *_ in cases(name):
        if symptom.over or symptom.mistake.kind == "mouth":
            continue
        left = main_body_of(symptom)
        assert symptom.body.view == left.view


def main_body_of(symptom: Symptom) -> Body:
    """The body as it is in the state, which no one has turned."""
    return symptom.state.body_of(min(symptom.body.parts))


def test_cures_know_what_is_glued():
    folio = [symptom for _, symptom, *_ in cases("seed-swap-folio")]
    # before the glue of step 3 and of step 5 nothing of that piece is stuck; the middle pocket's flap holds B to A in step 6
    assert {s.mistake.kind: s.done.glued for s in folio if s.mistake.part == "left strip" and s.mistake.kind != "mouth"} == {
        "flipped": (), "wrong end": (), "upside down": ()
    }  # fmt: skip
    middle = next(s for s in folio if s.mistake.pocket == "middle pocket")
    assert middle.done.glued[-1] == 6
    assert middle.done.held == ("left strip",)


def test_a_print_that_half_a_turn_puts_right_is_not_cut_anew():
    # a card alike both ways round but for its print, and then a label near its left edge
    blanks = "card: {paper: card, width: 80 mm, height: 60 mm}\nlabel: {paper: plain, width: 20 mm, height: 30 mm}"
    label = "{glue: label, onto: card, meet: {left: {from: left, by: 5 mm}, tail: {from: tail, by: 15 mm}}}"
    papers = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: one-way}, plain: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"
    glue = "materials: {glue: {kind: glue}}\n"
    gates = next(iter(gates_of(worked_of(glue + with_steps(blanks, "{lay: card, stage: laid}", label), papers)).values()))
    laid, glued = gates[0], gates[-1]
    assert not any(s.mistake.kind == "upside down" for s in laid.symptoms)
    late = next(s for gate in gates for s in gate.symptoms if s.mistake.kind == "upside down")
    assert late.turns == 1 and glued.number == 2
    card = next(s for _, s, *_ in cases("swap-day-card") if s.mistake.kind == "upside down")
    assert card.turns == 0


def test_a_closed_book_alike_on_both_covers_has_no_print_on_its_head():
    assert all(s.mistake.kind != "upside down" for _, s, *_ in cases("garden-journal"))


def test_a_mistake_at_which_the_steps_stop_is_seen_earlier_and_measured_by_no_later_gate():
    # on a cloth that lies turned over the boards find no place (step 2)
    worked = cases("garden-journal")[0][0]
    gate = gates_of(worked)[worked.assemblies[-1].name][0]
    stopped = next(s for s in gate.symptoms if s.mistake.kind == "flipped")
    assert (gate.number, stopped.at, stopped.mm) == (2, 1, None)
    assert ("flipped", stopped.mistake.part) in [(mistake.kind, mistake.part) for mistake, step in gate.stops if step == 2]


PLAIN = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"


def test_a_cut_corner_tells_by_the_longer_edge_which_way_round_a_plain_piece_lies():
    # 80 x 60 mm, 20 mm off the left edge at the head: the right edge is the longer one; turned over like a page the left edge is
    card = "card: {width: 80 mm, height: 60 mm, corners: {head-left: {cut: [30 mm, 20 mm]}}}"
    gate = next(iter(gates_of(worked_of(with_steps(card, "{lay: card, stage: laid}"), PLAIN)).values()))[0]
    tell = next(one for one in gate.symptoms if one.mistake.kind == "flipped").tell
    assert (tell.kind, tell.right, tell.wrong) == ("edge", "right", "left")


def test_equal_pieces_that_change_places_are_no_fact():
    tells = [Tell("bare", "leaf 1", "leaf", weight=900.0), Tell("covered", "leaf 2", "leaf", weight=900.0), Tell("bare", "strip", "a")]
    leaf = "leaf: {width: 80 mm, height: 60 mm}\nstrip: {width: 80 mm, height: 60 mm}"
    blanks = {blank.name: blank for blank in worked_of(with_steps(leaf, "{lay: leaf}", "{lay: strip}"), PLAIN).blanks}
    named = {"leaf 1": blanks["leaf"], "leaf 2": blanks["leaf"], "strip": blanks["strip"]}
    assert [tell.part for tell in without_twins(tells, named)] == ["strip"]


def test_what_stands_and_should_lie_is_told_so():
    strip = "strip: {height: 60 mm, across: [a: 90 mm, b: 30 mm]}"
    laid, stood = runs_of(with_steps(strip, "{lay: strip}", "{fold: {a/b: 90}, stays: b}"), PLAIN)
    looking = Looking({}, {})
    flat, standing = ((run.after, main_body(run), looking) for run in (laid, stood))
    assert [is_flat(*one[:2]) for one in (flat, standing)] == [True, False]
    assert [tell.kind for tell in seen_tells(flat, standing)] == ["standing"]
    assert [tell.kind for tell in seen_tells(standing, flat)] == ["flat"]


def test_a_card_turned_over_shows_mostly_its_other_side():
    # 30 of 170 mm are folded over: 110 of the front show and 30 of the back; of the card turned over 110 of the back and 30 of the front
    body = with_steps("strip: {height: 100 mm, across: [flap: 30 mm, page: 140 mm]}", "{fold: flap}")
    gate = next(iter(gates_of(worked_of(body, "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, front: all-over}}")).values()))[-1]
    tell = next(one for one in gate.symptoms if one.mistake.kind == "flipped").tell
    assert (tell.kind, tell.part, tell.right, tell.wrong) == ("mostly", "strip", "front", "back")
