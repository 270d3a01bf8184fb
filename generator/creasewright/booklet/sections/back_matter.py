"""The last pages: what to know before beginning, the other sizes this design can have, terms of use, version and maker."""

from fractions import Fraction

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import section_text, text_or_none
from creasewright.booklet.table import Cell, grid_columns, table
from creasewright.booklet.text_blocks import bullet_list, group_head, text_blocks
from creasewright.booklet.typeset import literal
from creasewright.fitting.worked import MeasureValue
from creasewright.problems import WARNS
from creasewright.units.ruler import DOWN, NEAREST, UP, mark_in_words


def build(context: PackContext) -> Section | None:
    """None where the layout and the design give nothing to say."""
    blocks = [*_before_you_begin(context), *_other_sizes(context), *_terms(context), *_imprint(context)]
    section = context.section
    return Section(section.key, section.title, numbered=section.numbered, blocks=tuple(blocks)) if blocks else None


def _before_you_begin(context: PackContext) -> list[Block]:
    """Findings that warn. What blocks stands on the cover."""
    texts = [reader_sentence(finding.what) for finding in context.findings if finding.severity == WARNS]
    if not texts:
        return []
    width = context.page.measure
    head = group_head(section_text(context, "before"), context.layout, width, context.text)
    return [head, *bullet_list(list(dict.fromkeys(texts)), context.layout, width, context.text, "before you begin")]


def reader_sentence(what: str) -> str:
    """A finding's words as a sentence: with a capital, a stop, and without the quotes of a design file."""
    text = literal(" ".join(what.replace("`", "").split()))
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?")) else ".")


# --- other sizes ------------------------------------------------------------------------------------------------------


def open_measures(context: PackContext) -> tuple[MeasureValue, ...]:
    """Those that the design lets vary: a length or number with a lowest or a highest value."""
    return tuple(
        measure
        for measure in context.worked.measures
        if measure.power < 2 and len(measure.values) == 1 and (measure.lowest is not None or measure.highest is not None)
    )


def _other_sizes(context: PackContext) -> list[Block]:
    measures = open_measures(context)
    if not measures:
        return []
    heads = [line.strip() for line in section_text(context, "size heads").split("\n")]
    places = ((0, 3), (3, 1), (4, 2)) if context.page.columns >= 6 else ((0, 2), (2, 1), (3, 1))
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, places, strict=True)])
    rows = [_size_row(context, measure) for measure in measures]
    width = context.page.measure
    return [
        *table(
            "other sizes", (replace(columns[0], names_row=True), *columns[1:]), rows, context.layout, context.text, width,
            section_text(context, "sizes"),
        ),
        *text_blocks(section_text(context, "asking", count=len(rows)), context.layout, width, context.text),
    ]  # fmt: skip


def _size_row(context: PackContext, measure: MeasureValue) -> list[Cell]:
    """The range is said to the marks inside it."""
    low = _said(context, measure, measure.lowest, UP)
    high = _said(context, measure, measure.highest, DOWN)
    name = section_text(context, "size name", name=literal(measure.name), about=literal(measure.about))
    now = _said(context, measure, measure.values[0], NEAREST)
    return [name, f"**{now}**", section_text(context, "range", low=low, high=high)]


def _said(context: PackContext, measure: MeasureValue, value: Fraction | None, rounding: str) -> str:
    if value is None:
        return ""
    return mark_in_words(value, context.worked.ruler, rounding).text if measure.power else f"{float(value):g}"


# --- terms, version, maker --------------------------------------------------------------------------------------------


def _terms(context: PackContext) -> list[Block]:
    design = context.worked.design
    maker = literal(str(design.maker)) if design.maker is not None else ""
    text = text_or_none(context, "terms", maker=maker, title=literal(str(design.title)))
    if not text:
        return []
    width = context.page.measure
    head = group_head(section_text(context, "terms head"), context.layout, width, context.text)
    return [head, *text_blocks(text, context.layout, width, context.text)]


def _imprint(context: PackContext) -> list[Block]:
    design = context.worked.design
    values = {
        "title": literal(str(design.title)),
        "maker": literal(str(design.maker)) if design.maker is not None else "",
        "version": literal(str(design.version)) if design.version is not None else "",
        "page": context.page.name,
        "units": context.system,
    }
    text = text_or_none(context, "imprint", **values)
    if not text:
        return []
    width = context.page.measure
    head = group_head(section_text(context, "imprint head"), context.layout, width, context.text)
    return [head, *text_blocks(text, context.layout, width, context.text)]
