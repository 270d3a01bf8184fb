"""Boards of a wrapped cover: a board put onto it finds its own panel, and lies where the cover was made for it."""

from creasewright.blanks.blank import BoardPlace, Wrap
from creasewright.folding.covered_boards import board_on
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.joining.compass import Box, box, faces_maker, point_in_view, polygon_in_view
from creasewright.joining.refused import JoinRefused

SAME = 0.02
"""mm: a board that differs by less from its place is that size."""


def wrap_of(state: State, part: str) -> Wrap | None:
    return state.blanks[part].wrap


def own_place(state: State, part: str, onto: tuple[PanelKey, ...]) -> tuple[str, BoardPlace] | None:
    """The cover among the targets that is made for this board, and the first place there that is still free.

    None where the part is no board of theirs. Raises JoinRefused where all its places are taken.
    """
    board = state.blanks[part].name
    for cover in dict.fromkeys(key[0] for key in onto):
        wrap = wrap_of(state, cover)
        mine = [place for place in wrap.boards if place.board == board] if wrap is not None else []
        if not mine:
            continue
        free = next((place for place in mine if board_on(state, cover, place) is None), None)
        if free is None:
            raise JoinRefused(f"{cover} has no place left for {part}: it takes {len(mine)} of them", "leave this board out")
        return cover, free
    return None


def shift_to_place(state: State, thing: Body, part: str, body: Body, cover: str, place: BoardPlace) -> tuple[float, float]:
    """How far the board moves in the view. Raises JoinRefused where the cover lies wrong side up or the board lies turned."""
    if faces_maker(front_normal(state.placed[(cover, place.panel)]), body):
        raise JoinRefused(f"{cover} lies front up, and boards go on its back", f"lay it over first: `lay: {cover}`, `up: back`")
    x, y, width, height = (float(v) for v in (place.left, place.head, place.width, place.height))
    theirs = box([tuple(point_in_view(state, body, (cover, place.panel), *spot) for spot in ((x, y), (x + width, y + height)))])
    mine = box([polygon_in_view(state, thing, (part, panel.name)) for panel in state.blanks[part].panels])
    if any(abs(a - b) > SAME for a, b in zip(sizes(mine), sizes(theirs), strict=True)):
        raise JoinRefused(f"{part} lies turned to its place on {cover}", "turn it, or lay it head away")
    return (theirs[0] + theirs[2] - mine[0] - mine[2]) / 2, (theirs[1] + theirs[3] - mine[1] - mine[3]) / 2


def sizes(b: Box) -> tuple[float, float]:
    return b[2] - b[0], b[3] - b[1]
