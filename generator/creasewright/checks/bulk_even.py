"""A closed thing that is thicker at its open edge than at its spine: it gapes like a wedge."""

from creasewright.checks.facts import Facts
from creasewright.fitting.bulk import Thick, layer_called
from creasewright.fitting.evening import EVEN, Evening, Strips, evening
from creasewright.folding.refused import called
from creasewright.problems import NOTES, WARNS, Finding

NAMED = 6
"""At most this many layers are told one by one."""


def bulk_even(facts: Facts) -> list[Finding]:
    finished = facts.worked.finished
    if finished is None:
        return []
    calipers = {paper.name: float(paper.caliper) for paper in facts.worked.papers.values() if paper.caliper is not None}
    found = evening(finished.state, finished.body, finished.bulk, calipers)
    if found is None or found.wedge <= EVEN:
        return []
    thick, spine = facts.said(found.thickest.mm), facts.said(found.at_spine)
    if found.hinge is not None:
        what = f"closed, its covers lie over {thick} ({layers(found.thickest)}), and its spine holds them {spine} apart"
    else:
        what = f"closed, it is {thick} thick at the open edge ({layers(found.thickest)}) and {spine} at the spine"
    empty = finished.bulk_empty
    if empty != finished.bulk and found.hinge is None:
        what += f" (empty: {facts.said(empty.at_fore_edge.mm)} and {facts.said(empty.at_spine.mm)})"
    return [Finding(WARNS, "bulk", facts.worked.design.finished.where, what, remedy(facts, found))]


def layers(thick: Thick) -> str:
    """`3 layers: a of strip, c of strip, b of strip`, from the table up."""
    count = len(thick.layers)
    return f"{count} layers" + (": " + ", ".join(layer_called(key) for key in thick.layers) if count <= NAMED else "")


def remedy(facts: Facts, found: Evening) -> str:
    if found.hinge is not None:
        return f"make {called(found.hinge)} at least {facts.at_least(found.needed)} wide; it is {facts.said(found.hinge_width)}"
    if found.fold is None:
        return f"make the spine {facts.at_least(found.wedge)} wider"
    band = f"put a band {facts.at_least(found.needed)} wide in place of the score {called(found.fold)}"
    return band + (f", or glue {strips(facts, found.strips)}" if found.strips is not None else "")


def strips(facts: Facts, found: Strips) -> str:
    count = "1 strip" if found.layers == 1 else f"{found.layers} strips"
    size = f"{facts.at_most(found.width)} wide and {facts.at_most(found.length)} long"
    return f"{count} of {found.paper}, {size}, {'on one another ' if found.layers > 1 else ''}onto {called(found.onto)} beside the spine"


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
