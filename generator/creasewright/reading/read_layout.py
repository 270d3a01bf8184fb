"""A layout file to a PageLayout; all faults in one run.

    layout: name of the look
    language: en-US
    words: words.yaml                       (left out: the design's own words)
    pages:      letter: {width: 215.9, height: 279.4, binding: 20, outer: 14, content from: 36, content to: 262,
                         columns: 6, gutter: 5}
    furniture:  running head: 14 …          mm, see `page_layout.Furniture`
    palette:    INK: "#1F262B" …
    type:       section head: {face: Black, size: 21, leading: 25, colour: INK, italic: Italic}        pt
    lines:      valley score: {width: 0.85, dash: [5.2, 2.6], cap: butt, colour: INK}                  pt
    sections:   - {section: cover, title: Cover, on: yes, numbered: none, words: …, texts: {lead: …}}

Plain numbers are mm, or pt for type and lines. What a layout has to hold is listed in `layout_names.py`.
"""

from collections.abc import Iterable
from pathlib import Path

from creasewright.reading.faults import Faults, any_of, shown
from creasewright.reading.fields import Fields, as_mapping, fields_of, meant
from creasewright.reading.layout_fields import colour_name, colour_value, number, numbers, template, whole
from creasewright.reading.layout_names import COLOURS, LINES, SECTIONS, TYPES
from creasewright.reading.nodes import Mapping, Node, Scalar
from creasewright.reading.page_layout import Furniture, LineStyle, PageLayout, PageSize, SectionLayout, Template, TypeStyle
from creasewright.reading.read_file import read_file
from creasewright.reading.yaml_nodes import read_nodes

FACES = ("Regular", "Italic", "Bold", "BoldItalic", "Black")
UNPRINTED = 7.2
"""mm; home printers leave up to 6.7 mm white at every edge. Common practice, no source."""
SMALLEST_TYPE = 9.0
"""pt; nothing smaller is printed, but the digits of a fraction."""
MOST_SECTIONS = 40


def read_layout(path: Path) -> PageLayout:
    """The layout in the file. ProblemsFound names every fault."""
    return layout_from_text(read_file(path), str(path))


def layout_from_text(text: str, file: str) -> PageLayout:
    """The layout that the text of `file` describes."""
    faults = Faults()
    fields = Fields(read_nodes(text, file, faults, "layout: name"), "the layout", faults)
    name = fields.need_text("layout", "pack")
    language, words = fields.text("language"), fields.text("words")
    palette = _palette(fields)
    layout = PageLayout(
        name=name.text,
        where=name.where,
        language=language.text if language else "en",
        words=words.text if words else "",
        pages=_pages(fields),
        furniture=_furniture(fields),
        types=_types(fields, palette),
        palette=palette,
        lines=_lines(fields, palette),
        sections=_sections(fields),
    )
    fields.finish()
    faults.raise_if_any()
    return layout


def _palette(fields: Fields) -> dict[str, str]:
    mapping = _part(fields, "palette")
    inner = Fields(mapping, "the palette", fields.faults)
    palette: dict[str, str] = {}
    for key, _ in mapping.entries:
        if text := inner.text(key.text):
            palette[key.text] = colour_value(text.text, key.text, text.where, fields.faults)
    _want_all(fields, "palette", palette, COLOURS, '"#1F262B"')
    return palette


def _pages(fields: Fields) -> tuple[PageSize, ...]:
    pages = tuple(_page(key, node, fields.faults) for key, node in _part(fields, "pages").entries)
    if not pages and fields.has("pages"):
        fields.faults.note(fields.place("pages"), "`pages` holds no page size", "add one, as in `letter: {width: 215.9, …}`")
    return pages


def _page(key: Scalar, node: Node, faults: Faults) -> PageSize:
    fields = fields_of(node, f"page `{key.text}`", faults, key.where)
    page = PageSize(
        name=key.text,
        width=number(fields, "width", 90, 1000, "mm"),
        height=number(fields, "height", 120, 1500, "mm"),
        binding=number(fields, "binding", UNPRINTED, 100, "mm"),
        outer=number(fields, "outer", UNPRINTED, 100, "mm"),
        content_from=number(fields, "content from", UNPRINTED, 1500, "mm"),
        content_to=number(fields, "content to", UNPRINTED, 1500, "mm"),
        columns=whole(fields, "columns", 1, 24),
        gutter=number(fields, "gutter", 0, 50, "mm"),
    )
    fields.finish()
    if not fields.unread and page.column_width < 5:
        what = f"a column of page `{key.text}` is {page.column_width:.1f} mm wide"
        faults.note(key.where, what, "take fewer columns, or smaller margins")
    if not fields.unread and not page.content_from + 40 <= page.content_to <= page.height - UNPRINTED:
        what = f"the content of page `{key.text}` runs from {page.content_from:g} to {page.content_to:g} of {page.height:g} mm"
        faults.note(key.where, what, f"leave 40 mm for it, and {UNPRINTED} mm at the tail")
    return page


def _furniture(fields: Fields) -> Furniture:
    inner = Fields(_part(fields, "furniture"), "the furniture", fields.faults)
    inner.unread = not fields.has("furniture")
    inset = UNPRINTED
    furniture = Furniture(
        running_head=number(inner, "running head", inset, 100, "mm"),
        section_head=number(inner, "section head", inset, 200, "mm"),
        section_indent=number(inner, "section indent", 0, 100, "mm"),
        strip_from=number(inner, "strip from", inset, 200, "mm"),
        strip_drop=number(inner, "strip drop", 0, 100, "mm"),
        strip_width=number(inner, "strip width", 0, 50, "mm"),
        strip_run=number(inner, "strip run", 0, 100, "mm"),
        foot=number(inner, "foot", inset, 100, "mm"),
        dash_gap=number(inner, "dash gap", 0, 20, "mm"),
        dash_short=number(inner, "dash short", 0, 100, "mm"),
        dash=number(inner, "dash", 0.1, 20, "pt"),
        dash_here=number(inner, "dash here", 0.1, 20, "pt"),
    )
    inner.finish()
    return furniture


def _types(fields: Fields, palette: dict[str, str]) -> dict[str, TypeStyle]:
    types = {key.text: _type(key, node, palette, fields.faults) for key, node in _part(fields, "type").entries}
    _want_all(fields, "type", types, TYPES, "{face: Regular, size: 10.5, leading: 14}")
    return types


def _type(key: Scalar, node: Node, palette: dict[str, str], faults: Faults) -> TypeStyle:
    fields = fields_of(node, f"type `{key.text}`", faults, key.where)
    size = number(fields, "size", SMALLEST_TYPE, 144, "pt")
    style = TypeStyle(
        face=fields.word("face", FACES, "Regular"),
        size=size,
        leading=number(fields, "leading", SMALLEST_TYPE, 288, "pt", default=round(size * 4 / 3, 2)),
        colour=colour_name(fields, "colour", palette),
        italic=fields.word("italic", ("Italic", "Regular"), "Italic"),
    )
    fields.finish()
    if style.leading < style.size:
        what = f"lines {style.leading:g} pt apart of {style.size:g} pt type overlap"
        faults.note(fields.place("leading"), what, "write a leading above the size")
    return style


def _lines(fields: Fields, palette: dict[str, str]) -> dict[str, LineStyle]:
    lines = {key.text: _line(key, node, palette, fields.faults) for key, node in _part(fields, "lines").entries}
    _want_all(fields, "lines", lines, LINES, "{width: 0.65}")
    return lines


def _line(key: Scalar, node: Node, palette: dict[str, str], faults: Faults) -> LineStyle:
    fields = fields_of(node, f"line `{key.text}`", faults, key.where)
    line = LineStyle(
        colour=colour_name(fields, "colour", palette),
        width=number(fields, "width", 0.1, 20, "pt"),
        dash=numbers(fields, "dash", 0, 100, "pt", count=12),
        cap=fields.word("cap", ("round", "butt"), "round"),
    )
    fields.finish()
    if line.dash and (len(line.dash) % 2 or not any(line.dash)):
        what = f"`dash` of {len(line.dash)} numbers does not end in a gap"
        faults.note(fields.place("dash"), what, "write dash and gap in turn, in pairs")
    return line


def _sections(fields: Fields) -> tuple[SectionLayout, ...]:
    if not fields.has("sections"):
        fields.missing("sections", "[…]")
    nodes = fields.items("sections")
    if len(nodes) > MOST_SECTIONS:
        fields.faults.note(fields.place("sections"), f"`sections` lists {len(nodes)}", f"list {MOST_SECTIONS} at most")
    sections = tuple(_section(node, fields.faults) for node in nodes[:MOST_SECTIONS])
    seen: set[str] = set()
    for section in sections:
        if section.key in seen:
            fields.faults.note(section.where, f"section `{section.key}` is listed twice", "keep one of the two")
        seen.add(section.key)
    return sections


def _section(node: Node, faults: Faults) -> SectionLayout:
    fields = fields_of(node, "a section", faults, node.where)
    key = fields.need_text("section", any_of(SECTIONS[:2]))
    if key.text and key.text not in SECTIONS:
        hint = meant(key.text, SECTIONS, f"write one of {', '.join(SECTIONS)}")
        faults.note(key.where, f"{shown(key.text)} is not a section", hint)
    title, numbered, words = fields.need_text("title", "Cut list"), fields.text("numbered"), fields.text("words")
    section = SectionLayout(
        key=key.text,
        where=key.where,
        title=title.text,
        on=fields.word("on", ("yes", "no"), "yes") == "yes",
        numbered=numbered.text if numbered else "pages",
        texts=_texts(fields),
        words=words.text if words else "",
    )
    fields.finish()
    return section


def _texts(fields: Fields) -> tuple[tuple[str, Template], ...]:
    mapping = fields.mapping("texts")
    if mapping is None:
        return ()
    inner = Fields(mapping, "the texts of a section", fields.faults)
    found = [(key.text, template(inner, key.text)) for key, _ in mapping.entries]
    return tuple((name, text) for name, text in found if text)


def _part(fields: Fields, key: str) -> Mapping:
    """A mapping that a layout has to hold; an empty one in its place after the fault is noted."""
    node = fields.node(key)
    if node is None:
        fields.missing(key)
        return Mapping((), fields.where)
    return as_mapping(node, f"`{key}`", fields.faults) or Mapping((), node.where)


def _want_all(fields: Fields, key: str, found: Iterable[str], names: tuple[str, ...], example: str) -> None:
    known = set(found)
    absent = [name for name in names if name not in known]
    if absent and fields.has(key):
        listed = ", ".join(f"`{name}`" for name in absent[:6]) + (" …" if len(absent) > 6 else "")
        fields.faults.note(fields.place(key), f"`{key}` has no {listed}", f"add `{absent[0]}: {example}`")
