"""Text templates: what they can do, and what a stranger's cannot."""

import pytest

from creasewright.booklet.texts import LONGEST_TEMPLATE, render
from creasewright.problems import ProblemsFound

VALUES = {"count": 3, "pieces": ["A", "B"], "size": {"width": "5 in"}, "title": "Folio {{ count }}"}


def fault(template: str, first_line: int = 1) -> str:
    with pytest.raises(ProblemsFound) as caught:
        render(template, "pack.yaml", VALUES, first_line)
    return str(caught.value)


@pytest.mark.parametrize(
    ("template", "text"),
    [
        ("Cut {{ count }} pieces.", "Cut 3 pieces."),
        ("{% if count > 1 %}pieces{% else %}piece{% endif %}", "pieces"),
        ("{% for p in pieces %}**{{ p }}**{{ ', ' if not loop.last }}{% endfor %}", "**A**, **B**"),
        ("{{ size.width }} {{ pieces|join(' and ') }} {{ pieces|length + 1 }}", "5 in A and B 3"),
        ("{{ title }}", "Folio {{ count }}"),
        ("{% if count == 1 %}one{% elif count < 4 %}few{% else %}many{% endif %}", "few"),
        ("{% if 'C' in pieces or not title %}C{% elif 2 < count <= 3 and 'C' not in pieces %}no C{% endif %}", "no C"),
        ("{% for p in pieces if p != 'A' %}{{ loop.index }} of {{ loop.length }}: {{ p }}{% else %}none{% endfor %}", "1 of 1: B"),
        ("{% for p in pieces if p == 'C' %}{{ p }}{% else %}none{% endfor %}", "none"),
        ("{% for p, n in [('A', 2), ('B', 2)] %}{{ loop.previtem[0] if not loop.first }}{{ n }}{{ p }} {% endfor %}", "2A A2B"),
        ("{% for a in pieces %}{% for b in pieces %}{{ b }}{{ loop.index }}{% endfor %}{{ loop.index }} {% endfor %}", "A1B21 A1B22"),
        ("{{ pieces[0] }}{{ pieces[-1:] | first }}{{ -count + 1 }}{{ pieces | join(d='+') }}{{ size['width'] }}", "AB-2A+B5 in"),
        ("{% if count is odd and title is defined %}odd{% endif %}{{ 'x' if count == 2 }}", "odd"),
        ("<b> & “x”", "<b> & “x”"),
    ],
)
def test_a_template_fills_in_chooses_and_repeats(template: str, text: str) -> None:
    assert render(template, "pack.yaml", VALUES) == text


def test_an_unknown_name_is_told_with_its_line_and_the_nearest_name() -> None:
    assert fault("Cut\n{{ coutn }}", 40) == "pack.yaml:41:1: `coutn` is not a value of this text; did you mean `count`?"


def test_all_unknown_names_are_told_in_one_run() -> None:
    assert len(fault("{{ coutn }}\n{{ titel }}").splitlines()) == 2


def test_a_missing_field_is_told_at_its_line() -> None:
    told = fault("x\n\n{{ size.height }}", 10)
    assert told.startswith("pack.yaml:12:1: a value cannot be filled in ('dict object' has no attribute 'height'")


def test_a_loop_s_name_is_unknown_after_the_loop() -> None:
    assert "cannot be filled in ('p' is undefined)" in fault("{% for p in pieces %}{% endfor %}{{ p }}")


def test_an_item_of_a_loop_that_cannot_be_parted_is_told_at_its_line() -> None:
    assert fault("x\n{% for a, b in [count] %}{{ a }}{% endfor %}", 5).startswith("pack.yaml:6:1: a value cannot be filled in")


def test_a_broken_template_is_told_at_its_line() -> None:
    assert fault("x\n{% if count %}", 5).startswith("pack.yaml:6:1: the text template cannot be read here:")


@pytest.mark.parametrize(
    ("template", "word"),
    [
        ("{{ 'x' * 1000000000 }}", "multiplying"),
        ("{{ 9 ** 999999999 }}", "a power"),
        ("{{ '%1000000000d' % 1 }}", "a remainder"),
        ("{% set x = 1 %}", "set"),
        ("{{ title ~ title }}", "joining with ~"),
        ("{{ title.upper() }}", "call"),
        ("{% macro m() %}{% endmacro %}", "macro"),
        ("{% include 'pack.yaml' %}", "include"),
        ("{% import 'x' as y %}", "import"),
        ("{% filter upper %}x{% endfilter %}", "filterblock"),
    ],
)
def test_what_could_grow_or_reach_out_is_refused(template: str, word: str) -> None:
    assert f"{word} is not part of a text template" in fault(template)


@pytest.mark.parametrize("template", ["{{ count.__class__ }}", "{{ pieces.__init__.__globals__ }}", "{{ size['__class__'] }}"])
def test_the_inside_of_values_cannot_be_reached(template: str) -> None:
    assert "cannot be filled in" in fault(template)


def test_loops_do_not_nest_deeper_than_two() -> None:
    deep = "{% for a in pieces %}{% for b in pieces %}{% for c in pieces %}x{% endfor %}{% endfor %}{% endfor %}"
    assert "this is loop 3 inside another" in fault(deep)


def test_filters_that_pad_are_not_there() -> None:
    assert "No filter named 'center'" in fault("{{ title|center(1000000000) }}")
    assert "No test named 'round'" in fault("{{ title is round }}")
    assert "without a star" in fault("{{ title|default(*pieces) }}")


def test_too_long_a_template_and_too_long_a_text_are_refused() -> None:
    assert "holds 20,001 letters" in fault("x" * (LONGEST_TEMPLATE + 1))
    with pytest.raises(ProblemsFound, match="grows past 100,000 letters"):
        render("{% for a in many %}{{ word }}{% endfor %}", "pack.yaml", {"many": list(range(1000)), "word": "y" * 1000})


def test_brackets_nested_too_deep_are_refused() -> None:
    assert "nests brackets too deep" in fault("{{" + "(" * 5000 + "1" + ")" * 5000 + "}}")
