"""Two panels folded over a third from opposite sides, whose free edges meet: the doors of an open gate need a gap between them."""

from creasewright.checks.facts import Facts
from creasewright.folding.refused import called
from creasewright.hands.doors import between, doors
from creasewright.hands.fold_allowances import DOORS
from creasewright.problems import WARNS, Finding


def gates_meet(facts: Facts) -> list[Finding]:
    found = []
    seen: set[tuple[str, str, str]] = set()
    for assembly, run in facts.original_runs():
        if not assembly.runs or run is not assembly.runs[-1]:
            continue
        for first, second, home in doors(run.after):
            blank = run.after.blanks[home[0]]
            gap = between(run.after, first, second)
            name = (blank.name, first[1], second[1])
            if gap is None or gap >= DOORS[facts.worked.system] - 0.01 or name in seen:
                continue
            seen.add(name)
            wanted = DOORS[facts.worked.system]
            found.append(
                Finding(
                    WARNS, "gate", blank.where,
                    f"{called(first)} and {second[1]} end {facts.said(gap)} apart, where {facts.said(wanted)} is wanted between doors",
                    f"make each of them at least {facts.at_least((wanted - gap) / 2)} narrower",
                )
            )  # fmt: skip
    return found
