"""Turning in: the rim of a cover folded over its boards and glued down, head and tail first, then the sides.

The order is the trade's ("the edges of the cloth are turned over the edges of the boards": S. J. Vaughn, Printing and Bookbinding for
Schools; head and tail before the sides: common practice, so that the side turn-ins, which hands wear, lie on top). The small triangle that
the mitre leaves at each corner goes down with head or tail and comes to lie under the side turn-in.
"""

from msgspec import Struct

from creasewright.blanks.blank import BoardPlace, Wrap
from creasewright.folding.covered_boards import board_on
from creasewright.folding.fold_scores import Targets, fold_scores
from creasewright.folding.refused import called
from creasewright.folding.state import PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import dot
from creasewright.joining.compass import faces_maker
from creasewright.joining.glue_area import GlueWish
from creasewright.joining.joins import JoinWish, stuck, touching
from creasewright.joining.placing import PlaceWish
from creasewright.joining.refused import JoinRefused

SIDES = ("head", "tail", "left", "right")
"""In this order."""
CORNERS = ("head-left corner", "head-right corner", "tail-left corner", "tail-right corner")


class TurnedIn(Struct, frozen=True):
    state: State
    targets: Targets
    panels: tuple[PanelKey, ...]
    """The turn-ins, in the order in which they go down."""


def turned_in(state: State, cover: str, material: str, step: int) -> TurnedIn:
    """The state after it. Raises JoinRefused, or FoldRefused where something lies in the way."""
    wrap = state.blanks[cover].wrap
    if wrap is None:
        raise JoinRefused(f"{cover} has no turn-ins", "make it with `wrap:`, or fold and glue its flaps one by one")
    if any(abs(state.angles.get((cover, piece.name), 0.0)) > 1 for piece in state.blanks[cover].pieces if piece.score == "head turn-in"):
        raise JoinRefused(f"{cover} is turned in already", "leave this step out")
    check_boards(state, cover, wrap)
    check_reach(cover, wrap)
    base = (cover, wrap.boards[0].panel)
    if faces_maker(front_normal(state.placed[base]), state.body_of(cover)):
        raise JoinRefused(f"{cover} lies front up, and it is turned in over its back", f"lay it over first: `lay: {cover}`, `up: back`")
    found: Targets = {}
    panels: list[PanelKey] = []
    for side in SIDES:
        targets = side_targets(state, cover, side, base)
        state = fold_scores(state, targets, base)
        for panel in turn_ins(state, cover, side):
            state = glued(state, cover, wrap, panel, material, step)
            panels.append(panel)
        found.update(targets)
    return TurnedIn(state, found, tuple(panels))


def check_boards(state: State, cover: str, wrap: Wrap) -> None:
    missing = [place for place in wrap.boards if board_on(state, cover, place) is None]
    if missing:
        there = len(wrap.boards) - len(missing)
        names = ", ".join(place.board for place in missing)
        raise JoinRefused(
            f"{there} of the {len(wrap.boards)} boards of {cover} {'lies' if there == 1 else 'lie'} on it; missing: {names}",
            f"join {missing[0].board} onto {cover} first",
        )


def check_reach(cover: str, wrap: Wrap) -> None:
    """What comes to lie on the inner side is the turn-in less the board's thickness; it must find board there."""
    reach = float(wrap.turn_in) - float(wrap.thick)
    first, last = wrap.boards[0], wrap.boards[-1]
    for place, share in ((first, 2 if first is last else 1), (last, 2 if first is last else 1)):
        if share * reach > float(place.width):
            raise too_wide(cover, wrap, reach, place, float(place.width), "wide", share)
    if 2 * reach > float(first.height):
        raise too_wide(cover, wrap, reach, first, float(first.height), "high", 2)


def too_wide(cover: str, wrap: Wrap, reach: float, place: BoardPlace, room: float, way: str, share: int) -> JoinRefused:
    from_both = "from both sides " if share == 2 else ""
    return JoinRefused(
        f"the turn-ins of {cover} reach {reach:.2f} mm {from_both}over {place.board}, which is {room:.2f} mm {way}",
        f"make `turn-in:` at most {room / share + float(wrap.thick):.2f} mm",
    )


def side_targets(state: State, cover: str, side: str, base: PanelKey) -> Targets:
    """The score pieces of one side, each to 180 towards the boards, which lie on the back.

    A layer that was turned over folds the other way.
    """
    up = front_normal(state.placed[base])
    found: Targets = {}
    for piece in state.blanks[cover].pieces:
        if piece.score == f"{side} turn-in":
            lies = dot(front_normal(state.placed[(cover, piece.first)]), up) > 0
            found[(cover, piece.name)] = -180.0 if lies else 180.0
    return found


def turn_ins(state: State, cover: str, side: str) -> list[PanelKey]:
    return [(cover, panel.name) for panel in state.blanks[cover].panels if panel.name.startswith(f"{side} turn-in")]


def glued(state: State, cover: str, wrap: Wrap, panel: PanelKey, material: str, step: int) -> State:
    """A turn-in stuck to what lies under it: boards, joints of the cover, turn-ins that went down before."""
    own = {place.panel for place in wrap.boards} | set(CORNERS)
    body = state.body_of(cover)
    below, above = touching(state, body, panel)
    onto = [key for key in (*below, *above) if not (key[0] == cover and key[1] in own)]
    if not onto:
        raise JoinRefused(f"{called(panel)} does not come to lie on a board", "make `turn-in:` longer")
    glue = GlueWish((), 0.0, 0.0, (), material, step)
    wish = JoinWish("turn in", (cover,), (panel,), "onto", tuple(onto), PlaceWish((), False, None, 0.0), glue, "glue", 0.0, None, step)
    return stuck(state, body, panel, onto, False, wish)
