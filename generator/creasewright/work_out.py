"""From a design to everything that follows from it: measures, blanks, assemblies, faces, pieces. Collects every fault of the input."""

from fractions import Fraction
from functools import partial

from creasewright.blanks.blank import Blank
from creasewright.fitting.bulk import bulk
from creasewright.fitting.finished_size import size_of
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import pieces_of
from creasewright.fitting.print_turns import Wish, solved_lies
from creasewright.fitting.seen_faces import seen_faces
from creasewright.fitting.worked import AssemblyRun, Finished, FittedSize, MeasureValue, StageFacts, Worked
from creasewright.folding.references import RefFault, find_parts
from creasewright.folding.state import PanelKey, State
from creasewright.joining.bench import Bench
from creasewright.joining.bodies import with_part
from creasewright.measures.formula import Formula
from creasewright.measures.resolve import Stopped
from creasewright.measures.slopes import Differentiator
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.qualities import main_body
from creasewright.reading.design import Design, Text
from creasewright.units.ruler import Ruler, length_in_words
from creasewright.workshop import Workshop


def work_out(design: Design, system: str, makers: int = 1, settings: dict[str, str] | None = None, ruler: Ruler | None = None) -> Worked:
    """Raises ProblemsFound with every fault of the input that can be told in one run."""
    texts = {name: Text(value, Where(f"--set {name}", 1, 1)) for name, value in (settings or {}).items()}
    refuse_unknown_settings(design, texts)
    shop = Workshop(design, system, ruler, texts)
    graph = shop.graph
    for paper in design.papers:
        graph.attempt(partial(shop.paper, paper.name))
    for material in design.materials:
        graph.attempt(partial(shop.material, material.name))
    for name, measure in shop.measures.items():
        graph.attempt(partial(shop.scope.values_of, name, measure.where))
    for blank in design.blanks:
        graph.attempt(partial(shop.blank, blank.name))
    for assembly in design.assemblies:
        graph.attempt(partial(shop.final, assembly.name))
        for stage in assembly.stages:
            graph.attempt(partial(shop.stage, assembly.name, stage.name, stage.where))
    graph.raise_if_any()
    return gathered(shop, makers)


def refuse_unknown_settings(design: Design, settings: dict[str, Text]) -> None:
    known = {measure.name for measure in design.measures}
    problems = [
        Problem(text.where, f"there is no measure `{name}` to set", "its measures are: " + (", ".join(sorted(known)) or "none"))
        for name, text in settings.items()
        if name not in known
    ]
    if problems:
        raise ProblemsFound(problems)


def gathered(shop: Workshop, makers: int) -> Worked:
    design = shop.design
    blanks = tuple(shop.blank(blank.name) for blank in design.blanks)
    papers = {paper.name: shop.paper(paper.name) for paper in design.papers}
    finished_name = shop.finished_name() if design.assemblies else ""
    whole = all_parts(shop, finished_name) if design.assemblies else loose(shop, blanks)
    stages = stage_states(shop, finished_name) if design.assemblies else []
    front = front_panel(shop, whole) if design.assemblies else None
    solved = solved_lies(whole, papers, wished(shop, finished_name, stages, papers))
    facts = tuple(StageFacts(name, finished_name, state, main_body(state), papers, solved.lies) for name, state in stages)
    return Worked(
        design=design,
        system=shop.system,
        ruler=shop.ruler,
        makers=makers,
        papers=papers,
        materials={m.name: shop.material(m.name) for m in design.materials},
        measures=measure_values(shop),
        blanks=blanks,
        assemblies=assembly_runs(shop, finished_name) if design.assemblies else (),
        stages=facts,
        finished=finished(shop, finished_name, front, facts[-1]) if design.assemblies and whole.bodies and stages else None,
        pieces=pieces_of(whole, [blank.name for blank in design.blanks], papers, solved.lies),
        lies=solved.lies,
        wishes=solved.results,
        notes=tuple(shop.notes),
        sides=expectations(shop),
        fitted=fitted_sizes(shop),
    )


def measure_values(shop: Workshop) -> tuple[MeasureValue, ...]:
    found = []
    for name, measure in shop.measures.items():
        values = shop.scope.values_of(name, measure.where)
        bounds: list[Fraction | None] = []
        for text in (measure.lowest, measure.highest):
            bounds.append(shop.scope.quantity(text).value if text is not None else None)
        about = str(measure.about) if measure.about is not None else ""
        found.append(MeasureValue(name, measure.where, tuple(v.value for v in values), values[0].power, bounds[0], bounds[1], about))
    return tuple(found)


def all_parts(shop: Workshop, name: str) -> State:
    """The finished state, with parts that no step mentions lying by themselves."""
    shop.final(name)
    making = shop.assembling(name)
    bench = making.bench
    assert bench is not None
    loose_bench = Bench(shop, making.specs, bench.state)
    for spec in making.specs:
        if making.written.parts is not None or spec.name not in used_elsewhere(shop, name):
            loose_bench.bring(spec)
    return loose_bench.state


def used_elsewhere(shop: Workshop, name: str) -> set[str]:
    return {
        state_blank.name for other in shop.design.assemblies if other.name != name for state_blank in shop.final(other.name).blanks.values()
    }


def loose(shop: Workshop, blanks: tuple[Blank, ...]) -> State:
    state = State()
    for blank in blanks:
        caliper = shop.paper(blank.paper).caliper
        state = with_part(state, blank.name, blank, float(caliper) if caliper is not None else None)
    return state


def stage_states(shop: Workshop, name: str) -> list[tuple[str, State]]:
    """Every named state of the finished assembly, in the order made; `closed` last."""
    final = shop.final(name)
    making = shop.assembling(name)
    for stage in making.written.stages:
        shop.stage(name, stage.name, stage.where)
    closed = making.stages.get("closed", final)
    late = [path for path in final.blanks if path not in closed.blanks]
    if late:
        named = [(step.stage, step.where) for step in making.written.steps]
        named += [(stage.name, stage.where) for stage in making.written.stages]
        where = next(where for stage, where in named if stage == "closed")
        what = f"`closed` is how the finished thing lies, but {late[0]} comes to it after this step"
        raise ProblemsFound([Problem(where, what, "name this stage otherwise, or put the step that brings the part before it")])
    order = [key for key in making.stages if key != "closed"]
    if not making.written.steps or not final.bodies:
        return []
    return [*((key, making.stages[key]) for key in order), ("closed", closed)]


def front_panel(shop: Workshop, state: State) -> PanelKey | None:
    text = shop.design.finished.front
    if text is None:
        return None
    return resolved(shop, state, text)


def resolved(shop: Workshop, state: State, text: Text) -> PanelKey:
    try:
        return Bench(shop, (), state).panel(str(text))
    except RefFault as fault:
        raise ProblemsFound([Problem(text.where, fault.what, fault.hint)]) from None


def all_resolved(shop: Workshop, state: State, text: Text) -> list[PanelKey]:
    """The panels that words name, or all those of a part: they read one way, so the largest speaks for them."""
    try:
        return [Bench(shop, (), state).panel(str(text))]
    except RefFault as fault:
        groups = find_parts(state.blanks, str(text))
        keys = [(path, panel.name) for group in groups for path in group for panel in state.blanks[path].panels]
        if not keys:
            raise ProblemsFound([Problem(text.where, fault.what, fault.hint)]) from None
        return sorted(keys, key=lambda key: -state.blanks[key[0]].panel(key[1]).area)


def wished(shop: Workshop, name: str, stages: list[tuple[str, State]], papers: dict[str, PaperFacts]) -> list[Wish]:
    """The faces that should read upright, each with the side of its panel that shows most in that stage."""
    states = dict(stages)
    wishes: list[Wish] = []
    problems: list[Problem] = []
    for wish in shop.design.finished.upright:
        stage = str(wish.stage) if wish.stage is not None else "closed"
        try:
            state = states[stage] if stage in states else shop.stage(name, stage, wish.panel.where)
            panels = all_resolved(shop, state, wish.panel)
        except ProblemsFound as found:
            problems += found.problems
            continue
        panel = panels[0]
        body = state.body_of(panel[0])
        shown = seen_faces(state, body, papers, {}, frozenset((panel[1],)))
        faces = [face for face in shown if face.panel == panel]
        side = max(faces, key=lambda face: (face.looks == "up", face.area)).side if faces else drawn_on(state, panel, papers)
        wishes.append(Wish(panel, stage, state, body, side))
    if problems:
        raise ProblemsFound(problems)
    return wishes


def drawn_on(state: State, panel: PanelKey, papers: dict[str, PaperFacts]) -> str | None:
    """The drawn side of a page of a booklet: it need not show in the closed thing, it is turned to."""
    paper = papers.get(state.blanks[panel[0]].paper)
    return next((side for side in ("front", "back") if paper is not None and paper.print_of(side) == "by panel"), None)


def finished(shop: Workshop, name: str, front: PanelKey | None, stage: StageFacts) -> Finished:
    """`stage` is the closed one."""
    closed = stage.state
    body = closed.body_of(front[0]) if front is not None and front[0] in closed.blanks else stage.body
    filled = shop.bulk_of(name, None, closed, body)
    width, height, thick = size_of(closed, body)
    return Finished(
        assembly=name,
        state=closed,
        body=body,
        front=front,
        size=(width, height, max(thick, filled.greatest.mm)),
        bulk=filled,
        bulk_empty=bulk(closed, body, front, empty=True) if closed.fits else filled,
    )


def fitted_sizes(shop: Workshop) -> tuple[FittedSize, ...]:
    """Of blanks that are cut to fit: what their formulas take from the real thing. A measure that another value was set for follows it."""

    def formula_of(name: str) -> Formula | None:
        text = shop.scope.overrides.get(name)
        texts = (text,) if text is not None else shop.measures[name].formulas
        return shop.formula(texts[0]) if len(texts) == 1 else None

    differ = Differentiator(shop.system, shop.scope, shop.ruler, formula_of)
    found = []
    for blank in shop.design.blanks:
        for way in blank.cut_to_fit:
            text = getattr(blank.shape, way)
            sloped = differ.of(shop.formula(text))
            taken = tuple(
                (leaf.word, leaf.of, float(shop.quality(shop.scope, leaf.word, leaf.of, None, text.where).value), slope)
                for leaf, slope in sorted(sloped.slopes.items())
                if leaf.word not in ("caliper", "grammage")
            )
            found.append(FittedSize(blank.name, way, str(text), sloped.value, taken, sloped.worse))
    return tuple(found)


def assembly_runs(shop: Workshop, finished_name: str) -> tuple[AssemblyRun, ...]:
    """Every assembly that goes into the finished thing, those inside first; a mirrored one beside its original."""
    found: list[AssemblyRun] = []
    prefixes: dict[tuple[str, bool], list[str]] = {}
    names: dict[tuple[str, bool], str] = {}

    def visit(name: str, mirrored: bool, prefix: str, called: str) -> None:
        prefixes.setdefault((name, mirrored), []).append(prefix)
        for spec in shop.assembling(name).specs:
            if spec.kind == "assembly":
                visit(spec.name, mirrored != spec.mirrored, f"{prefix}{spec.path}/", spec.path)
        names.setdefault((name, mirrored), called)

    visit(finished_name, False, "", finished_name)
    for (name, mirrored), called in names.items():
        shop.final(name)
        making = shop.assembling(name)
        found.append(AssemblyRun(called, name, tuple(making.runs), tuple(prefixes[name, mirrored]), mirrored, making.specs, shop))
    return tuple(found)


def expectations(shop: Workshop) -> dict[str, tuple[tuple[Where, bool, str], ...]]:
    """Every `expect` line worked out. Raises ProblemsFound for one that cannot be."""
    lists = {blank.name: blank.expect for blank in shop.design.blanks if blank.expect}
    if shop.design.finished.expect:
        lists["finished"] = shop.design.finished.expect
    found: dict[str, tuple[tuple[Where, bool, str], ...]] = {}
    problems: list[Problem] = []
    for name, texts in lists.items():
        entries = []
        for text in texts:
            try:
                _, holds, left, right = shop.comparison(text)
            except ProblemsFound as bad:
                problems += bad.problems
                continue
            except Stopped:
                problems += shop.graph.problems
                continue
            sides = [length_in_words(q.value, shop.system) if q.power == 1 else f"{float(q.value):g}" for q in (left, right)]
            entries.append((text.where, holds, f"`{text}`: {sides[0]} against {sides[1]}"))
        found[name] = tuple(entries)
    if problems:
        raise ProblemsFound(problems)
    return found
