"""By what a maker sees how a piece lies: small pieces whose odd corner, end, print or letter is known by their making."""

import pytest

from creasewright.blanks.blank import Blank
from creasewright.blanks.turned_over import same_end_for_end
from creasewright.booklet.scoring.lie_features import Feature, ends_seen, feature_of
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.scoring.lies import lie_of
from small_designs import worked_of

WIDE = "card: {width: 100 mm, height: 60 mm"


def piece(more: str = "", front: str = "plain") -> tuple[Blank, PaperFacts]:
    papers = f"papers: {{card: {{sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120, front: {front}}}}}"
    worked = worked_of(f"blanks:\n  {WIDE}{more}}}\n", papers)
    (found,) = worked.pieces
    paper = worked.paper_of(found.blank)
    assert paper is not None
    return found.blank, paper


def seen(more: str = "", front: str = "plain", up: str = "front", datum: str = "left", lettered: bool = False) -> Feature:
    blank, paper = piece(more, front)
    return feature_of(blank, lie_of(blank, up, datum), paper, 0, lettered)


ONE_ROUND = ", corners: {head-right: {round: 20 mm}}"
ONE_LARGE = ", corners: {head-left: {round: 20 mm}, head-right: {round: 5 mm}, tail-right: {round: 5 mm}, tail-left: {round: 5 mm}}"
ONE_CUT = ", corners: {tail-left: {cut: [20 mm, 20 mm]}}"


@pytest.mark.parametrize(
    ("more", "up", "datum", "shape", "where"),
    [
        (ONE_ROUND, "front", "left", "round", "far right"),
        (ONE_ROUND, "front", "right", "round", "near left"),  # end for end
        (ONE_ROUND, "back", "right", "round", "far left"),  # turned over like a page: left and right change over
        (ONE_LARGE, "front", "left", "large round", "far left"),
        (ONE_CUT, "front", "left", "cut", "near left"),
        (ONE_CUT, "front", "tail", "cut", "far left"),  # its bottom at the left: what was the left end lies away from the maker
    ],
)
def test_the_odd_corner_is_named_where_it_lies(more: str, up: str, datum: str, shape: str, where: str) -> None:
    assert seen(more, up=up, datum=datum) == Feature("corner", where, shape)


def test_four_corners_alike_tell_nothing() -> None:
    same = ", corners: {head-left: {round: 5 mm}, head-right: {round: 5 mm}, tail-right: {round: 5 mm}, tail-left: {round: 5 mm}}"
    assert seen(same).kind == "none"


def test_a_narrow_end_is_one_that_has_no_straight_edge() -> None:
    pointed = ", corners: {head-right: {cut: [30 mm, 25 mm]}, tail-right: {cut: [30 mm, 25 mm]}}"
    assert seen(pointed) == Feature("narrow", "right")
    assert seen(pointed, datum="right") == Feature("narrow", "left")


def test_a_print_that_runs_one_way_goes_before_all_else() -> None:
    assert seen(front="one-way") == Feature("print", "far")
    assert seen(ONE_ROUND, front="one-way", datum="right") == Feature("print", "near")
    assert seen(front="one-way", datum="head") == Feature("print", "left")


def test_the_other_side_of_such_a_print_shows_only_what_was_pencilled() -> None:
    assert seen(front="one-way", up="back", datum="right") == Feature("arrow", "far")
    assert seen(front="one-way", up="back", datum="left") == Feature("arrow", "near")


def test_a_bare_rectangle_lies_by_its_letter_or_either_way() -> None:
    assert seen(lettered=True) == Feature("letter", "far")
    assert seen() == Feature("none", "")


def test_an_outline_is_the_same_end_for_end_or_not() -> None:
    two = ", corners: {head-left: {cut: [20 mm, 20 mm]}, tail-right: {cut: [20 mm, 20 mm]}}"
    assert same_end_for_end(piece()[0]) and same_end_for_end(piece(two)[0])
    assert not same_end_for_end(piece(ONE_CUT)[0])


def test_ends_are_corners_of_the_piece_or_places_on_its_edge() -> None:
    blank, _ = piece()
    lie = lie_of(blank, "front", "left")
    assert ends_seen(blank, lie, [(0.0, 0.0), (100.0, 60.0)]) == "corner"
    assert ends_seen(blank, lie, [(0.0, 0.0), (50.0, 60.0)]) == ""
    turned = lie_of(blank, "back", "head")
    assert ends_seen(blank, turned, [(60.0, 0.0), (0.0, 100.0)]) == "corner"
