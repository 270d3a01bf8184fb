"""All scores of one direction measured from the wrong edge: the piece comes out as its mirror image along that direction."""

from small_designs import with_steps, worked_of

PAPER = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm}}"


def wrong_ends(blank: str) -> dict[str, list[float]]:
    """Direction to where the bands of that direction end then, mm."""
    worked = worked_of(with_steps(blank, "{lay: card}"), PAPER)
    assembly = worked.assemblies[-1]
    assert assembly.supply is not None
    found = assembly.supply.scored_wrongly(assembly.specs[0])
    return {key: [round(float(band.end), 3) for band in made.bands if band.direction == key] for key, made in found}


def test_every_score_of_the_direction_is_moved() -> None:
    # 30, 120 of 200 mm from the left; from the right 80 and 170
    assert wrong_ends("card: {height: 100 mm, across: [a: 30 mm, b: 90 mm, c: 80 mm]}") == {"across": [80.0, 170.0, 200.0]}


def test_each_direction_is_a_mistake_of_its_own() -> None:
    both = wrong_ends("card: {across: [a: 30 mm, b: 90 mm], down: [c: 20 mm, d: 50 mm]}")
    assert both == {"across": [90.0, 120.0], "down": [50.0, 70.0]}


def test_scores_that_lie_the_same_from_both_edges_are_no_mistake() -> None:
    assert wrong_ends("card: {height: 100 mm, across: [a: 40 mm, b: 90 mm, c: 40 mm]}") == {}
