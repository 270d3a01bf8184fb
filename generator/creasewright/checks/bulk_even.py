"""A closed thing that is thicker at its open edge than at its spine: it gapes like a wedge."""

from creasewright.checks.facts import Facts
from creasewright.geometry.rigid_transform import rotate
from creasewright.problems import NOTES, WARNS, Finding

EVEN = 0.5
"""mm of difference that nobody sees."""


def bulk_even(facts: Facts) -> list[Finding]:
    finished = facts.worked.finished
    if finished is None or finished.bulk.spine is None:
        return []
    at_spine = max(finished.bulk.at_spine, spine_room(facts))
    wedge = finished.bulk.at_fore_edge - at_spine
    if wedge <= EVEN:
        return []
    where = facts.worked.design.finished.where
    layers = len(finished.bulk.layers_at_fore_edge)
    return [
        Finding(
            WARNS, "bulk", where,
            f"closed, it is {facts.said(finished.bulk.at_fore_edge)} thick at the open edge ({layers} layers) "
            f"and {facts.said(at_spine)} at the spine",
            f"make the spine {facts.at_least(wedge)} wider, or glue spacer strips {facts.said(wedge)} thick beside it",
        )
    ]  # fmt: skip


def spine_room(facts: Facts) -> float:
    """The thickness that a standing spine holds open: the width of the panels that stand upright on the table, with one caliper."""
    finished = facts.worked.finished
    assert finished is not None
    levels = []
    for stack in finished.body.stacks:
        if abs(rotate(finished.body.view, stack.normal)[2]) > 0.999:
            levels.append(rotate(finished.body.view, finished.state.placed[stack.order[0]].shift)[2])
    return max(levels) - min(levels) if levels else 0.0


def calipers_known(facts: Facts) -> list[Finding]:
    """Thickness cannot be told where a caliper is missing; it is asked for, never guessed."""
    found: list[Finding] = []
    if facts.worked.finished is None:
        return found
    used = {blank.paper for blank in facts.worked.finished.state.blanks.values() if blank.paper}
    for paper in facts.worked.design.papers:
        values = facts.worked.papers[paper.name]
        if paper.name in used and values.caliper is None:
            hint = "measure a stack of ten sheets and write a tenth of it as `caliper:`"
            if values.grammage is not None:
                low, high = values.grammage / 870, values.grammage / 800
                hint += f" (at {float(values.grammage):.0f} g/m² often {float(low):.2f} to {float(high):.2f} mm)"
            found.append(
                Finding(NOTES, "caliper", paper.where, f"{paper.name} has no caliper, so thickness is not counted for it", hint)
            )
    return found
