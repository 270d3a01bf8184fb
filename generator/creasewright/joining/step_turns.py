"""Changes of how the work lies, as written."""


from creasewright.geometry.rigid_transform import (
    LIKE_A_PAD,
    LIKE_A_PAGE,
    UNIT,
    about_vertical,
    times,
    transposed,
)
from creasewright.joining.bench import Bench
from creasewright.joining.bodies import turned_to
from creasewright.reading import design

HEADS = {"away": 0.0, "right": 90.0, "near": 180.0, "left": 270.0}


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
