"""What would let a face read upright that cannot: the blank split at a score and joined, the paper's other side, an all-over print.

Each alternative is worked out: the wishes that are kept now stay kept, the face in question is won. What it costs is in its fields;
how many sheets it takes is the sheet planner's to say. A paper printed all over always helps, and is not worked out here.
"""

from collections.abc import Sequence
from math import hypot

from msgspec import Struct

from creasewright.blanks.blank import Blank, Score
from creasewright.fitting.lies import TURNS, Lie, fits, forbidden_by, grain_runs
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.fitting.print_turns import Wish, WishResult, upright
from creasewright.geometry.outline import Polygon

JOINT = {"in": 9.525, "mm": 10.0}
"""mm, 3/8 in | 10 mm: the strip that one half of a split blank keeps beyond the score to be glued under the other
(glue flaps of small work are 6 to 10 mm: common practice, no source)."""


class Half(Struct, frozen=True):
    panels: tuple[str, ...]
    width: float
    """mm, with the joint where it carries it."""
    height: float
    lie: Lie


class Split(Struct, frozen=True):
    score: str
    joint: float
    """mm: how wide the joint is."""
    length: float
    """mm: how long."""
    halves: tuple[Half, Half]
    """The first carries the joint."""


class OtherSide(Struct, frozen=True):
    lie: Lie
    print: str
    """What then shows on the face."""
    changed: tuple[int, ...]
    """Other wishes of this part, by number, that then show the other side's print too."""


class Alternatives(Struct, frozen=True):
    split: Split | None
    other_side: OtherSide | None


def alternatives(number: int, results: Sequence[WishResult], paper: PaperFacts, now: Lie, system: str) -> Alternatives:
    """For the wish of that number, which is not upright. `paper` is its blank's, which lies as `now`."""
    wishes = [result.wish for result in results]
    part, _ = wishes[number].panel
    blank = wishes[number].state.blanks[part]
    mine = [k for k, result in enumerate(results) if result.wish.panel[0] == part and (result.upright or k == number)]
    return Alternatives(
        split_of(blank, paper, [wishes[k] for k in mine], JOINT[system], now.back_up),
        other_side_of(number, blank, paper, wishes, mine, now),
    )


# --- the other side of the paper


def other_side_of(
    number: int, blank: Blank, paper: PaperFacts, wishes: Sequence[Wish], mine: list[int], now: Lie
) -> OtherSide | None:
    """The least turn with the other side of the paper up that keeps all of `mine`; none where both sides are printed alike."""
    side = wishes[number].side
    if side is None or paper.front == paper.back:
        return None
    for turn in TURNS:
        lie = Lie(not now.back_up, turn)
        if forbidden_by(blank, paper, lie) in ("", "side") and all(upright(wishes[k], paper, lie) for k in mine):
            changed = tuple(k for k in mine if k != number)
            return OtherSide(lie, paper.with_up(lie.back_up).print_of(side), changed)
    return None


# --- the blank in two


def split_of(blank: Blank, paper: PaperFacts, mine: list[Wish], joint: float, back_up: bool) -> Split | None:
    """The shortest score at which the blank parts in two halves that can each keep all their wishes; `mine` are the part's."""
    found: list[tuple[float, Split]] = []
    for score in blank.scores:
        groups = parted(blank, score)
        if len(groups) != 2 or score.name in [split.score for _, split in found]:
            continue
        length = hypot(float(score.end.x - score.start.x), float(score.end.y - score.start.y))
        for first, second in (groups, groups[::-1]):
            halves = tuple(
                half_of(blank, paper, group, [w for w in mine if w.panel[1] in group], (score, joint) if group is first else None, back_up)
                for group in (first, second)
            )
            if halves[0] is not None and halves[1] is not None:
                found.append((length, Split(score.name, joint, length, (halves[0], halves[1]))))
                break
    return min(found, key=lambda entry: entry[0])[1] if found else None


def parted(blank: Blank, score: Score) -> list[set[str]]:
    """The sets of panels that hang together when the blank is cut along all pieces of that score."""
    around: dict[str, list[str]] = {panel.name: [] for panel in blank.panels}
    for piece in blank.pieces:
        if piece.score != score.name:
            around[piece.first].append(piece.second)
            around[piece.second].append(piece.first)
    groups: list[set[str]] = []
    for panel in around:
        if any(panel in group for group in groups):
            continue
        group, queue = {panel}, [panel]
        while queue:
            for other in around[queue.pop()]:
                if other not in group:
                    group.add(other)
                    queue.append(other)
        groups.append(group)
    return groups


def half_of(
    blank: Blank, paper: PaperFacts, panels: set[str], mine: list[Wish], strip: tuple[Score, float] | None, back_up: bool
) -> Half | None:
    """A half with its joint, and a turn at which it fits the sheet, runs with the grain and keeps all its wishes; None if there is none."""
    polygons = [blank.panel(name).polygon for name in panels]
    spots = [spot for polygon in polygons for spot in polygon]
    if strip is not None:
        spots += beyond(strip[0], strip[1], polygons)
    width = max(x for x, _ in spots) - min(x for x, _ in spots)
    height = max(y for _, y in spots) - min(y for _, y in spots)
    for turn in TURNS:
        if fits(width, height, paper, turn) and grain_runs(blank, paper, turn):
            lie = Lie(back_up, turn)
            if all(upright(wish, paper, lie) for wish in mine):
                return Half(tuple(panel.name for panel in blank.panels if panel.name in panels), width, height, lie)
    return None


def beyond(score: Score, joint: float, polygons: list[Polygon]) -> list[tuple[float, float]]:
    """The outer corners of the joint: as far beyond the score, on the side where these panels are not."""
    ax, ay, bx, by = (float(v) for v in (score.start.x, score.start.y, score.end.x, score.end.y))
    length = hypot(bx - ax, by - ay)
    nx, ny = -(by - ay) / length, (bx - ax) / length
    inside = sum((x - ax) * nx + (y - ay) * ny for polygon in polygons for x, y in polygon)
    k = -joint if inside > 0 else joint
    return [(x + nx * k, y + ny * k) for x, y in ((ax, ay), (bx, by))]
