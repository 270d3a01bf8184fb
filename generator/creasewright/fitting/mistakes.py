"""The classic mistakes that can be made with the pieces and steps of an assembly, and its steps gone through once more with one of them.

Which mistakes, and their order from the commonest on, is common practice, no source.
"""

from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct, field
from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.blanks.by_template import has_own_template, straight
from creasewright.blanks.scaled import scaled_blank
from creasewright.blanks.turned_over import has_no_sides
from creasewright.fitting.looks import is_flat
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.pieces import Piece
from creasewright.fitting.worked import AssemblyRun
from creasewright.folding.mirrored import mirrored_blank
from creasewright.folding.references import RefFault
from creasewright.folding.state import State
from creasewright.joining.bench import Bench
from creasewright.joining.run_step import StepRun, run_step
from creasewright.joining.supply import MaterialFacts, PartSpec, Supply
from creasewright.problems import NOWHERE, ProblemsFound
from creasewright.reading import design
from creasewright.reading.design import Text

KINDS = ("flipped", "wrong end", "same way", "two alike", "upside down", "mouth", "small print")
"""From the commonest on.

flipped      a piece lies turned over (flipped instead of turned) when work on it begins
wrong end    the scores of one direction measured from the opposite edge: that edge at the stop
same way     what should fold away folds toward the maker
two alike    the wrong hand of a mirror pair: two lefts
upside down  turned end for end before it got its scores and its shape: its print stands on its head
mouth        glue on the open sides of a pocket too
small print  all templates of pieces printed at 97 %, where one of them alone gives the lines or the outline of its piece
"""
SMALL_PRINT = Fraction(97, 100)


class Mistake(Struct, frozen=True):
    kind: str
    part: str
    """Path of the part, or of the assembly that is a part; empty for `small print`."""
    score: str = ""
    """Of `wrong end`: the direction, `across` or `down`."""
    step: int = 0
    """Of `mouth`: the step that glues."""
    pocket: str = ""
    sides: tuple[str, ...] = ()
    """Of `mouth`: the sides that should stay open."""
    blanks: dict[str, Blank] = field(default_factory=dict)
    """Part path to the blank as it was wrongly made."""

    @property
    def rank(self) -> int:
        return KINDS.index(self.kind)


class MistakenSupply:
    """A supply that hands out some blanks as they were wrongly made."""

    def __init__(self, supply: Supply, blanks: dict[str, Blank]) -> None:
        self.supply, self.blanks = supply, blanks

    def piece(self, spec: PartSpec) -> tuple[Blank, float | None]:
        blank, thick = self.supply.piece(spec)
        return self.blanks.get(spec.path, blank), thick

    def length(self, text: Text) -> float:
        return self.supply.length(text)

    def number(self, text: Text) -> float:
        return self.supply.number(text)

    def house(self, key: str) -> float:
        return self.supply.house(key)

    def material(self, name: str) -> MaterialFacts:
        return self.supply.material(name)

    def adhesives(self) -> tuple[MaterialFacts, ...]:
        return self.supply.adhesives()

    def sub_state(self, assembly: str) -> State:
        return self.supply.sub_state(assembly)

    def is_thing(self, name: str) -> bool:
        return self.supply.is_thing(name)

    def scored_wrongly(self, spec: PartSpec) -> tuple[tuple[str, Blank], ...]:
        return self.supply.scored_wrongly(spec)


# --- which mistakes can be made ---------------------------------------------------------------------------------------


def mistakes_of(assembly: AssemblyRun, papers: dict[str, PaperFacts], pieces: tuple[Piece, ...]) -> list[Mistake]:
    """Every classic mistake with a part or step of this assembly, commonest first. Parts cut and used alike are taken once."""
    found: list[Mistake] = []
    for spec in taken_once(assembly):
        blank = assembly.runs[-1].after.blanks.get(spec.path)
        if not (stands(assembly, spec) if spec.kind == "assembly" else blank is not None and lies_either_way(blank, papers)):
            found.append(Mistake("flipped", spec.path))
        found += other_hand(assembly, spec, pieces)
        if spec.kind != "blank" or blank is None or assembly.supply is None:
            continue
        wrong = assembly.supply.scored_wrongly(spec)
        found += [Mistake("wrong end", spec.path, score, blanks={spec.path: made}) for score, made in wrong]
        paper = papers.get(blank.paper)
        if paper is not None and "one-way" in (paper.front, paper.back):
            found.append(Mistake("upside down", spec.path))
        if any(spec.path in run.parts and folds_away(run) for run in assembly.runs):
            found.append(Mistake("same way", spec.path))
    found += [mouth for run in assembly.runs for mouth in glued_mouth(run)]
    printed = {path: blank for path, blank in assembly.runs[-1].after.blanks.items() if comes_from_page(path, blank)}
    if any(placed_by_template(blank) for blank in printed.values()):
        found.append(Mistake("small print", "", blanks={path: scaled_blank(blank, SMALL_PRINT) for path, blank in printed.items()}))
    return sorted(found, key=lambda mistake: mistake.rank)


def stands(assembly: AssemblyRun, spec: PartSpec) -> bool:
    """Of an assembly: nobody takes the bottom of a thing that stands for its top."""
    if assembly.supply is None:
        return False
    state = assembly.supply.sub_state(spec.name)
    return not is_flat(state, state.body_of(min(state.blanks)))


def lies_either_way(blank: Blank, papers: dict[str, PaperFacts]) -> bool:
    """Whichever side is up, it is the same piece."""
    paper = papers.get(blank.paper)
    return paper is not None and paper.sides_alike and paper.front == "plain" and has_no_sides(blank)


def comes_from_page(path: str, blank: Blank) -> bool:
    """A piece of this assembly whose outline or lines are taken from a template of its own."""
    return "/" not in path and bool(blank.paper) and blank.wrap is None and has_own_template(blank)


def placed_by_template(blank: Blank) -> bool:
    """All its fold lines are pricked through its template, as no groove runs like them, or it has none and its outline is traced.

    What is cut straight to size and scored on the board keeps its sizes, however small its template came out.
    """
    return all(score.arc is not None or not straight(score.start, score.end) for score in blank.scores)


def taken_once(assembly: AssemblyRun) -> list[PartSpec]:
    """Its parts; of several that are cut alike and numbered, the first."""
    found: dict[tuple[str, bool, str], PartSpec] = {}
    for spec in assembly.specs:
        if spec.kind != "thing":
            found.setdefault((spec.name, spec.mirrored, spec.path.rstrip(" 0123456789")), spec)
    return list(found.values())


def other_hand(assembly: AssemblyRun, spec: PartSpec, pieces: tuple[Piece, ...]) -> list[Mistake]:
    """The other hand of a pair in this place: two lefts. An assembly's other hand is a matter of its specs alone."""
    if spec.kind == "assembly":
        pair = any(s.name == spec.name and s.mirrored != spec.mirrored for s in assembly.specs)
        return [Mistake("two alike", spec.path)] if pair and spec.mirrored else []
    blank = assembly.runs[-1].after.blanks.get(spec.path)
    if blank is None or blank.mirror_of is None or not any(p.mirror and assembly.prefix + spec.path in p.parts for p in pieces):
        return []
    return [Mistake("two alike", spec.path, blanks={spec.path: mirrored_blank(blank)})]


def folds_away(run: StepRun) -> bool:
    return isinstance(run.written.action, design.Fold) and bool(run.written.action.mountain)


def glued_mouth(run: StepRun) -> list[Mistake]:
    action = run.written.action
    if not isinstance(action, design.Join) or action.makes is None or not action.along or run.refused is not None:
        return []
    pocket = run.after.pockets.get(str(action.makes))
    if pocket is None or not pocket.open:
        return []
    return [Mistake("mouth", run.parts[0], step=run.number, pocket=pocket.name, sides=pocket.open)]


# --- the steps with a mistake in them ---------------------------------------------------------------------------------


Numbered = tuple[int, design.Step]


class MistakenSteps:
    """The steps as they go with a mistake, carried out as far as they are asked for.

    Up to where the mistake comes in they are the right ones; they end before the first that cannot be made any more.
    """

    def __init__(self, assembly: AssemblyRun, mistake: Mistake) -> None:
        assert assembly.supply is not None
        begin = begins(assembly, mistake)
        self.found = {run.number: run for run in assembly.runs if run.number < begin}
        specs = assembly.specs
        if mistake.kind == "two alike":
            specs = tuple(
                replace(spec, mirrored=not spec.mirrored) if spec.path == mistake.part and spec.kind == "assembly" else spec
                for spec in specs
            )
        start = self.found[begin - 1].after if begin > 1 else State()
        self.bench = Bench(MistakenSupply(assembly.supply, mistake.blanks), specs, start)
        self.to_do = [(number, step) for number, step in reversed(changed_steps(assembly, mistake)) if number >= begin]
        """The next one last."""

    def up_to(self, number: int) -> dict[int, StepRun]:
        """By number; without `number` where they end before it. (Steps behind it that were asked for before are among them.)"""
        while self.to_do and self.to_do[-1][0] <= number:
            self.carry_out(*self.to_do.pop())
        return self.found

    def carry_out(self, number: int, step: design.Step) -> None:
        try:
            run = run_step(self.bench, number, step)
        except (RefFault, ProblemsFound, ValueError, StopIteration):
            self.to_do = []
            return
        if run.refused is not None:
            self.to_do = []
            return
        self.found[number] = run if number not in self.found else replace(run, before=self.found[number].before)


def begins(assembly: AssemblyRun, mistake: Mistake) -> int:
    """The first step that is not as it should be; one after the last where no step is (a print on its head)."""

    def comes_in(run: StepRun) -> bool:
        if mistake.kind == "flipped":
            return handles(run, mistake.part)
        if mistake.kind == "same way":
            return mistake.part in run.parts and folds_away(run)
        if mistake.kind == "mouth":
            return run.number == mistake.step
        if mistake.kind == "two alike" and not mistake.blanks:
            return any(path.startswith(mistake.part + "/") for path in run.after.blanks)
        return any(path in run.after.blanks for path in mistake.blanks)

    return next((run.number for run in assembly.runs if comes_in(run)), len(assembly.runs) + 1)


def changed_steps(assembly: AssemblyRun, mistake: Mistake) -> list[Numbered]:
    steps = [(run.number, run.written) for run in assembly.runs]
    changes: dict[str, Callable[[list[Numbered]], list[Numbered]]] = {
        "flipped": lambda plain: turned_over(assembly, mistake.part, plain),
        "same way": lambda plain: [(number, toward(step) if acts_on(assembly, number, mistake.part) else step) for number, step in plain],
        "mouth": lambda plain: [(number, shut(step, mistake.sides) if number == mistake.step else step) for number, step in plain],
    }
    return changes[mistake.kind](steps) if mistake.kind in changes else steps


def acts_on(assembly: AssemblyRun, number: int, part: str) -> bool:
    return part in assembly.runs[number - 1].parts


def turned_over(assembly: AssemblyRun, part: str, steps: list[Numbered]) -> list[Numbered]:
    """The part turned over before the first step that handles it, after a first one that lays it down."""
    first = next((run for run in assembly.runs if handles(run, part)), None)
    if first is None:
        return steps
    over = design.Step(NOWHERE, design.TurnOver(Text(part, NOWHERE), "page"), None, None, None, None)
    place = first.number if isinstance(first.written.action, design.Lay) else first.number - 1
    return [*steps[:place], (first.number, over), *steps[place:]]


def handles(run: StepRun, part: str) -> bool:
    """The part is on the bench from this step on, and something happens to it for which it matters how it lies."""
    if isinstance(run.written.action, design.Make | design.Wait):
        return False
    here = [path for path in run.after.blanks if path == part or path.startswith(part + "/")]
    if not here:
        return False
    before = {path for path in run.before.blanks if run.before.body_of(path).parts != run.after.body_of(path).parts}
    return any(path in run.parts or path in before for path in here)


def toward(step: design.Step) -> design.Step:
    action = step.action
    if not isinstance(action, design.Fold):
        return step
    return replace(step, action=replace(action, fold=(*action.fold, *action.mountain), mountain=()))


def shut(step: design.Step, sides: tuple[str, ...]) -> design.Step:
    action = step.action
    assert isinstance(action, design.Join)
    return replace(step, action=replace(action, along=(*action.along, *(Text(side, NOWHERE) for side in sides))))
