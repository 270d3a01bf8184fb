"""A text template's tree filled in as it stands; with `texts.py` the only importer of jinja2.

The library reads a template to its tree, and its sandbox answers for filters, tests and the fields of values. It could also make the
tree into a program and run that; but most texts of a pack are set once or twice, and making the program takes longer than walking
the tree a hundred times. Walked, a template can do no more than what is written here.
"""

import operator
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from jinja2 import StrictUndefined, Undefined, UndefinedError, nodes
from jinja2.exceptions import SecurityError
from jinja2.runtime import LoopContext
from jinja2.sandbox import ImmutableSandboxedEnvironment

Values = Mapping[str, object]

FILTERS = (
    "abs", "capitalize", "default", "first", "int", "join", "last", "length",
    "list", "lower", "reverse", "round", "sort", "sum", "trim", "unique", "upper",
)  # fmt: skip
UNFILLED = (UndefinedError, SecurityError, TypeError, ValueError, ArithmeticError, LookupError, RecursionError)
"""What filling in values can meet."""


class CannotFillIn(Exception):
    """A value cannot be filled in; says why."""

    def __init__(self, line: int, why: BaseException) -> None:
        super().__init__(str(why))
        self.line = line
        """Of the template, from 1."""


def _environment() -> ImmutableSandboxedEnvironment:
    environment = ImmutableSandboxedEnvironment(
        undefined=StrictUndefined, autoescape=False, optimized=False, trim_blocks=True, lstrip_blocks=True
    )
    environment.globals.clear()
    environment.filters = {name: environment.filters[name] for name in FILTERS}
    return environment


ENVIRONMENT = _environment()


def filled(body: Iterable[nodes.Node], values: Values) -> Iterator[str]:
    """The text piece by piece. Raises CannotFillIn; `body` holds nothing but nodes of `ALLOWED`."""
    for node in body:
        if isinstance(node, nodes.TemplateData):
            yield node.data
        elif isinstance(node, nodes.Output):
            yield from filled(node.nodes, values)
        elif isinstance(node, nodes.If):
            yield from filled(_chosen(node, values), values)
        elif isinstance(node, nodes.For):
            yield from _repeated(node, values)
        else:
            yield _at_its_line(node, values, str)


def _at_its_line(node: nodes.Node, values: Values, use: Callable[[Any], Any]) -> Any:
    """What `use` makes of the node's value."""
    try:
        return use(_value(node, values))
    except UNFILLED as why:
        raise CannotFillIn(node.lineno, why) from None


def _chosen(node: nodes.If, values: Values) -> list[nodes.Node]:
    for each in (node, *node.elif_):
        if _at_its_line(each.test, values, bool):
            return each.body
    return node.else_


def _repeated(node: nodes.For, values: Values) -> Iterator[str]:
    items = _at_its_line(node.iter, values, list)
    if node.test is not None:
        items = [item for item in items if _at_its_line(node.test, {**values, **_named(node.target, item)}, bool)]
    for item, loop in LoopContext(items, ENVIRONMENT.undefined, None):
        yield from filled(node.body, {**values, **_named(node.target, item), "loop": loop})
    if not items:
        yield from filled(node.else_, values)


def _named(target: nodes.Node, item: Any) -> dict[str, object]:
    """A loop's own names for one item."""
    if isinstance(target, nodes.Name):
        return {target.name: item}
    assert isinstance(target, nodes.Tuple)
    try:
        pairs = list(zip(target.items, item, strict=True))
    except (TypeError, ValueError) as why:
        raise CannotFillIn(target.lineno, why) from None
    return {name: part for each, value in pairs for name, part in _named(each, value).items()}


def _value(node: nodes.Node, values: Values) -> Any:
    return EVALUATED[type(node)](node, values)


def _name(node: nodes.Name, values: Values) -> Any:
    return values[node.name] if node.name in values else ENVIRONMENT.undefined(name=node.name)


def _slice(node: nodes.Slice, values: Values) -> slice:
    return slice(*(None if end is None else _value(end, values) for end in (node.start, node.stop, node.step)))


def _choice(node: nodes.CondExpr, values: Values) -> Any:
    if _value(node.test, values):
        return _value(node.expr1, values)
    return Undefined() if node.expr2 is None else _value(node.expr2, values)


def _compared(node: nodes.Compare, values: Values) -> Any:
    left, result = _value(node.expr, values), True
    for operand in node.ops:
        right = _value(operand.expr, values)
        result = COMPARED[operand.op](left, right)
        if not result:
            break
        left = right
    return result


def _asked(call: Callable[..., Any]) -> Callable[[Any, Values], Any]:
    """A filter or test of the sandbox."""

    def answer(node: nodes.Filter | nodes.Test, values: Values) -> Any:
        given = [_value(each, values) for each in node.args]
        by_name = {each.key: _value(each.value, values) for each in node.kwargs}
        assert node.node is not None  # only a filter block has none, and those are refused before
        return call(node.name, _value(node.node, values), given, by_name)

    return answer


COMPARED: dict[str, Callable[[Any, Any], Any]] = {
    "eq": operator.eq,
    "ne": operator.ne,
    "gt": operator.gt,
    "gteq": operator.ge,
    "lt": operator.lt,
    "lteq": operator.le,
    "in": lambda one, many: one in many,
    "notin": lambda one, many: one not in many,
}
EVALUATED: dict[type[nodes.Node], Callable[[Any, Values], Any]] = {
    nodes.Const: lambda node, values: node.value,
    nodes.TemplateData: lambda node, values: node.data,
    nodes.Name: _name,
    nodes.Getattr: lambda node, values: ENVIRONMENT.getattr(_value(node.node, values), node.attr),
    nodes.Getitem: lambda node, values: ENVIRONMENT.getitem(_value(node.node, values), _value(node.arg, values)),
    nodes.Slice: _slice,
    nodes.CondExpr: _choice,
    nodes.Compare: _compared,
    nodes.And: lambda node, values: _value(node.left, values) and _value(node.right, values),
    nodes.Or: lambda node, values: _value(node.left, values) or _value(node.right, values),
    nodes.Not: lambda node, values: not _value(node.node, values),
    nodes.Add: lambda node, values: _value(node.left, values) + _value(node.right, values),
    nodes.Sub: lambda node, values: _value(node.left, values) - _value(node.right, values),
    nodes.Neg: lambda node, values: -_value(node.node, values),
    nodes.Filter: _asked(ENVIRONMENT.call_filter),
    nodes.Test: _asked(ENVIRONMENT.call_test),
    nodes.List: lambda node, values: [_value(each, values) for each in node.items],
    nodes.Tuple: lambda node, values: tuple(_value(each, values) for each in node.items),
}
"""Each kind of expression with what it is worth."""

ALLOWED: tuple[type[nodes.Node], ...] = (nodes.Template, nodes.Output, nodes.If, nodes.For, nodes.Operand, nodes.Keyword, *EVALUATED)
"""What a template may hold."""
