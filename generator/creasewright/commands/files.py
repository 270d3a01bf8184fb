"""`creasewright files`: pieces and sheets for cutting machines and drawing programs, written whole or not at all."""

import sys
from argparse import Namespace
from pathlib import Path

from creasewright.commands.given import given
from creasewright.commands.told import ended_well, finding_line, tell_problems
from creasewright.cutfiles.perforation import Perforation
from creasewright.exit_codes import CANNOT_BE_BUILT, GOOD
from creasewright.machine_files import FORMATS, Written, write_machine_files
from creasewright.problems import NOWHERE, Problem, ProblemsFound
from creasewright.progress import Progress
from creasewright.readback.compare_drawing import LIMIT
from creasewright.units.misread import Misread
from creasewright.units.read_length import read_length

MOST_PERFORATED = 50.0
"""mm, of a dash or a gap."""
LEAST_PERFORATED = 0.2


def run(options: Namespace) -> int:
    progress = Progress(options.quiet)
    return ended_well(lambda: filed(options, progress), options.out, progress=progress)


def filed(options: Namespace, progress: Progress) -> int:
    how = perforation(options.perforate) if options.perforate is not None else None
    progress.say("reading and working out")
    done = given(options).checked
    for finding in done.findings:
        if not options.quiet or done.blocked:
            progress.done()
            print(finding_line(finding), file=sys.stderr)
    if done.blocked and not options.anyway:
        progress.done()
        print("No file was written. `--anyway` writes them all the same.", file=sys.stderr)
        return CANNOT_BE_BUILT
    formats = (options.format,) if options.format else tuple(FORMATS)
    made = write_machine_files(done, Path(options.out), formats, how, progress.say)
    progress.done()
    return told(made, options.quiet)


def told(made: Written, quiet: bool) -> int:
    faulty = [(name, one) for name, one in made.read_back if not one.true]
    if faulty:
        name, one = faulty[0]
        where = next(iter((*one.missing, *one.unexpected)), f"{one.largest_error_mm:.3f} mm off")
        what = f"{name} does not read back as it was drawn ({where}), nor do {len(faulty) - 1} others; nothing was written"
        tell_problems([Problem(NOWHERE, what, f"more than {LIMIT} mm is a fault of the program")])
        return CANNOT_BE_BUILT
    if not quiet:
        print(f"{made.folder}: {len(made.paths)} files, each read back: largest error {made.largest_error_mm:.7f} mm")
    return GOOD


def perforation(text: str) -> Perforation:
    """`3 mm, 1 mm`: dash and gap. Raises ProblemsFound."""
    parts = text.split(",")
    example = "write the dash and the gap: `--perforate \"3 mm, 1 mm\"`"
    if len(parts) != 2:
        raise ProblemsFound([Problem(NOWHERE, f"--perforate {text} is not two lengths", example)])
    try:
        dash, gap = (float(read_length(part).mm) for part in parts)
    except Misread as misread:
        raise ProblemsFound([Problem(NOWHERE, f"--perforate: {misread.what}", misread.hint)]) from None
    if not all(LEAST_PERFORATED <= length <= MOST_PERFORATED for length in (dash, gap)):
        span = f"{LEAST_PERFORATED} to {MOST_PERFORATED:.0f} mm"
        raise ProblemsFound([Problem(NOWHERE, f"--perforate {text} is out of reach", f"give a dash and a gap of {span} each")])
    return Perforation(dash, gap)
