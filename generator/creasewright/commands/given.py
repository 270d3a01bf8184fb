"""What both commands take from their options and the maker's settings."""

from argparse import Namespace
from pathlib import Path

from msgspec import Struct

from creasewright.checked import Checked, checked
from creasewright.commands.planning import effort_of
from creasewright.places import design_file
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.progress import Progress
from creasewright.reading.read_config import read_overlap, read_tools, usual_settings
from creasewright.reading.settings import BUTT, MakerSettings, TemplateWishes, Tools

MOST_MAKERS = 3000


class Given(Struct, frozen=True):
    design: Path
    units: str
    page: str
    makers: int
    measures: dict[str, str]
    """As set by the options."""
    settings: MakerSettings
    checked: Checked


def given(options: Namespace, progress: Progress | None = None) -> Given:
    """Reads, works out and checks. Raises ProblemsFound."""
    shown = progress or Progress(quiet=True)
    effort = effort_of(options)
    settings = usual_settings()
    tools = read_tools(Path(options.tools)) if options.tools else Tools()
    path = design_file(options.design)
    units = options.units or settings.units
    page = options.page or settings.page
    makers = options.makers if options.makers is not None else settings.makers
    if not 1 <= makers <= MOST_MAKERS:
        raise ProblemsFound([Problem(NOWHERE, f"--makers {makers} is out of reach", f"give a number from 1 to {MOST_MAKERS}")])
    measures = named_values(options.set or [])

    def say(paper: str, sheets: int, bound: int) -> None:
        shown.say(f"planning {paper}: {sheets} sheets, at least {bound}")

    done = checked(path, units, makers, measures, settings, tools, effort, say)
    return Given(path, units, page, makers, measures, settings, done)


def wishes_of(options: Namespace, usual: TemplateWishes) -> TemplateWishes:
    """Raises ProblemsFound."""
    joining = options.joining or usual.joining
    if options.overlap and joining == BUTT:
        what = f"--overlap {options.overlap} with butt joins, which have none"
        raise ProblemsFound([Problem(NOWHERE, what, "leave out one of the two")])
    overlap = read_overlap(options.overlap) if options.overlap else usual.overlap
    return TemplateWishes(options.templates or usual.pieces, joining, overlap)


def named_values(texts: list[str]) -> dict[str, str]:
    """`page width=4 in` and the like. Raises ProblemsFound."""
    values: dict[str, str] = {}
    problems = []
    for text in texts:
        name, equals, value = text.partition("=")
        if not equals or not name.strip() or not value.strip():
            problems.append(
                Problem(NOWHERE, f"--set {text} has no value", 'write `--set "NAME=VALUE"`, such as `--set "page width=4 in"`')
            )
        values[name.strip()] = value.strip()
    if problems:
        raise ProblemsFound(problems)
    return values
