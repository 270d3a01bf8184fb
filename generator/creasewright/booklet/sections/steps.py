"""The steps: each assembly in the order in which it is made, each step with its words and its picture, then the result."""

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.scene import Action, PlanScene
from creasewright.booklet.fit_words import fitted_in
from creasewright.booklet.gate_blocks import GateMaker, seen_gates
from creasewright.booklet.pictured_steps import PicturedSteps, pictured_steps
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import sentence
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.side_words import side_words
from creasewright.booklet.step_cells import CellMaker
from creasewright.booklet.step_rows import BETWEEN, Pages, SizedCell, StepCell
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.booklet.step_words import StepWords
from creasewright.booklet.text_blocks import group_head, text_blocks
from creasewright.booklet.typeset import literal, plain
from creasewright.booklet.waiting_blocks import hold_words, waiting_blocks
from creasewright.fitting.gates import DRY, END, STAGE, gates_of
from creasewright.fitting.worked import AssemblyRun
from creasewright.folding.solid_points import extents
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.units.ruler import length_in_words, mark_in_words, pair_in_words


def build(context: PackContext) -> Section | None:
    blocks: list[Block] = []
    last, down = "", 0.0
    for steps in pictured_steps(context.worked, context.word_pairs()):
        more, last, down = assembly_blocks(context, steps, last, down)
        blocks += more
    if not blocks:
        return None
    blocks += waiting_blocks(context)
    letters = ", ".join(piece.letter for piece in context.worked.pieces)
    scope = sentence(context, "scope", {"letters": letters, "count": len(context.worked.pieces)})
    return Section("steps", context.section.title, scope, context.section.numbered, tuple(blocks))


def assembly_blocks(context: PackContext, steps: PicturedSteps, last: str, down: float) -> tuple[list[Block], str, float]:
    """The rows of an assembly, the scale of its last picture, and how far down the pages they end.

    `last` is the scale of the picture before it, `down` where the assembly before it ends (see `step_rows.Pages`).
    """
    assembly, parts, runs = steps.assembly, steps.parts, steps.runs
    cells: list[StepCell] = []
    flipped = False
    for run, picture in zip(runs, steps.pictures, strict=True):
        cells.append(step_cell(context, run, parts, picture, flipped, hold_words(context, assembly.name, run.number)))
        flipped = cells[-1].picture.flipped
    result = result_cell(context, assembly, runs, parts)
    if result.picture.plan is not None and not result.picture.plan.facets and cells:
        cells[-1] = replace(cells[-1], text=f"{cells[-1].text} {result.text}")
    else:
        cells.append(result)
    cells += bent_stages(context, assembly, parts)
    maker = CellMaker(context.layout, context.page, context.text)
    title = heading(context, assembly)
    measure = context.page.measure
    blocks = [group_head(title, context.layout, measure, context.text, made_words(context, assembly))] if title else []
    again = group_head(title, context.layout, measure, context.text, sentence(context, "goes on")) if title else None
    if assembly.mirrored:
        said = sentence(context, "mirrored", {"name": literal(assembly.name), "original": literal(assembly.assembly)})
        blocks += [keep(block) for block in text_blocks(said, context.layout, measure, context.text)]
    tall = context.page.content_to - context.page.content_from
    heads = sum(block.space_before + block.height for block in blocks)
    pages = Pages(down + heads, tall, again.height if again else 0.0)
    sized = maker.sized(cells, maker.common_scale(cells), last)
    drawn, end = rows_and_gates(context, steps, maker, sized, pages, again)
    # on a page of its own the assembly's name stands again above it, and the space before the first block counts
    room = tall - (again.height + BETWEEN if again else 0.0)
    return loosened(blocks + drawn, room), next((cell.picture.scale for cell in reversed(sized) if cell.picture.scale), last), end


def rows_and_gates(
    context: PackContext, steps: PicturedSteps, maker: CellMaker, sized: list[SizedCell], pages: Pages, again: Block | None
) -> tuple[list[Block], float]:
    """The rows of cells, each gate below the last step before it, or above the step whose adhesive waits for it; and where they end."""
    gates = GateMaker(context, steps)
    waiting = seen_gates(gates_of(context.worked).get(steps.assembly.name, ()), steps)
    key = f"steps {steps.assembly.name}"
    found: list[Block] = []
    start, end = 0, pages.start
    for gate in waiting:
        stop = {DRY: gate.number - 1, STAGE: gate.number, END: len(sized)}[gate.kind]
        stop = max(start, stop)
        if stop > start:
            rows, end = maker.rows(sized[start:stop], replace(pages, start=end))
            found += [maker.block(row, key, again) for row in rows]
        start = stop
        if found and gate.kind != DRY:
            found[-1] = keep(found[-1])
        own = gates.blocks(gate, gate.kind == DRY)
        found += own
        end += sum(block.space_before + block.height for block in own)
    if start < len(sized):
        rows, end = maker.rows(sized[start:], replace(pages, start=end))
        found += [maker.block(row, key, again) for row in rows]
    return found, end


def loosened(blocks: list[Block], tall: float) -> list[Block]:
    """Blocks that hold together over more than a page are parted, after a gate where there is one among them."""
    found = list(blocks)
    start = 0
    for number, block in enumerate(blocks):
        while number > start and height_of(blocks[start : number + 1]) > tall:
            gates = [k for k in range(start, number) if " gate " in blocks[k].within]
            last = gates[-1] if gates else number - 1
            found[last] = replace(found[last], keep_with_next=False)
            start = last + 1
        if not block.keep_with_next:
            start = number + 1
    return found


def height_of(blocks: list[Block]) -> float:
    return sum(block.height + block.space_before for block in blocks) - blocks[0].space_before


def keep(block: Block) -> Block:
    return Block(block.height, block.items, True, block.space_before, block.within, block.repeat, block.bookmarks)


def heading(context: PackContext, assembly: AssemblyRun) -> str:
    name = assembly.name or (str(context.worked.design.title) if len(context.worked.assemblies) > 1 else "")
    return name[:1].upper() + name[1:]


def made_words(context: PackContext, assembly: AssemblyRun) -> str:
    return sentence(context, "times", {"times": assembly.times, "makers": context.worked.makers})


def step_cell(
    context: PackContext, run: StepRun, parts: ShownParts, picture: StepPicture, turn_back: bool, hold: str = ""
) -> StepCell:
    """`turn_back`: the step before was done on the other side; `hold`: how long it is held."""
    words = StepWords(run, parts, context.word, picture.flipped)
    text = sentence(context, words.template(), words.values())
    first = ""
    if picture.flipped != turn_back:
        first = sentence(context, "turn it over" if picture.flipped else "turn it back", {})
        marks = picture.marks or (Action("turn over page"),)
        picture = replace(picture, marks=marks)
    elif picture.flipped:
        picture = replace(picture, marks=())
    said = str(run.written.say) if run.written.say is not None else ""
    extras = [first, *fitted_in(context, run), text, hold, said, who_words(context, run)]
    whole = " ".join(filter(None, extras))
    return StepCell(str(run.number), whole, picture, up_words(context, picture), alt_words(context, run, whole, picture))


def who_words(context: PackContext, run: StepRun) -> str:
    who = str(run.written.who) if run.written.who is not None else ""
    takes = str(run.written.takes) if run.written.takes is not None else ""
    return sentence(context, "who", {"who": literal(who), "takes": literal(takes)}) if who or takes else ""


def up_words(context: PackContext, picture: StepPicture) -> str:
    """`sprig side up`; nothing where both sides are alike."""
    blank, side = picture.up
    name = side_words(context.worked.paper_called(blank), side, context.word)
    return f"{name} {context.word('up')}" if name else ""


def alt_words(context: PackContext, run: StepRun, text: str, picture: StepPicture) -> str:
    """What the picture shows, from the step's own words and state."""
    shown = "plan" if picture.plan is not None else "view in space"
    return sentence(context, "alt", {"number": run.number, "text": plain(text), "kind": shown, "up": up_words(context, picture)})


def result_cell(context: PackContext, assembly: AssemblyRun, runs: tuple[StepRun, ...], parts: ShownParts) -> StepCell:
    """How it looks when the assembly is done, and what it measures."""
    last = runs[-1]
    paths = last.parts or tuple(last.after.blanks)[:1]
    tied = isinstance(last.written.action, design.Tie)
    picture = StepPicture(PlanScene(()), None, ("", "")) if tied else as_it_lies(last.after, paths, parts)
    low, high = extents(last.after, last.after.body_of(paths[0]))
    size = pair_in_words(high[0] - low[0], high[1] - low[1], context.worked.ruler)
    tall = f"**{mark_in_words(high[2] - low[2], context.worked.ruler).text}**" if picture.space is not None else ""
    text = sentence(context, "result", {"size": f"**{size}**", "high": tall, "name": literal(assembly.name), "tied": tied})
    alt = sentence(context, "alt", {"number": 0, "text": plain(text), "kind": "result", "up": up_words(context, picture)})
    return StepCell("", text, picture, up_words(context, picture), alt)


def bent_stages(context: PackContext, assembly: AssemblyRun, parts: ShownParts) -> list[StepCell]:
    """Stages that the finished thing comes to only while its paper bends: said, and shown as it lies then."""
    finished = context.worked.finished
    if finished is None or assembly is not context.worked.assemblies[-1]:
        return []
    written = next(one for one in context.worked.design.assemblies if one.name == finished.assembly)
    bent = {stage.name for stage in written.stages if isinstance(stage.action, design.Fold) and stage.action.bending}
    cells = []
    for stage in context.worked.stages:
        if stage.name in bent and stage.assembly == finished.assembly:
            picture = as_it_lies(stage.state, tuple(sorted(stage.body.parts)), parts)
            thin = min(range(3), key=lambda axis: stage.size[axis])
            wide, high = (stage.size[axis] for axis in range(3) if axis != thin)
            size = f"**{pair_in_words(wide, high, context.worked.ruler)}**"
            thick = length_in_words(round(stage.size[thin], 1), context.system)
            text = sentence(context, "bent stage", {"name": literal(stage.name), "size": size, "thick": thick})
            alt = sentence(context, "alt", {"number": 0, "text": plain(text), "kind": "stage", "up": up_words(context, picture)})
            cells.append(StepCell("", text, picture, up_words(context, picture), alt))
    return cells
