"""The cover: its second line on one line where it can be; its picture and the words for it."""

import pytest
from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Item, Shape, Tagged, Words
from creasewright.booklet.length_words import rough_length
from creasewright.booklet.sections import cover
from creasewright.units.ruler import pair_in_words
from section_cases import context_of, every_item, shipped, written


def lines(context: PackContext) -> tuple[list[Words], float]:
    """The words of the second line, and how high heading and second line are."""
    items, height = cover.heading(context, cover.TITLE)
    (second,) = (item for item in items if isinstance(item, Tagged) and item.kind == "P")
    return [words for words in second.items if isinstance(words, Words)], height


def items_of(context: PackContext) -> list[Item]:
    section = cover.build(context)
    assert section is not None
    return list(every_item(item for sheet in section.sheets for item in sheet.items))


def with_subtitle(context: PackContext, subtitle: str) -> PackContext:
    return replace(context, worked=replace(context.worked, design=replace(context.worked.design, subtitle=subtitle)))


def as_wide(context: PackContext, share: float) -> str:
    """Words that at full size are just wider than that share of the measure."""
    style, text = context.layout.types["cover line"], "a"
    while context.text.width(text, style.face, style.size) <= share * context.page.measure:
        text += " a"
    return text


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_a_long_second_line_shrinks_to_stay_on_one(page: str) -> None:
    context = context_of(shipped("seed-swap-folio"), "cover", page)
    style = context.layout.types["cover line"]
    (line,), height = lines(with_subtitle(context, as_wide(context, 1.1)))
    size = max(run.size for run in line.runs)
    assert cover.SHRUNK * style.size <= size < style.size
    assert sum(context.text.width(run.text, run.face, run.size) for run in line.runs) <= context.page.measure
    # half a point more would not fit
    assert sum(context.text.width(run.text, run.face, run.size + 0.5) for run in line.runs) > context.page.measure
    assert height == pytest.approx(lines(with_subtitle(context, "short"))[1])


def test_one_that_is_too_long_for_that_keeps_its_size_and_takes_two_lines() -> None:
    context = context_of(shipped("seed-swap-folio"), "cover")
    words, _ = lines(with_subtitle(context, as_wide(context, 1.02 / cover.SHRUNK)))
    assert len(words) > 1
    assert {run.size for each in words for run in each.runs} == {context.layout.types["cover line"].size}


@pytest.mark.parametrize("page", ["letter", "a4"])
def test_what_is_shown_open_is_shown_untied_under_words_that_stay_true(page: str) -> None:
    context = context_of(shipped("seed-swap-folio"), "cover", page)
    items = items_of(context)
    assert not [item for item in items if isinstance(item, Shape) and item.role == "bow"]
    (alt,) = (item.alt for item in items if isinstance(item, Tagged) and item.kind == "Figure")
    assert written(alt) == "The finished piece, Seed-swap folio, 4 1/8 × 5 1/2 in closed."


@pytest.mark.parametrize("design", ["garden-journal", "season-album"])
@pytest.mark.parametrize(("system", "page"), [("in", "letter"), ("mm", "a4")])
def test_the_size_of_a_thing_with_a_spine_is_that_of_the_closed_one(design: str, system: str, page: str) -> None:
    context = context_of(shipped(design, system), "cover", page)
    finished = context.worked.finished
    assert finished is not None
    items = items_of(context)
    lines = [written("".join(run.text for run in item.runs)) for item in items if isinstance(item, Words)]
    name = lines.index("Closed")
    assert "Finished" not in lines
    assert lines[name + 1] == written(pair_in_words(finished.size[0], finished.size[1], context.worked.ruler))
    assert lines[name + 2].endswith(" thick")
def test_a_thickness_is_told_by_the_nearest_mark_of_the_ruler() -> None:
    # 5/16 in is 7.94 mm, 1/16 in 1.59 mm; what is no farther off than the eye sees is on the mark
    inches, metric = (context_of(shipped("seed-swap-folio", system), "cover") for system in ("in", "mm"))
    assert [rough_length(inches, mm) for mm in (8.3, 7.95, 1.4, 1.2, 0.2)] == [
        "about 5/16 in", "5/16 in", "1/16 in", "under 1/16 in", "under 1/16 in",
    ]  # fmt: skip
    assert [rough_length(metric, mm) for mm in (7.8, 7.4, 0.8, 0.6)] == ["8 mm", "about 7 mm", "1 mm", "under 1 mm"]


@pytest.mark.parametrize(
    ("name", "more"), [("seed-swap-folio", "about 5/16 in thick"), ("seed-packet-envelope", "1/16 in thick, under 1/16 in when empty")]
)
def test_the_cover_tells_its_thickness_by_a_mark(name: str, more: str) -> None:
    fact = cover.closed_fact(context_of(shipped(name), "cover"), has_spine=False)
    assert fact is not None and fact[2] == more
