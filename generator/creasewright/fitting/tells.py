"""What tells a wrong one from the right one best: a fact that a maker can see, or a measure, worked out from the two states."""

from collections.abc import Iterable

from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.fitting.flat_tells import ACROSS, DOWN, flat_tells, where
from creasewright.fitting.gate_measures import READS, Measure, measures
from creasewright.fitting.looks import is_flat, shown_panels, top_down
from creasewright.fitting.standing_tells import standing_tells
from creasewright.fitting.tell import LEAST, Seen, Tell
from creasewright.folding.state import Body, State

LAID = ("side", "print", "bare", "covered", "size")
"""Facts of a panel that is easier found if one is told where it lies."""


def told(right: Seen, wrong: Seen, sizes_first: bool) -> Tell:
    """The fact that shows best: of what is seen the one of most paper, or the measure that is off most; each before the other."""
    seen, sizes = seen_tells(right, wrong), size_tells(measures(*right), measures(*wrong))
    first, then = (sizes, seen) if sizes_first else (seen, sizes)
    return placed(best(first) or best(then) or Tell("none"), right, wrong)


def placed(tell: Tell, right: Seen, wrong: Seen) -> Tell:
    """With the side at which the panel lies, and should lie."""
    if not tell.panel or tell.kind not in LAID or not (is_flat(*right[:2]) and is_flat(*wrong[:2])):
        return tell
    was, now = (where(shown_panels(*seen), (tell.part, tell.panel)) for seen in (right, wrong))
    if tell.kind == "covered":
        return replace(tell, lies=was)
    opposite = now and was in (ACROSS if now in ACROSS else DOWN) and was != now
    return replace(tell, lies=now, lay=was if opposite else "")


def best(tells: Iterable[Tell]) -> Tell | None:
    """Of equal ones the first."""
    return max(tells, key=lambda tell: round(tell.weight, 3), default=None)


def size_tells(mine: list[Measure], other: list[Measure]) -> list[Tell]:
    """Measures of both that differ by more than hands err; one over all is easier to take and counts half as much again."""
    found = {one.key: one.mm for one in other}
    return [
        Tell("size", one.part, one.panel, way=one.way, mm=(one.mm, found[one.key]), weight=off * (1.5 if one.over_all else 1.0))
        for one in mine
        if one.key in found and (off := abs(one.mm - found[one.key])) >= READS
    ]


def seen_tells(right: Seen, wrong: Seen) -> list[Tell]:
    flat = is_flat(*right[:2])
    if flat != is_flat(*wrong[:2]):
        return [Tell("standing" if flat else "flat", weight=LEAST)]
    found: list[Tell] = []
    if not (flat and lies_flat(*right[:2]) and lies_flat(*wrong[:2])):
        found = without_twins(standing_tells(right, wrong), {**right[0].blanks, **wrong[0].blanks})
    if flat and not found:
        found = without_twins(flat_tells(shown_panels(*right), shown_panels(*wrong)), {**right[0].blanks, **wrong[0].blanks})
    return found


def without_twins(tells: list[Tell], blanks: dict[str, Blank]) -> list[Tell]:
    """Of equal pieces nobody can tell which one shows: one that does not, where another does instead, is no fact."""
    def like(tell: Tell) -> tuple[str, str]:
        return blanks[tell.part].name, tell.panel

    bare = {like(tell) for tell in tells if tell.kind == "bare"}
    covered = {like(tell) for tell in tells if tell.kind == "covered"}
    return [tell for tell in tells if tell.kind not in ("bare", "covered") or like(tell) not in bare & covered]


def lies_flat(state: State, body: Body) -> bool:
    """All of it."""
    return len(top_down(state, body)) == sum(len(state.blanks[part].panels) for part in body.parts)
