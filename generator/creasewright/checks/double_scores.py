"""Folds that go round more layers than one score can: they ask for two."""

from creasewright.checks.facts import Facts
from creasewright.hands.double_scores import LIMIT, double_scores
from creasewright.problems import WARNS, Finding


def scores_go_round(facts: Facts) -> list[Finding]:
    runs = [run for _, run in facts.original_runs()]
    return [
        Finding(
            WARNS, "double score", each.where,
            f"{each.score} of {each.part} closes over {facts.said(each.inside)} of layers, more than the {facts.said(LIMIT)} "
            f"that one score goes round",
            f"put two scores there, {facts.at_least(each.apart)} apart: what lies inside, and one thickness of the sheet",
        )
        for each in double_scores(runs)
    ]  # fmt: skip
