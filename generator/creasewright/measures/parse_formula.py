"""The text of a formula to a tree, with the place of every fault. Nothing is executed, and depth and length are bounded."""

from collections.abc import Callable

from creasewright.measures.formula import (
    FUNCTIONS,
    Binary,
    Call,
    Choice,
    Comparison,
    Formula,
    LengthLiteral,
    Name,
    Negate,
    NumberLiteral,
    Pair,
    Quality,
)
from creasewright.measures.formula_tokens import COMPARE, END, FUNCTION, LITERAL, Token, Tokens
from creasewright.problems import ProblemsFound
from creasewright.reading.design import Text

DEEPEST = 40
"""Brackets, calls and minus signs inside one another."""

_ARGUMENTS = {"min": (1, 20), "max": (1, 20), "up": (1, 2), "down": (1, 2), "near": (1, 2), "if": (3, 3)}
"""Least and most arguments of a function; the others take one."""


def parse_formula(text: Text, names: frozenset[str]) -> Formula:
    """The formula a text holds; `names` are the names it may use. Raises ProblemsFound, with the first fault."""
    parser = _Parser(text, names)
    formula = parser.formula()
    parser.finish()
    return formula


def parse_comparison(text: Text, names: frozenset[str]) -> Comparison:
    """`formula < formula`, with `< <= = >= >`. Raises ProblemsFound, with the first fault."""
    parser = _Parser(text, names)
    comparison = parser.comparison()
    parser.finish()
    return comparison


def systems_in(formula: Formula) -> frozenset[str]:
    """The systems (`in`, `mm`) of the lengths written in a formula, but for those that are pairs."""
    found: set[str] = set()
    waiting: list[Formula] = [formula]
    while waiting:
        node = waiting.pop()
        if isinstance(node, LengthLiteral):
            found.add(node.system)
        elif isinstance(node, Binary):
            waiting += (node.left, node.right)
        elif isinstance(node, Negate):
            waiting.append(node.inner)
        elif isinstance(node, Call):
            waiting += node.arguments
        elif isinstance(node, Choice):
            waiting += (node.condition.left, node.condition.right, node.if_so, node.if_not)
    return frozenset(found)


class _Parser:
    """Recursive descent over the tokens of one formula; one method for each line of the grammar in `formula.py`."""

    def __init__(self, text: Text, names: frozenset[str]) -> None:
        self._reader = Tokens(text, names)
        self._tokens = self._reader.read()
        self._at = 0
        self._depth = 0

    def formula(self) -> Formula:
        self._deeper()
        first_token = self._next
        first = self._sum()
        if self._next.kind == "|":
            stroke = self._take()
            second = self._sum()
            if self._next.kind == "|":
                raise self._fault(self._next, "`|` stands twice", "a pair has two sides: 4 in | 105 mm")
            first = self._pair(first, second, first_token, stroke)
        self._depth -= 1
        return first

    def comparison(self) -> Comparison:
        start = self._next
        left = self.formula()
        sign = self._next
        if sign.kind != COMPARE:
            raise self._fault(sign, f"`{self._since(start)}` compares nothing", "write a comparison such as a <= b")
        self._take()
        right = self.formula()
        return Comparison(self._since(start), self._reader.where(sign.start), sign.text, left, right)

    def finish(self) -> None:
        """Everything must have been read."""
        token = self._next
        if token.kind == END:
            return
        if token.kind == ")":
            raise self._fault(token, "`)` closes a bracket that was not opened", "take it away, or open one before it")
        if token.kind == ",":
            what = "`,` parts what stands in the brackets of a function"
            raise self._fault(token, what, "write a decimal with a point, such as 4.5")
        if token.kind == COMPARE:
            what = f"`{token.text}` compares, where a value is wanted"
            raise self._fault(token, what, "write one formula, or if(a < b, x, y)")
        before = self._tokens[self._at - 1]
        what = f"`{self._text(before, token)}` has nothing between `{before.text}` and `{token.text}`"
        raise self._fault(token, what, "put + - * or / between them")

    def _sum(self) -> Formula:
        return self._chain(("+", "-"), self._term)

    def _term(self) -> Formula:
        return self._chain(("*", "/"), self._factor)

    def _chain(self, signs: tuple[str, ...], part: Callable[[], Formula]) -> Formula:
        start = self._next
        left = part()
        while self._next.kind in signs:
            sign = self._take()
            right = part()
            left = Binary(self._since(start), self._reader.where(sign.start), sign.kind, left, right)
        return left

    def _factor(self) -> Formula:
        token = self._next
        if token.kind != "-":
            return self._atom()
        self._deeper()
        self._take()
        inner = self._factor()
        self._depth -= 1
        return Negate(self._since(token), self._reader.where(token.start), inner)

    def _atom(self) -> Formula:
        token = self._take()
        if token.node is not None and token.kind == LITERAL:
            if self._next.kind == "(" and isinstance(token.node, Name | NumberLiteral | LengthLiteral | Quality):
                raise self._not_a_function(token)
            return token.node
        if token.kind == FUNCTION:
            return self._call(token)
        if token.kind == "(":
            inner = self.formula()
            self._close(token)
            return inner
        raise self._nothing_here(token)

    def _call(self, token: Token) -> Formula:
        if self._next.kind != "(":
            what = f"`{token.text}` is a function and works on something"
            raise self._fault(token, what, f"write {token.text}(…) with brackets")
        bracket = self._take()
        condition = None
        arguments: list[Formula] = []
        if token.text == "if":
            condition = self.comparison()
        elif self._next.kind != ")":
            arguments.append(self.formula())
        while self._next.kind == ",":
            self._take()
            arguments.append(self.formula())
        self._close(bracket)
        self._count(token, len(arguments) + (condition is not None))
        where, text = self._reader.where(token.start), self._since(token)
        if condition is not None:
            return Choice(text, where, condition, arguments[0], arguments[1])
        return Call(text, where, token.text, tuple(arguments))

    def _count(self, token: Token, given: int) -> None:
        least, most = _ARGUMENTS.get(token.text, (1, 1))
        if least <= given <= most:
            return
        wanted = str(least) if least == most else f"{least} to {most}"
        example = {"if": "if(a < b, x, y)", "up": "up(x) or up(x, 1/8 in)"}.get(token.text, f"{token.text}(x)")
        raise self._fault(token, f"`{self._since(token)}` holds {given}, where {token.text} takes {wanted}", f"write {example}")

    def _pair(self, first: Formula, second: Formula, start: Token, stroke: Token) -> Formula:
        text, where = self._since(start), self._reader.where(stroke.start)
        kinds: list[str] = []
        for side in (first, second):
            systems = systems_in(side)
            if not systems:
                raise self._fault(stroke, f"`{text}`: a side of `|` holds no length with a unit", "write it as 4 in | 105 mm")
            if len(systems) > 1:
                what = f"`{text}`: a side of `|` holds both inches and mm"
                raise self._fault(stroke, what, "keep inches on one side, mm on the other")
            kinds.extend(systems)
        if kinds[0] == kinds[1]:
            other = "mm" if kinds[0] == "in" else "in"
            raise self._fault(stroke, f"`{text}` says {kinds[0]} on both sides of `|`", f"write one side in {other}")
        inches, millimetres = (first, second) if kinds[0] == "in" else (second, first)
        return Pair(text, where, inches, millimetres)

    def _close(self, bracket: Token) -> None:
        token = self._next
        if token.kind == ")":
            self._take()
        elif token.kind == END:
            hint = "close it with `)`; inside { } a formula that holds a comma needs quotes round it"
            raise self._fault(bracket, f"`{self._text(bracket, token)}` opens a bracket and does not close it", hint)
        elif token.kind == ",":
            what = "`,` stands in brackets that belong to no function"
            raise self._fault(token, what, "write a decimal with a point, such as 4.5")
        else:
            self.finish()

    def _nothing_here(self, token: Token) -> ProblemsFound:
        hint = "write a number, a length or a name there"
        if token.kind == END and len(self._tokens) == 1:
            what = "nothing is written where a formula should be"
            return self._fault(token, what, "write a length such as 120 mm, or a formula")
        if token.kind == END:
            return self._fault(token, f"`{self._reader.source.strip()}` stops where something should follow", hint)
        if token.kind == "+":
            return self._fault(token, "`+` adds to nothing", "leave it out, or write a number, a length or a name before it")
        return self._fault(token, f"`{token.text}` stands where a number, a length or a name should", hint)

    def _not_a_function(self, token: Token) -> ProblemsFound:
        hint = f"to multiply, write {token.text} * (…); functions are {', '.join(FUNCTIONS)}"
        return self._fault(token, f"`{token.text}` is not a function", hint)

    def _deeper(self) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            what = f"the formula is nested more than {DEEPEST} deep"
            raise self._fault(self._next, what, "give its parts names of their own under `measures`")

    @property
    def _next(self) -> Token:
        return self._tokens[self._at]

    def _take(self) -> Token:
        token = self._tokens[self._at]
        self._at = min(self._at + 1, len(self._tokens) - 1)
        return token

    def _since(self, start: Token) -> str:
        """The text from a token to the last one taken."""
        return self._reader.source[start.start : self._tokens[max(self._at - 1, 0)].end]

    def _text(self, start: Token, end: Token) -> str:
        return self._reader.source[start.start : end.end].rstrip()

    def _fault(self, token: Token, what: str, hint: str) -> ProblemsFound:
        return self._reader.fault(token.start, what, hint)
