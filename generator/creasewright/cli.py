"""The command line: arguments to one function a command. Loads no more than the command needs."""

import argparse
import sys
from importlib import import_module

from creasewright.exit_codes import CANNOT_BE_BUILT, CANNOT_BE_USED, GOOD

STATUS = f"""exit status:
  {GOOD}  good
  {CANNOT_BE_BUILT}  the thing cannot be built as asked (`--anyway` prints it with the fault on its cover)
  {CANNOT_BE_USED}  the design, an option or the place to write to cannot be used
"""
COMMANDS = {"pack": "pack", "check": "check", "list": "list_designs"}
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
    pack.add_argument("--templates", choices=("needed", "all"), help="templates for straight-cut pieces too (default: only where needed)")
    pack.add_argument("--joining", choices=("overlap", "butt"), help="how template pages are joined (default: overlap)")
    pack.add_argument("--overlap", metavar="LENGTH", help="how much lies on the next page, such as 3/8 in or 10 mm (default: 8.5 mm)")
    pack.add_argument("--proof", action="store_true", help="measure the templates on a raster of 600 dots per inch too")
    pack.add_argument("--quiet", action="store_true", help="say nothing but faults")
    check = command(commands, "check", "print measures, blanks and what is found; write nothing")
    design_options(check)
    check.add_argument("--ranges", action="store_true", help="check both ends of every measure's range too, and all ends together")
    command(commands, "list", "name the built-in designs")
    return top


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
    one.add_argument("--anyway", action="store_true", help="go on although the thing cannot be built as it stands")


def main(arguments: list[str] | None = None) -> int:
    options = parser().parse_args(arguments)
    try:
        status = import_module(f"creasewright.commands.{COMMANDS[options.command]}").run(options)
    except KeyboardInterrupt:
        print("stopped; nothing was written", file=sys.stderr)
        return 130
    except BrokenPipeError:
        sys.stderr.close()
        return GOOD
    return int(status)


if __name__ == "__main__":
    sys.exit(main())
