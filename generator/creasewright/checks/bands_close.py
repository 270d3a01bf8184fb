"""Bands against what they go round: a strip of stiff paper is longer outside than inside.

A band of caliper t that lies close against an outline of girth g has its middle line t / 2 outside it, so it measures g + pi t: the outer
parallel of a convex outline at distance r is longer by 2 pi r (J. Steiner 1840; any textbook of convex geometry).
"""

from math import pi

from creasewright.checks.facts import Facts
from creasewright.folding.state import Closure
from creasewright.joining.run_step import StepRun
from creasewright.problems import BLOCKS, WARNS, Finding

LOOSE = {"in": 6.35, "mm": 6.0}
"""mm to spare from which a band slides off by itself. Common practice, no source."""
SAME = 0.01


def bands_close(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        for closure in run.after.closures[len(run.before.closures) :]:
            if closure.band:
                found += of_one(facts, run, closure)
    return found


def needed(closure: Closure) -> float:
    """mm of band that go once round, without lap."""
    return closure.girth + pi * closure.thick


def of_one(facts: Facts, run: StepRun, closure: Closure) -> list[Finding]:
    name, thing = closure.band.split("/")[-1], closure.around or "it"
    around = needed(closure)
    spare = closure.has - around - closure.extra
    if closure.has < around - SAME:
        return [
            Finding(
                BLOCKS, "band", run.written.where,
                f"{name} is {facts.said(closure.has)} long, but once round {thing} takes {facts.said(around)}",
                f"make it at least {facts.at_least(around + closure.extra - closure.has)} longer",
            )
        ]  # fmt: skip
    if spare < -SAME:
        return [
            Finding(
                WARNS, "band", run.written.where,
                f"{name} laps by {facts.said(closure.has - around)}, where {facts.said(closure.extra)} is asked for",
                f"make it at least {facts.at_least(-spare)} longer",
            )
        ]  # fmt: skip
    if spare > LOOSE[facts.worked.system]:
        return [
            Finding(
                WARNS, "band", run.written.where,
                f"{name} has {facts.said(spare)} to spare round {thing}, so it slides off",
                f"make it {facts.said(spare)} shorter, or its lap longer",
            )
        ]  # fmt: skip
    return []
