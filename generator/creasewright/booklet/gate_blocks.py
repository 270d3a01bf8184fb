"""`Check before you go on`: the block of a gate among the steps. What must be right, with its picture, then what mistakes look like.

Mistakes stand below it, all in one scale: two in a row, each beside its words; of an odd number the first three with their words below; one
alone beside its words. All of a gate stays on one page. Of one that no page holds the rest comes to the next, with a line that says of
which gate it is.
"""

from collections.abc import Sequence

from msgspec.structs import replace

from creasewright.booklet.block import Block
from creasewright.booklet.context import PackContext
from creasewright.booklet.diagrams.scales import scale_named
from creasewright.booklet.diagrams.scene import Picture as Drawn
from creasewright.booklet.drawing import Group, Item, Tagged
from creasewright.booklet.gate_pictures import lying_so, nearest, right_picture, wrong_picture
from creasewright.booklet.length_words import SEEN_OFF, said_length
from creasewright.booklet.part_words import pocket_words
from creasewright.booklet.pictured_steps import PicturedSteps
from creasewright.booklet.piece_marks import part_marks
from creasewright.booklet.section_text import sentence
from creasewright.booklet.side_words import up_words
from creasewright.booklet.step_views import StepPicture
from creasewright.booklet.step_words import StepWords
from creasewright.booklet.table import Column, Picture, table
from creasewright.booklet.tell_words import capital, tell_sentence
from creasewright.booklet.told_names import BOLD, tops_told
from creasewright.booklet.typeset import literal, paragraph, plain
from creasewright.fitting.end_for_end import is_shaped, turned_when
from creasewright.fitting.gate_measures import BOX_SIDES, LAID, READS, border, laid_measures, measures, size_over_all
from creasewright.fitting.gates import DRY, Gate, Symptom, gates_of
from creasewright.fitting.looks import Looking, is_flat
from creasewright.fitting.mistakes import folds_away, handles
from creasewright.fitting.undoing import put_right
from creasewright.folding.mirrored import mirrored_state
from creasewright.hands.gate_leeway import leeway_mark
from creasewright.joining.pockets import flap_underneath, open_in_view
from creasewright.joining.run_step import StepRun

ACROSS = 3
"""The most mistakes in a row."""
TO_TEXT, ASIDE = 2.0, 4.0
"""mm from a picture to the text below it, and to the text beside it."""
NARROWEST = 38.0
"""mm that a text beside its picture is wide at least."""
BETWEEN = 5.0


class GateMaker:
    """The blocks of one assembly's gates."""

    def __init__(self, context: PackContext, steps: PicturedSteps) -> None:
        self.context, self.steps, self.parts = context, steps, steps.parts
        own = steps.assembly
        self.shown_before = {
            (gate.number, gate.kind): gate
            for gate in (gates_of(context.worked).get(own.name, ()) if own.mirrored else ())
            if gate.symptoms
        }
        """Of a mirrored assembly: the gates whose mistakes its original's pages show."""

    def blocks(self, gate: Gate, result: str = "", last: bool = False) -> tuple[Block, ...]:
        """`result`: what the finished assembly measures; `last`: no gate of the pack comes after."""
        run = self.steps.runs[gate.number - 1]
        key = f"gate {self.steps.assembly.name} {gate.number} {gate.kind}"
        texts = [self.symptom_words(gate, symptom, run) for symptom in gate.symptoms]
        right = self.head_and_row(gate, run, texts, key, result, last)
        rows = [*(replace(block, keep_with_next=True) for block in right[:-1]), right[-1], *self.symptom_blocks(gate, run, texts, key)]
        loose = [replace(block, keep_with_next=True, loosely=True) for block in rows[len(right) - 1 : -1]]
        return (*rows[: len(right) - 1], *loose, rows[-1])

    # --- what is right

    def head_and_row(self, gate: Gate, run: StepRun, texts: Sequence[str], key: str, result: str, last: bool) -> tuple[Block, ...]:
        """`texts`: what is said of the mistakes."""
        context, page = self.context, self.context.page
        heads = [head.strip() for head in sentence(context, "gate heads").split("|")]
        places = ((0, 2), (2, 2), (4, 2))
        columns = tuple(
            Column(head, page.column_left(first), page.span(count)) for head, (first, count) in zip(heads, places, strict=True)
        )
        lying = lying_so(gate.state, gate.body, self.parts)
        values = self.values(gate, run)
        up = self.side_up(gate, lying)
        alt = sentence(context, "gate alt", values)
        measured = sentence(context, "gate measure", values)
        how = sentence(context, "gate how", {**values, "up": up})
        told = letters_told(measured, how, *texts)
        picture = right_picture(gate, lying, told, self.parts, page.span(2) - 4.0, context.text)
        drawn = Picture(picture.items, picture.width, picture.height, plain(alt))
        cells = (drawn, (measured, *([result] if result else [])), how)
        title, note = sentence(context, "last gate head" if last else "gate head", values), sentence(context, "gate where", values)
        return table(key, columns, [cells], context.layout, context.text, page.measure, title, note, pad=1.6)

    def values(self, gate: Gate, run: StepRun) -> dict[str, object]:
        words = self.words(run)
        measure = gate.measure
        return {
            "kind": gate.kind,
            "again": gate.again,
            "standing": not is_flat(gate.state, gate.body),
            "tied": bool(gate.state.closures),
            "number": gate.number,
            "name": literal(gate.stage) if gate.stage and gate.stage != "closed" else "",
            "size": said_length(self.context, measure.mm, nearest(measure, self.context.worked.ruler)),
            "near": self.near(gate),
            "more sizes": self.told_sizes(gate),
            "half turn": gate.kind == DRY and tops_told(run, self.steps.pictures[gate.number - 1], self.context.worked.papers),
            "open at top": self.open_at_top(gate, run),
            "turned back": gate.kind == DRY and self.steps.pictures[gate.number - 1].flipped,
            "way": measure.way,
            "panel": words.panel((measure.part, measure.panel)) if measure.panel else "",
            "laid": measure.part == LAID,
            "border": words.listed([self.context.word(side) for side in measure.sides]),
            "beside": words.piece(measure.part) if measure.sides else "",
            "round": len(measure.sides) == len(BOX_SIDES),
            "pocket": pocket_words(self.context.word, gate.pocket),
            **self.open_here(gate, words),
            "assembly": self.assembly_called(),
            "off": self.put_right(gate, run),
            "many": len({path.split("/")[0] for path in run.parts}) > 1,
            "blind": bool(gate.symptoms) and not any(one.mistake.kind == "mouth" or self.by_ruler(gate, one) for one in gate.symptoms),
        }

    def side_up(self, gate: Gate, lying: StepPicture) -> str:
        """`sprig side up`, as its step says; empty where the step has another name for the lie, for nothing has been turned over since."""
        step = self.steps.pictures[gate.number - 1]
        told, own = up_words(self.context, step), up_words(self.context, lying)
        return own if step.flipped or told in ("", own) else ""

    def open_at_top(self, gate: Gate, run: StepRun) -> bool:
        """Whether what the step lays has pockets, all of which open at the top as the work lies there."""
        new = {bond.second[0] for bond in run.new_bonds}
        laid = frozenset().union(*(run.before.body_of(part).parts for part in new if part in run.before.blanks))
        pockets = [pocket for pocket in gate.state.pockets.values() if pocket.back[0] in laid]
        return bool(pockets) and all("head" in open_in_view(gate.state, gate.body, pocket) for pocket in pockets)

    def told_sizes(self, gate: Gate) -> list[dict[str, str]]:
        """What else must measure what: the sizes over all that tell a mistake which the gate's own measure does not show."""
        tells = [one.tell for one in gate.symptoms if self.by_ruler(gate, one) and not gate.off(one) and not one.tell.panel]
        own = gate.measure if gate.measure.over_all else None
        sizes = dict.fromkeys((tell.way, tell.mm[0]) for tell in tells if own is None or (tell.way, tell.mm[0]) != (own.way, own.mm))
        return [{"way": way, "size": said_length(self.context, mm, SEEN_OFF)} for way, mm in sizes]

    def near(self, gate: Gate) -> str:
        """What good hands may be off there; empty where it is not known."""
        mark = leeway_mark(self.context.worked, gate, self.context.errors)
        return said_length(self.context, mark, SEEN_OFF) if mark is not None else ""

    def open_here(self, gate: Gate, words: StepWords) -> dict[str, object]:
        """At which sides the gate's pocket opens as the work lies there, and whether it is at the back of it."""
        pocket = gate.state.pockets.get(gate.pocket)
        if pocket is None:
            return {"open": "", "behind": False}
        sides = open_in_view(gate.state, gate.body, pocket)
        return {"open": words.listed([self.context.word(side) for side in sides]), "behind": flap_underneath(gate.state, gate.body, pocket)}

    def assembly_called(self) -> str:
        """Where several assemblies are made, each counts its steps from 1; empty where there is only one."""
        worked, own = self.context.worked, self.steps.assembly
        several = sum(bool(assembly.runs) for assembly in worked.assemblies) > 1
        return literal(own.name or str(worked.design.title)) if several else ""

    def by_ruler(self, gate: Gate, symptom: Symptom) -> bool:
        return bool(gate.off(symptom)) or (symptom.tell.kind == "size" and symptom.at == gate.number)

    def put_right(self, gate: Gate, run: StepRun) -> str:
        """What to do where the measure fails, if no mistake that is shown tells it."""
        shown = self.shown_before.get((gate.number, gate.kind), gate)
        if any(self.by_ruler(shown, one) for one in shown.symptoms):
            return ""
        return put_right(run, gate.kind == DRY, sized_by_laid(gate, run))

    def words(self, run: StepRun) -> StepWords:
        return StepWords(run, self.parts, self.context.word)

    # --- what is wrong

    def symptom_blocks(self, gate: Gate, run: StepRun, texts: Sequence[str], key: str) -> list[Block]:
        context = self.context
        if (gate.number, gate.kind) in self.shown_before:
            return [self.pointer(gate, key)]
        if not gate.symptoms:
            return []
        split = in_rows(len(gate.symptoms))
        starts = [sum(split[:k]) for k in range(len(split))]
        both = list(zip(gate.symptoms, texts, strict=True))
        shown = [both[start : start + count] for start, count in zip(starts, split, strict=True)]
        drawn = self.in_one_scale(gate, shown)
        widest = max((picture.width for row in drawn if len(row) < ACROSS for picture in row), default=0.0)
        rows = [self.symptom_row([text for _, text in row], own, widest, key) for row, own in zip(shown, drawn, strict=True)]
        style = context.layout.types["side note"]
        intro, height = paragraph(
            sentence(context, "if wrong", {"count": len(gate.symptoms)}), 0.0, 0.0, context.page.measure, context.text, style
        )
        first = Group(rows[0].items, 0.0, height + TO_TEXT)
        headed = Block(rows[0].height + height + TO_TEXT, (Tagged("P", intro), first), space_before=TO_TEXT, within=f"Sect {key}")
        goes_on = sentence(context, "more wrong", self.values(gate, run))
        more, height = paragraph(goes_on, 0.0, 0.0, context.page.measure, context.text, style)
        again = Block(height + TO_TEXT, (Tagged("P", more),), within=f"Sect {key}")
        return [replace(row, repeat=again) for row in (headed, *rows[1:])]

    def pointer(self, gate: Gate, key: str) -> Block:
        """Where the mistakes of this gate are shown, and which letters stand for which there."""
        worked, own = self.context.worked, self.steps.assembly
        original = next(one for one in worked.assemblies if one.assembly == own.assembly and not one.mirrored)
        marks = part_marks(worked)
        pairs = {
            marks.get(original.prefix + part, ""): self.parts.letter(part)
            for symptom in self.shown_before[gate.number, gate.kind].symptoms
            for part in symptom.state.blanks
        }
        letters = [(there, here) for there, here in sorted(pairs.items()) if there != here]
        called = literal(original.name or str(worked.design.title))
        values = {"number": gate.number, "kind": gate.kind, "original": called, "letters": letters}
        context = self.context
        said = sentence(context, "wrong elsewhere", values)
        lines, height = paragraph(said, 0.0, 0.0, context.page.measure, context.text, context.layout.types["side note"])
        return Block(height, (Tagged("P", lines),), space_before=TO_TEXT, within=f"Sect {key}")

    def in_one_scale(self, gate: Gate, shown: Sequence[Sequence[tuple[Symptom, str]]]) -> list[list[Drawn]]:
        """The pictures of a gate's mistakes, all plans in the largest scale at which every one of them fits, and so all that stands."""
        found = [[self.wrong(gate, one, text, len(row)) for one, text in row] for row in shown]
        least: dict[bool, str] = {}
        for picture in (each for row in found for each in row):
            plan = is_plan(picture)
            least[plan] = min((least.get(plan, picture.scale), picture.scale), key=factor_of)

        def scaled(picture: Drawn, one: Symptom, text: str, across: int) -> Drawn:
            scale = least[is_plan(picture)]
            return picture if picture.scale == scale else self.wrong(gate, one, text, across, scale)

        return [
            [scaled(picture, one, text, len(row)) for picture, (one, text) in zip(own, row, strict=True)]
            for own, row in zip(found, shown, strict=True)
        ]

    def wrong(self, gate: Gate, symptom: Symptom, text: str, across: int, scale: str | None = None) -> Drawn:
        page = self.context.page
        width = page.span(page.columns // 2) / 2 if across == 2 else page.span(page.columns // ACROSS)
        told = (*letters_told(text), self.parts.letter(symptom.mistake.part))
        return wrong_picture(gate, symptom, told, self.parts, width - ASIDE, self.context.text, scale)

    def symptom_row(self, texts: Sequence[str], drawn: Sequence[Drawn], widest: float, key: str) -> Block:
        """Each picture with its words below it, or at its right: `widest` is the widest one of the gate that has them there."""
        context, page = self.context, self.context.page
        across = len(texts)
        span = page.span(page.columns // across)
        tallest = max(picture.height for picture in drawn)
        beside = across < ACROSS and span - widest - ASIDE >= NARROWEST
        x, y = (widest + ASIDE, 0.0) if beside else (0.0, tallest + TO_TEXT)
        items: list[Item] = []
        lowest = tallest
        for place, (text, picture) in enumerate(zip(texts, drawn, strict=True)):
            lines, height = paragraph(text, x, y, span - x, context.text, context.layout.types["text"])
            alt = plain(sentence(context, "wrong alt", {"text": text}))
            down = 0.0 if beside else tallest - picture.height
            figure = Tagged("Figure", (Group(picture.items, 0.0, down),), alt=alt)
            entry = Tagged("LI", (Tagged("LBody", (figure, Tagged("P", lines))),))
            items.append(Group((entry,), page.column_left(place * page.columns // across), 0.0))
            lowest = max(lowest, y + height)
        return Block(lowest, (Tagged("L", tuple(items)),), space_before=BETWEEN, within=f"Sect {key}")

    def symptom_words(self, gate: Gate, symptom: Symptom, run: StepRun) -> str:
        """What one sees, what was done, and what can be done about it by then."""
        mistake, words, done = symptom.mistake, self.words(run), symptom.done
        runs = self.steps.runs
        values: dict[str, object] = {
            "tell": tell_sentence(self.context, words, symptom.tell, gate.measure),
            "piece": words.piece(mistake.part) if mistake.part else "",
            "letter": self.parts.letter(mistake.part),
            "named": bool(mistake.part) and symptom.tell.part == mistake.part and "/" not in mistake.part,
            "turns": symptom.turns,
            "over": symptom.over,
            "at": symptom.at,
            "number": gate.number,
            "first": next((each.number for each in runs if mistake.part and handles(each, mistake.part)), 1),
            "away": next((each.number for each in runs if mistake.part in each.parts and folds_away(each)), 1),
            "across": mistake.score == "across",
            "pocket": pocket_words(self.context.word, mistake.pocket),
            "sides": words.open_sides(mistake.pocket),
            "several": len(mistake.sides) > 1,
            "glued": list(done.glued),
            "held": words.listed([self.new_piece(part, words) for part in done.held]),
            "sewn": done.sewn,
            "folded": done.folded,
            "scored": done.scored,
            **self.end_for_end(gate, symptom),
            "template": bool(mistake.part in gate.state.blanks and gate.state.blanks[mistake.part].cutouts),
            "letters": words.listed(sorted({self.parts.letter(part) for part in mistake.blanks})),
            "also": words.listed([words.piece(part) for part in symptom.also]),
        }
        seen = capital(sentence(self.context, "wrong seen", values))
        own = capital(sentence(self.context, f"wrong {mistake.kind}", values))
        also = sentence(self.context, "wrong too", values) if symptom.also else ""
        return " ".join(filter(None, (seen if mistake.kind != "mouth" else "", own, also)))

    def end_for_end(self, gate: Gate, symptom: Symptom) -> dict[str, object]:
        """Of a print on its head: what was done to the piece while it lay the wrong way round."""
        blank = symptom.state.blanks.get(symptom.mistake.part) if symptom.mistake.kind == "upside down" else None
        if blank is None:
            return {}
        return {"turned": turned_when(blank, self.context.worked.papers[blank.paper]), "shaped": is_shaped(blank)}

    def new_piece(self, part: str, words: StepWords) -> str:
        return self.parts.letter(part) or words.piece(part)


def letters_told(*texts: str) -> tuple[str, ...]:
    """What is set in bold: the letters of pieces, and values, which are nobody's letter."""
    return tuple(dict.fromkeys(found for text in texts for found in BOLD.findall(text)))


def sized_by_laid(gate: Gate, run: StepRun) -> bool:
    """What is measured hangs on where the step lays its parts: it was not so long before."""
    measure = gate.measure
    if not measure.over_all:
        return bool(measure.sides)
    if measure.part == LAID:
        return True
    before = [size_over_all(run.before, body, measure.way) for body in run.before.bodies if body.parts & gate.body.parts]
    return all(abs(size - measure.mm) >= READS for size in before)


def is_plan(picture: Drawn) -> bool:
    return any(getattr(item, "role", "") == "plan view" for item in picture.items)


def factor_of(scale: str) -> float:
    return scale_named(scale)[1]


def in_rows(count: int) -> list[int]:
    """How many mistakes each row takes, so that none stands alone but an only one."""
    if count == 1:
        return [1]
    odd = count % 2
    return [ACROSS] * odd + [2] * ((count - ACROSS * odd) // 2)


def seen_gates(gates: tuple[Gate, ...], steps: PicturedSteps) -> tuple[Gate, ...]:
    """The gates as the reader meets them: those of a mirrored assembly left for right, without the mistakes shown before."""
    if not steps.assembly.mirrored:
        return gates
    found = []
    for gate in gates:
        state = mirrored_state(gate.state)
        body = state.body_of(min(gate.body.parts))
        run = steps.runs[gate.number - 1]
        taken = [*measures(state, body, Looking({}, {})), *laid_measures(state, body, run.parts), border(state, body, run)]
        measure = next(one for one in taken if one is not None and one.key == gate.measure.key)
        found.append(replace(gate, state=state, body=body, measure=measure, symptoms=()))
    return tuple(found)
