"""Gates: where to stop and measure, the one measure that shows the commonest mistake best, and what mistakes look like there.

A gate stands after every named stage, at the end of every assembly, and before every adhesive step that would hold a mistake fast
which did not show before: there everything is laid dry as it will be glued. A stage or an end whose step glues is measured before its
glue and once more; none stands where the work was only pressed or waited since the one before. Everything is computed from the states of
the steps, right and with each of the classic mistakes (`fitting.mistakes`).
"""

from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from creasewright.fitting.gate_measures import READS, Measure, border, laid_measures, measures
from creasewright.fitting.lies import Lie
from creasewright.fitting.looks import Looking, differs, is_flat, shown_panels, top_down, turned
from creasewright.fitting.mistakes import Mistake, MistakenSteps, mistakes_of
from creasewright.fitting.tell import Tell
from creasewright.fitting.tells import told
from creasewright.fitting.undoing import Done, done_to
from creasewright.fitting.worked import AssemblyRun, Worked
from creasewright.folding.state import Body, State
from creasewright.geometry.clip import total_area
from creasewright.joining.run_step import StepRun
from creasewright.reading import design

SEEN, SHARE = 60.0, 0.012
"""A difference shows if it is more than so many mm² and so large a share of what shows."""
DRY, STAGE, END = "dry", "stage", "end"
SAME = 0.02
"""mm by which a measure may be off a size of a cut piece and still be it."""
BY_SIZE = ("wrong end", "small print")
"""Mistakes of size: a measure tells them before anything else does."""


class Symptom(Struct, frozen=True):
    """A mistake as it shows at a gate."""

    mistake: Mistake
    also: tuple[str, ...]
    """Other parts with which the same mistake shows here."""
    state: State
    body: Body
    """As the steps leave it before the maker; of `over`, laid so that it looks right from above, then turned over like a page."""
    over: bool
    """It shows on the other side only: laid so that it looks right from above. (A print is never laid right: it is on its head.)
    Of `mouth`: the flap is at the back."""
    at: int
    """The step after which it is seen so: the gate's, or the last that can be made with the mistake."""
    mm: float | None = None
    """What the gate's measure is then; None where that panel does not show."""
    run: StepRun | None = None
    """Of `mouth`: the step that glued too much."""
    tell: Tell = Tell("none")
    """What tells it from the right one."""
    done: Done = Done()
    """What holds the mistaken part by then."""
    turns: int = 0
    """Of `upside down`: the last step before after which it looked right as soon as it was turned by half a turn; 0: never."""


class Gate(Struct, frozen=True):
    assembly: str
    """As the pack tells it."""
    number: int
    """The step after which it stands; of a dry fit, the step whose adhesive waits for it."""
    kind: str
    """`dry`, `stage` or `end`."""
    stage: str
    state: State
    body: Body
    measure: Measure
    pocket: str
    """A pocket into which paper must slide here; empty: none."""
    symptoms: tuple[Symptom, ...]
    stops: tuple[tuple[Mistake, int], ...] = ()
    """Mistakes with which the steps cannot even be made as far as here, and the step at which they stop."""
    again: bool = False
    """A dry fit that is measured once more when it is glued: a stage or the assembly ends there."""

    def off(self, symptom: Symptom) -> float:
        """mm by which the ruler tells one of its mistakes; 0 if it does not."""
        off = 0.0 if symptom.mm is None else abs(symptom.mm - self.measure.mm)
        return off if off >= READS else 0.0


class Place(Struct, frozen=True):
    """Where a gate may stand."""

    run: StepRun
    kind: str
    stage: str


@lru_cache(maxsize=8)
def gates_of(worked: Worked) -> dict[str, tuple[Gate, ...]]:
    """By the assembly's name, in the order of its steps. A mirrored assembly has those of its original."""
    found: dict[str, tuple[Gate, ...]] = {}
    for assembly in worked.assemblies:
        if assembly.runs and assembly.supply is not None and not assembly.mirrored:
            found[assembly.assembly] = AssemblyGates(worked, assembly).gates()
    return {a.name: found[a.assembly] for a in worked.assemblies if a.assembly in found}


class AssemblyGates:
    def __init__(self, worked: Worked, assembly: AssemblyRun) -> None:
        self.worked, self.assembly = worked, assembly
        skip = len(assembly.prefix)
        lies = {path[skip:]: lie for path, lie in worked.lies.items() if path.startswith(assembly.prefix)}
        self.looking = Looking(worked.papers, lies)

    def gates(self) -> tuple[Gate, ...]:
        waiting = [(m, MistakenSteps(self.assembly, m)) for m in mistakes_of(self.assembly, self.worked.papers, self.worked.pieces)]
        found: list[Gate] = []
        for place in self.places():
            symptoms: list[Symptom] = []
            stops: list[tuple[Mistake, int]] = []
            for mistake, steps in list(waiting):
                runs = steps.up_to(place.run.number)
                if place.run.number not in runs:
                    stops.append((mistake, max(runs, default=0) + 1))
                    symptoms += self.stopped(mistake, runs)
                    waiting.remove((mistake, steps))
                elif (symptom := self.symptom(place, mistake, runs)) is not None:
                    symptoms.append(symptom)
                    waiting.remove((mistake, steps))
            if found and not symptoms and found[-1].number == place.run.number:
                found[-1] = replace(found[-1], again=True, stage=place.stage, stops=(*found[-1].stops, *stops))
            elif found and not symptoms and not stops and found[-1].kind != DRY and found[-1].state == place.run.after:
                continue  # the steps since then only pressed or waited
            elif place.kind != DRY and dry_fit(place.run):
                # what is measured when it holds cannot be put right any more: it is measured before, and then once more
                found.append(replace(self.gate(replace(place, kind=DRY), symptoms, stops, found), again=True))
            elif symptoms or place.kind != DRY:
                found.append(self.gate(place, symptoms, stops, found))
        return tuple(found)

    def stopped(self, mistake: Mistake, runs: dict[int, StepRun]) -> list[Symptom]:
        """How it looks after the last step that could still be made."""
        last = max(runs, default=0)
        found = self.symptom(Place(self.assembly.runs[last - 1], DRY, ""), mistake, runs) if last else None
        return [found] if found is not None and found.mistake.kind != "mouth" else []

    def places(self) -> list[Place]:
        """In order; a step that cannot be made ends them."""
        found: list[Place] = []
        last = self.assembly.runs[-1].number
        for run in self.assembly.runs:
            if run.refused is not None:
                break
            if dry_fit(run):
                found.append(Place(run, DRY, ""))
            if run.written.stage is not None or run.number == last:
                found.append(Place(run, END if run.number == last else STAGE, run.written.stage or ""))
        return found

    # --- what shows

    def symptom(self, place: Place, mistake: Mistake, runs: dict[int, StepRun]) -> Symptom | None:
        if mistake.kind == "mouth":
            return self.shut_pocket(place, mistake, runs)
        if mistake.kind == "flipped" and place.kind == DRY and place.run.number > 1:
            # before anything is put on it: nobody would put it where it goes on the right side
            before = self.symptom(Place(self.assembly.runs[place.run.number - 2], STAGE, ""), mistake, runs)
            if before is not None:
                return before
        wrong = runs[place.run.number]
        if mistake.kind != "upside down" and wrong.after is place.run.after:
            return None
        right = main_body(place.run)
        other = main_body(wrong)
        looking = self.looking_at(mistake)
        limit = max(SEEN, SHARE * shown_area(place.run.after, right, self.looking))
        alike: list[Body] = []
        sides = (place.run.after, right, self.looking), (place.run.after, turned(right, 0.0, over=True), self.looking)
        for angle in (0.0, 90.0, 180.0, 270.0):
            tried = turned(other, angle)
            over = turned(tried, 0.0, over=True)
            seen, under = (wrong.after, tried, looking), (wrong.after, over, looking)
            if differs(sides[0], seen) <= limit:
                if differs(sides[1], under) <= limit:
                    return None
                if mistake.kind != "upside down" or angle == 0.0:
                    alike.append(tried)
            # a closed book whose covers are alike stands right once it is turned over: nothing is wrong with it
            if mistake.kind == "upside down" and differs(sides[0], under) <= limit and differs(sides[1], seen) <= limit:
                return None
        body = turned(alike[0], 0.0, over=True) if alike else other
        return Symptom(mistake, (), wrong.after, body, bool(alike), place.run.number)

    def looking_at(self, mistake: Mistake) -> Looking:
        """How the mistaken work looks: a print on its head is a matter of how the blank lay on its sheet."""
        if mistake.kind != "upside down":
            return self.looking
        lie = self.looking.lies.get(mistake.part, Lie(False, 0))
        return Looking(self.looking.papers, {**self.looking.lies, mistake.part: Lie(lie.back_up, (lie.turn + 180) % 360)})

    def shut_pocket(self, place: Place, mistake: Mistake, runs: dict[int, StepRun]) -> Symptom | None:
        """Glue at a mouth is told at the gate of the step that glues, for it can be wiped out only while it is wet. The flap up."""
        if place.run.number < mistake.step:
            return None
        wrong = runs[mistake.step]
        pocket = wrong.after.pockets.get(mistake.pocket)
        if pocket is None or set(pocket.open) & set(mistake.sides):
            return None
        body = wrong.after.body_of(pocket.front[0])
        order = top_down(wrong.after, body)
        under = pocket.front in order and pocket.back in order and order.index(pocket.front) > order.index(pocket.back)
        return Symptom(mistake, (), wrong.after, turned(body, 0.0, over=under), under, mistake.step, run=wrong)

    # --- the gate

    def gate(self, place: Place, symptoms: list[Symptom], stops: list[tuple[Mistake, int]], before: list[Gate]) -> Gate:
        run, body = place.run, main_body(place.run)
        shown = [one for one in symptoms if one.mistake.kind != "mouth" and one.at == run.number]
        known = measures(before[-1].state, before[-1].body, self.looking) if before else []
        measure = self.measured(place, body, shown, known)
        told_ones = [self.told(one, place, measure) for one in one_of_each_kind(symptoms)]
        pocket = next((one.mistake.pocket for one in symptoms if one.mistake.kind == "mouth"), "")
        ones, stopped = tuple(told_ones), tuple(stops)
        return Gate(self.assembly.name, run.number, place.kind, place.stage, run.after, body, measure, pocket, ones, stopped)

    def measured(self, place: Place, body: Body, shown: list[Symptom], known: list[Measure]) -> Measure:
        """Before a part is glued on, its own place where nothing else is measured that the step can spoil. `known`: at the gate before."""
        run = place.run
        laid = laid_measures(run.after, body, run.parts) if place.kind == DRY else []
        measure = chosen([*measures(run.after, body, self.looking), *laid], shown, self.looking, run.after, body, known)
        if place.kind != DRY or measure.panel or not self.measured_before(run, measure):
            return measure
        if any(one.mistake.kind != "small print" and told_by(measure, one, self.looking) for one in shown):
            return measure
        return border(run.after, body, run) or measure

    def measured_before(self, run: StepRun, measure: Measure) -> bool:
        """It was the same over all before the step, of something that the step works on."""
        bodies = [one for one in run.before.bodies if one.parts & main_body(run).parts]
        known = [each for one in bodies for each in measures(run.before, one, self.looking)]
        return among(known, measure)

    def told(self, one: Symptom, place: Place, measure: Measure) -> Symptom:
        """With what tells it, and what has been done to it by then."""
        mistake = one.mistake
        dry = place.kind == DRY and one.at == place.run.number and mistake.kind != "mouth"
        one = replace(one, done=done_to(one.state, mistake.part, one.at - dry) if mistake.part else Done())
        if mistake.kind == "mouth":
            return one
        mm = values_of(one, self.looking).get(measure.key) if one.at == place.run.number else None
        run = self.assembly.runs[one.at - 1]
        right = turned(main_body(run), 0.0, over=one.over)
        if mm is not None and abs(mm - measure.mm) >= READS and mistake.kind in BY_SIZE:
            tell = Tell("size", measure.part, measure.panel, way=measure.way, mm=(measure.mm, mm))
        else:
            seen = (one.state, one.body, self.looking_at(mistake))
            tell = told((run.after, right, self.looking), seen, mistake.kind in BY_SIZE)
        turns = self.looked_right(mistake, one.at) if mistake.kind == "upside down" else 0
        return replace(one, mm=mm, tell=tell, turns=turns if max(one.done.glued, default=0) <= turns else 0)

    def looked_right(self, mistake: Mistake, before: int) -> int:
        """The last gate's step before this one at which a print on its head was only a matter of how the work lay on the table."""
        looking = self.looking_at(mistake)
        for run in reversed([place.run for place in self.places() if place.run.number < before]):
            if mistake.part not in run.after.blanks or mistake.part not in main_body(run).parts:
                continue
            right = main_body(run)
            limit = max(SEEN, SHARE * shown_area(run.after, right, self.looking))
            lies, half = (
                max(
                    differs(
                        (run.after, turned(right, 0.0, over), self.looking), (run.after, turned(turned(right, angle), 0.0, over), looking)
                    )
                    for over in (False, True)
                )
                for angle in (0.0, 180.0)
            )
            return run.number if half <= limit < lies else 0
        return 0


def glues(run: StepRun) -> bool:
    action = run.written.action
    return isinstance(action, design.TurnIn) or (isinstance(action, design.Join) and action.verb != "place")


def dry_fit(run: StepRun) -> bool:
    """Its work can be laid first as it will be glued; what bends does not lie still without its glue."""
    return glues(run) and not run.after.curved


def main_body(run: StepRun) -> Body:
    """What the step works on; if it names nothing, what is largest."""
    state = run.after
    if run.parts:
        return state.body_of(run.parts[0])
    return max(state.bodies, key=lambda body: paper_area(state, body))


def paper_area(state: State, body: Body) -> float:
    return sum(panel.area for part in body.parts for panel in state.blanks[part].panels)


def shown_area(state: State, body: Body, looking: Looking) -> float:
    if is_flat(state, body):
        return sum(total_area(shown.pieces) for shown in shown_panels(state, body, looking))
    return paper_area(state, body)


def values_of(symptom: Symptom, looking: Looking) -> dict[tuple[str, str, str], float]:
    """The same measures taken of the wrong one, by their keys; none where it is seen from the other side."""
    return {one.key: one.mm for one in measures(symptom.state, symptom.body, looking)} if not symptom.over else {}


def among(known: list[Measure], measure: Measure) -> bool:
    """The same length over all, the same way."""
    return any(each.over_all and each.way == measure.way and abs(each.mm - measure.mm) < SAME for each in known)


def told_by(measure: Measure, symptom: Symptom, looking: Looking) -> bool:
    return abs(values_of(symptom, looking).get(measure.key, measure.mm) - measure.mm) >= READS


def chosen(
    candidates: list[Measure], symptoms: list[Symptom], looking: Looking, state: State, body: Body, known: list[Measure]
) -> Measure:
    """The measure that differs most for the commonest mistake that any measure shows; an over-all one is easier to take and wins
    unless another differs by half as much again. Without such a mistake the longest one over all of those that folding or joining
    made (a size of a piece as it was cut tells nothing of the steps), and of these one that the gate before did not have."""
    for symptom in sorted(symptoms, key=lambda one: one.mistake.rank):
        values = values_of(symptom, looking)

        def off(measure: Measure, values: dict[tuple[str, str, str], float] = values) -> float:
            return abs(values.get(measure.key, measure.mm) - measure.mm)

        best = max(candidates, key=lambda one: off(one) * (1.5 if one.over_all else 1.0))
        if off(best) >= READS:
            return best
    cut = [float(size) for part in body.parts for size in (state.blanks[part].width, state.blanks[part].height)]
    return max(
        (one for one in candidates if one.over_all),
        key=lambda one: (all(abs(one.mm - size) > SAME for size in cut), not among(known, one), round(one.mm, 3)),
    )


def one_of_each_kind(symptoms: list[Symptom]) -> list[Symptom]:
    """The first of each kind of mistake (each score and each mouth its own), the others' parts noted with it."""
    found: dict[tuple[str, str, str], Symptom] = {}
    for one in symptoms:
        key = (one.mistake.kind, one.mistake.pocket, one.mistake.score)
        if key not in found:
            found[key] = one
        elif one.mistake.part != found[key].mistake.part and one.mistake.part not in found[key].also:
            found[key] = replace(found[key], also=(*found[key].also, one.mistake.part))
    return list(found.values())
