"""Every page of every design, both papers, both units: labels keep clear of one another and of lines, and the type keeps its sizes."""

import re
from functools import lru_cache
from pathlib import Path

import pytest

from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.collisions import overlaps
from creasewright.booklet.drawing import Group, Item, Mark, Page, Tagged, Words
from creasewright.checked import Checked, checked
from creasewright.pack import document_of, templates_of
from creasewright.pdf.fonts import FontRuler
from creasewright.places import built_in_designs, shipped
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_words import read_words
from creasewright.reading.settings import MakerSettings, Tools

CASES = [(name, page, units) for name in built_in_designs() for page in ("letter", "a4") for units in ("in", "mm")]
RULER = FontRuler()


@lru_cache(maxsize=8)
def design(name: str, units: str) -> Checked:
    return checked(built_in_designs()[name], units, 1, {}, MakerSettings(), Tools())


@lru_cache(maxsize=4)
def pages(name: str, page: str, units: str) -> tuple[Page, ...]:
    layouts: Path = shipped("layouts")
    layout = read_layout(layouts / "pack.yaml")
    done = design(name, units)
    words = read_words(layouts / layout.words)
    context = PackContext(
        done.worked, done.plans, done.findings, done.tools, layout, layout.sections[0], layout.page(page), RULER, words
    )
    _, tiled = templates_of(context)
    return document_of(context, tiled, lambda words: None)[0].pages


def figures(items: tuple[Item, ...]) -> list[tuple[Item, ...]]:
    """The drawings of a page: the items of every figure."""
    found = []
    for item in items:
        if isinstance(item, Tagged) and item.kind == "Figure":
            found.append(item.items)
        elif isinstance(item, Tagged | Mark | Group):
            found += figures(item.items)
    return found


def words_in(items: tuple[Item, ...]) -> list[Words]:
    found: list[Words] = []
    for item in items:
        if isinstance(item, Words):
            found.append(item)
        elif isinstance(item, Tagged | Mark | Group):
            found += words_in(item.items)
    return found


@pytest.mark.parametrize(("name", "page", "units"), CASES)
def test_no_label_of_a_picture_meets_another_or_a_line(name: str, page: str, units: str) -> None:
    faults = [
        f"{one.label}: {fault}" for one in pages(name, page, units) for picture in figures(one.items) for fault in overlaps(picture, RULER)
    ]
    assert faults == []
    steps = sum(len(assembly.runs) for assembly in design(name, units).worked.assemblies)
    assert sum(len(figures(one.items)) for one in pages(name, page, units)) > steps  # the pictures were found


@pytest.mark.parametrize(("name", "page", "units"), CASES)
def test_nothing_is_set_smaller_than_nine_points_and_measures_are_large(name: str, page: str, units: str) -> None:
    for one in pages(name, page, units):
        for words in words_in(one.items):
            assert min(run.size for run in words.runs) >= 9 or words.role in ("ruler number", "ruler", "check square"), (one.label, words)
        for picture in figures(one.items):
            for words in words_in(picture):
                if words.role == "measure" and one.label and not one.label.startswith("T-"):
                    assert min(run.size for run in words.runs) >= 10.5, (one.label, words)


@pytest.mark.parametrize("name", built_in_designs())
def test_a_metric_pack_holds_no_inch_but_on_its_rulers_and_square(name: str) -> None:
    for one in pages(name, "a4", "mm"):
        for words in words_in(one.items):
            text = "".join(run.text for run in words.runs)
            if re.search(r"[\d\u2044]\s?in\b", text):
                assert "31" in text or words.role.startswith("ruler"), (one.label, text)
