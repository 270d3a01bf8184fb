"""Lids, sleeves and slipcases against what they go round: the room that is left, with all calipers taken off, against what hands err by.

The room is measured between inner faces and the thing between outer ones, so a wall of the cover costs it one caliper a side, and tabs
inside a wall one more. What is left must be more than two scored lines err by: sqrt(2) times 0.5 mm (common practice, no source).
"""

from math import sqrt

from creasewright.checks.facts import Facts
from creasewright.folding.state import CoverFit
from creasewright.joining.run_step import StepRun
from creasewright.problems import WARNS, Finding

LEAST = 0.5 * sqrt(2)
"""mm"""


def covers_go_round(facts: Facts) -> list[Finding]:
    return [
        finding
        for _, run in facts.original_runs()
        for fit in run.after.coverings[len(run.before.coverings) :]
        for finding in of_one(facts, run, fit)
    ]


def of_one(facts: Facts, run: StepRun, fit: CoverFit) -> list[Finding]:
    cover, thing = (" and ".join(dict.fromkeys(path.split("/")[-1] for path in parts)) for parts in (fit.cover, fit.around))
    found = []
    for way, room, size in (("wide", fit.room_width, fit.width), ("high", fit.room_height, fit.height)):
        spare = room - size if room is not None else LEAST
        if spare < LEAST - 0.01:
            found.append(
                Finding(
                    WARNS, "cover", run.written.where,
                    f"{cover} leaves {facts.said(max(spare, 0.0))} round {thing} one way ({way}), less than hands err by "
                    f"({facts.said(LEAST)})",
                    f"make it at least {facts.at_least(LEAST - spare)} larger that way",
                )
            )  # fmt: skip
    return found
