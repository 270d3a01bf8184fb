"""What hangs on what: panels joined by score pieces and by bonds."""

from collections.abc import Iterable, Iterator

from msgspec import Struct

from creasewright.blanks.blank import ScorePiece
from creasewright.folding.state import Body, Bond, PanelKey, PieceKey, State


class Link(Struct, frozen=True):
    """An edge of the graph; `piece` or `bond` says which kind."""

    first: PanelKey
    second: PanelKey
    piece_key: PieceKey | None = None
    piece: ScorePiece | None = None
    bond: Bond | None = None

    @property
    def turns_with(self) -> PieceKey | None:
        """The score about which its two panels turn: its own, or the one along which it is sewn; None for what is rigid."""
        return self.bond.hinge if self.bond is not None else self.piece_key

    def other(self, panel: PanelKey) -> PanelKey:
        return self.second if panel == self.first else self.first


def links(state: State, parts: Iterable[str]) -> Iterator[Link]:
    """Every link within these parts: score pieces in blank order, then bonds in the order they were made."""
    inside = set(parts)
    for part, blank in state.blanks.items():
        if part in inside:
            for piece in blank.pieces:
                yield Link((part, piece.first), (part, piece.second), piece_key=(part, piece.name), piece=piece)
    for bond in state.bonds:
        if bond.first[0] in inside:
            yield Link(bond.first, bond.second, bond=bond)


def neighbours(all_links: Iterable[Link], without: frozenset[PieceKey] = frozenset()) -> dict[PanelKey, list[Link]]:
    around: dict[PanelKey, list[Link]] = {}
    for link in all_links:
        if link.turns_with is None or link.turns_with not in without:
            around.setdefault(link.first, []).append(link)
            around.setdefault(link.second, []).append(link)
    return around


def reached(start: PanelKey, around: dict[PanelKey, list[Link]]) -> set[PanelKey]:
    seen = {start}
    queue = [start]
    while queue:
        panel = queue.pop()
        for link in around.get(panel, ()):
            other = link.other(panel)
            if other not in seen:
                seen.add(other)
                queue.append(other)
    return seen


def nearer_sides(state: State, body: Body, root: PanelKey, keys: list[PieceKey]) -> dict[PieceKey, PanelKey]:
    """Of the two panels beside each score piece, the one that is fewer links away from the root."""
    all_links = list(links(state, body.parts))
    around = neighbours(all_links)
    depth = {root: 0}
    queue = [root]
    for panel in queue:
        for link in around.get(panel, ()):
            if link.other(panel) not in depth:
                depth[link.other(panel)] = depth[panel] + 1
                queue.append(link.other(panel))
    table = {link.piece_key: link for link in all_links}
    return {key: min((table[key].first, table[key].second), key=lambda panel: depth[panel]) for key in keys}


def panels_of(state: State, parts: Iterable[str]) -> list[PanelKey]:
    inside = set(parts)
    return [(part, panel.name) for part, blank in state.blanks.items() if part in inside for panel in blank.panels]


def clusters(panels: Iterable[PanelKey], around: dict[PanelKey, list[Link]]) -> list[set[PanelKey]]:
    """The sets of panels that hang together."""
    left = dict.fromkeys(panels)
    found = []
    while left:
        group = reached(next(iter(left)), around)
        found.append(group)
        for panel in group:
            left.pop(panel, None)
    return found
