"""What parts and pockets are called on a reader's page."""

from collections.abc import Iterable

from creasewright.fitting.pieces import bare
from creasewright.fitting.worked import Worked


def part_words(worked: Worked, path: str) -> str:
    """`seed card of the front block` for the path `front block/seed card 2`; blanks and things go by their titles."""
    *wholes, own = path.split("/")
    return " of the ".join([_title(worked, bare(own)), *reversed(wholes)])


def _title(worked: Worked, name: str) -> str:
    titles = [(blank.name, blank.called) for blank in worked.design.blanks]
    titles += [(thing.name, thing.called) for thing in worked.design.things]
    return next((str(title) for own, title in titles if own == name and title is not None), name)


def counted_words(worked: Worked, paths: Iterable[str]) -> str:
    """`left strip of the front block, 2 × seed card of the back block`: equal names counted once, in order of first sight."""
    names = [part_words(worked, path) for path in paths]
    return ", ".join(f"{names.count(name)} × {name}" if names.count(name) > 1 else name for name in dict.fromkeys(names))
