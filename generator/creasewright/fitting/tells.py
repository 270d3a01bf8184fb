"""What tells a wrong one from the right one: facts that a maker can see or measure on the work, worked out from the two states.

Flat work       the panels that show, each against itself: its side, its print, where it lies, its longer edge; what shows or does not
Standing work   the faces of each panel: which side looks where, and how its print stands
Both            the measures
"""

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from creasewright.blanks.blank import Blank
from creasewright.fitting.gate_measures import READS, Measure, measures
from creasewright.fitting.looks import Looking, Shown, is_flat, shown_panels, told_side, top_down
from creasewright.fitting.seen_faces import seen_faces
from creasewright.folding.state import Body, PanelKey, State
from creasewright.geometry.clip import total_area
from creasewright.joining.compass import Box, box

LEAST = 60.0
"""mm² of a panel, less of which is not worth a word."""
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
LAID = ("side", "print", "bare", "covered", "size")
Seen = tuple[State, Body, Looking]


class Tell(Struct, frozen=True):
    """One fact. `right` is how it should be, `wrong` how it is."""

    kind: str
    """side     a panel shows its other side
    mostly   most of what shows of a part is its other side
    print    the print of a panel stands another way: degrees clockwise from upright
    bare     a panel shows that should not (or hardly); `wrong` is the side that shows, `looks` where it does in standing work
    covered  a panel does not show; `right` is the side that should
    place    a panel lies at another side of the whole
    edge     the longer of two opposite edges of a panel lies at another side
    looks    a `side` of a panel of standing work looks another way
    faces    a panel of standing work `looks` that way with its other side
    flat     it lies flat where it should stand; `standing`: the other way about
    size     a measure is another: `way`, and both values in `mm`
    none     nothing that has a name here
    """
    part: str = ""
    panel: str = ""
    """Empty: the whole part; with an empty part the whole work."""
    right: str = ""
    wrong: str = ""
    side: str = ""
    looks: str = ""
    way: str = ""
    mm: tuple[float, float] = (0.0, 0.0)
    """As it should be, as it is."""
    lies: str = ""
    """Of one panel of flat work: where to look for it, if it clearly lies at one side of the whole; of `covered`, on the right one."""
    lay: str = ""
    """Where it should lie, if that is another side."""
    weight: float = 0.0
    """mm² that differ, by which facts are compared; of a size, mm."""


def told(right: Seen, wrong: Seen, sizes_first: bool) -> Tell:
    """The fact that shows best: of what is seen the one of most paper, or the measure that is off most; each before the other."""
    seen, sizes = seen_tells(right, wrong), size_tells(measures(*right), measures(*wrong))
    first, then = (sizes, seen) if sizes_first else (seen, sizes)
    return placed(best(first) or best(then) or Tell("none"), right, wrong)


def placed(tell: Tell, right: Seen, wrong: Seen) -> Tell:
    """With the side at which the panel lies, and should lie."""
    if not tell.panel or tell.kind not in LAID or not (is_flat(*right[:2]) and is_flat(*wrong[:2])):
        return tell
    was, now = (where(shown_panels(*seen), (tell.part, tell.panel)) for seen in (right, wrong))
    if tell.kind == "covered":
        return replace(tell, lies=was)
    opposite = now and was in (ACROSS if now in ACROSS else DOWN) and was != now
    return replace(tell, lies=now, lay=was if opposite else "")


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


def best(tells: Iterable[Tell]) -> Tell | None:
    """Of equal ones the first."""
    return max(tells, key=lambda tell: round(tell.weight, 3), default=None)


def size_tells(mine: list[Measure], other: list[Measure]) -> list[Tell]:
    """Measures of both that differ by more than hands err; one over all is easier to take and counts half as much again."""
    found = {one.key: one.mm for one in other}
    return [
        Tell("size", one.part, one.panel, way=one.way, mm=(one.mm, found[one.key]), weight=off * (1.5 if one.over_all else 1.0))
        for one in mine
        if one.key in found and (off := abs(one.mm - found[one.key])) >= READS
    ]


def seen_tells(right: Seen, wrong: Seen) -> list[Tell]:
    flat = is_flat(*right[:2])
    if flat != is_flat(*wrong[:2]):
        return [Tell("standing" if flat else "flat", weight=LEAST)]
    found: list[Tell] = []
    if not (flat and lies_flat(*right[:2]) and lies_flat(*wrong[:2])):
        found = without_twins(standing_tells(right, wrong), {**right[0].blanks, **wrong[0].blanks})
    if flat and not found:
        found = without_twins(flat_tells(shown_panels(*right), shown_panels(*wrong)), {**right[0].blanks, **wrong[0].blanks})
    return found


def without_twins(tells: list[Tell], blanks: dict[str, Blank]) -> list[Tell]:
    """Of equal pieces nobody can tell which one shows: one that does not, where another does instead, is no fact."""
    def like(tell: Tell) -> tuple[str, str]:
        return blanks[tell.part].name, tell.panel

    bare = {like(tell) for tell in tells if tell.kind == "bare"}
    covered = {like(tell) for tell in tells if tell.kind == "covered"}
    return [tell for tell in tells if tell.kind not in ("bare", "covered") or like(tell) not in bare & covered]


def lies_flat(state: State, body: Body) -> bool:
    """All of it."""
    return len(top_down(state, body)) == sum(len(state.blanks[part].panels) for part in body.parts)


# --- flat work --------------------------------------------------------------------------------------------------------


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


# --- standing work ----------------------------------------------------------------------------------------------------


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
