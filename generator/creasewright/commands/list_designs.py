"""`creasewright list`: the built-in designs."""

from argparse import Namespace

from creasewright.exit_codes import GOOD
from creasewright.places import built_in_designs
from creasewright.problems import ProblemsFound
from creasewright.reading.read_design import read_design


def run(options: Namespace) -> int:
    designs = built_in_designs()
    width = max((len(name) for name in designs), default=0)
    for name, path in designs.items():
        try:
            written = read_design(path)
            about = str(written.title) + (f", {written.subtitle}" if written.subtitle is not None else "")
        except ProblemsFound as found:
            about = f"cannot be read: {found.problems[0].what}"
        print(f"{name.ljust(width)}  {about}")
    return GOOD
