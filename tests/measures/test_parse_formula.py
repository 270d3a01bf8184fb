from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.measures.formula import Binary, Call, Choice, LengthLiteral, Name, Negate, NumberLiteral, Pair, Quality
from creasewright.measures.parse_formula import parse_comparison, parse_formula
from creasewright.problems import ProblemsFound
from creasewright.units.quantity import Quantity
from creasewright.units.read_length import LengthFault, read_length
from measures.formulas import at

NAMES = frozenset(
    {"flap", "page", "page width", "width", "turn-in", "turn", "up", "max depth", "in front", "a", "b", "2nd flap", "long"}
)


def tree(text: str, names: frozenset[str] = NAMES) -> str:
    """A formula as brackets, to be read at a glance."""
    return shown(parse_formula(at(text), names))


def shown(node) -> str:
    if isinstance(node, NumberLiteral):
        return str(node.value)
    if isinstance(node, LengthLiteral):
        return f"{node.mm}{'i' if node.system == 'in' else 'm'}"
    if isinstance(node, Name):
        return f"<{node.name}>"
    if isinstance(node, Quality):
        return f"<{node.word}: {node.of}{' @ ' + node.when if node.when else ''}>"
    if isinstance(node, Pair):
        return f"[{shown(node.inches)} | {shown(node.millimetres)}]"
    if isinstance(node, Negate):
        return f"-{shown(node.inner)}"
    if isinstance(node, Call):
        return f"{node.function}({', '.join(shown(each) for each in node.arguments)})"
    if isinstance(node, Choice):
        condition = f"{shown(node.condition.left)} {node.condition.operator} {shown(node.condition.right)}"
        return f"if({condition}, {shown(node.if_so)}, {shown(node.if_not)})"
    assert isinstance(node, Binary)
    return f"({shown(node.left)} {node.operator} {shown(node.right)})"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2", "2"),
        ("2.5", "5/2"),
        ("2 1/2 * flap", "(5/2 * <flap>)"),
        ("1/2 * flap", "((1 / 2) * <flap>)"),
        ("½ * flap", "(1/2 * <flap>)"),
        ("120 mm", "120m"),
        ("a + b * 2", "(<a> + (<b> * 2))"),
        ("(a + b) * 2", "((<a> + <b>) * 2)"),
        ("a - b - 2", "((<a> - <b>) - 2)"),
        ("a / b / 2", "((<a> / <b>) / 2)"),
        ("a / b * 2", "((<a> / <b>) * 2)"),
        ("-a * b", "(-<a> * <b>)"),
        ("2 * -a", "(2 * -<a>)"),
        ("a × b ÷ 2 − 1", "(((<a> * <b>) / 2) - 1)"),
        ("long/4", "(<long> / 4)"),
        ("page width/2 in", "(<page width> / 254/5m)".replace("m)", "i)")),
        ("12 mm-3 mm", "(12m - 3m)"),
        ("min(a, b, 3 mm)", "min(<a>, <b>, 3m)"),
        ("sqrt (a)", "sqrt(<a>)"),
        ("if(a <= b, 1, 2)", "if(<a> <= <b>, 1, 2)"),
        ("if(a ≥ b, if(a = b, 1, 2), 3)", "if(<a> >= <b>, if(<a> = <b>, 1, 2), 3)"),
    ],
)
def test_precedence_and_association(text, expected):
    assert tree(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("page width", "<page width>"),
        ("page  width", "<page width>"),
        ("page + width", "(<page> + <width>)"),
        ("turn-in", "<turn-in>"),
        ("turn - page", "(<turn> - <page>)"),
        ("turn -page", "(<turn> - <page>)"),
        ("2-page", "(2 - <page>)"),
        ("max depth + 1", "(<max depth> + 1)"),
        ("max(max depth, a)", "max(<max depth>, <a>)"),
        ("up + up(up)", "(<up> + up(<up>))"),
        ("in front", "<in front>"),
        ("2nd flap * 2", "(<2nd flap> * 2)"),
        ("width * width of page", "(<width> * <width: page>)"),
    ],
)
def test_names_hold_blanks_and_hyphens_and_may_begin_like_a_function(text, expected):
    assert tree(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("caliper of card", "<caliper: card>"),
        ("bulk at spine of folio", "<bulk at spine: folio>"),
        ("bulk at fore edge of folio - a", "(<bulk at fore edge: folio> - <a>)"),
        ("room height of front pocket - a", "(<room height: front pocket> - <a>)"),
        ("width of page of left strip", "<width: page of left strip>"),
        ("length of page/centre of left strip * 2", "(<length: page/centre of left strip> * 2)"),
        ("width of page / 2", "(<width: page> / 2)"),
        ("width of page*2", "(<width: page> * 2)"),
        ("width of turn-in - 3 mm", "(<width: turn-in> - 3m)"),
        ("min(width of leaf 3, a)", "min(<width: leaf 3>, <a>)"),
        ("(bulk of block when closed) * 2", "(<bulk: block @ closed> * 2)"),
        ("bulk of block when half open + a", "(<bulk: block @ half open> + <a>)"),
        ("width of page + height of page", "(<width: page> + <height: page>)"),
    ],
)
def test_a_quality_reaches_to_the_next_sign(text, expected):
    assert tree(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("4 in | 105 mm", "[508/5i | 105m]"),
        ("105 mm | 4 in", "[508/5i | 105m]"),
        ("up(a, 1/8 in | 5 mm)", "up(<a>, [127/40i | 5m])"),
        ("a + (1/8 in | 5 mm)", "(<a> + [127/40i | 5m])"),
        ("a - 1/8 in | a - 3 mm", "[(<a> - 127/40i) | (<a> - 3m)]"),
        ("2 * (1 in | 25 mm) + 3", "((2 * [127/5i | 25m]) + 3)"),
    ],
)
def test_a_pair_holds_inches_and_millimetres_in_either_order(text, expected):
    assert tree(text) == expected


@pytest.mark.parametrize(
    ("text", "column", "what", "hint"),
    [
        ("", 0, "nothing is written where a formula should be", "write a length such as 120 mm, or a formula"),
        ("a + ", 3, "`a +` stops where something should follow", "write a number, a length or a name there"),
        ("a + * b", 4, "`*` stands where a number, a length or a name should", "write a number, a length or a name there"),
        ("a b", 0, "`a b` are two names with nothing between", "put + - * or / after `a`"),
        ("page widht", 0, "`page widht` is not a name known here", "did you mean `page width`?"),
        ("2 * flop", 4, "`flop` is not a name known here", "did you mean `flap`?"),
        ("page-flap", 0, "`page-flap` is not a name known here", "to subtract, put blanks round the minus: page - flap"),
        ("page-2", 0, "`page-2` is not a name known here", "to subtract, put blanks round the minus: page - 2"),
        ("2 flap", 2, "`2 flap` has nothing between `2` and `flap`", "put + - * or / between them"),
        ("2flap", 0, "`2flap` is neither a number nor a name", "write 2 * flap to multiply"),
        ("1.2.3", 0, "`1.2.3` is neither a number nor a name", "write it as 4.75 or 4 3/4"),
        ("1e3 mm", 0, "`1e3` is neither a number nor a name", "write it as 4.75 or 4 3/4"),
        ("a + 3/0 in", 4, "3/0 is not a fraction", "write the lower number as 2, 4, 8 or 16"),
        ("a/3/8 in", 2, "`/3/8 in` can be read in two ways", "write / (3/8 in), or put brackets round what comes before"),
        ("(a + b", 0, "`(a + b` opens a bracket and does not close it",
         "close it with `)`; inside { } a formula that holds a comma needs quotes round it"),
        ("up(a", 2, "`(a` opens a bracket and does not close it",
         "close it with `)`; inside { } a formula that holds a comma needs quotes round it"),
        ("a + b)", 5, "`)` closes a bracket that was not opened", "take it away, or open one before it"),
        ("4,5 mm", 1, "`,` parts what stands in the brackets of a function", "write a decimal with a point, such as 4.5"),
        ("(4,5)", 2, "`,` stands in brackets that belong to no function", "write a decimal with a point, such as 4.5"),
        ("sqrt a", 0, "`sqrt a` is not a name known here",
         "write one of `2nd flap`, `a`, `b`, `flap`, `in front`, `long`, `max depth`, `page` and 5 more"),
        ("sqrt + a", 0, "`sqrt` is a function and works on something", "write sqrt(…) with brackets"),
        ("sqrt(a, b)", 0, "`sqrt(a, b)` holds 2, where sqrt takes 1", "write sqrt(x)"),
        ("sqrt()", 0, "`sqrt()` holds 0, where sqrt takes 1", "write sqrt(x)"),
        ("if(a < b, 1)", 0, "`if(a < b, 1)` holds 2, where if takes 3", "write if(a < b, x, y)"),
        ("if(a, 1, 2)", 4, "`a` compares nothing", "write a comparison such as a <= b"),
        ("a < b", 2, "`<` compares, where a value is wanted", "write one formula, or if(a < b, x, y)"),
        ("a(b)", 0, "`a` is not a function",
         "to multiply, write a * (…); functions are min, max, sqrt, abs, sin, cos, tan, asin, acos, atan, up, down, near, if"),
        ("45°", 2, "`°` means nothing in a formula", "leave it out: an angle is a plain number of degrees"),
        ("a^2", 1, "`^` means nothing in a formula", "multiply instead: a * a"),
        ("+a", 0, "`+` adds to nothing", "leave it out, or write a number, a length or a name before it"),
        ("4 in | 5 in", 5, "`4 in | 5 in` says in on both sides of `|`", "write one side in mm"),
        ("4 in | 5", 5, "`4 in | 5`: a side of `|` holds no length with a unit", "write it as 4 in | 105 mm"),
        ("4 in + 1 mm | 5 mm", 12, "`4 in + 1 mm | 5 mm`: a side of `|` holds both inches and mm",
         "keep inches on one side, mm on the other"),
        ("4 in | 5 mm | 6 mm", 12, "`|` stands twice", "a pair has two sides: 4 in | 105 mm"),
        ("widht of page", 0, "`widht` is not a thing to ask for with `of`", "did you mean `width`?"),
        ("weight of page", 0, "`weight` is not a thing to ask for with `of`", "did you mean `height`?"),
        ("colour of page", 0, "`colour` is not a thing to ask for with `of`",
         "write width, height, length, caliper … before `of`"),
        ("width of ", 0, "`width of` does not say of what", "write the name of a part after `of`"),
        ("width of * 2", 0, "`width of` does not say of what", "write the name of a part after `of`"),
        ("width of page/2", 0, "`page/2` reads as the name of a score", "to divide, put blanks round the stroke: / 2"),
        ("width of page -2 mm", 14, "`-` has a blank on one side only",
         "to subtract, put a blank on both sides of `-`; inside a name, none"),
        ("width of page/ centre", 13, "`/` has a blank on one side only",
         "to divide, put a blank on both sides of `/`; inside a name, none"),
        ("width of page? + 2", 0, "`page?` is not the name of a part", "write words of letters and digits, parted by blanks"),
    ],
)  # fmt: skip
def test_a_formula_that_cannot_be_read(text, column, what, hint):
    with pytest.raises(ProblemsFound) as caught:
        parse_formula(at(text, line=7, column=12), NAMES)
    (problem,) = caught.value.problems
    assert (problem.what, problem.hint) == (what, hint)
    assert (problem.where.file, problem.where.line, problem.where.column) == ("folio.yaml", 7, 12 + column)


def test_the_place_of_an_operator_is_kept_and_that_of_a_text_of_several_lines_is_its_start():
    formula = parse_formula(at("page width * flap", line=3, column=10), NAMES)
    assert isinstance(formula, Binary)
    assert (formula.where.column, formula.left.where.column, formula.right.where.column) == (10 + 11, 10, 10 + 13)
    folded = parse_formula(at("page width\n* flap", line=3, column=10), NAMES)
    assert (folded.where.line, folded.where.column) == (3, 10)


def test_a_formula_is_bounded_in_length_and_depth():
    with pytest.raises(ProblemsFound, match="has 501 characters, more than the 500"):
        parse_formula(at("1" + "+1" * 250), NAMES)
    for text in ("(" * 41 + "1" + ")" * 41, "-" * 41 + "1", "abs(" * 41 + "1" + ")" * 41):
        with pytest.raises(ProblemsFound, match="nested more than 40 deep"):
            parse_formula(at(text), NAMES)
    parse_formula(at("(" * 39 + "1" + ")" * 39), NAMES)


def test_a_comparison_has_two_sides():
    comparison = parse_comparison(at("a + 1 mm >= bulk of block when closed - 1 in | 25 mm"), NAMES)
    assert comparison.operator == ">="
    assert shown(comparison.left) == "(<a> + 1m)"
    with pytest.raises(ProblemsFound, match="compares nothing"):
        parse_comparison(at("a + b"), NAMES)
    with pytest.raises(ProblemsFound, match="compares, where a value is wanted"):
        parse_comparison(at("a < b < 3"), NAMES)


@pytest.mark.parametrize(
    ("written", "sign"), [("<", "<"), ("<=", "<="), ("≤", "<="), ("=", "="), ("==", "="), ("≥", ">="), (">", ">")]
)
def test_spellings_of_a_comparison(written, sign):
    assert parse_comparison(at(f"a {written} b"), NAMES).operator == sign
    assert parse_comparison(at(f"a{written}b"), NAMES).operator == sign


def test_names_are_needed_for_names_only():
    with pytest.raises(ProblemsFound) as caught:
        parse_formula(at("flap"), frozenset())
    assert [(p.what, p.hint) for p in caught.value.problems] == [("`flap` is not a name known here", "")]


WORDS = ["a", "b", "page width", "turn-in", "width of", "caliper of card", "when", "of", "min", "up", "if", "(", ")", ",", "|",
         "+", "-", "*", "/", "<", "<=", "=", "4", "3/8",
         "1/0", "4 in", "3 mm", "¾\"", ".", " ", "  ", "\n", "²", "-", "page/flap"]  # fmt: skip


@given(
    st.lists(st.sampled_from(WORDS), max_size=25).map("".join)
    | st.lists(st.sampled_from(WORDS), max_size=25).map(" ".join)
    | st.text(max_size=600)
)
def test_no_text_raises_anything_but_a_told_problem(text):
    for parse in (parse_formula, parse_comparison):
        try:
            parse(at(text, line=1, column=1), NAMES)
        except ProblemsFound as found:
            assert all(problem.what for problem in found.problems)


@given(st.text(alphabet='0123456789 ./-¾⅜inmc"', max_size=20))
def test_whatever_is_a_length_is_the_same_length_as_a_formula(text):
    try:
        length = read_length(text)
    except LengthFault:
        return
    literal = parse_formula(at(text), NAMES)
    assert isinstance(literal, LengthLiteral)
    assert Quantity(Fraction(literal.mm), 1) == length
