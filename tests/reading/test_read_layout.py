"""The layout file: read whole, its faults told at once; the shipped one is sound."""

import re
from pathlib import Path

import pytest

from creasewright.problems import ProblemsFound
from creasewright.reading.layout_names import COLOURS, LINES, SECTIONS, TYPES
from creasewright.reading.page_layout import PageLayout
from creasewright.reading.read_layout import layout_from_text, read_layout

PACK = Path(__file__).parents[2] / "layouts" / "pack.yaml"
TEXT = PACK.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def layout() -> PageLayout:
    return read_layout(PACK)


def faults(text: str) -> list[str]:
    with pytest.raises(ProblemsFound) as caught:
        layout_from_text(text, "pack.yaml")
    return [str(problem) for problem in caught.value.problems]


def changed(old: str, new: str) -> str:
    assert TEXT.count(old) == 1, old
    return TEXT.replace(old, new)


def test_the_shipped_layout_fills_every_name(layout: PageLayout) -> None:
    assert set(TYPES) <= set(layout.types)
    assert set(COLOURS) <= set(layout.palette)
    assert set(LINES) <= set(layout.lines)
    assert tuple(section.key for section in layout.sections) == SECTIONS


@pytest.mark.parametrize(
    ("name", "width", "height", "column"),
    [
        # letter 8 1/2 x 11 in (ANSI/ASME Y14.1); A4 210 x 297, A5 148 x 210 (ISO 216); half letter 5 1/2 x 8 1/2 in
        # columns: (width - binding - outer - gutters) / columns, (215.9 - 34 - 25) / 6 = 26.15 …
        ("letter", 8.5 * 25.4, 11 * 25.4, 26.15),
        ("a4", 210, 297, 25.17),
        ("half letter", 5.5 * 25.4, 8.5 * 25.4, 25.93),
        ("a5", 148, 210, 28.00),
    ],
)
def test_pages_have_their_sizes_and_columns(layout: PageLayout, name: str, width: float, height: float, column: float) -> None:
    page = layout.page(name)
    assert (page.width, page.height) == pytest.approx((width, height))
    assert page.column_width == pytest.approx(column, abs=0.006)
    assert page.column_left(page.columns - 1) + page.column_width == pytest.approx(page.measure)
    assert page.span(page.columns) == pytest.approx(page.measure)


def test_sections_are_numbered_as_the_pack_is(layout: PageLayout) -> None:
    assert {section.key: section.numbered for section in layout.sections if section.numbered != "pages"} == {
        "cover": "none",
        "templates": "T-",
    }


def test_a_text_template_knows_the_line_it_stands_in(layout: PageLayout) -> None:
    (section,) = [section for section in layout.sections if section.key == "print it true"]
    template = section.text("scale")
    assert template is not None
    assert TEXT.splitlines()[template.where.line - 1].strip() == template.text.splitlines()[0]


def test_a_section_may_be_switched_off() -> None:
    layout = layout_from_text(changed("title: What it takes\n", "title: What it takes\n    on: no\n"), "pack.yaml")
    assert "materials" in [section.key for section in layout.sections]
    assert "materials" not in [section.key for section in layout.sections_on]


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ('INK2: "#4A545B"', "INK2: grey", "`grey` for `INK2` is not a colour; write # and six digits"),
        ("size: 21, leading: 26", "size: 7, leading: 26", "7 for `size` is not between 9 and 144 pt; write a number between"),
        ("size: 21, leading: 26", "size: 21, leading: 20", "lines 20 pt apart of 21 pt type overlap; write a leading above"),
        ("face: Black, size: 21", "face: Blak, size: 21", "`Blak` for `face` is not Regular, Italic, Bold, BoldItalic or Black"),
        ("  foot: 11.2", "  foot: 5", "5 for `foot` is not between 7.2 and 100 mm"),
        ("  foot: 11.2", "  foot: 11 mm", "`11 mm` for `foot` is not a plain number of mm; write it as in `foot: 7.2`"),
        ("  foot: 11.2", "  fot: 11.2", "`fot` is not a key of the furniture"),
        ("  foot: 11.2", "  foot: -5", "`-5` for `foot` is not a plain number of mm"),
        ("  glue: {width: 0.6, colour: ACC}", "  glue: {width: 0.6, colour: AC}", "`AC` for `colour` is not in the palette"),
        ("dash: [5.2, 2.6]", "dash: [5.2]", "`dash` of 1 numbers does not end in a gap; write dash and gap in turn, in pairs"),
        ("section: cut list", "section: cutlist", "`cutlist` is not a section; did you mean `cut list`?"),
        ("section: cut list", "section: cover", "section `cover` is listed twice; keep one of the two"),
        ("title: What it takes\n", "title: What it takes\n    on: maybe\n", "`maybe` for `on` is not yes or no"),
        ("content to: 262", "content to: 275", "the content of page `letter` runs from 36 to 275 of 279.4 mm; leave 40 mm"),
    ],
)
def test_a_fault_is_told_at_its_line_with_what_to_do(old: str, new: str, what: str) -> None:
    text = changed(old, new)
    line = next(
        k for k, (row, before) in enumerate(zip(text.splitlines(), TEXT.splitlines(), strict=True), start=1) if row != before
    )
    found = faults(text)
    assert any(re.fullmatch(rf"pack\.yaml:{line}:\d+: {re.escape(what)}.*", fault) for fault in found), found


def test_several_faults_are_told_in_one_run() -> None:
    text = (
        changed("  foot: 11.2", "  foot: 5")
        .replace("size: 21, leading: 26", "size: 7, leading: 26")
        .replace("layout: pack", "lay: pack")
    )
    assert len(faults(text)) == 4  # two numbers, `lay` unknown, `layout` missing


def test_an_empty_layout_lacks_every_part() -> None:
    assert [fault.split(" has no ")[1].split(";")[0] for fault in faults("layout: x")] == [
        "`furniture`", "`lines`", "`pages`", "`palette`", "`sections`", "`type`",
    ]  # fmt: skip
