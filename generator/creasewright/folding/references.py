"""What a step's words mean: parts, panels and scores by their shortest unambiguous path, from inside out.

`page of right strip of front block` is the panel `page` of the part `front block/right strip`; `each leaf` is every part
numbered from `leaf`; `leaf 2 to last` some of them.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from typing import Protocol

from creasewright.blanks.blank import Blank
from creasewright.blanks.find import find_panels, find_pieces
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey, PieceKey, State
from creasewright.nearest_name import did_you_mean
from creasewright.problems import CreasewrightError


class Named(Protocol):
    """A panel or a score piece."""

    @property
    def name(self) -> str: ...


Finder = Callable[[Blank, str], Sequence[Named]]


class RefFault(CreasewrightError):
    """Words that name nothing, or more than one thing."""

    def __init__(self, what: str, hint: str) -> None:
        super().__init__(what)
        self.what, self.hint = what, hint


def word_fits(word: str, name: str) -> bool:
    """`each leaf`, `leaf 2`, `leaf 2 to last`, `last leaf` against one component of a path. `last` is settled by `narrowed`."""
    if word == name:
        return True
    stem, _, digits = name.rpartition(" ")
    if not digits.isdigit():
        return word in (f"each {name}", f"last {name}")
    if word in (f"each {stem}", f"last {stem}"):
        return True
    some = re.fullmatch(rf"{re.escape(stem)} (\d+) to last", word)
    return some is not None and int(digits) >= int(some[1])


def narrowed(word: str, paths: list[str], depth: int) -> list[str]:
    """Keeps the highest number where the word asks for the last."""
    if not word.startswith("last "):
        return paths
    numbers = [int(p.split("/")[depth].rpartition(" ")[2] or 0) for p in paths if p.split("/")[depth][-1:].isdigit()]
    return [p for p in paths if p.split("/")[depth].endswith(f" {max(numbers)}")] if numbers else paths


def prefix_of(path: str, words: Sequence[str]) -> str | None:
    """The shortest prefix of a path that the words name (words run from inside out), or None."""
    names = path.split("/")
    for end in range(1, len(names) + 1):
        if not word_fits(words[0], names[end - 1]):
            continue
        rest = list(words[1:])
        for name in reversed(names[: end - 1]):
            if rest and word_fits(rest[0], name):
                rest.pop(0)
        if not rest:
            return "/".join(names[:end])
    return None


def find_parts(paths: Iterable[str], text: str) -> list[tuple[str, ...]]:
    """Groups of part paths that the words name: one path for a blank, several for an assembly that is a part."""
    words = text.split(" of ")
    groups: dict[str, list[str]] = {}
    for path in paths:
        prefix = prefix_of(path, words)
        if prefix is not None:
            groups.setdefault(prefix, []).append(path)
    if words[0].startswith("last ") and groups:
        kept = narrowed(words[0], list(groups), next(iter(groups)).count("/"))
        groups = {key: value for key, value in groups.items() if key in kept}
    return [tuple(group) for group in groups.values()]


def several(words: str) -> bool:
    return words.startswith("each ") or " each " in words or words.endswith(" to last") or " to last of " in words


def find_keys(state: State, text: str, finder: Finder) -> list[tuple[str, str]]:
    """(part, name) of everything that `finder(blank, words)` finds, for every way to split the words into inner name and part."""
    tokens = text.split(" of ")
    for inner in range(1, len(tokens) + 1):
        name, rest = " of ".join(tokens[:inner]), tokens[inner:]
        paths = [p for group in find_parts(state.blanks, " of ".join(rest)) for p in group] if rest else list(state.blanks)
        found = [(path, item.name) for path in paths for item in finder(state.blanks[path], name)]
        if found:
            return without_copies(state, found)
    return []


def without_copies(state: State, found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """A piece made like another's panels bears their names; the bare name means the original."""
    originals = {state.blanks[part].name for part, _ in found}
    kept = [(part, name) for part, name in found if not is_copy_of(state.blanks[part], originals)]
    return kept or found


def is_copy_of(blank: Blank, originals: set[str]) -> bool:
    return blank.source is not None and blank.source.blank in originals


def one_part_only(text: str, found: list[tuple[str, str]]) -> None:
    parts = list(dict.fromkeys(part for part, _ in found))
    if len(parts) > 1 and not several(text):
        where = " and in ".join(" of ".join(reversed(part.split("/"))) for part in parts[:3])
        raise RefFault(f"`{text}` is in {where}", f"say which: `{called((parts[0], text))}`")


def panels_named(state: State, text: str) -> list[PanelKey]:
    """Every panel that the words name; a part of one panel may be named by itself. Raises RefFault."""
    found = parts_first(text, find_keys(state, text, find_panels))
    if not found:
        groups = find_parts(state.blanks, text)
        found = [(path, panel.name) for group in groups for path in group for panel in state.blanks[path].panels]
        if len(found) > 1 and not several(text):
            names = ", ".join(name for _, name in found[:6])
            raise RefFault(f"`{text}` has several panels", f"say which of them: {names}")
    if not found:
        raise unknown(state, text, "panel")
    one_part_only(text, found)
    return found


def parts_first(text: str, found: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """A part before the panel that is named after it: `front board` is the board, not the cover's panel under it."""
    word = text.split(" of ")[0]
    return [(part, name) for part, name in found if word_fits(word, part.split("/")[-1])] or found


def panel_named(state: State, text: str) -> PanelKey:
    found = panels_named(state, text)
    if len(found) > 1:
        raise RefFault(f"`{text}` names {len(found)} panels", "name one of them: " + ", ".join(called(key) for key in found[:4]))
    return found[0]


def pieces_named(state: State, text: str) -> list[PieceKey]:
    """Every score piece that the words name. Raises RefFault."""
    found = find_keys(state, text, find_pieces)
    if not found:
        raise unknown(state, text, "score")
    one_part_only(text, found)
    return found


def unknown(state: State, text: str, kind: str) -> RefFault:
    inner = text.split(" of ")[0].removeprefix("each ").removeprefix("last ")
    known = set()
    for blank in state.blanks.values():
        known |= {panel.name for panel in blank.panels}
        if kind == "score":
            known |= {score.name for score in blank.scores}
    known |= {path.split("/")[-1] for path in state.blanks}
    return RefFault(f"there is no {kind} `{text}` here", did_you_mean(inner, sorted(known)))
