"""Thickness of closed things, layer by layer, worked out by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from creasewright.fitting.bulk import Bulk, bulk, layer_called
from creasewright.fitting.worked import Finished
from small_designs import made, with_steps, worked_of

PAPERS = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.25 mm}}"
STRIP = "strip: {height: 50 mm, across: [a: 60 mm, b: 60 mm, c: 60 mm, d: 60 mm]}"


def finished(blanks: str, *steps: str, before: str = "", front: str | None = None) -> Finished:
    body = before + with_steps(blanks, *steps) + (f"finished: {{front: {front}}}\n" if front else "")
    found = worked_of(body, PAPERS).finished
    assert found is not None
    return found


def closed(blanks: str, *steps: str, before: str = "", front: str | None = None) -> Bulk:
    return finished(blanks, *steps, before=before, front=front).bulk


SLOT = "strip: {height: 50 mm, across: [a: 60 mm, b: 60 mm]}"
PHOTO = "materials: {glue: {kind: glue}}\nthings: {photo: {width: 40 mm, height: 30 mm, thick: 0.6 mm}}\n"
SLOT_STEPS = ["{fold: a/b, stays: b}", "{glue: a, onto: b, along: tail, makes: slot}", "{insert: photo, into: slot}"]


def test_a_strip_in_four_is_four_calipers_thick():
    # 4 * 0.25 = 1.0
    steps = ["{fold: a/b, stays: b}", "{mountain: b/c, stays: b}", "{fold: c/d, stays: b}"]
    assert closed(STRIP, *steps).greatest.mm == pytest.approx(1.0)


def test_an_insert_adds_its_thickness_where_it_lies():
    thing = closed(SLOT, *SLOT_STEPS, before=PHOTO, front="b")
    # two layers and the photo: 2 * 0.25 + 0.6; the photo lies in the closed corner at the fold, 20 mm from the open edge
    assert thing.greatest.mm == pytest.approx(1.1)
    assert (thing.spine, thing.at_spine.mm, thing.at_fore_edge.mm) == ("left", pytest.approx(1.1), pytest.approx(0.5))


def test_empty_the_inserts_are_gone_from_every_place():
    thing = finished(SLOT, *SLOT_STEPS, before=PHOTO, front="b")
    empty = thing.bulk_empty
    assert [empty.greatest.mm, empty.at_spine.mm, empty.at_fore_edge.mm] == pytest.approx([0.5, 0.5, 0.5])
    assert thing.empty_thickness == pytest.approx(0.5)
    assert not any("photo" in part for part, _ in empty.greatest.layers)


def test_the_thickest_place_names_its_layers_from_the_table_up():
    thing = finished(SLOT, *SLOT_STEPS, before=PHOTO, front="b")
    # b stays on the table, a is folded over onto it, the photo lies between
    assert [panel for _, panel in thing.bulk.greatest.layers] == ["b", "photo", "a"]
    over = finished(SLOT, *SLOT_STEPS, "{turn over: strip}", before=PHOTO, front="b")
    assert [panel for _, panel in over.bulk.greatest.layers] == ["a", "photo", "b"]


def test_foam_keeps_layers_apart_and_counts_where_it_is():
    before = "materials: {foam: {kind: foam, thick: 2 mm, sold by: sheet}}\n"
    blanks = "page: {width: 80 mm, height: 60 mm}\nmat: {width: 40 mm, height: 30 mm}"
    thing = closed(blanks, "{join: mat, onto: page, meet: centre, with: foam}", before=before)
    assert thing.greatest.mm == pytest.approx(2 * 0.25 + 2)


def test_a_wedge_is_thicker_at_the_open_edge_and_names_its_layers():
    # c is folded in at the open edge: three layers there, two at the spine
    strip = "strip: {height: 50 mm, across: [a: 80 mm, b: 80 mm, c: 30 mm]}"
    thing = closed(strip, "{fold: c}", "{fold: a/b}", front="a")
    assert thing.spine in ("left", "right")
    assert (thing.at_spine.mm, thing.at_fore_edge.mm) == (pytest.approx(0.5), pytest.approx(0.75))
    assert sorted(thing.at_fore_edge.layers) == [("strip", "a"), ("strip", "b"), ("strip", "c")]
    assert sorted(thing.at_spine.layers) == [("strip", "a"), ("strip", "b")]


def test_a_standing_spine_is_the_hinged_side():
    case = "case: {height: 90 mm, across: [back: 60 mm, spine: 20 mm, front: 60 mm]}"
    thing = closed(case, "{fold: [back/spine, spine/front], to: 90}", front="front")
    assert thing.spine is not None
    # two covers over each other; the standing spine counts only in the size over all
    assert thing.greatest.mm == pytest.approx(0.5)


def test_slanted_layers_count_where_they_are():
    # a triangle of the corner folded over: two layers there, one elsewhere
    scores = "scores: {slant: {across: tail-right, at: 60 mm}}, panels: {page: head-left, ear: tail-right}"
    blanks = f"page: {{width: 100 mm, height: 100 mm, {scores}}}"
    state = made(with_steps(blanks, "{fold: slant}"), PAPERS)
    assert bulk(state, state.body_of("page"), None).greatest.mm == pytest.approx(0.5)


@given(st.lists(st.integers(30, 60), min_size=2, max_size=6))
@settings(max_examples=20, deadline=None)
def test_no_place_is_thicker_than_all_layers_or_thinner_than_one(widths: list[int]):
    bands = ", ".join(f"p{k}: {wide} mm" for k, wide in enumerate(widths, start=1))
    verbs = [(k, "fold" if k % 2 else "mountain") for k in range(len(widths) - 1, 0, -1)]
    steps = [f"{{{verb}: p{k}/p{k + 1}, seen from: front, stays: p1}}" for k, verb in verbs]
    thing = closed(f"strip: {{height: 40 mm, across: [{bands}]}}", *steps)
    assert 0.25 - 1e-9 <= thing.greatest.mm <= 0.25 * len(widths) + 1e-9
    # an accordion: every panel covers the least width beside its neighbours, so two layers at least
    assert thing.greatest.mm >= 0.5 - 1e-9


def test_a_spine_too_narrow_for_its_layers_makes_the_thing_no_thinner_than_they_are():
    case = "case: {height: 90 mm, across: [back: 60 mm, spine: 2 mm, front: 60 mm]}\nslip: {width: 50 mm, height: 80 mm}"
    steps = ["{lay: case, up: back}"]
    steps += ["{join: slip, onto: back, meet: centre, with: foam}", "{fold: [back/spine, spine/front], to: 90}"]
    thing = finished(case, *steps, before="materials: {foam: {kind: foam, thick: 4 mm, sold by: sheet}}\n", front="front")
    # 3 * 0.25 + 4 = 4.75 between faces that the spine holds 2 mm apart
    assert thing.bulk.greatest.mm == pytest.approx(4.75)
    assert thing.size[2] == pytest.approx(4.75, abs=1e-6)


@pytest.mark.parametrize(
    ("layer", "words"),
    [
        (("front block/left strip", "page"), "page of left strip of front block"),
        (("front block/seed card 2", "seed card"), "seed card 2 of front block"),
        (("mat", "mat"), "mat"),
        (("mat", "foam"), "foam under mat"),
    ],
)
def test_a_layer_is_called_as_a_maker_would_call_it(layer: tuple[str, str], words: str):
    assert layer_called(layer) == words


def test_a_band_counts_for_the_thickness_on_both_faces_and_once_more_where_it_laps():
    blanks = "board: {width: 60 mm, height: 50 mm}\nbelly: {width: 140 mm, height: 20 mm}"
    for lap, layers in ((", lap: 15 mm", 3), ("", 2)):
        finished = worked_of(with_steps(blanks, f"{{band: belly, around: board, across: width{lap}}}")).finished
        assert finished is not None
        assert finished.size[2] == pytest.approx(0.3 + layers * 0.3)


def test_a_notch_at_the_fold_leaves_the_layers_beside_it():
    # a pop-up strip of 40 mm cut out of the middle of a fold 100 mm long: beside it both halves lie on each other, 2 * 0.25
    blanks = """
        card:
          width: 100 mm
          height: 120 mm
          slits: {cut one: {line: [[30 mm, 40 mm], [30 mm, 80 mm]]}, cut two: {line: [[70 mm, 40 mm], [70 mm, 80 mm]]}}
          scores:
            back: {line: [[30 mm, 40 mm], [70 mm, 40 mm]], span: [[30 mm, 40 mm], [70 mm, 40 mm]]}
            front: {line: [[30 mm, 80 mm], [70 mm, 80 mm]], span: [[30 mm, 80 mm], [70 mm, 80 mm]]}
            nose: {line: [[30 mm, 60 mm], [70 mm, 60 mm]], span: [[30 mm, 60 mm], [70 mm, 60 mm]]}
            left fold: {line: [[0 mm, 60 mm], [30 mm, 60 mm]], span: [[0 mm, 60 mm], [30 mm, 60 mm]]}
            right fold: {line: [[70 mm, 60 mm], [100 mm, 60 mm]], span: [[70 mm, 60 mm], [100 mm, 60 mm]]}
          panels: {wall: mid head, floor: mid tail}
    """
    steps = ["{lay: card}", "{fold: {left fold: 180, right fold: 180, back: 180, front: 180}, mountain: {nose: 180}, stays: floor}"]
    thing = closed(blanks, *steps, front="wall")
    assert (thing.spine, thing.at_spine.mm) == ("head", pytest.approx(0.5))
