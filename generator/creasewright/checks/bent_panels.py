"""What is worked out of curved scores, and what is not."""

from creasewright.checks.facts import Facts, part_words
from creasewright.problems import NOTES, Finding
from creasewright.reading.design import Fold


def curved_scores_told(facts: Facts) -> list[Finding]:
    """How far a bent thing is worked out; and curved scores that no step folds, which stay flat in pictures."""
    return [*_bent(facts), *_never_folded(facts)]


def _bent(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        action = run.written.action
        if not (isinstance(action, Fold) and action.bending) or run.before.curved or not run.after.curved:
            continue
        (part, _), curved = next(iter(run.after.curved.items()))
        found.append(
            Finding(
                NOTES, "bending", run.written.where,
                f"the curved scores of {part_words(part)} are worked out as bending its panels to cylinders, "
                f"{facts.said(curved.arch.width)} wide and {facts.said(curved.arch.rise)} high, with folds of 90° at the middle of each "
                f"score and {curved.arch.fold_at_ends:.0f}° at its ends; the way there is not",
                "make one of paper before you make many",
            )
        )  # fmt: skip
    return found


def _never_folded(facts: Facts) -> list[Finding]:
    folded = {
        (run.after.blanks[part].name, name)
        for _, run in facts.original_runs()
        for part, name in run.targets
        if isinstance(run.written.action, Fold) and run.refused is None
    }
    return [
        Finding(
            NOTES, "bending", blank.where,
            f"`{piece.name}` of {blank.name} is a curved score that no step folds: it is scored, and pictures show it flat",
            "fold it in a step with `bending: yes`, if it hangs an ear on a panel",
        )
        for blank in facts.worked.blanks
        for piece in blank.pieces
        if piece.arc is not None and (blank.name, piece.name) not in folded
    ]  # fmt: skip
