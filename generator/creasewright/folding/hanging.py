"""What hangs on what when scores turn: a tree from the side that stays, each moving panel with the score it turns about."""

from msgspec import Struct

from creasewright.folding.fold_scores import Targets, area_of
from creasewright.folding.panel_graph import links, neighbours, panels_of
from creasewright.folding.state import Body, PanelKey, PieceKey, State
from creasewright.geometry.rigid_transform import same_place


class Hanging(Struct, frozen=True):
    root: PanelKey
    """The largest panel that stays."""
    still: frozenset[PanelKey]
    """All panels that stay."""
    parent: dict[PanelKey, PanelKey]
    """Of each panel that a target turns: the panel on the other side of that score, nearer to the root."""
    about: dict[PanelKey, PieceKey]
    """And that score."""


def hanging(before: State, after: State, body: Body, targets: Targets) -> Hanging | None:
    """None where everything moves. `body` is one of either state; `targets` are the scores whose angles change between them."""
    keys = [key for key in panels_of(after, body.parts) if key in before.placed]
    still = frozenset(key for key in keys if same_place(before.placed[key], after.placed[key]))
    if not still:
        return None
    root = max(sorted(still), key=lambda key: area_of(after, key))
    around = neighbours(links(before, body.parts))
    parent: dict[PanelKey, PanelKey] = {}
    about: dict[PanelKey, PieceKey] = {}
    seen = {root}
    queue = [root]
    for panel in queue:
        # what stays first, so that a panel counts as hanging on what stays wherever it does
        for link in sorted(around.get(panel, ()), key=lambda link: link.other(panel) not in still):
            other = link.other(panel)
            if other in seen:
                continue
            seen.add(other)
            queue.append(other)
            if link.piece_key in targets and other not in still:
                parent[other], about[other] = panel, link.piece_key
    return Hanging(root, still, parent, about)
