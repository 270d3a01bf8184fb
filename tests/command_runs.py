"""A command run as from a terminal, in a folder of its own."""

from creasewright.cli import main


def run(*arguments: str) -> int:
    """The exit status, whichever way the run ends."""
    try:
        return main(list(arguments))
    except SystemExit as stopped:  # argparse ends a run that way
        return int(stopped.code or 0)
