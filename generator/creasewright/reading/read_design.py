"""A design file to a Design, every fault told in one run."""

from collections.abc import Iterable
from pathlib import Path, PurePath

from creasewright.reading.check_references import check_references
from creasewright.reading.design import Blank, Design, Material, Measure, Paper, Thing
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields
from creasewright.reading.read_assemblies import read_assemblies
from creasewright.reading.read_blanks import read_blanks
from creasewright.reading.read_file import read_file
from creasewright.reading.read_finished import read_finished, read_known
from creasewright.reading.read_papers import read_materials, read_measures, read_papers, read_things
from creasewright.reading.yaml_nodes import read_nodes

VERSION = "1"
FIRST_LINE = "creasewright: 1"
LEVELS = ("easy", "steady", "exacting")
USUAL_LEVEL = "steady"

Named = Blank | Material | Measure | Paper | Thing


def read_design(path: Path) -> Design:
    """The design in the file; raises ProblemsFound."""
    return read_design_text(read_file(path), str(path))


def read_design_text(text: str, file: str) -> Design:
    """The design that `text` is; `file` names it in messages. Raises ProblemsFound."""
    faults = Faults()
    top = Fields(read_nodes(text, file, faults, FIRST_LINE), "the design", faults)
    _version(top)
    design = _design(top, file)
    check_references(design, faults)
    faults.raise_if_any()
    return design


def _version(top: Fields) -> None:
    """Another version may mean anything by its keys, so nothing more is read of it."""
    version = top.text("creasewright")
    if version is None and not top.has("creasewright"):
        top.faults.note(
            top.where,
            f"the file does not say `{FIRST_LINE}`",
            f"begin it with `{FIRST_LINE}`, the version of the language it is written in",
        )
    elif version is not None and version.text != VERSION:
        raise top.faults.stop(
            version.where,
            f"{shown(version.text)} is not a version of the language that is read here, which is 1",
            f"write `{FIRST_LINE}`",
        )


def _design(top: Fields, file: str) -> Design:
    title = top.need_text("title")
    papers, materials, things = read_papers(top), read_materials(top), read_things(top)
    measures, blanks = read_measures(top), read_blanks(top)
    part_names = _names(blanks, things)
    design = Design(
        file=file,
        name=PurePath(file).stem,
        where=top.where,
        title=title,
        subtitle=top.text("subtitle"),
        about=top.text("about"),
        maker=top.text("maker"),
        version=top.text("version"),
        level=top.word("level", LEVELS, USUAL_LEVEL),
        time=top.whole("time"),
        photo=top.text("photo"),
        papers=papers,
        materials=materials,
        things=things,
        measures=measures,
        blanks=blanks,
        assemblies=read_assemblies(top, part_names, _names(papers, materials, measures)),
        finished=read_finished(top),
        known=read_known(top),
    )
    if not blanks:
        top.faults.note(top.place("blanks"), "the design has no blanks", "add `blanks:` with a name and a shape for each piece")
    top.finish()
    return design


def _names(*groups: Iterable[Named]) -> frozenset[str]:
    return frozenset(item.name for group in groups for item in group)
