"""Names that point nowhere, and names that two things share: what can be seen without numbers.

Panels and scores named in steps are looked up later, where they are worked out.
"""

from collections.abc import Collection, Iterable, Iterator

from creasewright.problems import Where
from creasewright.reading.design import (
    Assembly,
    Blank,
    Corner,
    Design,
    EdgeChange,
    Insert,
    Join,
    Make,
    Material,
    Measure,
    MirrorShape,
    Notch,
    Paper,
    SameShape,
    Sew,
    Step,
    Text,
    Thing,
    Tie,
    TurnIn,
    WrapShape,
)
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import meant
from creasewright.reading.read_blanks import takes_paper_of_another
from creasewright.reading.rings import Links, rings

ORDINARY_STAGE = "closed"
"""The last state bears this name where no step gives it."""

Named = Paper | Material | Thing | Measure | Blank | Assembly


def check_references(design: Design, faults: Faults) -> None:
    _names_shared(design, faults)
    _papers(design, faults)
    _models(design, faults)
    _parts(design, faults)
    _materials(design, faults)
    for assembly in design.assemblies:
        _stages(assembly, faults)
    _finished(design, faults)


def _names(*groups: Iterable[Named]) -> dict[str, Where]:
    """The names with their places, in file order; the assembly of the top level has none."""
    return {item.name: item.where for group in groups for item in group if item.name}


def _known(text: Text | None, known: Collection[str], noun: str, otherwise: str, faults: Faults) -> None:
    """Note a problem where `text` is none of the known names."""
    if text is not None and text.text and text.text not in known:
        faults.note(text.where, f"{shown(text.text)} is not {noun} of this design", meant(text.text, known, otherwise))


def _names_shared(design: Design, faults: Faults) -> None:
    """What may stand in a step needs a name of its own. Papers and measures never do."""
    first: dict[str, tuple[str, Where]] = {}
    for noun, named in (
        ("a thing", _names(design.things)),
        ("a material", _names(design.materials)),
        ("a blank", _names(design.blanks)),
        ("an assembly", _names(design.assemblies)),
    ):
        for name, where in named.items():
            if name in first:
                other, place = first[name]
                faults.note(where, f"{shown(name)} is {noun} here and {other} in line {place.line}", "rename one of the two")
            first.setdefault(name, (noun, where))


def _papers(design: Design, faults: Faults) -> None:
    papers = _names(design.papers)
    for blank in design.blanks:
        _known(blank.paper, papers, "a paper", "add it to `papers`", faults)
        if blank.paper is None and not takes_paper_of_another(blank) and len(papers) != 1:
            what = f"blank {shown(blank.name)} has no paper, and the design has {len(papers) or 'none'}"
            faults.note(blank.where, what, "add `paper: …`" if papers else "add `papers:` with the paper it is cut from")


def _models(design: Design, faults: Faults) -> None:
    """Mirrors and blanks that are the same as another."""
    blanks, measures = _names(design.blanks), _names(design.measures)
    links: dict[str, tuple[Text, ...]] = {}
    for blank in design.blanks:
        if isinstance(blank.shape, MirrorShape | SameShape):
            links[blank.name] = (blank.shape.of,)
            _known(blank.shape.of, blanks, "a blank", "add it to `blanks`", faults)
        if isinstance(blank.shape, SameShape):
            for name, _ in blank.shape.replaced:
                _known(name, measures, "a measure", "add it to `measures`", faults)
        if isinstance(blank.shape, WrapShape):
            links[blank.name] = blank.shape.boards
            for board in blank.shape.boards:
                _known(board, blanks, "a blank", "add it to `blanks`", faults)
    _tell_rings(links, "takes its shape from itself", "give one of them a shape of its own", faults)


def _tell_rings(links: Links, what: str, hint: str, faults: Faults) -> None:
    for link, ring in rings(links):
        way = f" ({' > '.join(ring[:6])}{' > …' if len(ring) > 6 else ''})" if len(ring) > 2 else ""
        faults.note(link.where, f"{shown(link.text)} {what}{way}", hint)


def _parts(design: Design, faults: Faults) -> None:
    known = _names(design.blanks, design.things, design.assemblies)
    for assembly in design.assemblies:
        for part in assembly.parts or ():
            _known(part.is_, known, "a blank, a thing or an assembly", "add it to `blanks`", faults)
            if part.count and part.count.text.isdigit() and not part.count.text.strip("0"):
                faults.note(
                    part.count.where, f"{shown(part.count.text)} is not a count", "write 1 or more, or leave the part out"
                )
    links = {assembly.name: tuple(part.is_ for part in assembly.parts or ()) for assembly in design.assemblies}
    _tell_rings(links, "is a part of itself", "name what it is made of", faults)


def _materials(design: Design, faults: Faults) -> None:
    materials, blanks, templates = _names(design.materials), _names(design.blanks), set(_templates(design))
    for assembly in design.assemblies:
        strips = {*blanks, *(part.name for part in assembly.parts or ())}
        for step in assembly.steps:
            _material_of(step, materials, strips, templates, faults)


def _material_of(
    step: Step, materials: Collection[str], strips: Collection[str], templates: Collection[str], faults: Faults
) -> None:
    action = step.action
    if isinstance(action, Join | TurnIn | Insert):
        _known(action.with_, materials, "a material", "add it to `materials`", faults)
    elif isinstance(action, Tie) and action.verb == "tie":
        _known(action.what, materials, "a material", "add it to `materials`", faults)
    elif isinstance(action, Tie):
        _known(action.with_, materials, "a material", "add it to `materials`", faults)
        _known(action.what, strips, "a blank", "add it to `blanks`", faults)
    elif isinstance(action, Sew):
        _known(action.with_, materials, "a material", "add it to `materials`", faults)
    elif isinstance(action, Make):
        _known(action.with_, templates, "a template", "add `template: …` to the corner, edge or notch that it is for", faults)


def _templates(design: Design) -> Iterator[str]:
    for blank in design.blanks:
        changes: tuple[Corner | EdgeChange | Notch, ...] = (*blank.corners, *blank.edges, *blank.notches)
        yield from (change.template for change in changes if change.template)


def _stage_names(assembly: Assembly) -> Iterator[tuple[str, Where]]:
    for step in assembly.steps:
        if step.stage:
            yield step.stage, step.where
    for stage in assembly.stages:
        yield stage.name, stage.where


def _stages(assembly: Assembly, faults: Faults) -> None:
    first: dict[str, Where] = {}
    for name, where in _stage_names(assembly):
        if name in first:
            what = f"a second stage is named {shown(name)}; the first stands in line {first[name].line}"
            faults.note(where, what, "rename one of the two")
        first.setdefault(name, where)
    known = {*first, ORDINARY_STAGE}
    for stage in assembly.stages:
        _known(stage.from_, known, "a stage", "name it with `stage:` on a step", faults)
    _tell_rings(
        {stage.name: (stage.from_,) for stage in assembly.stages if stage.from_},
        "is reached from itself",
        "begin it `from` a stage that a step makes",
        faults,
    )


def _finished(design: Design, faults: Faults) -> None:
    _known(design.finished.is_, _names(design.assemblies), "an assembly", "take out `is`", faults)
    stages = {ORDINARY_STAGE, *(name for assembly in design.assemblies for name, _ in _stage_names(assembly))}
    for wish in design.finished.upright:
        _known(wish.stage, stages, "a stage", "name it with `stage:` on a step", faults)
