"""The adhesive of each joint: whether its kind suits the paper, and whether its strip keeps its width and margin.

Where a step names none, the kind that suits is taken of those on offer (`joining/adhesive_choice.py`); one that is missing is told.
"""

from creasewright.checks.facts import Facts
from creasewright.fitting.adhesives import Joint, joints_of
from creasewright.joining.adhesive_rules import CREEPS, KEEPS, TAPE, WET
from creasewright.problems import NOTES, WARNS, Finding, Where

LEAST_WET = 100.0
"""mm² of tape on board that is no matter."""
WHY = {
    "thin": "paper under 0.09 mm cockles under wet glue, and shows it",
    "large": "so large a face of thin paper cockles under wet glue",
    "board": "board wants wet glue",
}


def adhesives_suit(facts: Facts) -> list[Finding]:
    wheres = {(assembly.name, run.number): run.written.where for assembly, run in facts.original_runs()}
    found = []
    for joint in joints_of(facts.worked):
        where = wheres.get((joint.assembly, joint.step))
        if where is not None:
            found += of_one(facts, joint, where)
    return found


def of_one(facts: Facts, joint: Joint, where: Where) -> list[Finding]:
    found = []
    uses = f"step {joint.step} uses {joint.material}"
    if joint.suits == TAPE and joint.kind == "glue" and joint.why in WHY:
        lacking = "add a tape to `materials:`" + (", no wider than its strip" if joint.strips else "")
        found.append(
            Finding(NOTES, "adhesive", where, f"{uses}: {WHY[joint.why]}", lacking if joint.chosen else "name a tape with `with:`")
        )
    if joint.suits == WET and joint.why == "board" and joint.kind == "tape" and joint.mm2 > LEAST_WET and not joint.strips:
        lacking = "add a glue to `materials:`"
        found.append(
            Finding(NOTES, "adhesive", where, f"{uses}: {WHY['board']}", lacking if joint.chosen else "name a glue with `with:`")
        )
    if joint.strips and joint.narrowest < KEEPS * joint.width:
        found.append(
            Finding(
                WARNS, "adhesive", where,
                f"the strip of step {joint.step} should be {facts.said(joint.width)} wide, "
                f"but {facts.said(joint.narrowest)} is left between its margins",
                "make the flap wider, or `width:` or `setback:` smaller",
            )
        )  # fmt: skip
    if joint.strips and joint.kind == "glue" and joint.margin < CREEPS:
        found.append(
            Finding(
                NOTES, "adhesive", where,
                f"the glue of step {joint.step} runs to the edge and creeps out of it",
                "give it a `setback:`, or name a tape with `with:`",
            )
        )  # fmt: skip
    material = facts.worked.materials.get(joint.material)
    if joint.strips and joint.kind == "tape" and material is not None and material.width > joint.width + 0.01:
        found.append(
            Finding(
                WARNS, "adhesive", where,
                f"{joint.material} is {facts.said(material.width)} wide, but the strip of step {joint.step} {facts.said(joint.width)}",
                f"take a narrower tape, or write `width: {facts.at_least(material.width)}`",
            )
        )  # fmt: skip
    return found
