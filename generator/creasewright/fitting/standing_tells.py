"""What tells standing work that is wrong: which side of each panel looks where, and how its print stands there."""

from creasewright.fitting.looks import Looking, told_side
from creasewright.fitting.seen_faces import seen_faces
from creasewright.fitting.tell import LEAST, Seen, Tell
from creasewright.folding.state import Body, PanelKey, State

Faces = dict[PanelKey, dict[str, tuple[str, int | None, float]]]
"""Panel, and where a face of it looks: the side as far as it can be told, the turn of its print, mm²."""
FROM = ("up", "tail", "right", "left", "head")
"""Where a face looks that the maker sees, best seen first."""


def standing_tells(right: Seen, wrong: Seen) -> list[Tell]:
    mine, other = faces_of(*right), faces_of(*wrong)
    found: list[Tell] = []
    for key in dict.fromkeys((*mine, *other)):
        was, now = mine.get(key, {}), other.get(key, {})
        for place, looks in enumerate(FROM):
            clear = 1.0 - 0.1 * place
            if looks in was and looks in now:
                (side, turn, weight), (its, stands, _) = was[looks], now[looks]
                if side != its:
                    found.append(Tell("faces", *key, side, its, looks=looks, weight=weight * clear))
                elif None not in (turn, stands) and turn != stands:
                    found.append(Tell("print", *key, str(turn), str(stands), looks=looks, weight=weight * clear))
            elif looks in was:
                side, _, weight = was[looks]
                where = next((way for way, (its, _, _) in now.items() if its == side), "")
                if side and where:
                    found.append(Tell("looks", *key, looks, where, side=side, weight=weight * clear / 2))
                elif not now:
                    found.append(Tell("covered", *key, right=side, looks=looks, weight=weight * clear / 2))
            elif looks in now:
                side, _, weight = now[looks]
                where = next((way for way, (its, _, _) in was.items() if its == side), "")
                if side and where:
                    found.append(Tell("looks", *key, where, looks, side=side, weight=weight * clear / 2))
                elif not was:
                    found.append(Tell("bare", *key, wrong=side, looks=looks, weight=weight * clear / 2))
    return [tell for tell in found if tell.weight > LEAST]


def faces_of(state: State, body: Body, looking: Looking) -> Faces:
    found: Faces = {}
    for face in seen_faces(state, body, looking.papers, looking.lies):
        paper = looking.papers.get(state.blanks[face.panel[0]].paper)
        side = told_side(paper, face.side) if paper is not None else ""
        found.setdefault(face.panel, {})[face.looks] = (side, face.turn, face.area)
    return found
