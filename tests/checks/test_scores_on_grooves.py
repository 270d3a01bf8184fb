from msgspec.structs import replace

from creasewright.checks.scores_on_grooves import scores_on_grooves
from creasewright.problems import NOTES
from creasewright.scoring.score_board import Board
from small_designs import facts_of, with_steps


def found(across: str, board: Board | None) -> list[tuple[str, str, str]]:
    body = with_steps(f"strip: {{height: 100 mm, across: [{across}]}}", "{mountain: [a, c]}")
    facts = replace(facts_of(body), board=board)
    return [(each.severity, each.what, each.hint) for each in scores_on_grooves(facts)]


def test_scores_on_grooves_are_not_told():
    assert found("a: 30 mm, b: 40 mm, c: 50 mm", Board(5, 300)) == []


def test_scores_on_grooves_from_the_other_edge_are_not_told():
    assert found("a: 33 mm, b: 40 mm, c: 50 mm", Board(5, 300)) == []


def test_scores_on_no_setting_are_noted_with_the_nearest_sizes():
    # 32 and 74 of 118: from the right 86 and 44; 30 is 2 off, 118 - 85 = 33 is 1 off; 75 is 1 off, and so is 118 - 45 = 73: the left
    # edge's comes first
    assert found("a: 32 mm, b: 42 mm, c: 44 mm", Board(5, 300)) == [(
        NOTES,
        "A, strip: the scores at 32 mm and 74 mm from the left are on no setting of a score board with grooves every 5 mm",
        "score along a ruler, as the score guide tells, or choose sizes that bring them to 33 mm and 75 mm",
    )]  # fmt: skip


def test_a_spacer_answers_for_what_it_reaches():
    assert found("a: 32 mm, b: 42 mm, c: 44 mm", Board(5, 300, (3, 1))) == []  # 32 + 3 = 35, 74 + 1 = 75


def test_nothing_is_asked_without_a_board():
    assert found("a: 32 mm, b: 42 mm, c: 44 mm", None) == []
