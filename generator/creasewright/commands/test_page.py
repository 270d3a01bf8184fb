"""`creasewright test-page`: one sheet to measure a printer by."""

from argparse import Namespace
from collections.abc import Mapping
from functools import partial
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from creasewright.booklet.test_page import test_document, test_lines
from creasewright.booklet.texts import render
from creasewright.commands.for_printer import printer_for
from creasewright.commands.told import ended_well
from creasewright.exit_codes import GOOD
from creasewright.pdf.fonts import FontRuler
from creasewright.pdf.paint import paint
from creasewright.pdf.write_whole import write_all_whole
from creasewright.places import shipped
from creasewright.problems import Problem, ProblemsFound
from creasewright.reading.page_layout import PageLayout, SectionLayout
from creasewright.reading.read_config import usual_settings
from creasewright.reading.read_layout import read_layout
from creasewright.units.printer import Printer
from creasewright.units.ruler import as_set, length_in_words

SECTION = "test page"


def run(options: Namespace) -> int:
    return ended_well(lambda: told_how(options), options.out)


def told_how(options: Namespace) -> int:
    path = written(options)
    then = "see whether it comes out true" if options.printer else "measure it, and type what you measured with `creasewright printer`"
    print(f"{path}: print it at 100 %, {then}")
    return GOOD


def written(options: Namespace) -> Path:
    settings = usual_settings()
    page = options.page or settings.page
    layout = read_layout(shipped("layouts") / "pack.yaml")
    printer = printer_for(options.printer or "", page, settings, layout.page(page))
    pdf = test_pdf(layout, page, printer)
    path = Path(options.out) / (f"test-page-{page}" + (f"-for-{printer.name.replace(' ', '-')}" if printer else "") + ".pdf")
    write_all_whole([(path, pdf)])
    return path


def test_pdf(layout: PageLayout, page: str, printer: Printer | None) -> bytes:
    """The file's bytes, the same for the same printer."""
    section = next((one for one in layout.sections if one.key == SECTION), None)
    if section is None:
        raise ProblemsFound([Problem(layout.where, f"the layout has no section `{SECTION}`", "add it with its texts")])
    lines = test_lines(page)
    system = "in" if page == "letter" else "mm"
    values = {
        "printer": printer.name if printer else "",
        "page": page,
        "across": as_set(length_in_words(lines.across, system)),
        "along": as_set(length_in_words(lines.along, system)),
    }
    out = BytesIO()
    document = test_document(layout, layout.page(page), FontRuler(), partial(said, section, values), printer)
    paint(document, out, sha256(repr((SECTION, page, printer)).encode()).digest())
    return out.getvalue()


def said(section: SectionLayout, values: Mapping[str, object], name: str) -> str:
    """The text of that name; a layout without it has nothing to say there."""
    text = section.text(name)
    return render(text.text, text.where.file, values, text.where.line) if text is not None else ""
