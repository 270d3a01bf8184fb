"""The printer that full-size pages are made for, from the options and the maker's settings."""

from creasewright.booklet.tiling.window import PageSize as TilePage
from creasewright.booklet.tiling.window import no_room
from creasewright.problems import Problem, ProblemsFound, Where
from creasewright.reading.page_layout import PageSize
from creasewright.reading.read_printers import printer_named, printers_file, read_printers
from creasewright.reading.settings import MakerSettings
from creasewright.units.printer import Printer
from creasewright.units.read_printer import NO_PRINTER


def printer_for(name: str | None, page: str, settings: MakerSettings, size: PageSize) -> Printer | None:
    """The printer that the option or the settings ask for; None for any. Raises ProblemsFound."""
    wanted = name if name is not None else settings.printer
    if wanted in ("", NO_PRINTER):
        return None
    file = str(printers_file())
    found = printer_named(wanted, page, read_printers(), file)
    refuse_no_room(found, size, file)
    return found


def refuse_no_room(printer: Printer, size: PageSize, file: str = "") -> None:
    """Raises ProblemsFound where its margins leave no page."""
    fault = no_room(TilePage(size.width, size.height, printer.white(size.width, size.height)))
    if fault:
        hint = "type the smallest figure at each edge of the test page whose line is whole"
        raise ProblemsFound([Problem(Where(file), f"printer `{printer.name}` on {printer.page} paper: {fault}", hint)])
