"""`Glue and waiting`: every glued joint with its adhesive, and how long it is held and dries; the time in all. And the same in a step.

Steps that glue alike, in the words of the table, share one row.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.context import PackContext
from creasewright.booklet.section_text import sentence
from creasewright.booklet.table import grid_columns, table
from creasewright.booklet.text_blocks import text_blocks
from creasewright.booklet.typeset import literal
from creasewright.fitting.adhesives import Joint, joints_of, named_wait, waiting
from creasewright.fitting.worked import AssemblyRun
from creasewright.joining.adhesive_rules import EITHER, STICKS, SUITS
from creasewright.reading import design
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


def wait_words(context: PackContext, assembly: AssemblyRun, step: int) -> str:
    """What is slid in waits for the adhesive of the steps before it, unless a step since then waits or something was slid in before."""
    run = next(each for each in assembly.runs if each.number == step)
    if not isinstance(run.written.action, design.Insert):
        return ""
    waits = [each.number for each in assembly.runs if named_wait(each) is not None or isinstance(each.written.action, design.Insert)]
    since = max((number for number in waits if number < step), default=0)
    wet = [each for each in joints_of(context.worked) if each.assembly == assembly.name and since < each.step < step and each.dry]
    return sentence(context, "wait dry") if wet else ""


def waiting_blocks(context: PackContext) -> tuple[Block, ...]:
    joints = joints_of(context.worked)
    if not joints:
        return ()
    heads = [head.strip() for head in sentence(context, "waiting heads").split("|")]
    columns = grid_columns(context.page, [(head, *place) for head, place in zip(heads, PLACES, strict=True)])
    alike: dict[tuple[str, ...], list[Joint]] = {}
    for each in joints:
        alike.setdefault(told(context, each), []).append(each)
    rows = [(steps_of(context, found), *words) for words, found in alike.items()]
    title, note = sentence(context, "waiting head"), sentence(context, "waiting note")
    named, *blocks = table("glue and waiting", columns, rows, context.layout, context.text, context.page.measure, title, note, pad=1.2)
    total = waiting(context.worked)
    written = context.worked.design.time
    hands = time_words(float(str(written))) if written is not None else ""
    values = {"hands": hands, "hold": time_words(total.hold), "dry": time_words(total.dry)}
    said = sentence(context, "waiting sum" if total.dry else "waiting none", values)
    begins = replace(named, head=PageHead(title, note, begins=True))
    goes_on = PageHead(title, sentence(context, "goes on"))
    blocks[-1] = replace(blocks[-1], keep_with_next=True)
    blocks += text_blocks(said, context.layout, context.page.measure, context.text)
    return (begins, *(replace(block, head=goes_on) for block in blocks))


def steps_of(context: PackContext, joints: Sequence[Joint]) -> str:
    """`3, 5 of the front block and the back block`: a line for each set of steps, assemblies with the same steps together."""
    steps: dict[str, list[int]] = {}
    for joint in joints:
        steps.setdefault(joint.assembly, []).append(joint.step)
    names: dict[tuple[int, ...], list[str]] = {}
    for name, numbers in steps.items():
        names.setdefault(tuple(dict.fromkeys(numbers)), []).append(literal(name))
    return "\n".join(
        sentence(context, "waiting step", {"steps": list(numbers), "names": [name for name in called if name]})
        for numbers, called in names.items()
    )


def told(context: PackContext, joint: Joint) -> tuple[str, ...]:
    """With what, why, held and drying for how long."""
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
