"""`Glue and waiting`: every glued joint with its adhesive, and how long it is held and dries; the time in all. And the same in a step."""

from msgspec.structs import replace

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.context import PackContext
from creasewright.booklet.section_text import sentence
from creasewright.booklet.table import Cell, grid_columns, table
from creasewright.booklet.text_blocks import text_blocks
from creasewright.booklet.typeset import literal
from creasewright.fitting.adhesives import Joint, joints_of, waiting
from creasewright.joining.adhesive_rules import EITHER, STICKS, SUITS
from creasewright.units.ruler import mark_in_words

PLACES = ((0, 1), (1, 2), (3, 1), (4, 1), (5, 1))


def time_words(minutes: float) -> str:
    """`30 s`, `10 min`, `1 h 30 min`; whole minutes from one on, rounded up."""
    if minutes < 1:
        return f"{round(minutes * 60)} s"
    whole = int(-(-minutes // 1))
    hours, rest = divmod(whole, 60)
    return " ".join(filter(None, (f"{hours} h" if hours else "", f"{rest} min" if rest else "")))


def hold_words(context: PackContext, assembly: str, step: int) -> str:
    """`Hold for 30 s` where a step glues; empty elsewhere."""
    joints = [each for each in joints_of(context.worked) if (each.assembly, each.step) == (assembly, step)]
    if not joints:
        return ""
    hold, dry = max(each.hold for each in joints), max(each.dry for each in joints)
    return sentence(context, "hold", {"time": time_words(hold / 60), "dry": time_words(dry) if dry else ""})


def waiting_blocks(context: PackContext) -> tuple[Block, ...]:
    joints = joints_of(context.worked)
    if not joints:
        return ()
    heads = [head.strip() for head in sentence(context, "waiting heads").split("|")]
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, PLACES, strict=True)])
    rows = alike(context, joints)
    title, note = sentence(context, "waiting head"), sentence(context, "waiting note")
    named, *blocks = table("glue and waiting", columns, rows, context.layout, context.text, context.page.measure, title, note, pad=1.2)
    total = waiting(context.worked)
    written = context.worked.design.time
    hands = time_words(float(str(written))) if written is not None else ""
    values = {"hands": hands, "hold": time_words(total.hold), "dry": time_words(total.dry)}
    said = sentence(context, "waiting sum" if total.dry else "waiting none", values)
    begins = replace(named, head=PageHead(title, note, begins=True))
    return (begins, *blocks, *text_blocks(said, context.layout, context.page.measure, context.text))


def alike(context: PackContext, joints: tuple[Joint, ...]) -> list[list[Cell]]:
    """A row for all joints that are glued alike, in the order of the first; before it their steps, a line for each assembly."""
    steps: dict[tuple[str, ...], dict[str, list[int]]] = {}
    for joint in joints:
        own = steps.setdefault(row(context, joint), {}).setdefault(joint.assembly, [])
        if joint.step not in own:
            own.append(joint.step)
    return [
        [tuple(sentence(context, "waiting step", {"name": literal(name), "steps": own}) for name, own in by_name.items()), *told]
        for told, by_name in steps.items()
    ]


def row(context: PackContext, joint: Joint) -> tuple[str, ...]:
    worked = context.worked
    material = next((m for m in worked.design.materials if m.name == joint.material), None)
    called = str(material.called) if material is not None and material.called is not None else joint.material
    values: dict[str, object] = {
        "called": literal(called),
        "width": mark_in_words(joint.width, worked.ruler).text if joint.strips else "",
        "margin": mark_in_words(joint.margin, worked.ruler).text if joint.margin else "",
        "why": joint.why if joint.kind in (STICKS if joint.suits == EITHER else (SUITS[joint.suits],)) else "given",
        "wet": joint.kind == "glue",
    }
    return (
        sentence(context, "waiting with", values),
        sentence(context, "waiting why", values),
        f"**{time_words(joint.hold / 60)}**",
        f"**{time_words(joint.dry)}**" if joint.dry else "–",
    )
