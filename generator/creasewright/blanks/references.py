"""Which of some names a reference means: `up 2`, `each up`, `last up`, `up 2 to last`, `each gap/up`.

A pair of names `a/b` may be given either way round.
"""

import re
from collections.abc import Collection

_NUMBER = re.compile(r" (\d+)$")
_RANGE = re.compile(r"^(.+) (\d+) to (last|\d+)$")


def turned_round(name: str) -> str:
    """`a/b` as `b/a`; a leading `each` or `last` stays in front."""
    first, _, rest = name.partition(" ")
    if first in ("each", "last") and "/" in rest:
        return f"{first} {turned_round(rest)}"
    return "/".join(reversed(name.split("/")))


def plain(name: str) -> str:
    """The name without the numbers of its repeat: `gap 2/up 2` is `gap/up`."""
    return "/".join(_NUMBER.sub("", part) for part in name.split("/"))


def numbers_in(name: str) -> tuple[int, ...]:
    return tuple(int(found.group(1)) for part in name.split("/") if (found := _NUMBER.search(part)))


def expanded(text: str, names: Collection[str]) -> list[str]:
    """Every one of `names` that the reference means, numbered ones in order; empty where it means none."""
    for written in (text, turned_round(text)):
        found = _expanded(written, names)
        if found:
            return found
    return []


def _expanded(text: str, names: Collection[str]) -> list[str]:
    if text in names:
        return [text]
    if text.startswith("each "):
        return _numbered(text[5:], names) or ([text[5:]] if text[5:] in names else [])
    if text.startswith("last "):
        return _numbered(text[5:], names)[-1:]
    run = _RANGE.match(text)
    if run:
        every = _numbered(run.group(1), names)
        last = len(every) if run.group(3) == "last" else int(run.group(3))
        return [name for name in every if int(run.group(2)) <= numbers_in(name)[0] <= last]
    return []


def _numbered(name: str, names: Collection[str]) -> list[str]:
    return sorted((other for other in dict.fromkeys(names) if other != name and plain(other) == name), key=numbers_in)

