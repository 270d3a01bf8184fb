"""Tiny designs for tests: written as an author would write them, worked out as a pack is."""

from collections.abc import Callable
from fractions import Fraction
from textwrap import dedent, indent

from msgspec import Struct

from creasewright.checks.facts import Facts
from creasewright.cutting.demand import Trimmer
from creasewright.cutting.kit_demand import plans_of
from creasewright.fitting.worked import Worked
from creasewright.folding.state import PanelKey, State
from creasewright.geometry.rigid_transform import apply, rotate
from creasewright.joining.run_step import StepRun
from creasewright.problems import Finding
from creasewright.reading.design import Design
from creasewright.reading.read_design import read_design_text
from creasewright.work_out import work_out

PLAIN_PAPER = "papers: {card: {sheet: [600 mm, 600 mm], caliper: 0.3 mm, grammage: 120}}"
TRIMMER = Trimmer(longest_cut=Fraction(620), narrowest_strip=Fraction(10), least_trim=Fraction(2))


def with_steps(blanks: str, *steps: str) -> str:
    """A design's body from its blanks (one a line) and its steps."""
    return "blanks:\n" + indent(dedent(blanks).strip(), "  ") + "\nsteps:\n" + "".join(f"  - {step}\n" for step in steps)


def design_of(body: str, papers: str = PLAIN_PAPER) -> Design:
    """A design from its blanks and steps; the first line, a title and a paper are put before them."""
    return read_design_text(f"creasewright: 1\ntitle: Small thing\n{dedent(papers)}\n{dedent(body)}", "small.yaml")


def worked_of(body: str, papers: str = PLAIN_PAPER, system: str = "mm", makers: int = 1) -> Worked:
    return work_out(design_of(body, papers), system, makers)


def facts_of(body: str, papers: str = PLAIN_PAPER, system: str = "mm", trimmer: Trimmer = TRIMMER) -> Facts:
    worked = worked_of(body, papers, system)
    return Facts(worked, plans_of(worked, trimmer), trimmer)


def found_by(
    check: Callable[[Facts], list[Finding]], body: str, papers: str = PLAIN_PAPER, system: str = "mm"
) -> list[tuple[str, str, str]]:
    """(severity, what, hint) of everything that one check finds."""
    return [(finding.severity, finding.what, finding.hint) for finding in check(facts_of(body, papers, system))]


def runs_of(body: str, papers: str = PLAIN_PAPER, system: str = "mm") -> list[StepRun]:
    """The steps of the finished assembly as they went."""
    return list(worked_of(body, papers, system).assemblies[-1].runs)


def last_run(body: str, papers: str = PLAIN_PAPER, system: str = "mm") -> StepRun:
    return runs_of(body, papers, system)[-1]


def made(body: str, papers: str = PLAIN_PAPER, system: str = "mm") -> State:
    """The state after all steps; every one of them could be made."""
    runs = runs_of(body, papers, system)
    assert [run.refused for run in runs] == [None] * len(runs)
    return runs[-1].after


class Seen(Struct, frozen=True):
    """The box of a panel as it lies before the maker, mm."""

    left: float
    head: float
    right: float
    tail: float


def seen_at(state: State, panel: PanelKey) -> Seen:
    body = state.body_of(panel[0])
    polygon = state.blanks[panel[0]].panel(panel[1]).polygon
    points = [rotate(body.view, apply(state.placed[panel], (x, y, 0.0))) for x, y in polygon]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Seen(*(round(v, 6) + 0.0 for v in (min(xs), min(ys), max(xs), max(ys))))


def from_the_table(state: State, part: str) -> list[PanelKey]:
    """The panels of a part's flattest stack from the lowest to the highest, as they lie before the maker."""
    body = state.body_of(part)
    own = [s for s in body.stacks if any(key[0] == part for key in s.order)]
    stack = max(own, key=lambda s: round(abs(rotate(body.view, s.normal)[2]), 6))
    up = rotate(body.view, stack.normal)[2] < 0
    return list(stack.order if up else reversed(stack.order))
