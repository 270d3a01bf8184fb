"""Slits that a step cuts: until then the piece is whole there."""

from creasewright.fitting.worked import Worked
from creasewright.reading.design import Make


def late_slits(worked: Worked) -> frozenset[str]:
    """Names of slits that the steps of any assembly cut."""
    written = [step.action for assembly in worked.design.assemblies for step in assembly.steps]
    cuts = [action for action in written if isinstance(action, Make) and action.verb == "cut"]
    return frozenset(str(text).split(" of ")[0] for action in cuts for text in action.parts)
