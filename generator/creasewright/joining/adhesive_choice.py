"""A joint made with the adhesive that suits it best of what is on offer, and with a strip as wide as its margins leave.

What a step names it gets. Else it is made with the usual adhesive first: only then is it known what meets, how large and where. Where
another suits better it is made once more with that.
"""

from collections.abc import Callable
from typing import TypeVar

from msgspec import Struct

from creasewright.folding.state import GlueArea
from creasewright.joining.adhesive_rules import keeps_its_width, ranked, suited
from creasewright.joining.bench import Bench
from creasewright.joining.supply import MaterialFacts
from creasewright.reading import design

Made = TypeVar("Made")
Sticking = design.Join | design.TurnIn | design.Tie


class Taken(Struct, frozen=True):
    """What a joint is made with. mm."""

    material: str
    thick: float
    width: float
    """Of its strips, where it has some."""


def with_best_adhesive(bench: Bench, action: Sticking, make: Callable[[Taken], Made]) -> Made:
    """Carries `make` out on the bench. Raises what it raises."""
    offered = bench.supply.adhesives()
    if action.with_ is not None:
        offered = (bench.supply.material(str(action.with_)),)
    if not offered:
        return make(Taken("", 0.0, strip_width(bench, action, None)))
    before = bench.state
    made, areas = made_with(bench, action, offered[0], make)
    if len(offered) == 1 or not areas:
        return made
    latest = offered[0]
    for one in ranked(offered, suited(bench.state, areas, action)[0]):
        if one is not latest:
            bench.state, latest = before, one
            made, areas = made_with(bench, action, one, make)
        if goes_there(bench, action, one, areas):
            break
    return made


def made_with(bench: Bench, action: Sticking, one: MaterialFacts, make: Callable[[Taken], Made]) -> tuple[Made, list[GlueArea]]:
    """A strip of glue whose width nobody names is made narrower where its margins do not leave it."""
    before = bench.state
    made = make(Taken(one.name, one.thick, strip_width(bench, action, one)))
    areas = list(bench.state.glue[len(before.glue) :])
    if one.kind == "glue" and written_width(action) is None and areas and not keeps_its_width(areas):
        bench.state = before
        made = make(Taken(one.name, one.thick, bench.supply.house("narrow strip")))
        areas = list(bench.state.glue[len(before.glue) :])
    return made, areas


def goes_there(bench: Bench, action: Sticking, one: MaterialFacts, areas: list[GlueArea]) -> bool:
    """Glue goes anywhere; a tape must not be wider than its strip."""
    written = written_width(action)
    if one.kind != "tape" or not any(area.width for area in areas):
        return True
    return one.width <= bench.supply.length(written) + 0.01 if written is not None else keeps_its_width(areas)


def written_width(action: Sticking) -> design.Text | None:
    return action.width if isinstance(action, design.Join) else None


def strip_width(bench: Bench, action: Sticking, one: MaterialFacts | None) -> float:
    """As written; else as wide as the tape is, or as a strip of glue is as a rule."""
    written = written_width(action)
    if written is not None:
        return bench.supply.length(written)
    return one.width if one is not None and one.kind == "tape" and one.width else bench.supply.house("strip")
