"""Joins, turn-ins and inserts as written: what goes where, and with what."""


from creasewright.folding.bend_curved import refuse_bent
from creasewright.folding.fold_scores import Targets
from creasewright.folding.references import RefFault
from creasewright.folding.state import PanelKey
from creasewright.joining.adhesive_choice import Taken, with_best_adhesive
from creasewright.joining.bench import Bench
from creasewright.joining.board_places import own_place
from creasewright.joining.bodies import stack_of
from creasewright.joining.glue_area import GlueWish
from creasewright.joining.inserting import InsertWish, inserted
from creasewright.joining.inserting_between import between_faces
from creasewright.joining.joins import JoinWish, joined, same_all_over
from creasewright.joining.placing import LineWish, PlaceWish
from creasewright.joining.refused import JoinRefused
from creasewright.joining.turning_in import turned_in
from creasewright.reading import design


def join(bench: Bench, action: design.Join, number: int) -> tuple[tuple[str, ...], tuple[PanelKey, ...]]:
    """The parts and the panels that it sticks or places. Raises JoinRefused."""
    if action.verb == "place":
        return joined_with(bench, action, number, None)
    return with_best_adhesive(bench, action, lambda taken: joined_with(bench, action, number, taken))


def joined_with(
    bench: Bench, action: design.Join, number: int, taken: Taken | None
) -> tuple[tuple[str, ...], tuple[PanelKey, ...]]:
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
            bench.state = joined(bench.state, wish_of(bench, action, parts, by, onto, number, shared, taken))
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
    shared: bool, taken: Taken | None,
) -> JoinWish:
    supply = bench.supply
    glue = None
    if taken is not None:
        own = action.meet is None and bool(onto) and own_place(bench.state, parts[0], onto) is not None
        setback = supply.length(action.setback) if action.setback is not None else 0.0 if own else supply.house("setback")
        clear = tuple(key for text in action.keep_clear for key in bench.panels(str(text)))
        glue = GlueWish(tuple(str(side) for side in action.along), taken.width, setback, clear, taken.material, number)
    return JoinWish(
        verb=action.verb,
        parts=parts,
        by=by,
        relation=action.landing.relation if action.landing is not None else "onto",
        onto=onto,
        place=place_of(bench, action),
        glue=glue,
        kind="place" if action.verb == "place" else "glue",
        gap=taken.thick if taken is not None else 0.0,
        makes=str(action.makes) if action.makes is not None else None,
        step=number,
        shared=shared,
    )


def turn_in(bench: Bench, action: design.TurnIn, number: int) -> tuple[Targets, tuple[str, ...], tuple[PanelKey, ...]]:
    """Each cover that the words name, turned in over its boards."""
    covers = [path for group in bench.parts(str(action.cover)) for path in group]

    def turned_with(taken: Taken) -> tuple[Targets, tuple[str, ...], tuple[PanelKey, ...]]:
        targets: Targets = {}
        panels: tuple[PanelKey, ...] = ()
        for cover in covers:
            done = turned_in(bench.state, cover, taken.material, number)
            bench.state = done.state
            targets.update(done.targets)
            panels += done.panels
        return targets, tuple(covers), panels

    return with_best_adhesive(bench, action, turned_with)


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
                material = bench.supply.material(str(action.with_)).name if action.with_ is not None else ""
                bench.state = between_faces(bench.state, bench.state.body_of(group[0]), group[0], between, least, number, material)
                continue
        bench.state = inserted(bench.state, InsertWish(group[0], pocket, between, shows, least, number))
    return tuple(path for group in groups for path in group)
