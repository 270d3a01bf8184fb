"""The steps: each assembly in the order in which it is made, each step with its words and its picture, then the result."""

from msgspec.structs import replace

from creasewright.booklet.block import Block, PageHead
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.scene import Action, PlanScene
from creasewright.booklet.fit_words import fitted_in
from creasewright.booklet.gate_blocks import GateMaker, seen_gates
from creasewright.booklet.hidden_letters import rubbed_out
from creasewright.booklet.length_words import SEEN_OFF, marked_length, rough_length
from creasewright.booklet.pictured_steps import PicturedSteps, pictured_steps
from creasewright.booklet.result_pictures import result_picture
from creasewright.booklet.section import Section
from creasewright.booklet.section_text import sentence
from creasewright.booklet.shown_parts import ShownParts
from creasewright.booklet.side_words import up_words
from creasewright.booklet.stacking import stacked, stacks
from creasewright.booklet.step_cells import CellMaker
from creasewright.booklet.step_rows import Pages, SizedCell, StepCell
from creasewright.booklet.step_views import StepPicture, as_it_lies
from creasewright.booklet.step_words import StepWords
from creasewright.booklet.text_blocks import group_head, text_blocks
from creasewright.booklet.told_names import tops_told, with_told_names, without_idle_names
from creasewright.booklet.typeset import literal, plain
from creasewright.booklet.waiting_blocks import hold_words, wait_words, waiting_blocks
from creasewright.fitting.gates import DRY, END, Gate, gates_of
from creasewright.fitting.worked import AssemblyRun
from creasewright.folding.solid_points import extents
from creasewright.joining.run_step import StepRun
from creasewright.reading import design
from creasewright.reading.page_layout import PageSize
from creasewright.units.ruler import mark_in_words, pair_in_words


def build(context: PackContext) -> Section | None:
    blocks: list[Block] = []
    last = ""
    pictured = pictured_steps(context.worked, context.word_pairs())
    for steps in pictured:
        last = add_assembly(context, steps, blocks, last)
    if not blocks:
        return None
    blocks += waiting_blocks(context)
    scope = sentence(context, "scope", {"letters": [piece.letter for piece in context.worked.pieces], "times": 1})
    title, first = context.section.title, begins(context, pictured[0])
    return Section("steps", title, scope, context.section.numbered, tuple(blocks), first=first)


def add_assembly(context: PackContext, steps: PicturedSteps, blocks: list[Block], last: str) -> str:
    """The rows of an assembly, put below the `blocks` before; and the scale of its last picture. `last`: that of the one before."""
    assembly, parts, runs = steps.assembly, steps.parts, steps.runs
    gates = seen_gates(gates_of(context.worked).get(assembly.name, ()), steps)
    tried = {gate.number: sentence(context, "dry first") for gate in gates if gate.kind == DRY}
    cells: list[StepCell] = []
    flipped, met = False, set[str]()
    for run, picture in zip(runs, steps.pictures, strict=True):
        first = (tried.get(run.number, ""), wait_words(context, assembly, run.number), rub_out_words(context, assembly, run.number))
        before = " ".join(filter(None, first))
        cell = step_cell(context, run, parts, picture, flipped, before, hold_words(context, assembly.name, run.number))
        cells.append(with_told_names(cell, parts, met, tops_told(run, cell.picture, context.worked.papers)))
        flipped = cells[-1].picture.flipped
    cells = without_idle_names(cells)
    result = result_cell(context, assembly, runs, parts)
    shown_by_gate = ""
    tied = result.picture.plan is not None and not result.picture.plan.facets
    if cells and (tied or runs[-1].after is runs[-1].before):
        # the picture of the last step shows it already
        cells[-1] = replace(cells[-1], text=f"{cells[-1].text} {result.text}")
    elif gates and gates[-1].kind != DRY and gates[-1].number == runs[-1].number:
        shown_by_gate = gate_result(context, assembly, runs, result.picture.space is not None)
    else:
        cells.append(result)
    cells += bent_stages(context, assembly, parts)
    maker = CellMaker(context.layout, context.page, context.text)
    measure = context.page.measure
    begun = begins(context, steps)
    if begun and blocks:
        named = group_head(begun.title, context.layout, measure, context.text, begun.scope)
        blocks.append(replace(named, head=begun))
    head = PageHead(begun.title if begun else context.section.title, sentence(context, "goes on"))
    if assembly.mirrored:
        said = sentence(context, "mirrored", {"name": literal(assembly.name), "original": literal(assembly.assembly)})
        blocks += [keep(block, head) for block in text_blocks(said, context.layout, measure, context.text)]
    sized = maker.sized(cells, maker.common_scale(cells), last)
    add_rows_and_gates(context, GateMaker(context, steps), gates, shown_by_gate, maker, sized, blocks, head)
    return next((cell.picture.scale for cell in reversed(sized) if cell.picture.scale), last)


def add_rows_and_gates(
    context: PackContext,
    gate_maker: GateMaker,
    gates: tuple[Gate, ...],
    result: str,
    maker: CellMaker,
    sized: list[SizedCell],
    blocks: list[Block],
    head: PageHead,
) -> None:
    """The rows of cells, each gate below the step that it is about.

    `result`: what the last gate says of the finished assembly where it stands for the picture of it, and so right below the last step.
    """
    assembly = gate_maker.steps.assembly
    key = f"steps {assembly.name}"
    last_of_pack = next((one.name for one in reversed(context.worked.assemblies) if gates_of(context.worked).get(one.name)), "")
    start = 0

    def add_rows(stop: int, below: float = 0.0) -> None:
        pages = run_of_pages(blocks, context.page)
        blocks.extend(replace(maker.block(row, key), head=head) for row in maker.rows(sized[start:stop], pages, below))

    for gate in gates:
        ends = gate is gates[-1] and gate.kind != DRY
        stop = max(start, len(sized) if gate.kind == END and not result else gate.number)
        made = gate_maker.blocks(gate, result if ends else "", ends and assembly.name == last_of_pack)
        if stop > start:
            add_rows(stop, min(stacked(made), context.page.content_to - context.page.content_from))
        start = stop
        if blocks[-1].within == f"L {key}":
            blocks[-1] = replace(blocks[-1], keep_with_next=True, loosely=True)
        blocks += [replace(block, head=head) for block in made]
    if start < len(sized):
        add_rows(len(sized))


def run_of_pages(blocks: list[Block], page: PageSize) -> Pages:
    """Where the next row begins in the run of pages: below a gate it is kept with what stands there."""
    tall = page.content_to - page.content_from
    if not blocks:
        return Pages(0.0, tall)
    *before, last = stacks(blocks, page, "")
    return Pages(len(before) * tall + last.end - page.content_from, tall)


def keep(block: Block, head: PageHead) -> Block:
    return replace(block, keep_with_next=True, head=head)


def begins(context: PackContext, steps: PicturedSteps) -> PageHead | None:
    """The head of an assembly: its name, the pieces that are its own and no other's, how often it is made. None for an only one."""
    assembly = steps.assembly
    name = assembly.name or (str(context.worked.design.title) if len(context.worked.assemblies) > 1 else "")
    if not name:
        return None
    own = {steps.parts.letter(part) for part in steps.runs[-1].after.blanks if "/" not in part} - {""}
    values = {"letters": sorted(own), "times": assembly.times, "makers": context.worked.makers}
    return PageHead(name[:1].upper() + name[1:], sentence(context, "scope", values), begins=True)


def step_cell(
    context: PackContext, run: StepRun, parts: ShownParts, picture: StepPicture, turn_back: bool, before: str = "", hold: str = ""
) -> StepCell:
    """`turn_back`: the step before was done on the other side; `before`: what is tried or rubbed out first; `hold`: for how long, below
    the text."""
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
    whole = " ".join(filter(None, [first, *fitted_in(context, run), before, text, said, who_words(context, run)]))
    alt = alt_words(context, run, " ".join(filter(None, (whole, hold))), picture)
    state = " · ".join(filter(None, (up_words(context, picture), context.word("part way") if picture.part_way else "")))
    return StepCell(str(run.number), whole, picture, state, alt, hold)


def who_words(context: PackContext, run: StepRun) -> str:
    who = str(run.written.who) if run.written.who is not None else ""
    takes = str(run.written.takes) if run.written.takes is not None else ""
    return sentence(context, "who", {"who": literal(who), "takes": literal(takes)}) if who or takes else ""


def alt_words(context: PackContext, run: StepRun, text: str, picture: StepPicture) -> str:
    """What the picture shows, from the step's own words and state."""
    shown = "plan" if picture.plan is not None else "view in space"
    return sentence(context, "alt", {"number": run.number, "text": plain(text), "kind": shown, "up": up_words(context, picture)})


def result_cell(context: PackContext, assembly: AssemblyRun, runs: tuple[StepRun, ...], parts: ShownParts) -> StepCell:
    """How it looks when the assembly is done, and what it measures."""
    last = runs[-1]
    paths = last.parts or tuple(last.after.blanks)[:1]
    tied = isinstance(last.written.action, design.Tie)
    picture = StepPicture(PlanScene(()), None, ("", "")) if tied else result_picture(last.after, paths, parts)
    values = {**result_values(context, assembly, runs, picture.space is not None), "tied": tied}
    text = " ".join(filter(None, (sentence(context, "result", values), rub_out_words(context, assembly, 0))))
    alt = sentence(context, "alt", {"number": 0, "text": plain(text), "kind": "result", "up": up_words(context, picture)})
    return StepCell("", text, picture, up_words(context, picture), alt)


def gate_result(context: PackContext, assembly: AssemblyRun, runs: tuple[StepRun, ...], standing: bool) -> str:
    """The same in the gate that shows it."""
    words = sentence(context, "gate result", result_values(context, assembly, runs, standing))
    return " ".join(filter(None, (words, rub_out_words(context, assembly, 0))))


def rub_out_words(context: PackContext, assembly: AssemblyRun, number: int) -> str:
    """What was pencilled where no place stays hidden and can be reached for the last time before a step; 0: when all is done."""
    marks = rubbed_out(context.worked).get((assembly.name, number), ())
    return sentence(context, "rub out", {"marks": list(marks)}) if marks else ""


def result_values(context: PackContext, assembly: AssemblyRun, runs: tuple[StepRun, ...], standing: bool) -> dict[str, object]:
    """What the finished assembly measures, its height too if it is `standing`."""
    last = runs[-1]
    low, high = extents(last.after, last.after.body_of((last.parts or tuple(last.after.blanks))[0]))
    ruler = context.worked.ruler
    wide, deep, tall = (most - least for least, most in zip(low, high, strict=True))
    said = [wide, deep, tall] if standing else [wide, deep]
    return {
        "size": f"**{pair_in_words(wide, deep, ruler)}**",
        "high": f"**{mark_in_words(tall, ruler).text}**" if standing else "",
        "about": any(marked_length(ruler, mm, SEEN_OFF)[1] is not None for mm in said),
        "name": literal(assembly.name),
    }


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
            thick = rough_length(context, stage.size[thin])
            text = sentence(context, "bent stage", {"name": literal(stage.name), "size": size, "thick": thick})
            alt = sentence(context, "alt", {"number": 0, "text": plain(text), "kind": "stage", "up": up_words(context, picture)})
            cells.append(StepCell("", text, picture, up_words(context, picture), alt))
    return cells
