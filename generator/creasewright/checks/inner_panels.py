"""Panels folded in under another fold, in letter, roll and closed gate folds: they must end short of it, or they buckle.

How far is told by `fold_allowances`. In a roll fold it is not a free edge that comes near the next fold but one folded before.
"""

from creasewright.checks.facts import Facts
from creasewright.folding.heights import thickness
from creasewright.folding.refused import called
from creasewright.hands.fold_allowances import COVER_WEIGHT, least_short
from creasewright.hands.folded_in import FoldedIn, folded_in
from creasewright.joining.run_step import StepRun
from creasewright.problems import WARNS, Finding


def inner_panels(facts: Facts) -> list[Finding]:
    return [finding for _, run in facts.original_runs() for inner in folded_in(run) for finding in too_near(facts, run, inner)]


def too_near(facts: Facts, run: StepRun, inner: FoldedIn) -> list[Finding]:
    paper = facts.worked.paper_of(run.after.blanks[inner.panel[0]])
    heavy = paper is None or paper.grammage is None or paper.grammage >= COVER_WEIGHT
    least = least_short(inner.layers, thickness(run.after, inner.panel), heavy, facts.worked.system)
    if inner.short >= least - 0.01:
        return []
    return [
        Finding(
            WARNS, "inner panel", run.written.where,
            f"{called(inner.panel)} ends {facts.said(inner.short)} short of the fold that closes over it, "
            f"where {facts.said(least)} is wanted",
            f"make {inner.panel[1]} at least {facts.at_least(least - inner.short)} narrower",
        )
    ]  # fmt: skip
