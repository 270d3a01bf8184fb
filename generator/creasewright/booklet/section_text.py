"""Text templates of a section, filled in by name."""

from collections.abc import Mapping

from creasewright.booklet.context import PackContext
from creasewright.booklet.texts import render
from creasewright.problems import Problem, ProblemsFound


def section_text(context: PackContext, name: str, /, **values: object) -> str:
    """The text `name` of the section in the layout, with values filled in. ProblemsFound where the layout has no such text."""
    template = context.section.text(name)
    if template is None:
        section = context.section
        hint = f"add it under `texts:` of `{section.key}`"
        raise ProblemsFound([Problem(section.where, f"section `{section.key}` has no text `{name}`", hint)])
    return render(template.text, template.where.file, values, template.where.line)


def text_or_none(context: PackContext, name: str, /, **values: object) -> str:
    """The same; empty where the layout leaves the text out."""
    return section_text(context, name, **values) if context.section.text(name) is not None else ""


def sentence(context: PackContext, name: str, values: Mapping[str, object] | None = None) -> str:
    """The text on one line, or nothing; names of values may be words with blanks, which templates write with underscores."""
    filled = {key.replace(" ", "_"): value for key, value in (values or {}).items()}
    return " ".join(text_or_none(context, name, **filled).split())
