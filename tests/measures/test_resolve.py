from fractions import Fraction

import pytest

from creasewright.measures.evaluate import evaluate
from creasewright.measures.parse_formula import parse_formula
from creasewright.measures.resolve import Graph, Stopped
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading.design import Text
from creasewright.units.quantity import Quantity, mm
from creasewright.units.ruler import MM_RULER


class Measures:
    """Named formulas over one another, each on its own line of a file."""

    def __init__(self, formulas: dict[str, str], qualities: dict[str, str] | None = None) -> None:
        self.graph = Graph()
        self.worked = 0
        written = formulas | (qualities or {})
        self._texts = {
            name: Text(text, Where("folio.yaml", line, 10)) for line, (name, text) in enumerate(written.items(), start=1)
        }
        self._names = frozenset(formulas)

    def name(self, name: str, where: Where, /) -> Quantity:
        text = self._texts[name]
        return self.graph.get(f"measure {name}", lambda: self._work_out(text), text.where, name)

    def quality(self, word: str, of: str, when: str | None, where: Where, /) -> Quantity:
        return self.name(f"{word} of {of}", where)

    def _work_out(self, text: Text) -> Quantity:
        self.worked += 1
        return evaluate(parse_formula(text, self._names), "mm", self, MM_RULER)

    def all(self) -> dict[str, Quantity | None]:
        return {name: self.graph.attempt(lambda name=name: self.name(name, self._texts[name].where)) for name in self._texts}


def test_values_are_worked_out_in_the_order_they_need_one_another_and_once_each():
    measures = Measures({"spine": "2 * block + 1 mm", "block": "leaves * sheet", "sheet": "0.25 mm", "leaves": "8"})
    assert measures.all()["spine"] == mm(5)
    assert measures.worked == 4
    measures.graph.raise_if_any()


def test_only_what_is_asked_for_is_worked_out():
    measures = Measures({"a": "1 mm", "b": "nonsense"})
    assert measures.name("a", Where("")) == mm(1)
    measures.graph.raise_if_any()


def test_a_ring_is_told_once_as_its_path():
    measures = Measures(
        {"edge": "spine + 1 mm", "spine": "2 * bulk of block", "connector": "spine + 3 mm"}, {"bulk of block": "connector / 2"}
    )
    assert measures.all() == {"edge": None, "spine": None, "connector": None, "bulk of block": None}
    what = "spine needs bulk of block, which needs connector, which needs spine"
    expected = Problem(Where("folio.yaml", 2, 10), what, "give spine a size that does not need bulk of block")
    assert measures.graph.problems == (expected,)


def test_a_measure_that_needs_itself():
    measures = Measures({"flap": "flap + 1 mm"})
    measures.all()
    assert [(p.what, p.hint) for p in measures.graph.problems] == [("flap needs flap", "give flap a size of its own")]


def test_a_long_ring_is_told_shortened():
    measures = Measures({f"m{n}": f"m{(n + 1) % 30}" for n in range(30)})
    measures.all()
    (problem,) = measures.graph.problems
    assert problem.what.startswith("m0 needs m1, which needs m2") and problem.what.endswith("which needs …, which needs m0")


def test_two_rings_are_two_problems():
    measures = Measures({"a": "b", "b": "a", "c": "d", "d": "c", "e": "a + c"})
    measures.all()
    assert len(measures.graph.problems) == 2


def test_one_fault_is_told_once_and_the_others_still_are():
    measures = Measures({"a": "1 mm + 2", "b": "a + 1 mm", "c": "b + a", "d": "sqrt(2 mm)", "e": "3 mm"})
    assert {name for name, value in measures.all().items() if value is not None} == {"e"}
    assert [problem.where.line for problem in measures.graph.problems] == [1, 4]
    with pytest.raises(ProblemsFound) as caught:
        measures.graph.raise_if_any()
    assert len(caught.value.problems) == 2


def test_who_needs_a_failed_value_is_stopped_and_adds_nothing():
    measures = Measures({"a": "1 mm + 2"})
    for _ in range(2):
        with pytest.raises(Stopped):
            measures.name("a", Where(""))
    assert measures.worked == 1
    assert len(measures.graph.problems) == 1


def test_a_program_error_is_not_swallowed_and_leaves_the_graph_usable():
    graph = Graph()
    with pytest.raises(ZeroDivisionError):
        graph.get("a", lambda: 1 // 0)
    assert graph.get("a", lambda: 2) == 2


def test_a_chain_may_be_long_but_not_without_end():
    formula = "max(" * 8 + "{}" + ", 1 mm)" * 8
    fine = {f"m{n}": formula.format(f"m{n + 1}") for n in range(199)} | {"m199": "1 mm"}
    assert Measures(fine).all()["m0"] == mm(1)
    endless = {f"m{n}": f"m{n + 1}" for n in range(1000)} | {"m1000": "1 mm"}
    measures = Measures(endless)
    measures.name("m900", Where(""))  # a start near the end works, and shortens what is left
    with pytest.raises(Stopped):
        measures.name("m0", Where(""))
    (problem,) = measures.graph.problems
    assert problem.what == "m200 is needed by m0 through a chain too long to follow (200 one behind another)"


def test_a_chain_of_formulas_nested_as_deep_as_they_may_be_is_told_too():
    formula = "max(" * 39 + "{}" + ", 1 mm)" * 39
    measures = Measures({f"m{n}": formula.format(f"m{n + 1}") for n in range(199)} | {"m199": "1 mm"})
    measures.all()
    assert len(measures.graph.problems) <= 3
    assert all("through a chain too long to follow" in problem.what for problem in measures.graph.problems)


def test_values_of_any_kind_can_be_nodes():
    graph = Graph()
    assert graph.get("state", lambda: ("closed", graph.get("bulk", lambda: Fraction(7, 2)))) == ("closed", Fraction(7, 2))
    assert graph.get("nothing", lambda: None) is None
