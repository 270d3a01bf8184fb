"""The whole run, one line a stage: read this first."""

from collections.abc import Callable
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from msgspec import Struct, field, json
from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Document, Form, Page
from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.section import Section, Sheet
from creasewright.booklet.section_text import section_text
from creasewright.booklet.sections.every_section import SECTIONS
from creasewright.booklet.template_pages import template_window, tile_page_size
from creasewright.booklet.tiling.placing import NearJoin
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.tile_templates import TiledTemplates, tile_templates
from creasewright.booklet.tiling.tile_words import TileWords
from creasewright.checked import Checked
from creasewright.geometry.plane_transform import Affine
from creasewright.pages.flow import flow
from creasewright.pdf.fonts import FontRuler
from creasewright.pdf.paint import paint
from creasewright.pdf.write_whole import write_all_whole
from creasewright.readback.compare import ReadBack, compare
from creasewright.readback.printer_undo import tile_in_file, undo_of
from creasewright.readback.proof import Proof, prove
from creasewright.readback.raster import page_rasters
from creasewright.readback.read_marks import read_marks
from creasewright.reading.page_layout import PageLayout, SectionLayout
from creasewright.reading.settings import TemplateWishes
from creasewright.record import record
from creasewright.units.printer import Printer, stretch_of
from creasewright.units.ruler import as_set, mark_in_words

Say = Callable[[str], None]


class Pack(Struct, frozen=True):
    pdf: Path
    record: Path
    pages: int
    template_pages: int
    least_template_pages: int
    """No arrangement takes fewer."""
    near_joins: tuple[NearJoin, ...]
    read_back: ReadBack | None
    """None where nothing is printed full size."""
    proof: Proof | None
    """None where it was not asked for."""


class Printing(Struct, frozen=True):
    """What the maker asks of the templates, beyond the design."""

    wishes: TemplateWishes = field(default_factory=TemplateWishes)
    printer: Printer | None = None
    """The one printer that full-size drawings are made for; None: any that prints at 100 %."""
    proof: bool = False
    """Measure the templates on a raster too."""


USUAL = Printing()


def make_pack(
    done: Checked, layout: PageLayout, words: dict[str, str], page: str, folder: Path, say: Say, printing: Printing = USUAL
) -> Pack:
    """Writes `DIR/<design>-<page>-<units>[-x<makers>][-for-<printer>].pdf` and the record beside it: both whole, or neither."""
    say("drawing the sections")
    base = PackContext(
        done.worked, done.plans, done.findings, done.tools, layout, layout.sections[0], layout.page(page), FontRuler(), words,
        printing.printer, printing.wishes, done.photograph,
    )
    undo = undo_of(printing.printer, tile_page_size(base))
    templates, tiled = templates_of(base)
    document, first_tile = document_of(base, tiled, say)
    say("writing the pages")
    pdf = painted(document, base)
    say("reading the templates back")
    read_back = read_again(pdf, tiled, templates, first_tile, undo)
    proof = proved(pdf, tiled, templates, first_tile, undo, say) if printing.proof else None
    name = file_name(base, page)
    tiles = tuple(tile_in_file(tile, undo) for tile in tiled.tiles) if tiled is not None else ()
    facts = record(done.worked, done.plans, done.findings, templates, tiles, page, done.errors, done.board, printing.printer)
    if read_back is not None:
        facts["read back"] = {"largest error": round(read_back.worst_mm, 6), "true": read_back.true}
    if tiled is not None:
        facts["template pages"] = {
            "printed": len(tiled.pages),
            "least": tiled.least,
            "near joins": [{"template": join.template, "clearance": round(join.clearance, 3)} for join in tiled.near_joins],
        }
    if proof is not None:
        facts["proof"] = {"largest error": round(proof.worst_mm, 6), "true": proof.true}
    folder.mkdir(parents=True, exist_ok=True)
    text = json.format(json.encode(facts), indent=1) + b"\n"
    paths = folder / f"{name}.pdf", folder / f"{name}.json"
    write_all_whole([(paths[0], pdf), (paths[1], text)])
    tile_pages, least, near = (len(tiled.pages), tiled.least, tiled.near_joins) if tiled is not None else (0, 0, ())
    return Pack(paths[0], paths[1], len(document.pages), tile_pages, least, near, read_back, proof)


def file_name(context: PackContext, page: str) -> str:
    worked = context.worked
    printer = f"-for-{context.printer.name.replace(' ', '-')}" if context.printer is not None else ""
    return f"{worked.design.name}-{page}-{worked.system}" + (f"-x{worked.makers}" if worked.makers > 1 else "") + printer


def section_context(base: PackContext, section: SectionLayout) -> PackContext:
    return replace(base, section=section)


def templates_of(base: PackContext) -> tuple[tuple[Template, ...], TiledTemplates | None]:
    section = next((s for s in base.layout.sections_on if s.key == "templates"), None)
    if section is None:
        return (), None
    context = section_context(base, section)
    templates = kit_templates(context)
    if not templates:
        return (), None
    page = tile_page_size(base)
    words = replace(TileWords(), measure=lambda mm: as_set(mark_in_words(mm, base.worked.ruler).text))
    if base.printer is not None:
        full_size = section_text(context, "for printer", printer=base.printer.name)
        words = replace(words, full_size=full_size, print_true=section_text(context, "as it is"))
    return templates, tile_templates(templates, page, base.text, words, template_window(base))


def document_of(base: PackContext, tiled: TiledTemplates | None, say: Say) -> tuple[Document, int]:
    """All pages, and the index of the first template page."""
    sections: list[Section] = []
    for written in base.layout.sections_on:
        say(f"drawing: {written.title}")
        built = (
            template_section(written, tiled)
            if written.key == "templates"
            else SECTIONS[written.key](section_context(base, written))
        )
        if built is not None:
            sections.append(built)
    title = str(base.worked.design.title)
    pages = flow(sections, base.layout, base.page, base.text, title)
    forms: tuple[Form, ...] = tiled.forms if tiled is not None else ()
    author = str(base.worked.design.maker or "")
    subject = str(base.worked.design.subtitle or "")
    first = next((k for k, one in enumerate(pages) if is_template(one)), len(pages))
    pages = tuple(replace(one, stretch=stretch_of(base.printer)) if is_template(one) else one for one in pages)
    document = Document(
        title, author, subject, base.layout.language, pages, forms, base.layout.palette, photograph=base.photograph
    )
    return document, first


def is_template(page: Page) -> bool:
    return page.label.startswith("T-")


def template_section(written: SectionLayout, tiled: TiledTemplates | None) -> Section | None:
    if tiled is None:
        return None
    sheets = tuple(Sheet(page.items, page.bookmarks) for page in tiled.pages)
    return Section("templates", written.title, numbered=written.numbered, sheets=sheets)


def painted(document: Document, base: PackContext) -> bytes:
    out = BytesIO()
    paint(
        document,
        out,
        sha256(repr((base.worked.design.name, base.worked.system, base.page.name, base.worked.makers)).encode()).digest(),
    )
    return out.getvalue()


def read_again(
    pdf: bytes, tiled: TiledTemplates | None, templates: tuple[Template, ...], first: int, undo: Affine | None
) -> ReadBack | None:
    if tiled is None:
        return None
    found = read_marks(pdf, range(first, first + len(tiled.pages)))
    return compare(tiled.tiles, templates, found, undo)


def proved(
    pdf: bytes, tiled: TiledTemplates | None, templates: tuple[Template, ...], first: int, undo: Affine | None, say: Say
) -> Proof | None:
    """The template pages measured on a raster."""
    if tiled is None:
        return None
    say("measuring the templates on a raster")
    numbers = range(first, first + len(tiled.pages))
    return prove(tiled.tiles, templates, read_marks(pdf, numbers), page_rasters(pdf, numbers), undo)
