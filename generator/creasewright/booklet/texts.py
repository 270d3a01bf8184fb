"""Text templates to text, in a sandbox; the only importer of jinja2.

A template may fill in values, choose and repeat: `{{ name }}`, `{% if … %}`, `{% for … %}`, comparisons, plus and minus, a few
filters. It cannot call, set, define, include or multiply anything, loops are not nested deeper than two and the text has a
greatest length, so that a stranger's layout costs no more than its length. A name that is not given is a fault.
"""

from collections.abc import Mapping
from functools import lru_cache

from jinja2 import StrictUndefined, Template, TemplateSyntaxError, UndefinedError, nodes
from jinja2.exceptions import SecurityError
from jinja2.sandbox import ImmutableSandboxedEnvironment

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
    if "{" not in template_text and len(template_text) <= LONGEST_TEMPLATE:
        return template_text.strip()
    tree, template = _compiled(template_text, name, first_line)
    _refuse_unknown_names(tree, values, name, first_line)
    written: list[str] = []
    length = 0
    try:
        for piece in template.generate(values):
            length += len(piece)
            if length > LONGEST_TEXT:
                raise _fault(name, first_line, f"the text grows past {LONGEST_TEXT:,} letters", "repeat less in it")
            written.append(piece)
    except UNFILLED as error:
        what = f"a value cannot be filled in ({error})"
        raise _fault(name, first_line + _line_of(error) - 1, what, "look at the names in it") from None
    return "".join(written).strip()


def _environment() -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(undefined=StrictUndefined, autoescape=False, trim_blocks=True, lstrip_blocks=True)
    environment.globals.clear()
    environment.filters = {name: environment.filters[name] for name in FILTERS}
    return environment


ENVIRONMENT = _environment()


@lru_cache(maxsize=512)
def _compiled(text: str, name: str, first_line: int) -> tuple[nodes.Template, Template]:
    if len(text) > LONGEST_TEMPLATE:
        raise _fault(name, first_line, f"the text template holds {len(text):,} letters", f"write {LONGEST_TEMPLATE:,} at most")
    try:
        tree = ENVIRONMENT.parse(text)
        _refuse_others(tree, name, first_line)
        return tree, Template.from_code(ENVIRONMENT, ENVIRONMENT.compile(tree), ENVIRONMENT.globals)
    except TemplateSyntaxError as error:
        hint = "look at the braces and words of {{ … }} and {% … %}"
        raise _fault(
            name, first_line + error.lineno - 1, f"the text template cannot be read here: {error.message}", hint
        ) from None
    except RecursionError:
        raise _fault(name, first_line, "the text template nests brackets too deep", "write it in simpler parts") from None


def _refuse_others(tree: nodes.Template, name: str, first_line: int) -> None:
    """Refuses what a template cannot do."""
    for node in tree.find_all(nodes.Node):
        if not isinstance(node, ALLOWED):
            written = WORDS.get(type(node).__name__, type(node).__name__.lower())
            what = f"{written} is not part of a text template"
            raise _fault(name, first_line + node.lineno - 1, what, "fill in, choose with if, repeat with for, add and subtract")
    _refuse_deep_loops(tree, 0, name, first_line)


def _refuse_deep_loops(node: nodes.Node, depth: int, name: str, first_line: int) -> None:
    for child in node.iter_child_nodes():
        inner = depth + isinstance(child, nodes.For)
        if inner > DEEPEST_LOOPS:
            raise _fault(
                name, first_line + child.lineno - 1, f"this is loop {inner} inside another", f"nest {DEEPEST_LOOPS} at most"
            )
        _refuse_deep_loops(child, inner, name, first_line)


def _refuse_unknown_names(tree: nodes.Template, values: Mapping[str, object], name: str, first_line: int) -> None:
    """Names that are neither given nor a loop's own, each with the nearest one that is given."""
    own = {each.name for each in tree.find_all(nodes.Name) if each.ctx == "store"} | {"loop"}
    problems = [
        Problem(
            Where(name, first_line + each.lineno - 1, 1),
            f"`{each.name}` is not a value of this text",
            did_you_mean(each.name, values) or "take it out",
        )
        for each in tree.find_all(nodes.Name)
        if each.ctx == "load" and each.name not in values and each.name not in own
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
