"""Runs the command line: `python -m creasewright`."""

import gc
import sys

from creasewright.cli import main

BEFORE_A_SEARCH = 1_000_000
"""Things made before the interpreter looks for rings of unused ones: a run makes hardly any, and a search costs a fifteenth
of a pack of thirty pages."""


def run() -> int:
    gc.set_threshold(BEFORE_A_SEARCH)
    status = main()
    gc.freeze()  # else the interpreter searches all that the run has made once more, on its way out
    return status


if __name__ == "__main__":
    sys.exit(run())
