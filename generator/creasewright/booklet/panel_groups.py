"""Many panels named as a person does: `the four walls and the four tabs`, `the rim`.

Panels of one kind (the last word of their names: head wall, side wall 1) that are all there are go by their kind; numbered ones by
their stem; all panels of a band by the band. What is left goes by its own name.
"""

from msgspec import Struct

from creasewright.blanks.blank import Band, Blank, Panel
from creasewright.geometry.loops import centroid

SHORTEST_KIND = 3
"""Letters: the last word of `side a` is no kind."""


class PanelGroup(Struct, frozen=True):
    name: str
    count: int
    """1: told as `the name`; more: as `the three names`."""


def panel_groups(blank: Blank, names: list[str]) -> list[PanelGroup]:
    """The panels of one blank in as few words as they take, in the order of first sight."""
    left = list(dict.fromkeys(names))
    found: list[tuple[int, PanelGroup]] = []

    def take(members: list[str], group: PanelGroup) -> None:
        found.append((names.index(members[0]), group))
        left[:] = [name for name in left if name not in members]

    for band in sorted(blank.bands, key=lambda band: -len(inside(blank, band))):
        members = inside(blank, band)
        if len(members) > 1 and all(name in left for name in members):
            take(sorted(members, key=names.index), PanelGroup(band.name, 1))
    for part_of in (kind, stem):
        for word in list(dict.fromkeys(part_of(name) for name in left)):
            members = [panel.name for panel in blank.panels if part_of(panel.name) == word]
            if word and len(members) > 1 and all(name in left for name in members):
                take(sorted(members, key=names.index), PanelGroup(word, len(members)))
    for name in list(left):
        take([name], PanelGroup(name, 1))
    return [group for _, group in sorted(found, key=lambda each: each[0])]


def stem(name: str) -> str:
    """`tab` of `tab 3`; empty for a name without a number."""
    word, _, digits = name.rpartition(" ")
    return word if digits.isdigit() else ""


def kind(name: str) -> str:
    """The last word of a name, its number left out; empty where that says nothing."""
    word = (stem(name) or name).rpartition(" ")[2]
    return word if len(word) >= SHORTEST_KIND else ""


def inside(blank: Blank, band: Band) -> list[str]:
    """The panels whose middles lie in a band."""
    return [panel.name for panel in blank.panels if holds(band, panel)]


def holds(band: Band, panel: Panel) -> bool:
    x, y = centroid(panel.polygon)
    return float(band.start) < (x if band.direction == "across" else y) < float(band.end)
