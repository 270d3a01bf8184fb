"""`Check before you go on`: the block of a gate among the steps. What must be right, with its picture, then what mistakes look like.

It stays with the step it belongs to; mistakes stand three in a row below it, and a second row of them may come to the next page.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.gate_pictures import right_picture, wrong_picture
from creasewright.booklet.pictured_steps import PicturedSteps
from creasewright.booklet.section_text import sentence
from creasewright.booklet.side_words import side_words
from creasewright.booklet.step_words import StepWords
from creasewright.booklet.table import Column, Picture, table
from creasewright.booklet.typeset import literal, paragraph, plain
from creasewright.fitting.gate_measures import READS, measures
from creasewright.fitting.gates import Gate, Symptom
from creasewright.fitting.looks import Looking, is_flat
from creasewright.fitting.mistakes import handles
from creasewright.folding.mirrored import mirrored_state
from creasewright.joining.run_step import StepRun
from creasewright.units.ruler import mark_in_words

ACROSS = 3
"""Mistakes in a row."""
TO_TEXT = 2.0
BETWEEN = 5.0


class GateMaker:
    """The blocks of one assembly's gates."""

    def __init__(self, context: PackContext, steps: PicturedSteps) -> None:
        self.context, self.steps, self.parts = context, steps, steps.parts

    def blocks(self, gate: Gate, keep: bool) -> tuple[Block, ...]:
        """`keep`: what follows is the step that the gate is for, and stays with it."""
        run = self.steps.runs[gate.number - 1]
        key = f"gate {self.steps.assembly.name} {gate.number} {gate.kind}"
        rows = [*self.head_and_row(gate, run, key), *self.symptom_blocks(gate, run, key)]
        parted = rows[-1] if len(gate.symptoms) > ACROSS else None
        kept = [replace(block, keep_with_next=rows[number + 1] is not parted) for number, block in enumerate(rows[:-1])]
        return (*kept, replace(rows[-1], keep_with_next=keep))

    # --- what is right

    def head_and_row(self, gate: Gate, run: StepRun, key: str) -> tuple[Block, ...]:
        context, page = self.context, self.context.page
        heads = [head.strip() for head in sentence(context, "gate heads").split("|")]
        places = ((0, 2), (2, 2), (4, 2))
        columns = tuple(
            Column(head, page.column_left(first), page.span(count)) for head, (first, count) in zip(heads, places, strict=True)
        )
        lying, picture = right_picture(gate, self.parts, page.span(2) - 4.0, context.text)
        values = self.values(gate, run)
        up = side_words(context.worked.paper_called(lying.up[0]), lying.up[1], context.word)
        alt = sentence(context, "gate alt", values)
        cells = (
            Picture(picture.items, picture.width, picture.height, plain(alt)),
            sentence(context, "gate measure", values),
            sentence(context, "gate how", {**values, "up": f"{up} {context.word('up')}" if up else ""}),
        )
        title, note = sentence(context, "gate head"), sentence(context, "gate where", values)
        return table(key, columns, [cells], context.layout, context.text, page.measure, title, note, pad=1.6)

    def values(self, gate: Gate, run: StepRun) -> dict[str, object]:
        words = self.words(run)
        measure = gate.measure
        return {
            "kind": gate.kind,
            "again": gate.again,
            "standing": not is_flat(gate.state, gate.body),
            "number": gate.number,
            "name": literal(gate.stage) if gate.stage and gate.stage != "closed" else "",
            "size": mark_in_words(measure.mm, self.context.worked.ruler).text,
            "way": measure.way,
            "panel": words.panel((measure.part, measure.panel)) if measure.panel else "",
            "pocket": literal(gate.pocket.split("/")[-1]),
            "open": words.open_sides(gate.pocket),
        }

    def words(self, run: StepRun) -> StepWords:
        return StepWords(run, self.parts, self.context.word)

    # --- what is wrong

    def symptom_blocks(self, gate: Gate, run: StepRun, key: str) -> list[Block]:
        context = self.context
        if not gate.symptoms:
            return []
        shown = gate.symptoms
        rows = [self.symptom_row(gate, shown[start : start + ACROSS], run, key) for start in range(0, len(shown), ACROSS)]
        style = context.layout.types["side note"]
        intro, height = paragraph(sentence(context, "if wrong"), 0.0, 0.0, context.page.measure, context.text, style)
        first = Group(rows[0].items, 0.0, height + TO_TEXT)
        headed = Block(rows[0].height + height + TO_TEXT, (Tagged("P", intro), first), space_before=TO_TEXT, within=f"Sect {key}")
        return [headed, *rows[1:]]

    def symptom_row(self, gate: Gate, symptoms: Sequence[Symptom], run: StepRun, key: str) -> Block:
        context, page = self.context, self.context.page
        span = page.span(page.columns // ACROSS)
        drawn = [wrong_picture(gate, one, self.parts, span - 4.0, context.text)[1] for one in symptoms]
        tallest = max(picture.height for picture in drawn)
        items: list[Item] = []
        lowest = 0.0
        for place, (symptom, picture) in enumerate(zip(symptoms, drawn, strict=True)):
            left = page.column_left(place * page.columns // ACROSS)
            text = self.symptom_words(gate, symptom, run)
            lines, height = paragraph(text, 0.0, tallest + TO_TEXT, span, context.text, context.layout.types["text"])
            alt = plain(sentence(context, "wrong alt", {"text": text}))
            figure = Tagged("Figure", (Group(picture.items, 0.0, tallest - picture.height),), alt=alt)
            items.append(Group((Tagged("LI", (Tagged("LBody", (figure, Tagged("P", lines))),)),), left, 0.0))
            lowest = max(lowest, tallest + TO_TEXT + height)
        return Block(lowest, (Tagged("L", tuple(items)),), space_before=BETWEEN, within=f"Sect {key}")

    def symptom_words(self, gate: Gate, symptom: Symptom, run: StepRun) -> str:
        mistake, words = symptom.mistake, self.words(run)
        off = symptom.mm is not None and abs(symptom.mm - gate.measure.mm) >= READS
        first = next((each.number for each in self.steps.runs if mistake.part and handles(each, mistake.part)), 1)
        score = mistake.score.split("/")
        values: dict[str, object] = {
            "piece": words.piece(mistake.part) if mistake.part else "",
            "letter": self.parts.letter(mistake.part),
            "size": mark_in_words(symptom.mm, self.context.worked.ruler).text if off and symptom.mm is not None else "",
            "over": symptom.over,
            "first": first,
            "number": gate.number,
            "kind": gate.kind,
            "score": [literal(name) for name in score],
            "pocket": literal(mistake.pocket.split("/")[-1]),
            "sides": words.open_sides(mistake.pocket),
            "also": words.listed([words.piece(part) for part in symptom.also]),
        }
        own = sentence(self.context, f"wrong {mistake.kind}", values)
        also = sentence(self.context, "wrong too", values) if symptom.also else ""
        return " ".join(filter(None, (own, also)))


def seen_gates(gates: tuple[Gate, ...], steps: PicturedSteps) -> tuple[Gate, ...]:
    """The gates as the reader meets them: those of a mirrored assembly left for right, without the mistakes shown before."""
    if not steps.assembly.mirrored:
        return gates
    found = []
    for gate in gates:
        state = mirrored_state(gate.state)
        body = state.body_of(min(gate.body.parts))
        measure = next(one for one in measures(state, body, Looking({}, {})) if one.key == gate.measure.key)
        found.append(replace(gate, state=state, body=body, measure=measure, symptoms=()))
    return tuple(found)
