"""Each glued joint of the steps: its adhesive, how much, how long it is held and how long it dries; and the time in all.

Which kind suits is a matter of `joining/adhesive_rules.py`. The rest is common practice, no source: a wet film is 0.15 mm thick; strips
and faces are covered once.
"""

import re
from functools import lru_cache

from msgspec import Struct

from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.folding.state import GlueArea
from creasewright.geometry.clip import area as polygon_area
from creasewright.joining.adhesive_rules import BOARD, TAPE, WET, narrowest, suited, thickest
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

FACE = 3_000.0
"""mm² from which on an all-over joint dries as a face, not as a strip."""
FILM = 0.15
"""mm of wet glue."""
ROLL = 10_000.0
"""mm of tape on a roll as sold."""
SECONDS = {WET: 30.0, TAPE: 5.0}
"""How long a joint is held."""
DRY_STRIP, DRY_FACE, DRY_BOARD = 10.0, 30.0, 120.0
"""Minutes until wet glue holds: in strips, all over, and on board under weight."""
UNITS = {"s": 1 / 60, "sec": 1 / 60, "min": 1.0, "h": 60.0}
TIME = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(s|sec|min|h)")


class Joint(Struct, frozen=True):
    """What one step glues with one material."""

    assembly: str
    times: int
    """How often the assembly is made for one finished thing."""
    step: int
    material: str
    kind: str
    """Of the material: `glue`, `tape`, `foam`."""
    suits: str
    """`wet`, `tape` or `either`."""
    why: str
    """`board`, `thin`, `large`, `slides`, `shows`, or empty: see `joining/adhesive_rules.py`."""
    chosen: bool
    """By rule: the step names none."""
    strips: bool
    width: float
    """Of its strips as asked for, mm; 0 all over."""
    narrowest: float
    """What of that width its narrowest strip keeps, mm."""
    margin: float
    """From edges, mm."""
    mm2: float
    """Covered, for one making."""
    length: float
    """Of its strips, mm."""
    hold: float
    """Seconds."""
    dry: float
    """Minutes."""

    @property
    def millilitres(self) -> float:
        return self.mm2 * FILM / 1000 if self.kind == "glue" else 0.0


@lru_cache(maxsize=2)
def joints_of(worked: Worked) -> tuple[Joint, ...]:
    """In the order of the steps; those of a mirrored assembly too."""
    kinds = {material.name: material.kind for material in worked.design.materials}
    found = []
    for assembly in worked.assemblies:
        for run in assembly.runs:
            fresh = run.after.glue[len(run.before.glue) :]
            for material in dict.fromkeys(area.material for area in fresh):
                areas = [area for area in fresh if area.material == material]
                found.append(joint(assembly, run, areas, kinds.get(material, "glue")))
    return tuple(found)


def joint(assembly: AssemblyRun, run: StepRun, areas: list[GlueArea], kind: str) -> Joint:
    action = run.written.action
    suits, why = suited(run.after, areas, action)
    strips = any(area.width for area in areas)
    wet = kind == "glue"
    board = thickest(run.after, areas) >= BOARD
    largest = max(abs(polygon_area(area.polygon)) for area in areas)
    return Joint(
        assembly=assembly.name,
        times=assembly.times,
        step=run.number,
        material=areas[0].material,
        kind=kind,
        suits=suits,
        why=why,
        chosen=isinstance(action, design.Join | design.TurnIn | design.Tie) and action.with_ is None,
        strips=strips,
        width=areas[0].width,
        narrowest=narrowest(areas),
        margin=areas[0].setback,
        mm2=sum(abs(polygon_area(area.polygon)) for area in areas),
        length=sum(area.length for area in areas),
        hold=SECONDS[WET if wet else TAPE] * (1 if len(areas) < 3 else 2),
        dry=0.0 if not wet else DRY_BOARD if board else DRY_STRIP if strips or largest < FACE else DRY_FACE,
    )


# --- the time in all --------------------------------------------------------------------------------------------------


class Waiting(Struct, frozen=True):
    """How long one finished thing takes besides the work of the hands."""

    hold: float
    """Minutes during which joints are held."""
    dry: float
    """Minutes of waiting: what the steps say, and what glue needs that no step waits for."""


def minutes(text: str) -> float | None:
    """`30 min`, `2 h`, `1 h 30 min`, `45 s`; None for anything else."""
    parts = TIME.findall(text)
    if not parts or TIME.sub("", text).strip(" ,"):
        return None
    total = 0.0
    for number, unit in parts:
        total += float(number.replace(",", ".")) * UNITS[unit]
    return total


def waiting(worked: Worked) -> Waiting:
    """Per assembly the waits that its steps name, or the longest drying time after the last of them; holding besides."""
    joints = joints_of(worked)
    dry = 0.0
    for assembly in worked.assemblies:
        named = [(run.number, wait) for run in assembly.runs if (wait := named_wait(run)) is not None]
        last = max((number for number, _ in named), default=0)
        open_joints = [each.dry for each in joints if each.assembly == assembly.name and each.step > last]
        dry += assembly.times * (sum(wait for _, wait in named) + max(open_joints, default=0.0))
    return Waiting(sum(each.hold * each.times for each in joints) / 60, dry)


def named_wait(run: StepRun) -> float | None:
    action = run.written.action
    if not isinstance(action, design.Wait) or action.verb == "check" or action.for_ is None:
        return None
    return minutes(str(action.for_))


# --- amounts ----------------------------------------------------------------------------------------------------------


def millilitres(worked: Worked, material: str) -> float:
    """Wet glue for one maker, no spare."""
    return sum(each.millilitres * each.times for each in joints_of(worked) if each.material == material)
