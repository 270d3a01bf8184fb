"""Every assembly as the reader sees it made: its steps, mirrored where it is, each with its picture. Worked out once for all sections."""

from functools import lru_cache

from msgspec import Struct

from creasewright.booklet.shown_once import shown_once
from creasewright.booklet.shown_parts import ShownParts, Words, shown_parts
from creasewright.booklet.step_picture import step_picture
from creasewright.booklet.step_views import StepPicture
from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.joining.run_step import StepRun
from creasewright.scoring.runs_seen import runs_seen


class PicturedSteps(Struct, frozen=True):
    assembly: AssemblyRun
    parts: ShownParts
    runs: tuple[StepRun, ...]
    pictures: tuple[StepPicture, ...]


@lru_cache(maxsize=2)
def pictured_steps(worked: Worked, words: Words = ()) -> tuple[PicturedSteps, ...]:
    """In the order in which they are made; assemblies without steps left out."""
    found = []
    for assembly in worked.assemblies:
        if assembly.runs:
            parts = shown_parts(worked, assembly, words)
            runs = runs_seen(worked, assembly)
            found.append(PicturedSteps(assembly, parts, runs, shown_once(step_picture(run, parts) for run in runs)))
    return tuple(found)
