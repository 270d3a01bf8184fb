"""Text templates to text, in a sandbox; the only importer of jinja2.

A template may fill in values, choose and repeat: `{{ name }}`, `{% if … %}`, `{% for … %}`, comparisons, plus and minus, a few
filters. It cannot call, set, define, include or multiply anything, loops are not nested deeper than two and the text has a
greatest length, so that a stranger's layout costs no more than its length. A name that is not given is a fault.
"""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from jinja2 import StrictUndefined, Template, TemplateSyntaxError, UndefinedError, nodes
from jinja2.exceptions import SecurityError
from jinja2.sandbox import ImmutableSandboxedEnvironment
from msgspec import Struct

from creasewright.nearest_name import did_you_mean
from creasewright.problems import Problem, ProblemsFound, Where

LONGEST_TEMPLATE = 20_000
LONGEST_TEXT = 100_000
DEEPEST_LOOPS = 2
FILTERS = (
    "abs", "capitalize", "default", "first", "int", "join", "last", "length",
    "list", "lower", "reverse", "round", "sort", "sum", "trim", "unique", "upper",
)  # fmt: skip
UNFILLED = (UndefinedError, SecurityError, TypeError, ValueError, ArithmeticError, LookupError, RecursionError)
"""What filling in values can meet."""
ALLOWED = (
    nodes.Template, nodes.Output, nodes.TemplateData, nodes.Const, nodes.Name, nodes.Getattr, nodes.Getitem, nodes.Slice,
    nodes.If, nodes.For, nodes.CondExpr, nodes.Compare, nodes.Operand, nodes.And, nodes.Or, nodes.Not, nodes.Add, nodes.Sub,
    nodes.Neg, nodes.Test, nodes.Filter, nodes.List, nodes.Tuple, nodes.Keyword,
)  # fmt: skip

NAME_ONLY = re.compile(r"\{\{ ([a-z][a-z_]*) \}\}")
"""The plainest thing to fill in: a name."""

WORDS = {
    "Mul": "multiplying",
    "Div": "dividing",
    "Pow": "a power",
    "Mod": "a remainder",
    "Concat": "joining with ~",
    "Assign": "set",
}
"""What a template cannot do, as its writer would say it."""


def render(template_text: str, name: str, values: Mapping[str, object], first_line: int = 1) -> str:
    """The template's text with `values` filled in, without white space at its ends.

    ProblemsFound tells faults at their lines in the file `name`, in which the template begins at `first_line`.
    """
    if len(template_text) <= LONGEST_TEMPLATE:
        plainly = _plainly(template_text, values)
        if plainly is not None:
            return plainly
    compiled = _compiled(template_text, name, first_line)
    _refuse_unknown_names(compiled, values, name, first_line)
    written: list[str] = []
    length = 0
    try:
        for piece in compiled.template.generate(values):
            length += len(piece)
            if length > LONGEST_TEXT:
                raise _fault(name, first_line, f"the text grows past {LONGEST_TEXT:,} letters", "repeat less in it")
            written.append(piece)
    except UNFILLED as error:
        what = f"a value cannot be filled in ({error})"
        raise _fault(name, first_line + _line_of(error) - 1, what, "look at the names in it") from None
    return "".join(written).strip()


def _plainly(template_text: str, values: Mapping[str, object]) -> str | None:
    """The text where it only names values that are words or whole numbers, as most texts do; None for any other."""
    if "{" not in template_text:
        return template_text.strip()
    text, *rest = NAME_ONLY.split(template_text)
    if "{" in text or any("{" in each for each in rest[1::2]):
        return None
    filled = [text]
    length = len(template_text)
    for name, after in zip(rest[::2], rest[1::2], strict=True):
        value = values.get(name)
        if not isinstance(value, (str, int)):
            return None
        filled += str(value), after
        length += len(filled[-2])
    return "".join(filled).strip() if length <= LONGEST_TEXT else None


def _environment() -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(
        undefined=StrictUndefined, autoescape=False, optimized=False, trim_blocks=True, lstrip_blocks=True
    )
    environment.globals.clear()
    environment.filters = {name: environment.filters[name] for name in FILTERS}
    return environment


ENVIRONMENT = _environment()


class _Compiled(Struct, frozen=True):
    template: Template
    names: tuple[tuple[str, int], ...]
    """What it asks for, with the line in the template: every name but those of its own loops."""


@lru_cache(maxsize=512)
def _compiled(text: str, name: str, first_line: int) -> _Compiled:
    if len(text) > LONGEST_TEMPLATE:
        raise _fault(name, first_line, f"the text template holds {len(text):,} letters", f"write {LONGEST_TEMPLATE:,} at most")
    try:
        tree = ENVIRONMENT.parse(text)
        names = _names_asked(tree, name, first_line)
        return _Compiled(Template.from_code(ENVIRONMENT, ENVIRONMENT.compile(tree), ENVIRONMENT.globals), names)
    except TemplateSyntaxError as error:
        hint = "look at the braces and words of {{ … }} and {% … %}"
        raise _fault(
            name, first_line + error.lineno - 1, f"the text template cannot be read here: {error.message}", hint
        ) from None
    except RecursionError:
        raise _fault(name, first_line, "the text template nests brackets too deep", "write it in simpler parts") from None


def _names_asked(tree: nodes.Template, name: str, first_line: int) -> tuple[tuple[str, int], ...]:
    """Refuses what a template cannot do; gives the names it asks for."""
    own = {"loop"}
    asked: list[tuple[str, int]] = []
    for node, loops in _nodes(tree, 0):
        if not isinstance(node, ALLOWED):
            written = WORDS.get(type(node).__name__, type(node).__name__.lower())
            what = f"{written} is not part of a text template"
            raise _fault(name, first_line + node.lineno - 1, what, "fill in, choose with if, repeat with for, add and subtract")
        if loops > DEEPEST_LOOPS:
            what = f"this is loop {loops} inside another"
            raise _fault(name, first_line + node.lineno - 1, what, f"nest {DEEPEST_LOOPS} at most")
        if isinstance(node, nodes.Name):
            if node.ctx == "store":
                own.add(node.name)
            else:
                asked.append((node.name, node.lineno))
    return tuple(each for each in asked if each[0] not in own)


def _nodes(node: nodes.Node, loops: int) -> Iterator[tuple[nodes.Node, int]]:
    """All that a node holds, and how many loops each thing stands in, itself counted."""
    for child in node.iter_child_nodes():
        inner = loops + isinstance(child, nodes.For)
        yield child, inner
        yield from _nodes(child, inner)


def _refuse_unknown_names(compiled: _Compiled, values: Mapping[str, object], name: str, first_line: int) -> None:
    """Names that are neither given nor a loop's own, each with the nearest one that is given."""
    problems = [
        Problem(
            Where(name, first_line + line - 1, 1),
            f"`{asked}` is not a value of this text",
            did_you_mean(asked, values) or "take it out",
        )
        for asked, line in compiled.names
        if asked not in values
    ]
    if problems:
        raise ProblemsFound(problems)


def _line_of(error: BaseException) -> int:
    """The template's line in which the error arose; 1 if that is not known."""
    line, trace = 1, error.__traceback__
    while trace is not None:
        if trace.tb_frame.f_code.co_filename == "<template>":
            line = trace.tb_lineno
        trace = trace.tb_next
    return line


def _fault(name: str, line: int, what: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(Where(name, line, 1), what, hint)])
