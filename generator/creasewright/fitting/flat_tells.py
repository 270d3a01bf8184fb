"""What tells flat work that is wrong: each panel that shows against itself, and what shows or does not."""

from creasewright.fitting.looks import Shown
from creasewright.fitting.tell import LEAST, Tell
from creasewright.folding.state import PanelKey
from creasewright.geometry.clip import total_area
from creasewright.joining.compass import Box, box

MORE = 8.0
"""A panel shows that should not if so many times as much of it shows as should."""
HARDLY = 0.1
"""How much a panel counts that has moved among others that look like it: one has to know it by its name."""
MOSTLY = 0.6
"""The share of what shows of a part that is most of it."""
ASIDE = 0.12
"""The share of the whole width (or height) by which the middle of a panel is off the whole's middle where it lies at one side."""
UNLIKE = 1.25
"""An edge is the longer of two opposite ones if it is so many times as long."""
ACROSS, DOWN = ("left", "right"), ("head", "tail")


def flat_tells(right: list[Shown], wrong: list[Shown]) -> list[Tell]:
    mine, other = {one.key: one for one in right}, {one.key: one for one in wrong}
    was, now = {key: area(one) for key, one in mine.items()}, {key: area(one) for key, one in other.items()}
    found = mostly_other_side(right, wrong)
    found += [Tell("bare", *key, wrong=other[key].look[1], weight=now[key]) for key in fresh(was, now)]
    found += [Tell("covered", *key, right=mine[key].look[1], weight=was[key]) for key in fresh(now, was)]
    named = {(tell.part, tell.panel) for tell in found}
    both = [(one, other[key]) for key, one in mine.items() if key in other and key not in named and min(was[key], now[key]) > LEAST]
    sides = {one.key: min(area(one), area(two)) for one, two in both if one.look[1] != two.look[1]}
    for part, panel, key, weight in by_part(sides, {one.key: one.look[1] for one, _ in both}):
        found.append(Tell("side", part, panel, mine[key].look[1], other[key].look[1], weight=weight))
    turns = {
        one.key: min(area(one), area(two))
        for one, two in both
        if one.look[1] == two.look[1] and None not in (one.look[2], two.look[2]) and one.look[2] != two.look[2]
    }
    for part, panel, key, weight in by_part(turns, {one.key: str(one.look[2]) for one, _ in both}):
        found.append(Tell("print", part, panel, str(mine[key].look[2]), str(other[key].look[2]), weight=weight))
    if right and wrong:
        whole, others = whole_box(right), whole_box(wrong)
        looks = [one.look for one in right]
        for one, two in both:
            found += moved(one, two, whole, others, 1.0 if looks.count(one.look) == 1 else HARDLY)
    return found


def fresh(was: dict[PanelKey, float], now: dict[PanelKey, float]) -> list[PanelKey]:
    """What shows now and did not, or hardly; mm² by panel."""
    return [key for key, size in now.items() if size > max(LEAST, MORE * was.get(key, 0.0))]


def mostly_other_side(right: list[Shown], wrong: list[Shown]) -> list[Tell]:
    """Parts of which both sides show, and most shows the side of which less should."""
    was, now = sides_shown(right), sides_shown(wrong)
    found = []
    for part in sorted(was.keys() & now.keys()):
        side, other = (max(sides, key=lambda side: round(sides[side], 3)) for sides in (was[part], now[part]))
        clear = all(sides[its] > MOSTLY * sum(sides.values()) for sides, its in ((was[part], side), (now[part], other)))
        if side != other and clear and len(was[part]) + len(now[part]) > 2:
            found.append(Tell("mostly", part, "", side, other, weight=min(was[part][side], now[part][other])))
    return found


def sides_shown(shown: list[Shown]) -> dict[str, dict[str, float]]:
    """mm² of each side that show, by part."""
    found: dict[str, dict[str, float]] = {}
    for one in shown:
        sides = found.setdefault(one.key[0], {})
        sides[one.look[1]] = sides.get(one.look[1], 0.0) + area(one)
    return found


def by_part(areas: dict[PanelKey, float], told_of: dict[PanelKey, str]) -> list[tuple[str, str, PanelKey, float]]:
    """Part, panel, a panel of it, and mm²: a part as one where all of its panels that show in both are among them and alike."""
    found = []
    for part in dict.fromkeys(key[0] for key in areas):
        own = {key: value for key, value in areas.items() if key[0] == part}
        largest = max(own, key=lambda key: round(own[key], 3))
        shown = [key for key in told_of if key[0] == part]
        if all(key in own for key in shown) and len({told_of[key] for key in shown}) == 1:
            found.append((part, "", largest, sum(own.values())))
        else:
            found.append((part, largest[1], largest, own[largest]))
    return found


def area(one: Shown) -> float:
    return total_area(one.pieces)


def whole_box(shown: list[Shown]) -> Box:
    return box([piece for one in shown for piece in one.pieces])


def moved(one: Shown, two: Shown, whole: Box, others: Box, share: float) -> list[Tell]:
    found = []
    weight = min(area(one), area(two)) * share
    for axis, words in ((0, ACROSS), (1, DOWN)):
        lies, lay = aside(box(list(two.pieces)), others, axis), aside(box(list(one.pieces)), whole, axis)
        if lies * lay < 0:
            found.append(Tell("place", *one.key, words[lay > 0], words[lies > 0], weight=weight))
        is_longer, was_longer = longer_edge(two, axis), longer_edge(one, axis)
        if is_longer * was_longer < 0:
            found.append(Tell("edge", *one.key, words[was_longer > 0], words[is_longer > 0], weight=weight / 2))
    return found


def off_middle(own: Box, whole: Box, axis: int) -> float:
    """By which share of the whole its middle is off the whole's."""
    return (own[axis] + own[axis + 2] - whole[axis] - whole[axis + 2]) / 2 / (whole[axis + 2] - whole[axis])


def aside(own: Box, whole: Box, axis: int) -> int:
    """-1, 1: it lies clearly to one side of the whole's middle; 0: it does not."""
    off = off_middle(own, whole, axis)
    return (off > ASIDE) - (off < -ASIDE)


def longer_edge(one: Shown, axis: int) -> int:
    """-1, 1: at which end of the axis the longer of the two edges across it lies; 0: neither."""
    limits = box(list(one.pieces))
    first, last = (edge_at(one, axis, limits[axis + end]) for end in (0, 2))
    return (last > UNLIKE * first + 1.0) - (first > UNLIKE * last + 1.0)


def edge_at(one: Shown, axis: int, place: float) -> float:
    return sum(
        abs(a[1 - axis] - b[1 - axis])
        for piece in one.pieces
        for a, b in zip(piece, (*piece[1:], piece[0]), strict=True)
        if abs(a[axis] - place) < 0.02 > abs(b[axis] - place)
    )


def where(shown: list[Shown], key: PanelKey) -> str:
    """At which side of the whole a panel lies, the way it is farther off the middle; empty in the middle, and where it does not show."""
    own = next((one for one in shown if one.key == key), None)
    if own is None:
        return ""
    whole, its = whole_box(shown), box(list(own.pieces))
    across, down = (abs(off_middle(its, whole, axis)) for axis in (0, 1))
    axis = 0 if across >= down else 1
    side = aside(its, whole, axis)
    return (ACROSS, DOWN)[axis][side > 0] if side else ""
