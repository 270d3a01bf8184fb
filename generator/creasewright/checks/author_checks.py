"""What the author promised or asked to be compared: ranges of measures, `expect` lines."""

from creasewright.checks.facts import Facts
from creasewright.problems import WARNS, Finding


def measures_in_range(facts: Facts) -> list[Finding]:
    found = []
    for measure in facts.worked.measures:
        value = measure.values[0]
        say = facts.said if measure.power == 1 else lambda v: f"{float(v):g}"
        if measure.lowest is not None and value < measure.lowest:
            found.append(
                Finding(
                    WARNS,
                    "range",
                    measure.where,
                    f"{measure.name} is {say(value)}, under {say(measure.lowest)}",
                    "stay in the range that the design promises",
                )
            )
        if measure.highest is not None and value > measure.highest:
            found.append(
                Finding(
                    WARNS,
                    "range",
                    measure.where,
                    f"{measure.name} is {say(value)}, over {say(measure.highest)}",
                    "stay in the range that the design promises",
                )
            )
    return found


def expectations_hold(facts: Facts) -> list[Finding]:
    return [
        Finding(WARNS, "expect", where, f"{words} does not hold", "change the sizes, or the line in `expect:`")
        for entries in facts.worked.sides.values()
        for where, holds, words in entries
        if not holds
    ]
