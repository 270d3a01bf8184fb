"""One written step carried out: words to parts, panels and scores, then to the next state."""

from msgspec import Struct, field
from msgspec.structs import replace

from creasewright.folding.fold_scores import Targets
from creasewright.folding.references import RefFault
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Bond, PanelKey, State
from creasewright.joining.bench import Bench
from creasewright.joining.closing import closed_with
from creasewright.joining.refused import JoinRefused
from creasewright.joining.sewing import sewn
from creasewright.joining.step_folds import crease, fold, unfold
from creasewright.joining.step_joins import insert, join, turn_in
from creasewright.joining.step_turns import lay, turn
from creasewright.joining.trimming import trimmed
from creasewright.reading import design


class StepRun(Struct, frozen=True):
    """A step as it went: the states before and after it, and what took part."""

    number: int
    """From 1 within its assembly."""
    written: design.Step
    before: State
    after: State
    parts: tuple[str, ...] = ()
    """What the step acts on."""
    panels: tuple[PanelKey, ...] = ()
    targets: Targets = field(default_factory=dict)
    refused: tuple[str, str] | None = None
    """What was wrong and what to do, where the step could not be carried out."""

    @property
    def new_bonds(self) -> tuple[Bond, ...]:
        """Made by the step."""
        return self.after.bonds[len(self.before.bonds) :]


def run_step(bench: Bench, number: int, step: design.Step) -> StepRun:
    """Carries out a step on the bench; one that cannot be made is noted in the run.

    Raises RefFault for words that name nothing.
    """
    action = step.action
    bring_parts(bench, action)
    before = bench.state
    parts: tuple[str, ...] = ()
    panels: tuple[PanelKey, ...] = ()
    targets: Targets = {}
    refused = None
    try:
        if isinstance(action, design.Fold):
            targets, parts = fold(bench, action)
        elif isinstance(action, design.Unfold):
            targets, parts = unfold(bench, action)
        elif isinstance(action, design.Crease):
            targets, parts = crease(bench, action)
        elif isinstance(action, design.Lay):
            parts = lay(bench, action)
        elif isinstance(action, design.TurnOver | design.Turn):
            parts = turn(bench, action)
        elif isinstance(action, design.Join):
            parts, panels = join(bench, action, number)
        elif isinstance(action, design.TurnIn):
            targets, parts, panels = turn_in(bench, action, number)
        elif isinstance(action, design.Insert):
            parts = insert(bench, action, number)
        elif isinstance(action, design.Tie):
            bench.state, parts = closed_with(bench, action, number)
        elif isinstance(action, design.Sew):
            bench.state, parts = sewn(bench, action, number)
        elif isinstance(action, design.Make) and action.at is not None:
            bench.state, parts = trimmed(bench, action, number)
        elif isinstance(action, design.Make):
            parts = make(bench, action)
    except (FoldRefused, JoinRefused) as fault:
        refused = (fault.what, fault.hint)
        bench.state = before
    return StepRun(number, step, before, bench.state, parts, panels, targets, refused)


def bring_parts(bench: Bench, action: design.Action) -> None:
    """The parts a step names come to the bench before it begins, so that the state before it holds them."""
    if isinstance(action, design.Join):
        for text in action.parts:
            bench.part_or_panels(str(text))
        for text in action.landing.refs if action.landing else ():
            bench.part_or_panels(str(text)) if bench.pocket(str(text)) is None else None
    elif isinstance(action, design.TurnIn):
        bench.parts(str(action.cover))
    elif isinstance(action, design.Insert):
        bench.parts(str(action.thing))
    elif isinstance(action, design.Lay | design.TurnOver | design.Turn):
        bench.part_or_panels(str(action.part))
    elif isinstance(action, design.Tie):
        bench.bring_named(str(action.around))
        if action.verb == "band":
            bench.parts(str(action.what))
    elif isinstance(action, design.Fold):
        for target in (*action.fold, *action.mountain, *action.follow):
            bench.pieces(str(target.ref))
    elif isinstance(action, design.Crease | design.Unfold):
        for target in action.scores:
            bench.pieces(str(target.ref))
    elif isinstance(action, design.Sew) or (isinstance(action, design.Make) and action.verb in ("trim", "round")):
        for text in action.parts:
            bench.parts(str(text))


def make(bench: Bench, action: design.Make) -> tuple[str, ...]:
    """An operation of the blank, done now: nothing moves, the state remembers it."""
    parts: list[str] = []
    for text in action.parts:
        if action.verb in ("trim", "round"):
            parts += [path for group in bench.parts(str(text)) for path in group]
        else:
            parts += makers_of(bench, action.verb, str(text))
    done = frozenset((part, f"{action.verb} {text}" if action.verb in ("cut", "score", "punch") else action.verb)
                     for part in parts for text in action.parts)  # fmt: skip
    bench.state = replace(bench.state, made=bench.state.made | done)
    return tuple(dict.fromkeys(parts))


def makers_of(bench: Bench, verb: str, text: str) -> list[str]:
    """Parts whose blank has a slit, hole or score of that name (or the part so named)."""
    words = text.split(" of ")
    for spec in bench.specs.values():
        if spec.kind == "blank":
            bench.bring(spec)
    hits = []
    for path, blank in bench.state.blanks.items():
        names = {item.name for items in (blank.slits, blank.holes, blank.scores) for item in items}
        if words[0] in names or any(name.rpartition(" ")[0] == words[0] for name in names) or path.split("/")[-1] == words[0]:
            hits.append(path)
    if not hits:
        raise RefFault(f"there is nothing called `{words[0]}` to {verb}", "name a slit, a hole, a score or a part")
    return hits
