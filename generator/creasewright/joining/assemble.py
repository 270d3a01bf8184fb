"""All the steps of an assembly, one after another, as far as asked."""

from msgspec import Struct, field

from creasewright.folding.references import RefFault
from creasewright.folding.state import State
from creasewright.joining.bench import Bench
from creasewright.joining.run_step import StepRun, run_step
from creasewright.joining.supply import PartSpec, Supply
from creasewright.problems import Problem, ProblemsFound
from creasewright.reading import design


class Assembling(Struct):
    """An assembly in the making; `upto` carries on from where it stands, so that a state is worked out once."""

    written: design.Assembly
    specs: tuple[PartSpec, ...]
    supply: Supply
    runs: list[StepRun] = field(default_factory=list)
    stages: dict[str, State] = field(default_factory=dict)
    bench: Bench | None = None

    def upto(self, number: int) -> State:
        """The state after step `number` (from 1; 0: before the first). Raises ProblemsFound for words that name nothing."""
        if self.bench is None:
            self.bench = Bench(self.supply, self.specs, State())
        while len(self.runs) < number:
            step = self.written.steps[len(self.runs)]
            try:
                run = run_step(self.bench, len(self.runs) + 1, step)
            except RefFault as fault:
                raise ProblemsFound([Problem(step.where, fault.what, fault.hint)]) from None
            self.runs.append(run)
            if step.stage is not None:
                self.stages[step.stage] = run.after
        return self.runs[number - 1].after if number else State()

    def final(self) -> State:
        state = self.upto(len(self.written.steps))
        self.stages.setdefault("closed", state)
        return state
