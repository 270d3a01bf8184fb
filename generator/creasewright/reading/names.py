"""Names: lower-case words with single blanks; some words have a meaning of their own and cannot be in a name."""

import re

from creasewright.reading.faults import Faults, shown
from creasewright.reading.nodes import Scalar

WORD = r"[^\W_]+(?:-[^\W_]+)*"
NAME = re.compile(f"{WORD}(?: {WORD})*")
LINKING_WORDS = frozenset({"of", "in", "each", "and", "to", "first", "last", "own"})
"""These join names into references, so a name cannot hold one."""
CORNERS = ("head-left", "head-right", "tail-right", "tail-left")
EDGES = ("head", "right", "tail", "left")
COMPASS = frozenset({*CORNERS, *EDGES, "centre", "mid head", "mid right", "mid tail", "mid left"})
"""These are places of every piece, so a name cannot be one; it may hold one (`left flap`)."""
MAY_BE_CENTRE = ("band", "panel")
"""Only these are always told from the place by what stands beside them: `centre of strip`, `page/centre`."""


def check_name(key: Scalar, noun: str, faults: Faults) -> str:
    """The name that `key` is, after noting what is wrong with it."""
    name = key.text
    linking = next((word for word in name.split(" ") if word in LINKING_WORDS), None)
    if not NAME.fullmatch(name) or name != name.lower():
        faults.note(key.where, f"{shown(name)} is not a name for a {noun}", _better(name))
    elif name[0].isdigit():
        faults.note(key.where, f"{shown(name)} begins with a digit, as a number does", "begin the name with a letter")
    elif name in COMPASS and not (name == "centre" and noun in MAY_BE_CENTRE):
        faults.note(key.where, f"{shown(name)} is a place on every piece, not a name for a {noun}", "add a word to it")
    elif linking:
        faults.note(key.where, f"{shown(name)} holds the word `{linking}`, which joins names", f"leave out `{linking}`")
    return name


def check_score_name(key: Scalar, faults: Faults) -> str:
    """A score's own name, or the pair it lies between: `page/centre`."""
    halves = key.text.split("/")
    if len(halves) == 1:
        return check_name(key, "score", faults)
    if len(halves) != 2 or not all(NAME.fullmatch(half.strip()) for half in halves):
        faults.note(
            key.where, f"{shown(key.text)} is not a score between two panels", "write the two names with one / between them"
        )
    return key.text


def _better(name: str) -> str:
    words = re.findall(WORD, name.lower())
    return (
        f"write `{' '.join(words)}`" if words and len(name) < 60 else "use small letters, digits, single blanks and inner hyphens"
    )
