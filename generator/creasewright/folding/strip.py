"""A flat strip folded up at many parallel scores in one step, answered at once.

Folded from both ends towards the side that stays, the layers are one pile that is turned over at every score and gets the next panels
underneath (valley) or on top (mountain). With the pile kept at both ends and turned by a mark, all folds take time in proportion to
the panels. It is the same as one fold after another (`fold_line`), which looks at the whole pile each time; what this cannot tell
(a pile that reaches past the next score, paper stuck across, scores that are not parallel) is left to that.
"""

from collections import deque
from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from creasewright.folding.panel_graph import Link, clusters, links, neighbours, panels_of
from creasewright.folding.state import Body, PanelKey, PieceKey, Stack, State
from creasewright.folding.transforms import spread

PAST = 0.01
"""mm that a pile may reach past a score before it counts."""
Targets = dict[PieceKey, float]


class Span(Struct, frozen=True):
    """Panels that stay flat beside each other, and how far they reach across the scores, mm."""

    panels: tuple[PanelKey, ...]
    low: float
    high: float


class Turn(Struct, frozen=True):
    """A score across the strip: where, to which angle, and the spans before and after it."""

    at: float
    angle: float
    before: int
    after: int


class Pile:
    """Panels from low to high, turned over and added to at either end in no time."""

    def __init__(self, span: Span) -> None:
        self.order: deque[PanelKey] = deque(span.panels)
        self.turned = False
        self.low, self.high = span.low, span.high

    def fold(self, at: float, valley: bool, onto: Span) -> None:
        """Turned over at a score onto the span beyond it, or under it."""
        self.turned = not self.turned
        self.low, self.high = min(2 * at - self.high, onto.low), max(2 * at - self.low, onto.high)
        if valley == self.turned:
            self.order.extend(reversed(onto.panels) if self.turned else onto.panels)
        else:
            self.order.extendleft(onto.panels if self.turned else reversed(onto.panels))

    def turned_over(self) -> Iterable[PanelKey]:
        return self.order if self.turned else reversed(self.order)


def folded_strip(state: State, body: Body, root: PanelKey, targets: Targets) -> State | None:
    """The state after all scores have turned flat; None where this is no plain strip, or a pile would reach past a score."""
    all_links = list(links(state, body.parts))
    if not is_plain(state, body, all_links, targets):
        return None
    laid_out = spans_and_turns(state, body, all_links, targets)
    if laid_out is None:
        return None
    spans, turns = laid_out
    home = next(number for number, span in enumerate(spans) if root in span.panels)
    right = piled(spans, [turn for turn in turns if turn.before >= home][::-1], spans[home], True)
    left = piled(spans, [turn for turn in turns if turn.before < home], spans[home], False)
    if right is None or left is None:
        return None
    above = [*left[0], *right[0]]
    below = [*right[1], *left[1]]
    if (left[0] and right[0]) or (left[1] and right[1]):
        return None
    order = (*below, *spans[home].panels, *above)
    angles = {**state.angles, **targets}
    placed, _ = spread(state, root, all_links, angles)
    up = body.stacks[0]
    stack = Stack(up.normal, order if faces_up(state, up, root) else order[::-1])
    bodies = tuple(replace(body, stacks=(stack,)) if other is body else other for other in state.bodies)
    return replace(state, placed={**state.placed, **placed}, angles=angles, bodies=bodies, creased=state.creased | frozenset(targets))


def is_plain(state: State, body: Body, all_links: list[Link], targets: Targets) -> bool:
    """One flat part, nothing stuck, nothing folded yet, all targets flat folds."""
    return (
        len(body.parts) == 1
        and len(body.stacks) == 1
        and all(link.piece_key is not None and state.angles.get(link.piece_key, 0.0) == 0 for link in all_links)
        and all(abs(angle) == 180 for angle in targets.values())
    )


def faces_up(state: State, stack: Stack, root: PanelKey) -> bool:
    m = state.placed[root].turn
    return -(m[2] * stack.normal[0] + m[5] * stack.normal[1] + m[8] * stack.normal[2]) > 0


def spans_and_turns(state: State, body: Body, all_links: list[Link], targets: Targets) -> tuple[list[Span], list[Turn]] | None:
    """The strip laid out along the way across its scores; None where the scores are not parallel lines one after another."""
    hinges = [link for link in all_links if link.piece_key in targets]
    first = hinges[0].piece
    assert first is not None
    dx, dy = float(first.end.x - first.start.x), float(first.end.y - first.start.y)
    size = (dx * dx + dy * dy) ** 0.5
    nx, ny = dy / size, -dx / size
    groups = clusters(panels_of(state, body.parts), neighbours(all_links, frozenset(targets)))
    spans = []
    for group in groups:
        reach = [x * nx + y * ny for key in group for x, y in state.blanks[key[0]].panel(key[1]).polygon]
        panels = tuple(group) if len(group) == 1 else tuple(key for key in body.stacks[0].order if key in group)
        spans.append(Span(panels, min(reach), max(reach)))
    spans.sort(key=lambda span: span.low)
    number = {key: k for k, span in enumerate(spans) for key in span.panels}
    turns: dict[int, Turn] = {}
    for link in hinges:
        assert link.piece is not None and link.piece_key is not None
        at = [float(p.x) * nx + float(p.y) * ny for p in (link.piece.start, link.piece.end)]
        a, b = sorted((number[link.first], number[link.second]))
        turn = Turn(at[0], targets[link.piece_key], a, b)
        if abs(at[0] - at[1]) > PAST or b != a + 1 or turns.get(a, turn).angle != turn.angle or abs(turns.get(a, turn).at - at[0]) > PAST:
            return None
        turns[a] = turn
    if len(turns) != len(spans) - 1:
        return None
    return spans, [turns[k] for k in sorted(turns)]


def piled(spans: list[Span], turns: list[Turn], home: Span, rightward: bool) -> tuple[list[PanelKey], list[PanelKey]] | None:
    """What lies above and below the staying span once one end is folded up, farthest score first; None where a pile reaches too far."""
    if not turns:
        return [], []
    pile = Pile(spans[turns[0].after if rightward else turns[0].before])
    for turn in turns:
        near = spans[turn.before if rightward else turn.after]
        reaches = pile.low < turn.at - PAST if rightward else pile.high > turn.at + PAST
        if reaches:
            return None
        if near is home:
            beyond = 2 * turn.at - (pile.high if rightward else pile.low)
            if (beyond < home.low - PAST) if rightward else (beyond > home.high + PAST):
                return None
            landed = list(pile.turned_over())
            return (landed, []) if turn.angle > 0 else ([], landed)
        pile.fold(turn.at, turn.angle > 0, near)
    return None
