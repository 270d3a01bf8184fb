"""What tells a mistake, as one sentence that a maker can hold against the work: `The flap of A lies at the left, not at the right.`"""

from creasewright.booklet.context import PackContext
from creasewright.booklet.length_words import SEEN_OFF, said_length
from creasewright.booklet.section_text import sentence
from creasewright.booklet.side_words import side_words
from creasewright.booklet.step_words import StepWords
from creasewright.fitting.gate_measures import Measure
from creasewright.fitting.tell import Tell

SIDED = ("side", "mostly", "faces", "bare", "covered")
PLACED = ("place", "edge")


def tell_sentence(context: PackContext, words: StepWords, tell: Tell, measure: Measure) -> str:
    """`measure`: the gate's own, which need not be named again."""
    paper = words.parts.paper(words.state.blanks[tell.part]) if tell.part else None

    def said(value: str) -> str:
        if tell.kind in SIDED:
            return side_words(paper, value, context.word) if value else ""
        if tell.kind in PLACED:
            return context.word(value)
        return sentence(context, f"told {tell.kind}", {"value": value})

    right, wrong = said(tell.right), said(tell.wrong)
    if tell.kind == "size":
        right, wrong = (said_length(context, mm, SEEN_OFF) for mm in tell.mm)
    key = (tell.part, tell.panel)
    values: dict[str, object] = {
        "what": "" if not tell.part else words.panel(key) if tell.panel else words.panel_owner(key),
        "panel": tell.panel,
        "right": right,
        "wrong": wrong,
        "side": side_words(paper, tell.side, context.word) if tell.side else "",
        "looks": tell.looks,
        "at": context.word(tell.lies) if tell.lies else "",
        "not at": context.word(tell.lay) if tell.lay else "",
        "way": tell.way,
        "measured": (*key, tell.way) == measure.key and tell.mm[0] == measure.mm,
    }
    return sentence(context, f"tell {tell.kind}", values)


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]
