"""`creasewright pack`: the pack and its record, written whole or not at all."""

import sys
from argparse import Namespace
from pathlib import Path

from creasewright.commands.given import given, wishes_of
from creasewright.commands.told import finding_line, tell_problems
from creasewright.exit_codes import CANNOT_BE_BUILT, CANNOT_BE_USED, GOOD
from creasewright.pack import Pack, Printing, make_pack
from creasewright.places import shipped
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.progress import Progress
from creasewright.readback.compare import LIMIT
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_words import read_words


def run(options: Namespace) -> int:
    progress = Progress(options.quiet)
    try:
        return packed(options, progress)
    except ProblemsFound as found:
        progress.done()
        tell_problems(found.problems)
        return CANNOT_BE_USED
    except OSError as fault:
        progress.done()
        tell_problems(
            [Problem(NOWHERE, f"{fault.filename or options.out}: {fault.strerror}", "choose another folder with `--out`")]
        )
        return CANNOT_BE_USED


def packed(options: Namespace, progress: Progress) -> int:
    progress.say("reading and working out")
    asked = given(options)
    done = asked.checked
    for finding in done.findings:
        if not options.quiet or done.blocked:
            progress.done()
            print(finding_line(finding), file=sys.stderr)
    if done.blocked and not options.anyway:
        progress.done()
        print("No pack was written. `--anyway` prints it with the fault on its cover.", file=sys.stderr)
        return CANNOT_BE_BUILT
    layouts = shipped("layouts")
    layout = read_layout(layouts / "pack.yaml")
    words = read_words(layouts / layout.words) if layout.words else {}
    printing = Printing(wishes_of(options, asked.settings.templates), options.proof)
    made = make_pack(done, layout, words, asked.page, Path(options.out), progress.say, printing)
    progress.done()
    return told(made, options.quiet)


def told(made: Pack, quiet: bool) -> int:
    """Says what was written; a template that is not where the design puts it fails the run."""
    if not quiet:
        print(f"{made.pdf}: {made.pages} pages, {made.template_pages} of them templates")
        print(f"{made.record}: the record")
    if made.read_back is None:
        return GOOD
    if not made.read_back.true:
        largest = f"{made.read_back.largest_error_mm:.3f} mm"
        what = f"the templates read back from the file are off by {largest}, or lines are missing ({len(made.read_back.missing)})"
        tell_problems([Problem(NOWHERE, what, f"do not print it: more than {LIMIT} mm is a fault of the program")])
        return CANNOT_BE_BUILT
    if not quiet:
        print(f"templates read back from the file: largest error {made.read_back.largest_error_mm:.4f} mm")
    return GOOD
