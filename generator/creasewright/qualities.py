"""Qualities that formulas ask for: `caliper of card`, `width of page`, `room height of front pocket`, `bulk of block`.

Each is a node of the one graph: asking for it works out what it needs.
"""

from fractions import Fraction
from typing import Protocol

from creasewright.blanks.blank import Blank
from creasewright.blanks.numbers import Values
from creasewright.blanks.quality import blank_quality, written_quality
from creasewright.fitting.bulk import Bulk
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.folding.solid_points import extents
from creasewright.folding.state import Body, State
from creasewright.joining.girth import girth
from creasewright.joining.supply import MaterialFacts
from creasewright.nearest_name import did_you_mean
from creasewright.problems import Where
from creasewright.reading.design import Assembly, Design, Join, Paper, Text
from creasewright.reading.design import Blank as WrittenBlank
from creasewright.stock import fault
from creasewright.units.quantity import Quantity


class Shaping(Values, Protocol):
    """The setting in which formulas are worked, and the blank whose own formulas they are."""

    shaping: WrittenBlank | None


class Shop(Protocol):
    """What answers: everything that a design says, worked out when asked for."""

    design: Design
    papers_written: dict[str, Paper]

    def paper(self, name: str) -> PaperFacts: ...

    def exact(self, text: Text) -> Fraction: ...

    def material(self, name: str) -> MaterialFacts: ...

    def written_assembly(self, name: str) -> Assembly | None: ...

    def state(self, assembly: str, number: int) -> State: ...

    def final(self, assembly: str) -> State: ...

    def stage(self, assembly: str, name: str, where: Where) -> State: ...

    def bulk_of(self, assembly: str, stage: str | None, state: State, body: Body) -> Bulk: ...

    def shaped(self, scope: "Shaping", name: str, where: Where) -> Blank: ...


def quality(shop: Shop, scope: Shaping, word: str, of: str, when: str | None, where: Where) -> Quantity:
    for answer in (paper_quality, thing_quality, pocket_quality, assembly_quality):
        value = answer(shop, word, of, when, where)
        if value is not None:
            return value
    value = own_band(scope, word, of) or blank_part(shop, scope, word, of, where)
    if value is not None:
        return value
    known = [
        *shop.papers_written,
        *(m.name for m in shop.design.materials),
        *(t.name for t in shop.design.things),
        *(b.name for b in shop.design.blanks),
        *(a.name for a in shop.design.assemblies if a.name),
        *(pocket for pocket, _, _ in pocket_steps(shop)),
    ]
    raise fault(where, f"there is no `{word}` of `{of}`", did_you_mean(of.split(" of ")[-1], sorted(known)))


def paper_quality(shop: Shop, word: str, of: str, when: str | None, where: Where) -> Quantity | None:
    if of not in shop.papers_written or word not in ("caliper", "grammage"):
        return None
    facts = shop.paper(of)
    if word == "grammage":
        if facts.grammage is None:
            raise fault(where, f"the grammage of {of} is not given", f"add `grammage:` to {of}")
        return Quantity(facts.grammage, 0)
    if facts.caliper is None:
        raise fault(where, f"the caliper of {of} is not given", f"measure a stack of sheets and add `caliper:` to {of}")
    return Quantity(facts.caliper, 1)


def thing_quality(shop: Shop, word: str, of: str, when: str | None, where: Where) -> Quantity | None:
    if word not in ("width", "height", "thick"):
        return None
    for thing in shop.design.things:
        if thing.name == of:
            text = {"width": thing.width, "height": thing.height, "thick": thing.thick}[word]
            if text is None:
                raise fault(where, f"the thickness of {of} is not given", f"add `thick:` to {of}")
            return Quantity(shop.exact(text), 1)
    for material in shop.design.materials:
        if material.name == of and word in ("width", "thick"):
            facts = shop.material(of)
            return Quantity(Fraction(facts.width if word == "width" else facts.thick).limit_denominator(10**6), 1)
    return None


def pocket_steps(shop: Shop) -> list[tuple[str, str, int]]:
    """(pocket, assembly, step number) of every pocket that a step makes."""
    return [
        (str(step.action.makes), assembly.name, number)
        for assembly in shop.design.assemblies
        for number, step in enumerate(assembly.steps, 1)
        if isinstance(step.action, Join) and step.action.makes is not None
    ]


def pocket_quality(shop: Shop, word: str, of: str, when: str | None, where: Where) -> Quantity | None:
    if word not in ("room width", "room height"):
        return None
    name, _, owner = of.partition(" of ")
    for pocket, assembly, number in pocket_steps(shop):
        if pocket == name and owner in ("", assembly):
            state = shop.state(assembly, number)
            made = state.pockets.get(name)
            if made is None:
                raise fault(where, f"{name} could not be made", "mend the step that makes it first")
            size = made.room_width if word == "room width" else made.room_height
            return Quantity(Fraction(size).limit_denominator(10**7), 1)
    known = sorted({pocket for pocket, _, _ in pocket_steps(shop)})
    raise fault(where, f"there is no pocket `{name}`", did_you_mean(name, known))


def assembly_quality(shop: Shop, word: str, of: str, when: str | None, where: Where) -> Quantity | None:
    if word not in ("bulk", "bulk at spine", "bulk at fore edge", "outside width", "outside height", "girth"):
        return None
    name = of if shop.written_assembly(of) is not None else ("" if shop.written_assembly("") is not None else of)
    if shop.written_assembly(name) is None:
        known = sorted(a.name for a in shop.design.assemblies if a.name)
        raise fault(where, f"there is no assembly `{of}`", did_you_mean(of, known))
    state = shop.stage(name, when, where) if when is not None else shop.final(name)
    body = main_body(state)
    need_calipers(state, where)
    value = {
        "outside width": lambda: span(state, body, 0),
        "outside height": lambda: span(state, body, 1),
        "girth": lambda: girth(state, body, "width", middle(state, body)),
        "bulk": lambda: shop.bulk_of(name, when, state, body).greatest.mm,
        "bulk at spine": lambda: shop.bulk_of(name, when, state, body).at_spine.mm,
        "bulk at fore edge": lambda: shop.bulk_of(name, when, state, body).at_fore_edge.mm,
    }[word]()
    return Quantity(Fraction(value).limit_denominator(10**7), 1)


def need_calipers(state: State, where: Where) -> None:
    missing = sorted({state.blanks[part].paper or part for part, thick in state.thick.items() if thick is None})
    if missing:
        raise fault(where, f"the thickness of {missing[0]} is not given", f"add `caliper:` (of a thing: `thick:`) to {missing[0]}")


def own_band(scope: Shaping, word: str, of: str) -> Quantity | None:
    """A band of the blank that is being shaped."""
    if scope.shaping is None:
        return None
    value = written_quality(scope.shaping, word, of, scope)
    return Quantity(Fraction(value), 1) if value is not None else None


def blank_part(shop: Shop, scope: Shaping, word: str, of: str, where: Where) -> Quantity | None:
    words = of.split(" of ")
    for split in range(len(words)):
        name = " of ".join(words[split:])
        if any(blank.name == name for blank in shop.design.blanks):
            blank = shop.shaped(scope, name, where)
            value = blank_quality(blank, word, " of ".join(words[:split]) or None)
            if value is not None:
                return Quantity(Fraction(value).limit_denominator(10**9) if isinstance(value, float) else value, 1)
    return None


def main_body(state: State) -> Body:
    return max(state.bodies, key=lambda body: (len(body.parts), sorted(body.parts)))


def span(state: State, body: Body, axis: int) -> float:
    low, high = extents(state, body)
    return high[axis] - low[axis]


def middle(state: State, body: Body) -> float:
    low, high = extents(state, body)
    return (low[1] + high[1]) / 2
