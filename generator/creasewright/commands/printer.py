"""`creasewright printer`: keeps what a maker measured on the test page, by name and paper, or tells what is kept."""

from argparse import Namespace
from collections.abc import Callable
from fractions import Fraction
from typing import TypeVar

from creasewright.booklet.test_page import TestLines, test_lines
from creasewright.commands.for_printer import refuse_no_room
from creasewright.commands.told import ended_well
from creasewright.exit_codes import GOOD
from creasewright.pdf.write_whole import write_all_whole
from creasewright.places import shipped
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.reading.read_config import usual_settings
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_printers import SIDES, printers_file, printers_text, read_printers
from creasewright.units.misread import Misread
from creasewright.units.printer import Printer, Reading
from creasewright.units.read_length import read_length
from creasewright.units.read_printer import (
    back_in_words,
    checked_reading,
    in_mm,
    read_back_shift,
    read_margins,
    read_printer_name,
)

T = TypeVar("T")


def run(options: Namespace) -> int:
    return ended_well(lambda: lines_told(options), str(printers_file()), "look at who may write there")


def lines_told(options: Namespace) -> int:
    for line in kept_or_told(options):
        print(line)
    return GOOD


def kept_or_told(options: Namespace) -> list[str]:
    kept = read_printers()
    given = [text for text in (options.across, options.along, options.margins, options.back) if text is not None]
    if options.name is None:
        if given or options.forget:
            raise ProblemsFound([Problem(NOWHERE, "what was measured has no printer", "write its name: `creasewright printer kitchen …`")])
        return [line for printer in kept for line in in_lines(printer)] or ["no printer is kept; `creasewright test-page` begins"]
    name = read_or_stop(read_printer_name, options.name, "NAME")
    if options.forget:
        return forgotten(name, kept)
    if not given:
        lines = [line for printer in kept if printer.name == name for line in in_lines(printer)]
        return lines or [f"no printer is called `{name}`; give `--across` and `--along` to keep it"]
    printer = measured(options, name, options.page or usual_settings().page, kept)
    keep(replaced(kept, printer))
    return [*in_lines(printer), f"kept in {printers_file()}; use it with `--printer {name}`, or write `printer: {name}` in your settings"]


def measured(options: Namespace, name: str, page: str, kept: tuple[Printer, ...]) -> Printer:
    """What the options say; what they leave out stays as it was kept, if it was. Raises ProblemsFound."""
    before = next((one for one in kept if (one.name, one.page) == (name, page)), None)
    lines: TestLines = test_lines(page)
    readings = []
    for option, true in (("across", lines.across), ("along", lines.along)):
        text = getattr(options, option)
        old: Reading | None = getattr(before, option) if before is not None else None
        if text is None and old is None:
            ends = "A to B" if option == "across" else "C to D"
            raise ProblemsFound([Problem(NOWHERE, f"`--{option}` is missing", f"measure {ends} on the test page and write what it reads")])
        readings.append(read_or_stop(reading_of(true), text, f"--{option}") if text is not None else old)
    across, along = (one for one in readings if one is not None)
    usual = before or Printer(name, page, across, along)
    printer = Printer(
        name,
        page,
        across,
        along,
        read_or_stop(read_margins, options.margins, "--margins") if options.margins is not None else usual.margins,
        read_or_stop(read_back_shift, options.back, "--back") if options.back is not None else usual.back,
    )
    refuse_no_room(printer, read_layout(shipped("layouts") / "pack.yaml").page(page))
    return printer


def reading_of(true: Fraction) -> Callable[[str], Reading]:
    return lambda text: checked_reading(read_length(text).mm, true, f"{text} for a line of {in_mm(true)}")


def read_or_stop(read: Callable[[str], T], text: str, option: str) -> T:
    try:
        return read(text)
    except Misread as misread:
        raise ProblemsFound([Problem(NOWHERE, f"{option}: {misread.what}", misread.hint)]) from None


def forgotten(name: str, kept: tuple[Printer, ...]) -> list[str]:
    left = tuple(printer for printer in kept if printer.name != name)
    if len(left) == len(kept):
        return [f"no printer is called `{name}`"]
    keep(left)
    return [f"`{name}` is forgotten"]


def replaced(kept: tuple[Printer, ...], printer: Printer) -> tuple[Printer, ...]:
    """With the new one in the old one's place, or after all."""
    key = (printer.name, printer.page)
    if key in [(one.name, one.page) for one in kept]:
        return tuple(printer if (one.name, one.page) == key else one for one in kept)
    return (*kept, printer)


def keep(printers: tuple[Printer, ...]) -> None:
    write_all_whole([(printers_file(), printers_text(printers).encode())])


def in_lines(printer: Printer) -> list[str]:
    margins = ", ".join(f"{side} {in_mm(margin)}" for side, margin in zip(SIDES, printer.margins, strict=True))
    across, along = (f"{float(reading.scale) * 100:.2f} %" for reading in (printer.across, printer.along))
    return [
        f"{printer.name} on {printer.page} paper: prints at {across} across and {along} down the page",
        f"  margins: {margins}; back: {back_in_words(printer.back)}",
    ]
