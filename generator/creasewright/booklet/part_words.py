"""What parts and pockets are called on a reader's page."""

import re
from collections.abc import Callable, Iterable

from creasewright.booklet.typeset import literal
from creasewright.fitting.pieces import bare
from creasewright.fitting.worked import Worked
from creasewright.joining.compass import EIGHTHS

SWAPPED = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}


def part_words(worked: Worked, path: str) -> str:
    """`seed card of the front block` for the path `front block/seed card 2`; blanks and things go by their titles.

    Of a block that is made as a mirror image, its own left strip lies at the right, so it is called by what is seen.
    """
    *wholes, own = path.split("/")
    title = _title(worked, bare(own))
    return " of the ".join([as_seen(title) if is_mirrored(worked, path) else title, *reversed(wholes)])


def is_mirrored(worked: Worked, path: str) -> bool:
    """Whether the part belongs to an assembly that is made as a mirror image."""
    whole = path[: path.rfind("/") + 1]
    return any(assembly.mirrored and whole in assembly.prefixes for assembly in worked.assemblies)


def as_seen(name: str) -> str:
    """Left and right changed over: `right strip` for `left strip`."""
    return re.sub(r"\b([Ll]eft|[Rr]ight)\b", lambda word: SWAPPED[word.group()], name)


def pocket_words(word: Callable[[str], str], path: str) -> str:
    """`*front pocket*`; where the name does not say what it is, `pocket *inside*`: no sentence reads `in inside`."""
    name = path.split("/")[-1]
    return f"{pocket_kind(word, name)}*{literal(name)}*" if name else ""


def pocket_kind(word: Callable[[str], str], name: str) -> str:
    """What stands before a pocket's name."""
    kind = word("pocket")
    return "" if kind in name.lower().split() else f"{kind} "


def reader_name(word: Callable[[str], str], panel: str) -> str:
    """A panel named by where it lies (`tail-left corner`), in the reader's words."""
    first, space, rest = panel.partition(" ")
    return f"{word(first)}{space}{rest}" if first in EIGHTHS else panel


def _title(worked: Worked, name: str) -> str:
    titles = [(blank.name, blank.called) for blank in worked.design.blanks]
    titles += [(thing.name, thing.called) for thing in worked.design.things]
    return next((str(title) for own, title in titles if own == name and title is not None), name)


def counted_words(worked: Worked, paths: Iterable[str]) -> str:
    """`left strip of the front block, 2 × seed card of the back block`: equal names counted once, in order of first sight."""
    names = [part_words(worked, path) for path in paths]
    return ", ".join(f"{names.count(name)} × {name}" if names.count(name) > 1 else name for name in dict.fromkeys(names))
