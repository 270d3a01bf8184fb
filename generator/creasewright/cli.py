"""The command line: arguments to one function a command. Loads no more than the command needs."""

import argparse
import sys
from importlib import import_module

from creasewright.exit_codes import CANNOT_BE_BUILT, CANNOT_BE_USED, GOOD, STOPPED

STATUS = f"""exit status:
  {GOOD}  good
  {CANNOT_BE_BUILT}  the thing cannot be built as asked (`--anyway` prints it with the fault on its cover)
  {CANNOT_BE_USED}  the design, an option or the place to write to cannot be used
  {STOPPED}  you stopped it
"""
COMMANDS = {
    "pack": "pack", "check": "check", "files": "files", "list": "list_designs", "sheets": "sheets", "test-page": "test_page",
    "printer": "printer",
}  # fmt: skip
"""Command to its module, which is loaded only when it is asked for: `--help` answers at once."""


def parser() -> argparse.ArgumentParser:
    top = argparse.ArgumentParser(
        prog="creasewright",
        description="Turns one design file of a folded-paper project into a printable pattern pack.",
        epilog=STATUS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    # named, as argparse would else set a whole usage line to find its name, with all that this loads
    commands = top.add_subparsers(dest="command", metavar="COMMAND", required=True, prog=top.prog)
    pack = command(commands, "pack", "write the pack and its record")
    design_options(pack)
    pack.add_argument("--out", metavar="DIR", default="output", help="folder to write to (default: output)")
    pack.add_argument("--printer", metavar="NAME", help="make full-size pages for a printer that you measured; none: for any")
    pack.add_argument("--templates", choices=("needed", "all"), help="templates for straight-cut pieces too (default: only where needed)")
    pack.add_argument("--joining", choices=("overlap", "butt"), help="how template pages are joined (default: overlap)")
    pack.add_argument("--overlap", metavar="LENGTH", help="how much lies on the next page, such as 3/8 in or 10 mm (default: 8.5 mm)")
    pack.add_argument("--proof", action="store_true", help="measure the templates on a raster of 600 dots per inch too")
    pack.add_argument("--quiet", action="store_true", help="say nothing but faults")
    check = command(commands, "check", "print measures, blanks and what is found; write nothing")
    design_options(check)
    check.add_argument("--gates", action="store_true", help="tell what must measure what before going on, and which mistakes show there")
    check.add_argument("--grooves", action="store_true", help="look for sizes that bring more scores over grooves of the score board too")
    check.add_argument("--ranges", action="store_true", help="check both ends of every measure's range too, and all ends together")
    files = command(commands, "files", "write every piece and planned sheet as SVG and DXF, for cutting machines and drawing programs")
    design_options(files)
    files.add_argument("--format", choices=("svg", "dxf"), help="one of the two (default: both)")
    files.add_argument("--perforate", metavar="DASH,GAP", help="scores as rows of short cuts: `3 mm, 1 mm`")
    files.add_argument("--out", metavar="DIR", default="output", help="folder to write to (default: output)")
    files.add_argument("--quiet", action="store_true", help="say nothing but faults")
    command(commands, "list", "name the built-in designs")
    rectangle_options(command(commands, "sheets", "plan plain rectangles on plain sheets, with nothing of a design"))
    printer_commands(commands)
    return top


def printer_commands(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    page = command(commands, "test-page", "write a page to measure a printer by")
    page.add_argument("--page", choices=("letter", "a4"), help="paper of the printer (default: letter, or as your settings say)")
    page.add_argument("--printer", metavar="NAME", help="draw it with what you measured of this printer, to see whether it comes true")
    page.add_argument("--out", metavar="DIR", default="output", help="folder to write to (default: output)")
    keep = command(commands, "printer", "keep what you measured on the test page; without options, name what is kept")
    keep.add_argument("name", metavar="NAME", nargs="?", help="what you call the printer")
    keep.add_argument("--page", choices=("letter", "a4"), help="paper of the test page (default: letter, or as your settings say)")
    keep.add_argument("--across", metavar="LENGTH", help="A to B as you measured it")
    keep.add_argument("--along", metavar="LENGTH", help="C to D as you measured it")
    margins = "smallest whole figure at the left, top, right and bottom: `4 mm, 4 mm, 4 mm, 12 mm`"
    keep.add_argument("--margins", metavar="LENGTHS", help=margins)
    keep.add_argument("--back", metavar="SHIFT", help="where the back lands: `0.5 mm right, 1 mm down`, or `none`")
    keep.add_argument("--forget", action="store_true", help="take the printer out")


def command(commands: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, what: str) -> argparse.ArgumentParser:
    return commands.add_parser(
        name,
        help=what,
        description=f"{what[:1].upper()}{what[1:]}.",
        epilog=STATUS,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )


def design_options(one: argparse.ArgumentParser) -> None:
    one.add_argument("design", metavar="DESIGN", help="a built-in design's name, or a design file (.yaml)")
    one.add_argument("--page", choices=("letter", "a4"), help="paper of the printer (default: letter, or as your settings say)")
    one.add_argument("--units", choices=("in", "mm"), help="inches or millimetres (default: in, or as your settings say)")
    one.add_argument("--makers", type=int, metavar="N", help="how many people make it (default: 1)")
    one.add_argument("--set", action="append", metavar="NAME=VALUE", help="give a measure another value; may be repeated")
    one.add_argument("--tools", metavar="FILE", help="your tool file (trimmer, score board)")
    planning_options(one)
    one.add_argument("--anyway", action="store_true", help="go on although the thing cannot be built as it stands")


def planning_options(one: argparse.ArgumentParser) -> None:
    one.add_argument("--effort", choices=("quick", "usual", "high"), default="usual", help="how long to look for fewer sheets")
    one.add_argument("--seconds", type=float, metavar="N", help="look for so long instead, and take the best plan by then")


def rectangle_options(one: argparse.ArgumentParser) -> None:
    one.add_argument("file", metavar="FILE", help="a table (.csv: name,width,height,count,turn) or a YAML file of rectangles")
    one.add_argument("--sheet", action="append", metavar="WxH[:COUNT][@PRICE]", help="a size of sheet; may be repeated")
    one.add_argument("--turn", action="store_true", help="every rectangle may be turned")
    one.add_argument("--makers", type=int, metavar="N", default=1, help="so many times every count (default: 1)")
    one.add_argument("--spares", type=int, metavar="N", default=0, help="so many more of each (default: 0)")
    one.add_argument("--stages", type=int, metavar="N", help="how often cuts may change direction (default: as often as wished)")
    one.add_argument("--setting-price", metavar="PRICE", help="what one distance more to set is worth, beside the price of a sheet (1)")
    one.add_argument("--seed", type=int, metavar="N", default=1, help="another number, another search (default: 1)")
    one.add_argument("--out", metavar="FILE", help="write the plan as JSON too")
    one.add_argument("--quiet", action="store_true", help="print the sum only")
    planning_options(one)


def main(arguments: list[str] | None = None) -> int:
    options = parser().parse_args(arguments)
    try:
        status = import_module(f"creasewright.commands.{COMMANDS[options.command]}").run(options)
    except KeyboardInterrupt:
        print("stopped; nothing was written", file=sys.stderr)
        return STOPPED
    except BrokenPipeError:
        sys.stderr.close()
        return GOOD
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
