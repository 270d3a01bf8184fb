"""A piece whose direction only its underside tells is laid with that side up first, then turned over: so it lies as it is drawn."""

import re
from itertools import pairwise

import pytest

from creasewright.blanks.blank import Blank
from creasewright.booklet.scoring.lie_features import Feature, feature_of, feature_underneath, seen_through
from creasewright.booklet.scoring.score_words import Shown, caption, lie_values, paper_of
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.seen_faces import sheet_up
from creasewright.scoring.lies import Lie, lie_of
from creasewright.scoring.members import scored_members
from creasewright.scoring.on_board import passes_on_board
from section_cases import DESIGNS, context_of, shipped, written
from small_designs import worked_of

TOLD = {(0, -1): "away from you", (1, 0): "to the right", (0, 1): "toward you", (-1, 0): "to the left"}
MOVES = {"like a page of a book": (-1, 1), "like a page of a wall pad": (1, -1), "end for end, not over": (-1, -1), "once more": (1, 1)}
FIRST = re.compile(
    r"First lay it (?:with its )?([a-z ]+?) up, (tips of its print|its arrow|the top of (?:its|the) letter|its top) ([a-z ]+); "
    r"then turn it over like a page, ([a-z ]+?),? (?:and|up)"
)


def told(design: str, system: str) -> list[tuple[Shown, str]]:
    context = context_of(shipped(design, system), "score guide")
    found = []
    for member in scored_members(context.worked):
        lies = passes_on_board(member, context.board)
        for number, drawn in enumerate(lies, start=1):
            each = Shown(member, drawn, number, len(lies))
            found.append((each, written(" ".join(" ".join(caption(context, each)).split()))))
    return found


def moved(lie: Lie, x: float, y: float) -> tuple[int, int]:
    """A direction of the blank as it lies, seen from above."""
    a, b, c, d, _, _ = lie.to_lie.floats()
    return round(a * x + c * y), round(b * x + d * y)


def where_first(design: str, system: str, each: Shown, what: str) -> str:
    """Where that points in the first placing, worked back from the drawn one: the piece turned back about its upright axis."""
    worked = shipped(design, system)
    x, y = 0.0, -1.0
    if what == "tips of its print":
        paper = paper_of(context_of(worked, "score guide"), each.member)
        assert paper is not None
        x, y, _ = sheet_up(paper, "front" if each.drawn.lie.up == "back" else "back", worked.turn_of(each.member.parts[0]))
    right, down = moved(each.drawn.lie, x, y)
    return TOLD[-right, down]


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_turned_over_from_the_first_placing_a_piece_lies_as_it_is_drawn(design: str, system: str) -> None:
    for each, text in told(design, system):
        match = FIRST.search(text)
        assert (match is not None) == ("First lay it" in text)
        if match:
            _, what, where, _ = match.groups()
            assert where.replace("at the", "to the") == where_first(design, system, each, what)


def test_what_is_seen_and_what_is_not() -> None:
    texts = [text for design in DESIGNS for system in ("in", "mm") for _, text in told(design, system)]
    assert sum("First lay it sprig side up, tips of its print" in text for text in texts) == 6  # folio A1, B2, the welcome card; both units
    assert not any("letter underneath, its arrow" in text or "underneath, the top" in text for text in texts)


@pytest.mark.parametrize("system", ["in", "mm"])
@pytest.mark.parametrize("design", DESIGNS)
def test_a_turn_that_a_later_lay_asks_for_brings_it_to_lie_as_it_is_drawn(design: str, system: str) -> None:
    """Seen from above: over like a page mirrors left and right, like a pad far and near, end for end both."""
    for (before, _), (after, text) in pairwise(told(design, system)):
        said = [move for words, move in MOVES.items() if words in text]
        if not said:
            continue
        ((right, down),) = said
        for spot in ((1.0, 0.0), (0.0, -1.0)):
            x, y = moved(before.drawn.lie, *spot)
            assert moved(after.drawn.lie, *spot) == (right * x, down * y)
        assert (before.drawn.lie.up != after.drawn.lie.up) == (right * down < 0)


@pytest.mark.parametrize(
    ("design", "drawn"), [("welcome-card", "tips to the left, underneath"), ("seed-swap-folio", "tips toward you, underneath")]
)
def test_the_drawing_names_what_lies_underneath_as_underneath(design: str, drawn: str) -> None:
    context = context_of(shipped(design), "score guide")
    values = [lie_values(context, each) for each, _ in told(design, "in")]
    assert drawn in [value["way_drawn"] for value in values]


def card(front: str, up: str, letter: str, datum: str = "left") -> Feature | None:
    papers = f"papers: {{card: {{sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120, front: {front}}}}}"
    worked = worked_of("blanks:\n  card: {width: 100 mm, height: 60 mm}\n", papers)
    (piece,) = worked.pieces
    blank: Blank = piece.blank
    paper: PaperFacts | None = worked.paper_of(blank)
    lie = lie_of(blank, up, datum)
    return feature_underneath(feature_of(blank, lie, paper, 0, bool(letter)), blank, lie, paper, 0, letter)


def test_only_what_the_side_up_does_not_show_is_looked_for_underneath() -> None:
    assert card("one-way", "front", "under") is None  # its print is up
    assert card("plain", "front", "up") is None  # its letter is up
    assert card("plain", "front", "") is None  # it may lie either way
    assert card("one-way", "back", "up") is None  # its arrow is up
    assert card("one-way", "back", "") == Feature("print", "near")  # its right edge lies at the left then, the top toward the maker
    assert card("plain", "front", "under") == Feature("letter", "far")
    assert card("two-way", "back", "under", "right") == Feature("arrow", "far")


def test_of_what_is_seen_through_left_and_right_change_over() -> None:
    # the top at the left as it lies with the back up: with the front up, turned back about its upright axis, it was at the right
    under = card("one-way", "back", "under", "head")
    assert under == Feature("print", "right")
    assert seen_through(under) == Feature("print", "left") and seen_through(Feature("letter", "far")) == Feature("letter", "far")
