"""One written step carried out: words to parts, panels and scores, then to the next state."""

from msgspec import Struct, field
from msgspec.structs import replace

from creasewright.folding.bend_curved import bend, is_curved, refuse_bent
from creasewright.folding.carried_along import carried_along
from creasewright.folding.fold_scores import Targets, fold_scores, fold_to_meet, fold_with_followers, staying_root
from creasewright.folding.panel_graph import nearer_sides
from creasewright.folding.references import RefFault
from creasewright.folding.refused import FoldRefused
from creasewright.folding.state import Body, PanelKey, State, front_normal
from creasewright.geometry.rigid_transform import (
    LIKE_A_PAD,
    LIKE_A_PAGE,
    UNIT,
    about_vertical,
    rotate,
    times,
    transposed,
)
from creasewright.joining.bench import Bench
from creasewright.joining.board_places import own_place
from creasewright.joining.bodies import stack_of, turned_to
from creasewright.joining.closing import closed_with
from creasewright.joining.compass import EDGE_ON
from creasewright.joining.glue_area import GlueWish
from creasewright.joining.inserting import InsertWish, inserted
from creasewright.joining.inserting_between import between_faces
from creasewright.joining.joins import JoinWish, joined, same_all_over
from creasewright.joining.placing import LineWish, PlaceWish
from creasewright.joining.refused import JoinRefused
from creasewright.joining.sewing import sewn
from creasewright.joining.trimming import trimmed
from creasewright.joining.tucking import tucked
from creasewright.joining.turning_in import turned_in
from creasewright.reading import design

HEADS = {"away": 0.0, "right": 90.0, "near": 180.0, "left": 270.0}


class StepRun(Struct, frozen=True):
    """A step as it went: the states before and after it, and what took part."""

    number: int
    """From 1 within its assembly."""
    written: design.Step
    before: State
    after: State
    parts: tuple[str, ...] = ()
    """What the step acts on."""
    panels: tuple[PanelKey, ...] = ()
    targets: Targets = field(default_factory=dict)
    refused: tuple[str, str] | None = None
    """What was wrong and what to do, where the step could not be carried out."""


def run_step(bench: Bench, number: int, step: design.Step) -> StepRun:
    """Carries out a step on the bench; one that cannot be made is noted in the run.

    Raises RefFault for words that name nothing.
    """
    action = step.action
    bring_parts(bench, action)
    before = bench.state
    parts: tuple[str, ...] = ()
    panels: tuple[PanelKey, ...] = ()
    targets: Targets = {}
    refused = None
    try:
        if isinstance(action, design.Fold):
            targets, parts = fold(bench, action)
        elif isinstance(action, design.Unfold):
            targets, parts = unfold(bench, action)
        elif isinstance(action, design.Crease):
            targets, parts = crease(bench, action)
        elif isinstance(action, design.Lay):
            parts = lay(bench, action)
        elif isinstance(action, design.TurnOver | design.Turn):
            parts = turn(bench, action)
        elif isinstance(action, design.Join):
            parts, panels = join(bench, action, number)
        elif isinstance(action, design.TurnIn):
            targets, parts, panels = turn_in(bench, action, number)
        elif isinstance(action, design.Insert):
            parts = insert(bench, action, number)
        elif isinstance(action, design.Tie):
            bench.state, parts = closed_with(bench, action, number)
        elif isinstance(action, design.Sew):
            bench.state, parts = sewn(bench, action, number)
        elif isinstance(action, design.Make) and action.at is not None:
            bench.state, parts = trimmed(bench, action, number)
        elif isinstance(action, design.Make):
            parts = make(bench, action)
    except (FoldRefused, JoinRefused) as fault:
        refused = (fault.what, fault.hint)
        bench.state = before
    return StepRun(number, step, before, bench.state, parts, panels, targets, refused)


def bring_parts(bench: Bench, action: design.Action) -> None:
    """The parts a step names come to the bench before it begins, so that the state before it holds them."""
    if isinstance(action, design.Join):
        for text in action.parts:
            bench.part_or_panels(str(text))
        for text in action.landing.refs if action.landing else ():
            bench.part_or_panels(str(text)) if bench.pocket(str(text)) is None else None
    elif isinstance(action, design.TurnIn):
        bench.parts(str(action.cover))
    elif isinstance(action, design.Insert):
        bench.parts(str(action.thing))
    elif isinstance(action, design.Lay | design.TurnOver | design.Turn):
        bench.part_or_panels(str(action.part))
    elif isinstance(action, design.Tie):
        bench.bring_named(str(action.around))
        if action.verb == "band":
            bench.parts(str(action.what))
    elif isinstance(action, design.Fold):
        for target in (*action.fold, *action.mountain, *action.follow):
            bench.pieces(str(target.ref))
    elif isinstance(action, design.Crease | design.Unfold):
        for target in action.scores:
            bench.pieces(str(target.ref))
    elif isinstance(action, design.Sew) or (isinstance(action, design.Make) and action.verb in ("trim", "round")):
        for text in action.parts:
            bench.parts(str(text))


# --- folds ------------------------------------------------------------------------------------------------------------


def fold(bench: Bench, action: design.Fold) -> tuple[Targets, tuple[str, ...]]:
    default = bench.supply.number(action.to) if action.to is not None else 180.0
    wishes: Targets = {}
    for sign, written in ((1.0, action.fold), (-1.0, action.mountain)):
        for target in written:
            angle = bench.supply.number(target.angle) if target.angle is not None else default
            for key in bench.pieces(str(target.ref)):
                wishes[key] = sign * angle
    targets = signed(bench, wishes, action.seen_from, action.stays)
    before = bench.state
    if any(is_curved(before, key) for key in targets):
        return bend_scores(bench, targets, action), tuple(dict.fromkeys(key[0] for key in targets))
    refuse_bent(before, [key[0] for key in targets])
    if action.meet:
        turned = turned_to_meet(bench, targets, action.stays)
    elif action.follow:
        turned = turned_with_followers(bench, targets, action)
    else:
        turned = turn_scores(bench, targets, action.stays, action.bending)
    if action.tuck is not None:
        part = next(iter(targets))[0]
        bench.state = tucked(before, bench.state, part, action.tuck.relation, tucked_beside(bench, action.tuck))
    return turned, tuple(dict.fromkeys(key[0] for key in turned))


def turned_to_meet(bench: Bench, targets: Targets, stays: design.Text | None) -> Targets:
    """Each body's scores turned until tabs and walls meet."""
    root = bench.panel(str(stays)) if stays is not None else None
    turned: Targets = {}
    for parts, group in by_body(bench, targets).items():
        signs = {key: 1.0 if angle > 0 else -1.0 for key, angle in group.items()}
        bench.state, found = fold_to_meet(bench.state, signs, root if root is not None and root[0] in parts else None)
        turned |= found
    return turned


def turned_with_followers(bench: Bench, targets: Targets, action: design.Fold | design.Unfold) -> Targets:
    root = bench.panel(str(action.stays)) if action.stays is not None else None
    followers: dict[tuple[str, str], float | None] = {}
    for written in action.follow:
        towards = bench.supply.number(written.angle) if written.angle is not None else None
        keys = bench.pieces(str(written.ref))
        seen_from = action.seen_from if isinstance(action, design.Fold) else None
        ways = signed(bench, dict.fromkeys(keys, towards or 0.0), seen_from, action.stays)
        followers |= {key: ways[key] if towards is not None else None for key in keys}
    bench.state, turned = fold_with_followers(bench.state, targets, followers, root)
    return turned


def by_body(bench: Bench, targets: Targets) -> dict[frozenset[str], Targets]:
    bodies: dict[frozenset[str], Targets] = {}
    for key, angle in targets.items():
        bodies.setdefault(bench.state.body_of(key[0]).parts, {})[key] = angle
    return bodies


def bend_scores(bench: Bench, targets: Targets, action: design.Fold) -> Targets:
    """Curved scores fold only where the step says that the paper bends."""
    if not action.bending:
        name = next(key[1] for key in targets if is_curved(bench.state, key))
        raise FoldRefused(f"`{name}` is a curved score, which bends the paper on both sides of it", "add `bending: yes`")
    bench.state = bend(bench.state, targets)
    return targets


def tucked_beside(bench: Bench, landing: design.Landing) -> tuple[PanelKey, ...]:
    """The panels that a tuck names: those it goes under, or the two it goes between."""
    found: list[PanelKey] = []
    for ref in landing.refs:
        pocket = bench.pocket(str(ref)) if landing.relation == "into" else None
        found += [pocket.back, pocket.front] if pocket is not None else bench.panels(str(ref))
    return tuple(found)


def signed(bench: Bench, wishes: Targets, seen_from: str | None, stays: design.Text | None) -> Targets:
    """Angles as the maker means them (+ valley) to angles of the paper (+ fronts together).

    A valley is one as seen on the panel beside the score that is nearer to the side that stays.
    """
    if seen_from is not None:
        sign = 1.0 if seen_from == "front" else -1.0
        return {key: sign * angle for key, angle in wishes.items()}
    root = bench.panel(str(stays)) if stays is not None else None
    found: Targets = {}
    for parts, group in by_body(bench, wishes).items():
        body = next(b for b in bench.state.bodies if b.parts == parts)
        home = staying_root(bench.state, body, group, root if root is not None and root[0] in parts else None)
        for key, near in nearer_sides(bench.state, body, home, list(group)).items():
            found[key] = group[key] * valley_sign(bench.state, body, near)
    return {key: found[key] for key in wishes}


def valley_sign(state: State, body: Body, panel: PanelKey) -> float:
    """+1 where a valley as the maker sees it on this panel brings the fronts together, -1 where it brings the backs together.

    On a panel that stands edge-on: as seen on the side that faced the maker when the part last lay flat.
    """
    up = rotate(body.view, front_normal(state.placed[panel]))[2]
    if abs(up) > EDGE_ON:
        return 1.0 if up < 0 else -1.0
    return 1.0 if state.faced.get(panel[0], "front") == "front" else -1.0


def turn_scores(bench: Bench, targets: Targets, stays: design.Text | None, bending: bool = False) -> Targets:
    root = bench.panel(str(stays)) if stays is not None else None
    for parts, group in by_body(bench, targets).items():
        body = next(b for b in bench.state.bodies if b.parts == parts)
        whole = carried_along(bench.state, body, group)
        bench.state = fold_scores(bench.state, whole, root if root is not None and root[0] in parts else None, bending)
        targets = {**targets, **whole}
    return targets


def unfold(bench: Bench, action: design.Unfold) -> tuple[Targets, tuple[str, ...]]:
    to = bench.supply.number(action.to) if action.to is not None else 0.0
    targets: Targets = {}
    for target in action.scores:
        angle = bench.supply.number(target.angle) if target.angle is not None else to
        for key in bench.pieces(str(target.ref)):
            now = bench.state.angles.get(key, 0.0)
            targets[key] = angle if now >= 0 else -angle
    refuse_bent(bench.state, [key[0] for key in targets])
    turned = turned_with_followers(bench, targets, action) if action.follow else turn_scores(bench, targets, action.stays)
    return turned, tuple(dict.fromkeys(key[0] for key in turned))


def crease(bench: Bench, action: design.Crease) -> tuple[Targets, tuple[str, ...]]:
    keys = [key for target in action.scores for key in bench.pieces(str(target.ref))]
    targets = signed(bench, dict.fromkeys(keys, 180.0), None, None)
    bench.state = replace(bench.state, creased=bench.state.creased | frozenset(keys))
    return targets, tuple(dict.fromkeys(key[0] for key in keys))


# --- the view ---------------------------------------------------------------------------------------------------------


def lay(bench: Bench, action: design.Lay) -> tuple[str, ...]:
    """Part or panel laid with this side up and its head this way."""
    parts, panels = bench.part_or_panels(str(action.part))
    state = bench.state
    panel = panels[0] if panels else (parts[0], state.blanks[parts[0]].panels[0].name)
    flat = transposed(state.placed[panel].turn) if panels else UNIT
    over = {"page": LIKE_A_PAGE, "pad": LIKE_A_PAD}[action.like]
    view = times(over, flat) if action.up == "back" else flat
    turned = HEADS[action.head] + (bench.supply.number(action.turned) if action.turned is not None else 0.0)
    view = times(about_vertical(turned), view)
    bench.state = turned_to(state, state.body_of(parts[0]), view)
    return parts


def turn(bench: Bench, action: design.TurnOver | design.Turn) -> tuple[str, ...]:
    parts, _ = bench.part_or_panels(str(action.part))
    for part in parts:
        body = bench.state.body_of(part)
        if isinstance(action, design.TurnOver):
            move = {"page": LIKE_A_PAGE, "pad": LIKE_A_PAD}[action.like]
        else:
            move = about_vertical(bench.supply.number(action.by) if action.by is not None else 180.0)
        if body.parts & set(parts[: parts.index(part)]):
            continue
        bench.state = turned_to(bench.state, body, times(move, body.view))
    return parts


# --- joins ------------------------------------------------------------------------------------------------------------


def join(bench: Bench, action: design.Join, number: int) -> tuple[tuple[str, ...], tuple[PanelKey, ...]]:
    all_parts: list[str] = []
    all_panels: list[PanelKey] = []
    groups = [group for text in action.parts for group in thing_groups(bench, str(text))]
    targets = landing_panels(bench, action)
    missed: list[JoinRefused] = []
    for place, (parts, panels) in enumerate(groups):
        onto = paired(targets, place, len(groups))
        refuse_bent(bench.state, [*parts, *(key[0] for key in onto)])
        by = tuple(bench.panels_within(parts, str(action.by))) if action.by is not None else tuple(panels)
        if place and len(targets) == 1 and same_all_over(bench.state, parts[0], onto):
            # leaf on leaf: each lies on the one before it
            onto = tuple((groups[place - 1][0][0], panel) for _, panel in onto)
        shared = bool(panels) and len(groups) > 1 and len(targets) == 1
        try:
            bench.state = joined(bench.state, wish_of(bench, action, parts, by, onto, number, shared))
        except JoinRefused as fault:
            if not shared:
                raise
            missed.append(fault)
            continue
        all_parts += parts
        all_panels += by
    if missed and len(missed) == len(groups):
        raise missed[0]
    return tuple(dict.fromkeys(all_parts)), tuple(all_panels)


def thing_groups(bench: Bench, text: str) -> list[tuple[tuple[str, ...], list[PanelKey]]]:
    """Each thing a join's words name: a part, an assembly that is a part, or panels."""
    _, panels = bench.part_or_panels(text)
    if panels:
        return [((key[0],), [key]) for key in panels]
    return [(group, []) for group in bench.parts(text)]


def landing_panels(bench: Bench, action: design.Join) -> list[tuple[PanelKey, ...]]:
    """The target panels, as one group for each `each`, else as one."""
    if action.landing is None:
        return []
    groups: list[tuple[PanelKey, ...]] = []
    for ref in action.landing.refs:
        pocket = bench.pocket(str(ref)) if action.landing.relation == "into" else None
        if pocket is not None:
            groups.append((pocket.back, pocket.front))
            continue
        parts, panels = bench.part_or_panels(str(ref))
        found = panels or [(part, panel.name) for part in parts for panel in bench.state.blanks[part].panels]
        if str(ref).startswith("each ") or " each " in str(ref):
            groups.extend((key,) for key in found)
        else:
            groups.append(tuple(found))
    if len(groups) > 1 and not any(str(ref).startswith("each ") for ref in action.landing.refs):
        return [tuple(key for group in groups for key in group)]
    return groups


def paired(targets: list[tuple[PanelKey, ...]], place: int, count: int) -> tuple[PanelKey, ...]:
    """First goes with first; one target serves all."""
    if not targets:
        return ()
    if len(targets) == 1:
        return targets[0]
    if len(targets) != count:
        raise JoinRefused(f"{count} parts and {len(targets)} places do not pair", "name as many places as parts")
    return targets[place]


def wish_of(
    bench: Bench, action: design.Join, parts: tuple[str, ...], by: tuple[PanelKey, ...], onto: tuple[PanelKey, ...], number: int,
    shared: bool,
) -> JoinWish:
    supply = bench.supply
    material = str(action.with_) if action.with_ is not None else ("" if action.verb == "place" else supply.adhesive())
    facts = supply.material(material) if material else None
    glue = None
    if action.verb != "place":
        width = supply.length(action.width) if action.width is not None else supply.house("strip")
        own = action.meet is None and bool(onto) and own_place(bench.state, parts[0], onto) is not None
        setback = supply.length(action.setback) if action.setback is not None else 0.0 if own else supply.house("setback")
        clear = tuple(key for text in action.keep_clear for key in bench.panels(str(text)))
        glue = GlueWish(tuple(str(side) for side in action.along), width, setback, clear, material, number)
    return JoinWish(
        verb=action.verb,
        parts=parts,
        by=by,
        relation=action.landing.relation if action.landing is not None else "onto",
        onto=onto,
        place=place_of(bench, action),
        glue=glue,
        kind="place" if action.verb == "place" else "glue",
        gap=facts.thick if facts is not None else 0.0,
        makes=str(action.makes) if action.makes is not None else None,
        step=number,
        shared=shared,
    )


def turn_in(bench: Bench, action: design.TurnIn, number: int) -> tuple[Targets, tuple[str, ...], tuple[PanelKey, ...]]:
    """Each cover that the words name, turned in over its boards."""
    targets: Targets = {}
    covers = [path for group in bench.parts(str(action.cover)) for path in group]
    panels: tuple[PanelKey, ...] = ()
    for cover in covers:
        material = str(action.with_) if action.with_ is not None else bench.supply.adhesive()
        done = turned_in(bench.state, cover, material, number)
        bench.state = done.state
        targets.update(done.targets)
        panels += done.panels
    return targets, tuple(covers), panels


def place_of(bench: Bench, action: design.Join) -> PlaceWish:
    supply = bench.supply

    def line(written: design.MeetLine) -> LineWish:
        return LineWish(str(written.line), supply.length(written.by) if written.by is not None else 0.0)

    pairs = tuple((line(a), line(b)) for a, b in action.meet.pairs) if action.meet is not None else ()
    reveal = supply.length(action.reveal) if action.reveal is not None else None
    turned = supply.number(action.turned) if action.turned is not None else 0.0
    return PlaceWish(pairs, action.meet is not None and action.meet.centre, reveal, turned)


def insert(bench: Bench, action: design.Insert, number: int) -> tuple[str, ...]:
    supply = bench.supply
    groups = bench.parts(str(action.thing))
    least = supply.length(action.clearance) if action.clearance is not None else supply.house("clearance")
    shows = supply.length(action.shows) if action.shows is not None else None
    for group in groups:
        pocket, between = None, None
        refs = [str(ref) for ref in action.landing.refs]
        if action.landing.relation == "into":
            pocket = bench.pocket(refs[0])
            if pocket is None:
                known = ", ".join(sorted(p.split("/")[-1] for p in bench.state.pockets)) or "none yet"
                raise RefFault(f"there is no pocket `{refs[0]}` at this step", f"pockets made so far: {known}")
        else:
            keys = [bench.panel(ref) for ref in refs]
            if len(keys) != 2:
                raise RefFault("`between` names two panels", "write `between: [first, second]`")
            between = (keys[0], keys[1])
            body = bench.state.body_of(keys[0][0])
            if keys[1][0] in body.parts and stack_of(body, keys[0]) is not stack_of(body, keys[1]):
                bench.state = between_faces(bench.state, bench.state.body_of(group[0]), group[0], between, least, number)
                continue
        bench.state = inserted(bench.state, InsertWish(group[0], pocket, between, shows, least, number))
    return tuple(path for group in groups for path in group)


def make(bench: Bench, action: design.Make) -> tuple[str, ...]:
    """An operation of the blank, done now: nothing moves, the state remembers it."""
    parts: list[str] = []
    for text in action.parts:
        if action.verb in ("trim", "round"):
            parts += [path for group in bench.parts(str(text)) for path in group]
        else:
            parts += makers_of(bench, action.verb, str(text))
    done = frozenset((part, f"{action.verb} {text}" if action.verb in ("cut", "score", "punch") else action.verb)
                     for part in parts for text in action.parts)  # fmt: skip
    bench.state = replace(bench.state, made=bench.state.made | done)
    return tuple(dict.fromkeys(parts))


def makers_of(bench: Bench, verb: str, text: str) -> list[str]:
    """Parts whose blank has a slit, hole or score of that name (or the part so named)."""
    words = text.split(" of ")
    for spec in bench.specs.values():
        if spec.kind == "blank":
            bench.bring(spec)
    hits = []
    for path, blank in bench.state.blanks.items():
        names = {item.name for items in (blank.slits, blank.holes, blank.scores) for item in items}
        if words[0] in names or any(name.rpartition(" ")[0] == words[0] for name in names) or path.split("/")[-1] == words[0]:
            hits.append(path)
    if not hits:
        raise RefFault(f"there is nothing called `{words[0]}` to {verb}", "name a slit, a hole, a score or a part")
    return hits
