"""The workshop: walks the one graph of measures, blanks and states, each worked out once and only when asked for.

A formula may need a blank, a blank a pocket, a pocket a state after a step, a state a blank: they are all nodes of one graph, and a ring
is told as its path. The stages themselves stay one-way; only this file (and the run that uses it) sees them all.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import partial

from msgspec import Struct

from creasewright.blanks.blank import Blank
from creasewright.blanks.derived import mirror_image
from creasewright.blanks.shape_blank import shape_blank
from creasewright.blanks.wrong_end import wrongly_scored
from creasewright.fitting.bulk import Bulk, bulk
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.folding.mirrored import mirrored_blank
from creasewright.folding.references import word_fits
from creasewright.folding.state import Body, State
from creasewright.joining.adhesive_rules import STICKS
from creasewright.joining.assemble import Assembling
from creasewright.joining.bench import Bench
from creasewright.joining.run_step import run_step
from creasewright.joining.supply import MaterialFacts, PartSpec
from creasewright.measures.convert import EXACT, ROUND
from creasewright.measures.evaluate import evaluate, evaluate_comparison
from creasewright.measures.formula import Comparison, Formula
from creasewright.measures.parse_formula import parse_comparison, parse_formula
from creasewright.measures.resolve import Graph
from creasewright.nearest_name import did_you_mean
from creasewright.problems import NOWHERE, ProblemsFound, Where
from creasewright.qualities import Shaping, quality
from creasewright.reading import design
from creasewright.reading.design import Text
from creasewright.stock import TONES, fault, paper_facts, thing_blank, with_adhesives
from creasewright.units.quantity import Quantity
from creasewright.units.ruler import Ruler, ruler_of

HOUSE_LENGTHS = {
    "setback": {"in": Fraction(127, 40), "mm": Fraction(3)},
    "strip": {"in": Fraction(127, 20), "mm": Fraction(6)},
    "narrow strip": {"in": Fraction(127, 40), "mm": Fraction(3)},
    "clearance": {"in": Fraction(127, 80), "mm": Fraction(3, 2)},
    "margin": {"in": Fraction(127, 5), "mm": Fraction(25)},
    "thread end": {"in": Fraction(508, 5), "mm": Fraction(100)},
}
"""Defaults in mm: glue keeps 1/8 in | 3 mm from edges, a strip is 1/4 in | 6 mm wide (half that where its margins leave no more), an
insert has 1/16 in | 1.5 mm to spare; the outer holes of a sewn line stand 1 in | 25 mm from its ends, and 4 in | 100 mm of thread are left
at either end to tie."""


class Scope:
    """Formulas worked in one setting of the measures: the design's own, or with some replaced (`same as … where`)."""

    def __init__(self, shop: "Workshop", replaced: dict[str, Text], prefix: str = "", shaping: design.Blank | None = None) -> None:
        self.shop = shop
        self.overrides = replaced
        self.prefix = prefix
        self.shaping = shaping
        """The blank whose own formulas are worked: they may ask for its bands (`tail of lower`)."""

    # --- Lookup of measures/evaluate

    def name(self, name: str, where: Where, /) -> Quantity:
        values = self.values_of(name, where)
        if len(values) > 1:
            raise fault(where, f"{name} is a pair of lengths", "use it where two lengths are asked for, such as `cut:`")
        return values[0]

    def quality(self, word: str, of: str, when: str | None, where: Where, /) -> Quantity:
        return self.shop.quality(self, word, of, when, where)

    # --- values

    def values_of(self, name: str, where: Where) -> tuple[Quantity, ...]:
        measure = self.shop.measures.get(name)
        if measure is None:
            raise fault(where, f"there is no measure `{name}`", did_you_mean(name, sorted(self.shop.measures)))
        texts = (self.overrides[name],) if name in self.overrides else measure.formulas
        key = f"{self.prefix}measure {name}"
        return self.shop.graph.get(key, lambda: tuple(self.quantity(text) for text in texts), measure.where, name)

    def quantity(self, text: Text, convert: str = ROUND) -> Quantity:
        formula = self.shop.formula(text)
        return evaluate(formula, self.shop.system, self, self.shop.ruler, convert, self.shop.note_at(text.where))

    def length(self, text: Text) -> Fraction:
        quantity = self.quantity(text)
        if quantity.power != 1:
            raise fault(text.where, f"`{text}` is not a length", "write a length with its unit, such as `6 mm` or `1/4 in`")
        return quantity.value

    def pair(self, texts: tuple[Text, ...]) -> tuple[Fraction, Fraction]:
        if len(texts) == 2:
            return self.length(texts[0]), self.length(texts[1])
        name = str(texts[0])
        if name in self.shop.measures:
            values = self.values_of(name, texts[0].where)
            if len(values) == 2 and all(value.power == 1 for value in values):
                return values[0].value, values[1].value
        raise fault(texts[0].where, f"`{name}` is one length where two are asked for", "write two, or name a measure that is a pair")

    def number(self, text: Text) -> Fraction:
        quantity = self.quantity(text)
        if quantity.power != 0:
            raise fault(text.where, f"`{text}` is a length where a plain number is asked for", "leave its unit away")
        return quantity.value

    def count(self, text: Text) -> int:
        value = self.number(text)
        if value.denominator != 1 or not 0 < value <= 500:
            raise fault(text.where, f"`{text}` is {float(value):g}", "give a whole number from 1 to 500")
        return int(value)

    def blank(self, name: Text) -> Blank:
        return self.shop.blank_in(self, str(name), name.where)

    def written(self, name: Text) -> design.Blank:
        return self.shop.written_blank(str(name), name.where)

    def caliper(self, paper: str, where: Where) -> Fraction:
        value = self.shop.paper(paper).caliper
        if value is None:
            raise fault(where, f"the caliper of {paper} is not given", f"measure a stack of sheets and add `caliper:` to {paper}")
        return value

    def replaced(self, replacements: tuple[tuple[Text, Text], ...]) -> "Scope":
        for name, _ in replacements:
            if str(name) not in self.shop.measures:
                raise fault(name.where, f"there is no measure `{name}`", did_you_mean(str(name), sorted(self.shop.measures)))
        inner = {str(name): text for name, text in replacements}
        return Scope(self.shop, {**self.overrides, **inner}, f"{self.prefix}where {replacements[0][0].where} ")


class Workshop:
    """One design in one system of units. Everything is asked for by name; nothing is worked out twice."""

    def __init__(self, written: design.Design, system: str, ruler: Ruler | None = None, settings: dict[str, Text] | None = None) -> None:
        self.design = with_adhesives(written)
        self.system = system
        self.ruler = ruler or ruler_of(system)
        self.graph = Graph()
        self.measures = {measure.name: measure for measure in written.measures}
        self.names = frozenset(self.measures)
        self.notes: dict[str, None] = {}
        self.formulas: dict[Text, Formula] = {}
        self.scope = Scope(self, settings or {})
        self.assemblings: dict[str, Assembling] = {}
        self.papers_written = {paper.name: paper for paper in written.papers}

    # --- formulas

    def formula(self, text: Text) -> Formula:
        if text not in self.formulas:
            self.formulas[text] = parse_formula(text, self.names)
        return self.formulas[text]

    def note_at(self, where: Where) -> Callable[[str], None]:
        def note(words: str) -> None:
            self.notes[f"{where}: {words}" if where.file else words] = None

        return note

    def comparison(self, text: Text) -> tuple[Comparison, bool, Quantity, Quantity]:
        parsed = parse_comparison(text, self.names)
        holds, left, right = evaluate_comparison(parsed, self.system, self.scope, self.ruler, ROUND, self.note_at(text.where))
        return parsed, holds, left, right

    def exact(self, text: Text) -> Fraction:
        """A length of a paper, a material or a thing: converted exactly, never rounded."""
        quantity = self.scope.quantity(text, EXACT)
        if quantity.power != 1:
            raise fault(text.where, f"`{text}` is not a length", "write a length with its unit, such as `0.27 mm`")
        return quantity.value

    # --- Supply of joining

    def length(self, text: Text) -> float:
        return float(self.scope.length(text))

    def number(self, text: Text) -> float:
        return float(self.scope.number(text))

    def house(self, key: str) -> float:
        return float(HOUSE_LENGTHS[key][self.system])

    def adhesives(self) -> tuple[MaterialFacts, ...]:
        found = [material.name for material in self.design.materials if material.kind in STICKS]
        return tuple(self.material(name) for name in sorted(found, key=lambda name: name != "glue"))

    def material(self, name: str) -> MaterialFacts:
        found = next((m for m in self.design.materials if m.name == name), None)
        if found is None:
            raise fault(NOWHERE, f"there is no material `{name}`", did_you_mean(name, sorted(m.name for m in self.design.materials)))

        def work() -> MaterialFacts:
            thick = float(self.exact(found.thick)) if found.thick is not None else 0.0
            width = float(self.exact(found.width)) if found.width is not None else 0.0
            return MaterialFacts(name, found.kind, thick, width)

        return self.graph.get(f"material {name}", work, found.where, name)

    def is_thing(self, name: str) -> bool:
        return any(thing.name == name for thing in self.design.things)

    def piece(self, spec: PartSpec) -> tuple[Blank, float | None]:
        if spec.kind == "thing":
            return self.thing(spec.name)
        blank = self.blank(spec.name)
        caliper = self.paper(blank.paper).caliper
        return (mirrored_blank(blank) if spec.mirrored else blank), (float(caliper) if caliper is not None else None)

    def scored_wrongly(self, spec: PartSpec) -> tuple[tuple[str, Blank], ...]:
        found = self.blanks_scored_wrongly(spec.name) if spec.kind == "blank" else []
        return tuple((score, mirrored_blank(blank) if spec.mirrored else blank) for score, blank in found)

    def blanks_scored_wrongly(self, name: str) -> list[tuple[str, Blank]]:
        written, right = self.written_blank(name, NOWHERE), self.blank(name)
        if isinstance(written.shape, design.MirrorShape):
            of = written.shape.of.text
            return [(score, mirror_image(blank, name, of)) for score, blank in self.blanks_scored_wrongly(of)]
        found = []
        for score, wrong in wrongly_scored(written, right):
            try:
                found.append((score, shape_blank(wrong, right.paper, Scope(self, self.scope.overrides, self.scope.prefix, wrong))))
            except ProblemsFound:  # with its score there it is no piece at all, and so shows by itself
                continue
        return found

    def sub_state(self, assembly: str) -> State:
        return self.final(assembly)

    # --- papers and things

    def paper(self, name: str) -> PaperFacts:
        written = self.papers_written.get(name)
        if written is None:
            raise fault(NOWHERE, f"there is no paper `{name}`", did_you_mean(name, sorted(self.papers_written)))
        tone = list(self.papers_written).index(name) % TONES + 1
        work = partial(paper_facts, written, tone, self.system, self.exact, self.scope.count)
        return self.graph.get(f"paper {name}", work, written.where, name)

    def thing(self, name: str) -> tuple[Blank, float | None]:
        written = next(thing for thing in self.design.things if thing.name == name)

        def work() -> tuple[Blank, float | None]:
            thick = float(self.exact(written.thick)) if written.thick is not None else None
            return thing_blank(name, written.where, self.exact(written.width), self.exact(written.height)), thick

        return self.graph.get(f"thing {name}", work, written.where, name)

    # --- blanks

    def written_blank(self, name: str, where: Where) -> design.Blank:
        for blank in self.design.blanks:
            if blank.name == name:
                return blank
        raise fault(where, f"there is no blank `{name}`", did_you_mean(name, sorted(b.name for b in self.design.blanks)))

    def blank(self, name: str, where: Where = NOWHERE) -> Blank:
        return self.blank_in(self.scope, name, where)

    def blank_in(self, scope: Scope, name: str, where: Where) -> Blank:
        written = self.written_blank(name, where)

        def work() -> Blank:
            paper = self.default_paper()
            caliper = None
            if written.sizes != "score to score":
                caliper = self.paper(str(written.paper) if written.paper is not None else paper or "").caliper
            own = Scope(self, scope.overrides, scope.prefix, written)
            return shape_blank(written, paper, own, caliper)

        return self.graph.get(f"{scope.prefix}blank {name}", work, written.where, name)

    def default_paper(self) -> str | None:
        return self.design.papers[0].name if len(self.design.papers) == 1 else None

    # --- assemblies

    def written_assembly(self, name: str) -> design.Assembly | None:
        return next((a for a in self.design.assemblies if a.name == name), None)

    def assembling(self, name: str) -> Assembling:
        if name not in self.assemblings:
            written = self.written_assembly(name)
            assert written is not None
            self.assemblings[name] = Assembling(written, self.part_specs(written), self)
        return self.assemblings[name]

    def part_specs(self, written: design.Assembly) -> tuple[PartSpec, ...]:
        if written.parts is None:
            return self.mentioned_parts(written)
        specs: list[PartSpec] = []
        for part in written.parts:
            kind = self.kind_of(str(part.is_))
            if kind is None:
                known = [*(b.name for b in self.design.blanks), *(a.name for a in self.design.assemblies)]
                raise fault(part.is_.where, f"there is no blank or assembly `{part.is_}`", did_you_mean(str(part.is_), sorted(known)))
            count = self.scope.count(part.count) if part.count is not None else 1
            paths = [part.name] if count == 1 else [f"{part.name} {k}" for k in range(1, count + 1)]
            specs += [PartSpec(path, kind, str(part.is_), part.mirrored) for path in paths]
        return tuple(specs)

    def mentioned_parts(self, written: design.Assembly) -> tuple[PartSpec, ...]:
        """Each blank and each other assembly that the steps mention, once, but for what another of them holds already; a lone assembly
        takes every blank."""
        blanks = tuple(PartSpec(b.name, "blank", b.name, False) for b in self.design.blanks)
        if len(self.design.assemblies) == 1:
            return blanks
        words = [word for text in texts_in(written.steps) for word in text.split(" of ")]
        others = (PartSpec(a.name, "assembly", a.name, False) for a in self.design.assemblies if a.name != written.name)
        named = [spec for spec in (*blanks, *others) if any(word_fits(word, spec.path) for word in words)]
        within = {str(part.is_) for spec in named for part in self.parts_written(spec)}
        return tuple(spec for spec in named if spec.name not in within)

    def parts_written(self, spec: PartSpec) -> tuple[design.PartWritten, ...]:
        """What an assembly lists; none for a blank, or where it lists nothing."""
        made = self.written_assembly(spec.name) if spec.kind == "assembly" else None
        return made.parts or () if made is not None else ()

    def kind_of(self, name: str) -> str | None:
        if any(blank.name == name for blank in self.design.blanks):
            return "blank"
        if self.written_assembly(name) is not None:
            return "assembly"
        return "thing" if self.is_thing(name) else None

    def state(self, assembly: str, number: int) -> State:
        """An assembly after so many steps; each step is a node of the graph."""
        making = self.assembling(assembly)
        called = assembly or "the work"
        for k in range(len(making.runs) + 1, number + 1):
            self.graph.get(f"state {assembly}:{k}", partial(making.upto, k), making.written.steps[k - 1].where, f"step {k} of {called}")
        return making.runs[number - 1].after if number else State()

    def final(self, assembly: str) -> State:
        making = self.assembling(assembly)
        self.state(assembly, len(making.written.steps))
        return making.final()

    def stage(self, assembly: str, name: str, where: Where) -> State:
        """A state by its stage's name: after a step, or looked at only."""
        final = self.final(assembly)
        making = self.assembling(assembly)
        if name in making.stages:
            return making.stages[name]
        written = next((s for s in making.written.stages if s.name == name), None)
        if written is None:
            known = [*making.stages, *(s.name for s in making.written.stages)]
            raise fault(where, f"there is no stage `{name}`", did_you_mean(name, sorted(known)))

        def work() -> State:
            start = self.stage(assembly, str(written.from_), written.where) if written.from_ is not None else final
            if written.action is None:
                return start
            bench = Bench(self, making.specs, start)
            step = design.Step(written.where, written.action, None, name, None, None)
            run = run_step(bench, 0, step)
            if run.refused is not None:
                raise fault(written.where, run.refused[0], run.refused[1])
            return run.after

        making.stages[name] = self.graph.get(f"stage {assembly}:{name}", work, written.where, f"stage {name}")
        return making.stages[name]

    def quality(self, scope: Scope, word: str, of: str, when: str | None, where: Where) -> Quantity:
        return quality(self, scope, word, of, when, where)

    def bulk_of(self, assembly: str, stage: str | None, state: State, body: Body) -> Bulk:
        return self.graph.get(f"bulk {assembly}:{stage}", lambda: bulk(state, body, self.front_in(assembly, state)))

    def front_in(self, assembly: str, state: State) -> tuple[str, str] | None:
        """The cover's front, where the finished thing is this assembly."""
        if self.design.finished.front is None or assembly != self.finished_name():
            return None
        bench = Bench(self, (), state)
        return bench.panel(str(self.design.finished.front))

    def finished_name(self) -> str:
        if self.design.finished.is_ is not None:
            return str(self.design.finished.is_)
        return self.design.assemblies[-1].name if self.design.assemblies else ""

    def shaped(self, scope: Shaping, name: str, where: Where) -> Blank:
        """A blank in the setting in which a formula asks for it."""
        return self.blank_in(scope if isinstance(scope, Scope) else self.scope, name, where)


def texts_in(value: object) -> Iterator[str]:
    """Every text of a written step, or of several."""
    if isinstance(value, Text):
        yield value.text
    elif isinstance(value, tuple):
        for item in value:
            yield from texts_in(item)
    elif isinstance(value, Struct) and not isinstance(value, Where):
        for name in value.__struct_fields__:
            yield from texts_in(getattr(value, name))
