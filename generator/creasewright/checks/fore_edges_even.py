"""Leaves folded inside one another and not cut even: the innermost stands out at the fore edge."""

from creasewright.checks.facts import Facts
from creasewright.joining.nested_leaves import fore_edge_step, nests
from creasewright.problems import NOTES, WARNS, Finding

CUTTING = 0.8
"""mm by which hands err at the trimmer: a smaller step is lost in it. Common practice, no source."""


def fore_edges_even(facts: Facts) -> list[Finding]:
    finished = facts.worked.finished
    if finished is None:
        return []
    cut = {part for trim in finished.state.trims for part, _ in trim.leaves}
    found = []
    for leaves in nests(finished.state):
        step = fore_edge_step(leaves)
        if step < 0.01 or {leaf.part for leaf in leaves} <= cut:
            continue
        blank = finished.state.blanks[leaves[0].part]
        out = max(leaves, key=lambda leaf: leaf.ends_at)
        which = "innermost" if out is leaves[-1] else "longest"
        found.append(
            Finding(
                WARNS if step > CUTTING else NOTES, "fore edge", blank.where,
                f"of {len(leaves)} leaves folded in one another the {which} stands out {facts.said(step)} at the fore edge",
                "cut them even while they are folded, with `trim: …, at: fore edge`, or take fewer leaves",
            )
        )  # fmt: skip
    return found
