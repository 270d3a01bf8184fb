"""How long sheets are planned: the options that all planning commands share."""

from argparse import Namespace

from msgspec.structs import replace

from creasewright.cutting.demand import EFFORTS, Effort
from creasewright.problems import NOWHERE, Problem, ProblemsFound


def effort_of(options: Namespace) -> Effort:
    """Raises ProblemsFound."""
    effort = EFFORTS[options.effort]
    if options.seconds is None:
        return effort
    if not 0 < options.seconds <= 86_400:
        raise ProblemsFound([Problem(NOWHERE, f"--seconds {options.seconds:g} is out of reach", "give a number up to 86400")])
    return replace(EFFORTS["high"], seconds=options.seconds)
