"""A cover that wraps round what lies inside it: its spine against the thickness that it must go round.

Rule: a spine is as wide, score to score, as what lies inside is thick, and one caliper of the cover besides. The two covers stand on the
middle of the sheet at their scores, so half a caliper of each lies within that width: room inside = width - (t1 + t2) / 2. (A fold of 90
degrees of inside radius 0 takes pi t / 4 of its middle line where the sharp corner of two middle lines takes t, engineering tables of
sheet bending with K = 1 / 2; the difference, t / 5 at either score, is on the safe side.)
"""

from creasewright.checks.facts import Facts
from creasewright.hands.wrapped_things import gap_of, inside_thickness, wraps
from creasewright.problems import WARNS, Finding

TOLD = 0.1
"""mm by which a wrap may be too narrow before it is told."""


def wraps_close(facts: Facts) -> list[Finding]:
    finished = facts.worked.finished
    if finished is None:
        return []
    found = []
    for first, spine, second in wraps(finished.state, finished.body):
        blank = finished.state.blanks[spine[0]]
        inside = inside_thickness(finished.state, finished.body, first, second)
        room = gap_of(finished.state, first, second) - sum((finished.state.thick[key[0]] or 0.0) / 2 for key in (first, second))
        if inside > room + TOLD:
            found.append(
                Finding(
                    WARNS, "wrap", blank.where,
                    f"{spine[1]} of {blank.name} leaves {facts.said(max(room, 0.0))} between {first[1]} and {second[1]}, "
                    f"but what lies there is {facts.said(inside)} thick",
                    f"make {spine[1]} at least {facts.at_least(inside - room)} wider: what lies inside, and one thickness of the cover",
                )
            )  # fmt: skip
    return found
