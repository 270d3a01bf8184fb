"""Text templates to text, in a sandbox; with `text_tree.py` the only importer of jinja2.

A template may fill in values, choose and repeat: `{{ name }}`, `{% if … %}`, `{% for … %}`, comparisons, plus and minus, a few
filters. It cannot call, set, define, include or multiply anything, loops are not nested deeper than two and the text has a
greatest length, so that a stranger's layout costs no more than its length. A name that is not given is a fault.
"""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from jinja2 import TemplateSyntaxError, nodes
from msgspec import Struct

from creasewright.booklet.text_tree import ALLOWED, ENVIRONMENT, CannotFillIn, filled
from creasewright.nearest_name import did_you_mean
from creasewright.problems import Problem, ProblemsFound, Where

LONGEST_TEMPLATE = 20_000
LONGEST_TEXT = 100_000
DEEPEST_LOOPS = 2
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
    parsed = _parsed(template_text, name, first_line)
    _refuse_unknown_names(parsed, values, name, first_line)
    written: list[str] = []
    length = 0
    try:
        for piece in filled(parsed.tree.body, values):
            length += len(piece)
            if length > LONGEST_TEXT:
                raise _fault(name, first_line, f"the text grows past {LONGEST_TEXT:,} letters", "repeat less in it")
            written.append(piece)
    except CannotFillIn as error:
        what = f"a value cannot be filled in ({error})"
        raise _fault(name, first_line + error.line - 1, what, "look at the names in it") from None
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


class _Parsed(Struct, frozen=True):
    tree: nodes.Template
    names: tuple[tuple[str, int], ...]
    """What it asks for, with the line in the template: every name but those of its own loops."""


@lru_cache(maxsize=512)
def _parsed(text: str, name: str, first_line: int) -> _Parsed:
    if len(text) > LONGEST_TEMPLATE:
        raise _fault(name, first_line, f"the text template holds {len(text):,} letters", f"write {LONGEST_TEMPLATE:,} at most")
    try:
        tree = ENVIRONMENT.parse(text)
        return _Parsed(tree, _names_asked(tree, name, first_line))
    except TemplateSyntaxError as error:
        raise _cannot_be_read(name, first_line + error.lineno - 1, str(error.message)) from None
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
        if isinstance(node, (nodes.Filter, nodes.Test)):
            _refuse_unknown(node, name, first_line)
        elif isinstance(node, nodes.Name):
            if node.ctx == "store":
                own.add(node.name)
            else:
                asked.append((node.name, node.lineno))
    return tuple(each for each in asked if each[0] not in own)


def _refuse_unknown(node: nodes.Filter | nodes.Test, name: str, first_line: int) -> None:
    kind, known = ("filter", ENVIRONMENT.filters) if isinstance(node, nodes.Filter) else ("test", ENVIRONMENT.tests)
    if node.name not in known:
        raise _cannot_be_read(name, first_line + node.lineno - 1, f"No {kind} named {node.name!r}.")
    if node.dyn_args or node.dyn_kwargs:
        raise _cannot_be_read(name, first_line + node.lineno - 1, f"values of a {kind} stand by themselves, without a star.")


def _nodes(node: nodes.Node, loops: int) -> Iterator[tuple[nodes.Node, int]]:
    """All that a node holds, and how many loops each thing stands in, itself counted."""
    waiting = [(child, loops) for child in node.iter_child_nodes()][::-1]
    while waiting:
        child, outside = waiting.pop()
        inner = outside + isinstance(child, nodes.For)
        yield child, inner
        waiting += [(grandchild, inner) for grandchild in child.iter_child_nodes()][::-1]


def _refuse_unknown_names(parsed: _Parsed, values: Mapping[str, object], name: str, first_line: int) -> None:
    """Names that are neither given nor a loop's own, each with the nearest one that is given."""
    problems = [
        Problem(
            Where(name, first_line + line - 1, 1),
            f"`{asked}` is not a value of this text",
            did_you_mean(asked, values) or "take it out",
        )
        for asked, line in parsed.names
        if asked not in values
    ]
    if problems:
        raise ProblemsFound(problems)


def _cannot_be_read(name: str, line: int, why: str) -> ProblemsFound:
    return _fault(name, line, f"the text template cannot be read here: {why}", "look at the braces and words of {{ … }} and {% … %}")


def _fault(name: str, line: int, what: str, hint: str) -> ProblemsFound:
    return ProblemsFound([Problem(Where(name, line, 1), what, hint)])
