"""Steps that the paper does not allow."""

from creasewright.checks.facts import Facts
from creasewright.problems import BLOCKS, Finding


def steps_can_be_made(facts: Facts) -> list[Finding]:
    return [
        Finding(
            BLOCKS,
            "step",
            run.written.where,
            f"step {run.number}{of(assembly.assembly)} cannot be made: {run.refused[0]}",
            run.refused[1],
        )
        for assembly, run in facts.original_runs()
        if run.refused is not None
    ]


def of(name: str) -> str:
    return f" of {name}" if name else ""
