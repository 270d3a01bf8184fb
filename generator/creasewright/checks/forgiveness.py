"""Clearances that too many hands would use up: more than 1 maker in 100 by the table of hand errors.

Where there is no room even without any error, the check of that kind speaks (`insert`, `band`, `wrap`), not this one.
"""

from creasewright.checks.facts import Facts
from creasewright.hands.clearance import Clearance
from creasewright.hands.every_clearance import every_clearance
from creasewright.hands.outcome import failing_share, in_words, room_wanted, too_many
from creasewright.problems import WARNS, Finding

WAYS = {"wide": " in width", "high": " in height", "thick": " in thickness", "": ""}


def forgiveness(facts: Facts) -> list[Finding]:
    return [
        told(facts, one)
        for one in every_clearance(facts.worked, facts.errors)
        if too_many(one.room.value, one.error(facts.errors)) and one.room.value >= 0
    ]


def told(facts: Facts, one: Clearance) -> Finding:
    error = one.error(facts.errors)
    fail = in_words(failing_share(one.room.value, error), facts.worked.makers)
    more = facts.at_least(room_wanted(error) - one.room.value)
    worse = f" ({one.worse})" if one.worse else ""
    return Finding(
        WARNS, "forgiveness", one.where,
        f"{one.what}: {facts.said(one.room.value)} of room{WAYS[one.way]} against {facts.said(error)} of hand error{worse}: "
        f"{fail} would fail",
        one.remedy.format(more=more),
    )  # fmt: skip
