"""A fold in space as a picture shows it: the work part of the way there, and the way of each rim from there to where it ends."""

from math import dist

from msgspec import Struct
from msgspec.structs import replace

from creasewright.booklet.diagrams.axonometric import LOOK_DOWN, TURN
from creasewright.booklet.diagrams.line_code import chain_length
from creasewright.booklet.diagrams.scene import Spot3
from creasewright.booklet.diagrams.space_view import seen_at, space_view
from creasewright.folding.collisions import first_crossing
from creasewright.folding.fold_scores import Targets, area_of, piece_of
from creasewright.folding.fold_together import Motion, moving_pairs, plane_groups
from creasewright.folding.hanging import Hanging, hanging
from creasewright.folding.panel_graph import neighbours
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.folding.transforms import Placed
from creasewright.geometry.rigid_transform import apply, cross, dot, minus, norm, rotate

MOST_PATHS = 4
STEPS = 12
SHOWN = (6, 5, 4, 3)
"""After how many of them the work may be shown, the first choice first."""
EDGE_ON = 0.15
"""A panel whose normal has less than this share towards the reader is seen as a mere line."""
STILL_TO_GO = 0.08
"""The longest arrow has at least this length, as a share of the size of the work."""
ALIKE = 0.5
"""A panel beside its score is pictured for what it carries, if it is at least so large, as a share of the largest of that."""
ON_RIM = 1.0
"""mm: corners this near to the one farthest from the score belong to the far rim."""
SHORTEST = 1.0
"""mm"""
Path = tuple[Spot3, ...]


class OnTheWay(Struct, frozen=True):
    state: State
    body: Body
    step: int
    """Of `STEPS`."""


class Turning:
    """What turns about scores of the side that stays, each with the panel whose rim its arrow is drawn from."""

    def __init__(self, before: State, after: State, body: Body, targets: Targets, tree: Hanging) -> None:
        self.before, self.after, self.body, self.targets, self.tree = before, after, body, targets, tree
        self.lying = before.body_of(tree.root[0])
        self.motion = Motion(before, self.lying, tree.root, targets, False, [])
        direct = largest_of_lines(after, [key for key in tree.about if tree.parent[key] in tree.still], tree)
        carried = {key: self.shown_for(key, frozenset(direct)) for key in direct}
        claimed = list(carried.values())
        self.shown = {key: panel if claimed.count(panel) == 1 else key for key, panel in carried.items()}
        self.rims = {key: rim_spot(before, panel, key, tree) for key, panel in self.shown.items()}
        self.flat = True
        """Whether all panels stay flat on the way."""
        try:
            self.course = self.placed_by(self.motion)
        except FoldRefused:
            # what carries a rim turns evenly, whether or not the rest can follow
            self.flat = False
            self.course = self.placed_by(Motion(before, self.lying, tree.root, targets, True, []))

    def placed_by(self, motion: Motion) -> list[Placed]:
        """At the beginning, after each step, at the end. Raises FoldRefused where the paper would have to bend."""
        return [self.before.placed, *(motion.at(step / STEPS) for step in range(1, STEPS)), self.after.placed]

    def shown_for(self, key: PanelKey, direct: frozenset[PanelKey]) -> PanelKey:
        """The panel itself, or the largest that it carries where it is small beside that."""
        around = neighbours(self.motion.links)
        seen, queue = {*self.tree.still, *direct}, [key]
        for panel in queue:
            for link in around.get(panel, ()):
                if link.other(panel) not in seen:
                    seen.add(link.other(panel))
                    queue.append(link.other(panel))
        largest = max(queue, key=lambda panel: round(area_of(self.before, panel), 1))
        return key if area_of(self.before, key) >= ALIKE * area_of(self.before, largest) else largest

    def part_way(self) -> OnTheWay | None:
        """Where what turns is seen well, with a good stretch of its way; None where there is no such place, or panels do not stay flat,
        or clear of one another, on the way there."""
        if not self.flat:
            return None
        step = next((step for step in SHOWN if self.least_seen(step) > EDGE_ON and self.longest_left(step) > self.enough()), None)
        if step is None:
            return None
        placed = self.course[step]
        if first_crossing(self.before, placed, moving_pairs(self.motion)) is not None:
            return None
        state = replace(self.before, placed={**self.before.placed, **placed}, angles=self.motion.guess(step / STEPS))
        body = replace(self.lying, stacks=tuple(plane_groups(self.before, state, self.lying)), view=self.body.view)
        return OnTheWay(replace(state, bodies=tuple(body if each is self.lying else each for each in state.bodies)), body, step)

    def least_seen(self, step: int) -> float:
        eye, placed = eye_of(True), self.course[step]
        return min(abs(dot(eye, rotate(self.body.view, front_normal(placed[panel])))) for panel in self.shown.values())

    def longest_left(self, step: int) -> float:
        """mm of the way of a rim from then on, as the reader sees it."""
        view = space_view(TURN, LOOK_DOWN)
        ways = ([seen_at(view, self.seen(each, key)) for each in range(step, STEPS + 1)] for key in self.shown)
        return max(chain_length(way) for way in ways)

    def enough(self) -> float:
        """mm"""
        shapes = {key: self.before.blanks[key[0]].panel(key[1]).polygon for key in self.course[1]}
        spots = [apply(self.after.placed[key], (x, y, 0.0)) for key, shape in shapes.items() for x, y in shape]
        low, high = (tuple(pick(spot[axis] for spot in spots) for axis in range(3)) for pick in (min, max))
        return STILL_TO_GO * dist(low, high)

    def ways(self, since: int) -> tuple[Path, ...]:
        """Of the far rims, from a step on, at most `MOST_PATHS`, the nearest ones first."""
        eye = eye_of(True)
        near = sorted(self.shown, key=lambda key: -dot(eye, self.seen(STEPS, key)))[:MOST_PATHS]
        found = (tuple(self.seen(step, key) for step in range(since, STEPS + 1)) for key in near)
        return tuple(path for path in found if norm(minus(path[0], path[-1])) > SHORTEST)

    def seen(self, step: int, key: PanelKey) -> Spot3:
        """Where the rim is then, in the view."""
        return rotate(self.body.view, apply(self.course[step][self.shown[key]], self.rims[key]))


def turning(before: State, after: State, body: Body, targets: Targets) -> Turning | None:
    """None where nothing stays. `body`: of either state, gives the view."""
    tree = hanging(before, after, body, targets)
    found = Turning(before, after, body, targets, tree) if tree is not None else None
    return found if found is not None and found.shown else None


def fold_paths(before: State, after: State, body: Body, targets: Targets) -> tuple[Path, ...]:
    """The whole ways of the rims of what turns."""
    found = turning(before, after, body, targets)
    return found.ways(0) if found is not None else ()


def largest_of_lines(state: State, panels: list[PanelKey], tree: Hanging) -> list[PanelKey]:
    """Of the panels that one score turns, the largest."""
    best: dict[tuple[str, str], PanelKey] = {}
    for panel in panels:
        line = (panel[0], piece_of(state, tree.about[panel]).score)
        if line not in best or area_of(state, panel) > area_of(state, best[line]):
            best[line] = panel
    return list(best.values())


def rim_spot(state: State, panel: PanelKey, hung: PanelKey, tree: Hanging) -> Spot3:
    """In the panel's flat frame: the middle of its rim that is farthest from the score about which `hung` turns."""
    piece = piece_of(state, tree.about[hung])
    start, end = (apply(state.placed[hung], (float(p.x), float(p.y), 0.0)) for p in (piece.start, piece.end))
    along = minus(end, start)
    corners = [(x, y, 0.0) for x, y in state.blanks[panel[0]].panel(panel[1]).polygon]
    offs = [minus(apply(state.placed[panel], corner), start) for corner in corners]
    away = [norm(cross(off, along)) / norm(along) for off in offs]
    rim = [k for k, far in enumerate(away) if far > max(away) - ON_RIM]
    low, high = (pick(rim, key=lambda k: round(dot(offs[k], along), 3)) for pick in (min, max))
    a, b = corners[low], corners[high]
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2, 0.0


def eye_of(from_left: bool) -> Spot3:
    """From the scene to the reader."""
    return space_view(TURN if from_left else -TURN, LOOK_DOWN).eye
