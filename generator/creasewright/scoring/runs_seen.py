"""The steps of an assembly as the reader does them: mirrored where it is made as a mirror image."""

from functools import lru_cache

from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.joining.mirrored_runs import mirrored_runs
from creasewright.joining.run_step import StepRun


def runs_seen(worked: Worked, assembly: AssemblyRun) -> tuple[StepRun, ...]:
    return every_mirrored(worked)[assembly.name] if assembly.mirrored else assembly.runs


@lru_cache(maxsize=2)
def every_mirrored(worked: Worked) -> dict[str, tuple[StepRun, ...]]:
    return {assembly.name: mirrored_runs(assembly.runs) for assembly in worked.assemblies if assembly.mirrored}
