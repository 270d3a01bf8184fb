"""What has been done to a part by the time a mistake shows, on which it hangs how the mistake can still be undone;
and what can be put right where a length comes out wrong."""

from msgspec import Struct

from creasewright.folding.state import Bond, State
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

FOLDED = 1.0
"""Degrees: less is a flat score."""


class Done(Struct, frozen=True):
    glued: tuple[int, ...] = ()
    """The steps of this assembly whose adhesive or thread holds the part."""
    held: tuple[str, ...] = ()
    """The other parts (or assemblies) that it holds it to."""
    sewn: bool = False
    folded: bool = False
    scored: bool = False
    """Its blank has fold lines, pressed or creased: they cannot be taken out."""


def done_to(state: State, part: str, until: int) -> Done:
    """`until`: the last step whose adhesive is on; `part` may be an assembly."""
    inside = [path for path in state.blanks if path == part or path.startswith(part + "/")]
    holding = [bond for bond in state.bonds if bond.kind in ("glue", "sew") and bond.step <= until and holds(bond, part)]
    others = {name for bond in holding for key in (bond.first, bond.second) if (name := key[0].split("/")[0]) != part.split("/")[0]}
    return Done(
        tuple(sorted({bond.step for bond in holding})),
        tuple(sorted(others)),
        any(bond.kind == "sew" for bond in holding),
        any(abs(angle) > FOLDED for key, angle in state.angles.items() if key[0] in inside and "/" not in part and key[0] == part),
        any(state.blanks[path].scores or len(state.blanks[path].panels) > 1 for path in inside),
    )


def holds(bond: Bond, part: str) -> bool:
    """It holds the part, and was not made inside an assembly that came made."""
    top = part.split("/")[0]
    ends = [key[0] for key in (bond.first, bond.second)]
    tops = [path.split("/")[0] for path in ends]
    return top in tops and (tops[0] != tops[1] or "/" not in ends[0])


LAID, UNFOLDED = "laid", "unfolded"


def put_right(run: StepRun, dry: bool, sized_by_laid: bool) -> str:
    """What can still be put right after a step (`dry`: before its adhesive) where a length comes out wrong.

    laid      the parts that the step lays lie loose, and the length hangs on how they lie (`sized_by_laid`)
    unfolded  something is folded that can be unfolded
    Empty: neither.
    """
    action = run.written.action
    joins = lays(run)
    if joins and sized_by_laid:
        return LAID if dry else ""
    if isinstance(action, design.Sew) or (isinstance(action, design.Insert) and action.with_ is not None) or (joins and not dry):
        return ""
    here = {part for path in run.parts for part in run.after.body_of(path).parts}
    return UNFOLDED if any(abs(angle) > FOLDED for key, angle in run.after.angles.items() if key[0] in here) else ""


def lays(run: StepRun) -> bool:
    """It joins what was apart."""
    if not isinstance(run.written.action, design.Join):
        return False
    fresh = run.new_bonds
    return any(
        bond.second[0] not in run.before.blanks or bond.second[0] not in run.before.body_of(bond.first[0]).parts
        for bond in fresh
        if bond.first[0] in run.before.blanks
    )
