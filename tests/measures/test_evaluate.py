import math
import operator
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from creasewright.measures.exact_roots import square_root
from creasewright.problems import ProblemsFound
from creasewright.units.quantity import Quantity, inches, mm, number
from measures.formulas import VALUES, Values, compared, worked


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 mm + 3 mm", mm(15)),
        ("1 1/2 in + 1/4 in", mm(Fraction("44.45"))),  # 1.75 * 25.4; exact below
        ("page width - 2 * flap", mm(25)),  # 105 - 80
        ("flap * tall", Quantity(Fraction(6000), 2)),
        ("flap * tall / page width", mm(Fraction(6000, 105))),
        ("flap / tall", number(Fraction(4, 15))),
        ("leaves * flap / 7", mm(Fraction(240, 7))),
        ("-flap + tall", mm(110)),
        ("min(flap, tall, 45 mm)", mm(40)),
        ("max(leaves, 4)", number(6)),
        ("abs(flap - tall)", mm(110)),
        ("sqrt(flap * flap + 30 mm * 30 mm)", mm(50)),  # 3-4-5 triangle
        ("sqrt(2.25)", number(Fraction(3, 2))),
        ("up(2 * caliper of card)", mm(1)),  # 0.54
        ("down(page width - 0.1 mm)", mm(104)),
        ("near(page width / 4)", mm(26)),  # 26.25
        ("near(page width / 4, 1/8 in | 5 mm)", mm(25)),
        ("up(page width / 4, 1/8 in | 5 mm)", mm(30)),
        ("up(leaves / 4, 1)", number(2)),
        ("if(flap < tall, flap, tall)", mm(40)),
        ("if(leaves = 6, 1 mm, 2 mm)", mm(1)),
        ("bulk at spine of album when closed + 1 mm", mm(8)),
        ("grammage of card / 2", number(108)),
        ("90 + flare", number(95)),
    ],
)
def test_formulas_of_a_metric_pack(text, expected):
    assert worked(text, convert="exact") == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sin(30)", Fraction(1, 2)),
        ("sin(0)", Fraction(0)),
        ("sin(90)", Fraction(1)),
        ("sin(210)", Fraction(-1, 2)),
        ("sin(-30)", Fraction(-1, 2)),
        ("cos(60)", Fraction(1, 2)),
        ("cos(120)", Fraction(-1, 2)),
        ("cos(90)", Fraction(0)),
        ("cos(180)", Fraction(-1)),
        ("tan(45)", Fraction(1)),
        ("tan(135)", Fraction(-1)),
        ("tan(180)", Fraction(0)),
        ("asin(1/2)", Fraction(30)),
        ("acos(1/2)", Fraction(60)),
        ("acos(-1)", Fraction(180)),
        ("atan(1)", Fraction(45)),
        ("atan(-1)", Fraction(-45)),
    ],
)
def test_trigonometry_is_exact_where_it_is_rational(text, expected):
    # Niven's theorem: at rational degrees, sine is rational only at 0, 1/2 and 1 (and their negatives)
    assert worked(text) == number(expected)


@given(st.fractions(min_value=-720, max_value=720, max_denominator=100))
def test_trigonometry_agrees_with_the_standard_library(angle):
    values = Values({"x": number(angle)})
    radians = math.radians(float(angle))
    assert float(worked("sin(x)", values=values).value) == pytest.approx(math.sin(radians), abs=1e-12)
    assert float(worked("cos(x)", values=values).value) == pytest.approx(math.cos(radians), abs=1e-12)
    assert float(worked("sin(x) * sin(x) + cos(x) * cos(x)", values=values).value) == pytest.approx(1, abs=1e-12)
    if abs(math.cos(radians)) > 1e-6:
        assert float(worked("tan(x)", values=values).value) == pytest.approx(math.tan(radians), rel=1e-6, abs=1e-9)


@given(st.fractions(min_value=-1, max_value=1, max_denominator=1000))
def test_inverse_functions_agree_with_the_standard_library(ratio):
    values = Values({"x": number(ratio)})
    assert float(worked("asin(x)", values=values).value) == pytest.approx(math.degrees(math.asin(ratio)), abs=1e-9)
    assert float(worked("acos(x)", values=values).value) == pytest.approx(math.degrees(math.acos(ratio)), abs=1e-9)
    assert float(worked("atan(x)", values=values).value) == pytest.approx(math.degrees(math.atan(ratio)), abs=1e-9)


def test_a_wall_of_a_six_sided_pot_with_flare_5_leans_as_the_pyramid_says():
    # right pyramid: cos(fold) = tan(ends - 90) / tan(180 / n); n = 6 and flare 5 give 81.284 degrees
    assert float(worked("acos(tan(flare) / tan(180 / leaves))").value) == pytest.approx(81.284, abs=5e-4)


# --- roots ----------------------------------------------------------------------------------------------------------------


def test_the_root_of_two_has_thirty_digits():
    # sqrt(2) = 1.41421356237309504880168872420969807856967187537694 (OEIS A002193); the 31st digit is 7, so the 30th goes up
    assert square_root(Fraction(2)) == Fraction("1.41421356237309504880168872421")


@given(st.fractions(min_value=0, max_value=10**12, max_denominator=10**6))
def test_the_root_of_a_square_is_exact(value):
    assert square_root(value * value) == value


@given(st.fractions(min_value=Fraction(1, 10**60), max_value=10**60).filter(lambda value: value > 0))
def test_a_root_is_good_to_thirty_digits(value):
    root = square_root(value)
    half_a_digit = root * Fraction(5, 10**30)
    assert (root - half_a_digit) ** 2 <= value <= (root + half_a_digit) ** 2


def test_a_rounding_sees_through_what_a_root_leaves_behind():
    # 40 mm * sqrt(2) * sqrt(2) is 80 mm, but for the thirtieth digit
    assert worked("up(flap * sqrt(2) * sqrt(2))") == worked("down(flap * sqrt(2) * sqrt(2))") == mm(80)


# --- systems --------------------------------------------------------------------------------------------------------------


def test_a_pair_is_worked_in_the_system_of_the_pack():
    assert worked("4 1/8 in | 105 mm", "in") == inches(Fraction(33, 8))
    assert worked("4 1/8 in | 105 mm", "mm") == mm(105)
    assert worked("2 * (1/8 in | 3 mm)", "mm") == mm(6)


def test_the_ruler_of_the_pack_gives_the_marks():
    assert worked("up(caliper of card)", "in") == inches(Fraction(1, 16))
    assert worked("up(caliper of card)", "mm") == mm(1)


@pytest.mark.parametrize(
    ("text", "system", "expected"),
    [
        ("4 1/8 in", "mm", mm(105)),  # 104.775
        ("5 in", "mm", mm(125)),  # 127
        ("120 mm", "in", inches(Fraction(19, 4))),  # 4.724 in; 4 3/4 = 38/8
        ("12 mm", "in", inches(Fraction(1, 2))),  # 0.472 in
        ("3/8 in", "mm", mm(10)),  # 9.525
        ("1/8 in", "mm", mm(3)),  # 3.175: 5 mm is 57 % more, so the half-millimetre mark
        ("1/16 in", "mm", mm(Fraction(3, 2))),  # 1.5875: 0 or 5 mm are out of the question
        ("1 mm", "in", inches(Fraction(1, 16))),  # 0.039 in
        ("0.5 mm", "in", mm(Fraction(1, 2))),  # 1/16 in is three times as much: kept
        ("0.27 mm", "in", mm(Fraction("0.27"))),
        ("0 mm", "in", mm(0)),
        ("6 in", "in", inches(6)),
        ("1 in", "mm", mm(25)),
    ],
)
def test_a_measure_in_one_system_goes_to_a_round_number_of_the_other(text, system, expected):
    assert worked(text, system) == expected


def test_such_a_rounding_is_noted_and_an_exact_conversion_is_not():
    notes: list[str] = []
    worked("120 mm + 4 1/8 in", "in", note=notes.append)
    assert notes == ["`120 mm` is given in one system only and is taken as 4 3/4 in; write `120 mm | 4 3/4 in` to settle it"]
    notes.clear()
    assert worked("120 mm", "in", convert="exact", note=notes.append) == mm(120)
    assert worked("127 mm", "in", note=notes.append) == inches(5)  # 5 in exactly
    assert notes == []


@given(st.fractions(min_value=0, max_value=1000, max_denominator=64), st.sampled_from(["in", "mm"]))
def test_a_length_never_rounds_to_nothing_nor_beyond_its_double(value, system):
    text = f"{value.numerator}/{value.denominator} {'mm' if system == 'in' else 'in'}"
    exact, rounded = worked(text, system, convert="exact").mm, worked(text, system).mm
    assert exact / 2 <= rounded <= 2 * exact


# --- faults ---------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "what", "hint"),
    [
        ("flap + flap * tall", "`flap + flap * tall` is a length plus an area", "of `flap` and `tall`, make one a plain number"),
        ("flap - 3", "`flap - 3` is a length minus a plain number", "give 3 a unit: 3 mm or 3 in"),
        ("leaves + flap", "`leaves + flap` is a plain number plus a length", "make `flap` a plain number too"),
        ("flap / (leaves - 6)", "`flap / (leaves - 6)` divides by `leaves - 6`, which is 0", "make `leaves - 6` more than 0"),
        ("sqrt(flap)", "`sqrt(flap)` is the root of a length", "take it of a plain number or an area"),
        ("sqrt(-2)", "`sqrt(-2)` is the root of less than nothing", "see that what is subtracted is the smaller"),
        ("sin(flap)", "`sin(flap)` is asked of a length", "sin works on a plain number: an angle in degrees"),
        ("atan(flap)", "`atan(flap)` is asked of a length",
         "atan works on a plain number: a ratio, such as one length divided by another"),
        ("tan(90)", "`tan(90)` is the tangent of a right angle, which has none", "use an angle below 90"),
        ("acos(tall / flap)", "`acos(tall / flap)` is asked of a ratio that is more than 1",
         "divide the shorter length by the longer"),
        ("min(flap, 3)", "`min(flap, 3)` holds a length and a plain number", "give 3 a unit: 3 mm or 3 in"),
        ("up(leaves)", "`up(leaves)` looks for a ruler mark, and is asked of a plain number",
         "write the step too: up(leaves, 1)"),
        ("up(flap, 2)", "`up(flap, 2)` holds a length and a plain number", "give 2 a unit: 2 mm or 2 in"),
        ("up(flap, 0 mm)", "`up(flap, 0 mm)` has a step of nothing or less", "give a step above 0, such as 1/8 in | 5 mm"),
        ("if(flap < 3, 1, 2)", "`flap < 3` compares a length with a plain number", "give 3 a unit: 3 mm or 3 in"),
        ("if(flap < tall, 1, 2 mm)", "`if(flap < tall, 1, 2 mm)` is a plain number or else a length",
         "make both of its results the same kind"),
        ("if(flap < tall, flap, leaves * 2 mm + caliper of card * tall / 3)", None, None),
        ("1 in * 1 in | 5 mm", "`1 in * 1 in | 5 mm` is a length on one side and an area on the other",
         "make both sides the same kind, such as 4 in | 105 mm"),
        ("flap * flap * flap * flap * flap * flap * flap",
         "`flap * flap * flap * flap * flap * flap * flap` is a length to the power 7", "multiply lengths by plain numbers"),
    ],
)  # fmt: skip
def test_a_formula_whose_dimensions_or_values_do_not_hold(text, what, hint):
    if what is None:  # what is not taken, and whose dimension rests on a name, is left alone
        assert worked(text) == mm(40)
        return
    with pytest.raises(ProblemsFound) as caught:
        worked(text)
    assert [(problem.what, problem.hint) for problem in caught.value.problems] == [(what, hint)]


def test_only_the_branch_taken_is_worked_out():
    assert worked("if(leaves = 6, flap, flap / (leaves - 6))") == mm(40)


def test_digits_cannot_pile_up():
    values = Values({"x": number(Fraction(10**400 + 1, 3**700))})
    with pytest.raises(ProblemsFound, match="too long to handle"):
        worked("x * x * x * x * x", values=values)


def test_a_long_chain_is_not_deep():
    assert worked("1" + "+1" * 249) == number(250)


# --- comparisons ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "holds"),
    [
        ("flap < tall", True),
        ("flap <= 40 mm", True),
        ("flap < 40 mm", False),
        ("flap = 40 mm", True),
        ("flap >= 41 mm", False),
        ("flap > 39 mm", True),
        ("flap * sqrt(2) * sqrt(2) = 80 mm", True),
        ("flap * sqrt(2) * sqrt(2) < 80 mm", False),
        ("flap * sqrt(2) * sqrt(2) > 80 mm", False),
    ],
)
def test_comparisons(text, holds):
    assert compared(text)[0] is holds


def test_a_comparison_gives_both_sides():
    assert compared("flap + 1 mm < tall") == (True, mm(41), mm(150))


# --- against plain arithmetic ---------------------------------------------------------------------------------------------

OPERATORS = {"+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv}
NUMBERS = st.integers(0, 50).map(lambda n: (str(n), Fraction(n))) | st.integers(0, 999).map(
    lambda n: (f"{n / 100:.2f}", Fraction(n, 100))
)


def _joined(parts):
    (left, left_value), sign, (right, right_value) = parts
    if left_value is None or right_value is None or (sign == "/" and right_value == 0):
        return f"({left} {sign} {right})", None
    return f"({left} {sign} {right})", OPERATORS[sign](left_value, right_value)


TREES = st.recursive(
    NUMBERS,
    lambda inner: (
        st.tuples(inner, st.sampled_from("+-*/"), inner).map(_joined)
        | inner.map(lambda each: (f"-{each[0]}", None if each[1] is None else -each[1]))
    ),
    max_leaves=12,
).filter(lambda each: len(each[0]) <= 500)


@given(TREES)
def test_random_formulas_agree_with_fractions(tree):
    text, expected = tree
    if expected is None:
        with pytest.raises(ProblemsFound, match="which is 0"):
            worked(text)
    else:
        assert worked(text) == number(expected)


@given(st.lists(st.tuples(st.sampled_from("+-*"), st.integers(0, 99)), max_size=30))
def test_chains_without_brackets_bind_as_in_plain_arithmetic(links):
    text = "7" + "".join(f" {sign} {count}" for sign, count in links)
    assert worked(text) == number(eval(text))


PIECES = ["flap", "leaves", "tall", "1/2", "3mm", "2in", "+", "-", "*", "/", "(", ")", "<", ",", "0", "|", "caliper of card"]
PIECES += ["sqrt(", "up(", "if(", "max(", "tan(", "asin("]


@given(st.lists(st.sampled_from(PIECES), max_size=20))
def test_no_formula_that_parses_raises_anything_but_a_told_problem(words):
    for system in ("in", "mm"):
        try:
            assert isinstance(worked(" ".join(words), system, VALUES).value, Fraction)
        except ProblemsFound as found:
            assert all(problem.what for problem in found.problems)
