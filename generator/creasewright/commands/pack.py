"""`creasewright pack`: the pack and its record, written whole or not at all."""

import sys
from argparse import Namespace
from pathlib import Path

from creasewright.booklet.tiling.placing import NearJoin
from creasewright.commands.for_printer import printer_for
from creasewright.commands.given import given, wishes_of
from creasewright.commands.told import ended_well, finding_line, tell_problems
from creasewright.exit_codes import CANNOT_BE_BUILT, GOOD
from creasewright.pack import Pack, Printing, make_pack
from creasewright.places import shipped
from creasewright.problems import NOWHERE, Problem
from creasewright.progress import Progress
from creasewright.readback.compare import LIMIT
from creasewright.readback.proof import LIMIT as RASTER_LIMIT
from creasewright.readback.proof import Proof
from creasewright.readback.raster import DPI
from creasewright.reading.read_layout import read_layout
from creasewright.reading.read_words import read_words


def run(options: Namespace) -> int:
    progress = Progress(options.quiet)
    return ended_well(lambda: packed(options, progress), options.out, progress=progress)


def packed(options: Namespace, progress: Progress) -> int:
    progress.say("reading and working out")
    asked = given(options, progress)
    done = asked.checked
    for plan in done.plans:
        if plan.stopped and not options.quiet:
            progress.done()
            print(f"the search for {plan.paper} was stopped; this is the best plan so far: {plan.sheet_count} sheets", file=sys.stderr)
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
    printer = printer_for(options.printer, asked.page, asked.settings, layout.page(asked.page))
    printing = Printing(wishes_of(options, asked.settings.templates), printer, options.proof)
    made = make_pack(done, layout, words, asked.page, Path(options.out), progress.say, printing)
    progress.done()
    return told(made, options.quiet)


def told(made: Pack, quiet: bool) -> int:
    """Says what was written; a template that is not where the design puts it fails the run."""
    if not quiet:
        print(f"{made.pdf}: {made.pages} pages, {made.template_pages} of them templates{bound(made)}")
        print(f"{made.record}: the record")
    if not quiet:
        for join in made.near_joins:
            print(near_join_line(join), file=sys.stderr)
    if made.read_back is None:
        return GOOD
    if not made.read_back.true:
        largest = f"{made.read_back.worst_mm:.3f} mm"
        what = f"the templates read back from the file are off by {largest}, or lines are missing ({len(made.read_back.missing)})"
        tell_problems([Problem(NOWHERE, what, f"do not print it: more than {LIMIT} mm is a fault of the program")])
        return CANNOT_BE_BUILT
    if not quiet:
        over = f" over lines, marks, check squares and {counted(made.read_back.joins, 'join')}"
        print(f"templates read back from the file: largest error {made.read_back.worst_mm:.4f} mm{over}")
    return GOOD if made.proof is None else proof_told(made.proof, quiet)


def bound(made: Pack) -> str:
    """How near the count of template pages is to the least possible."""
    return f" (no arrangement takes fewer than {made.least_template_pages})" if made.template_pages > 1 else ""


def near_join_line(join: NearJoin) -> str:
    near = f"{join.clearance:.0f} mm" if join.clearance >= 1 else "less than 1 mm"
    what = f"a join of the template `{join.template}` runs {near} from a line that runs along it, a curve or a small part"
    return f"note (join): {what}; join these pages with care, or choose another size with `--set`"


def proof_told(proof: Proof, quiet: bool) -> int:
    if not proof.true:
        largest = f"{max(proof.worst_mm, proof.widest_mm):.3f} mm"
        what = f"on the raster the templates are off by {largest}, or lines are missing ({len(proof.lost)})"
        tell_problems([Problem(NOWHERE, what, f"do not print it: more than {RASTER_LIMIT} mm is a fault of the program")])
        return CANNOT_BE_BUILT
    if not quiet:
        places = f"{counted(proof.places, 'place')} and {counted(proof.joins, 'line')} over joins"
        print(f"templates measured at {DPI} dots per inch: largest error {proof.worst_mm:.4f} mm, at {places}")
    return GOOD


def counted(number: int, what: str) -> str:
    return f"{number} {what}" + ("" if number == 1 else "s")
