"""The file of printers: what each does to each paper, kept by name in the maker's configuration folder. Never needed.

kitchen:
  letter:
    across: 178.6 mm of 177.8 mm
    along: 203 mm of 203.2 mm
    margins: {left: 4 mm, top: 4 mm, right: 4 mm, bottom: 12 mm}
    back: 0.5 mm right, 1 mm down
"""

import os
from collections.abc import Callable, Iterable
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading.design import Text
from creasewright.reading.faults import Faults
from creasewright.reading.fields import Fields, fields_of, meant
from creasewright.reading.read_config import settings_file
from creasewright.reading.read_file import read_file
from creasewright.reading.settings import A4, LETTER
from creasewright.reading.yaml_nodes import read_nodes
from creasewright.units.misread import Misread
from creasewright.units.printer import Printer, Reading
from creasewright.units.read_printer import back_in_words, in_mm, read_back_shift, read_margin, read_printer_name, read_reading

FILE = "printers.yaml"
HEAD = "# What each printer does to a page, as measured on its test page. Kept by `creasewright printer`; other notes are not kept.\n"
SIDES = ("left", "top", "right", "bottom")
PAGES = (LETTER, A4)
T = TypeVar("T")
EXAMPLE = Reading(Fraction(1), Fraction(1))


def printers_file() -> Path:
    """Beside the maker's settings."""
    return settings_file(os.environ, Path.home()).parent / FILE


def read_printers() -> tuple[Printer, ...]:
    """Those that are kept, in the order of the file; none where there is no file. Raises ProblemsFound."""
    path = printers_file()
    return read_printers_text(read_file(path), str(path)) if path.exists() else ()


def read_printers_text(text: str, file: str) -> tuple[Printer, ...]:
    faults = Faults()
    if not [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]:
        return ()
    found: list[Printer] = []
    for key, node in read_nodes(text, file, faults, "kitchen:").entries:
        try:
            name = read_printer_name(key.text)
        except Misread as misread:
            faults.note(key.where, misread.what, misread.hint)
            continue
        papers = fields_of(node, f"printer `{name}`", faults, key.where)
        for page in PAGES:
            inner = papers.node(page)
            if inner is not None:
                found.append(_printer(fields_of(inner, f"`{page}` of `{name}`", faults, papers.place(page)), name, page))
        papers.finish()
    faults.raise_if_any()
    return tuple(found)


def _printer(fields: Fields, name: str, page: str) -> Printer:
    usual = Printer(name, page, EXAMPLE, EXAMPLE)
    across, along = (
        _read(fields.need_text(key, "178.6 mm of 180 mm"), read_reading, fields.faults, EXAMPLE) for key in ("across", "along")
    )
    margins, back = fields.node("margins"), fields.text("back")
    kept = Printer(
        name,
        page,
        across,
        along,
        _margins(fields_of(margins, "`margins`", fields.faults, fields.place("margins"))) if margins else usual.margins,
        _read(back, read_back_shift, fields.faults, usual.back) if back else usual.back,
    )
    fields.finish()
    return kept


def _margins(fields: Fields) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    left, head, right, tail = (_read(fields.need_text(side, "4 mm"), read_margin, fields.faults, Fraction(0)) for side in SIDES)
    fields.finish()
    return left, head, right, tail


def _read(text: Text, read: Callable[[str], T], faults: Faults, otherwise: T) -> T:
    if not text.text:
        return otherwise
    try:
        return read(text.text)
    except Misread as misread:
        faults.note(text.where, misread.what, misread.hint)
        return otherwise


def printers_text(printers: Iterable[Printer]) -> str:
    """The file that `read_printers_text` reads as these printers."""
    lines = [HEAD]
    by_name: dict[str, list[Printer]] = {}
    for printer in printers:
        by_name.setdefault(printer.name, []).append(printer)
    for name, papers in by_name.items():
        lines.append(f"{name}:\n")
        for one in papers:
            margins = ", ".join(f"{side}: {in_mm(margin)}" for side, margin in zip(SIDES, one.margins, strict=True))
            lines.append(f"  {one.page}:\n")
            lines += [f"    {key}: {in_mm(r.measured)} of {in_mm(r.true)}\n" for key, r in (("across", one.across), ("along", one.along))]
            lines += [f"    margins: {{{margins}}}\n", f"    back: {back_in_words(one.back)}\n"]
    return "".join(lines)


def printer_named(name: str, page: str, kept: tuple[Printer, ...], file: str) -> Printer:
    """The printer of that name on that paper; raises ProblemsFound."""
    of_name = [printer for printer in kept if printer.name == name]
    found = next((printer for printer in of_name if printer.page == page), None)
    if found is not None:
        return found
    measure = f"print `creasewright test-page --page {page}` on it and measure, or make the pack for any printer: `--printer none`"
    if of_name:
        raise ProblemsFound([Problem(Where(file), f"printer `{name}` has not been measured on {page} paper", measure)])
    what = f"no printer is called `{name}`"
    raise ProblemsFound([Problem(Where(file), what, meant(name, [printer.name for printer in kept]) or measure)])
