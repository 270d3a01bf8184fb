"""Actions that put one thing on another, and those that move nothing, as written."""

from creasewright.reading.design import Action, Insert, Join, Landing, Make, Meet, MeetLine, Text, Tie, TurnIn, Wait
from creasewright.reading.faults import Faults, shown
from creasewright.reading.fields import Fields, one_text
from creasewright.reading.nodes import Mapping, Node, Scalar

RELATIONS = ("onto", "under", "between", "into", "around")
NEEDS_A_PLACE = ("join", "place", "stick on")
"""A glued flap may stick to what it already lies against; these put a free part down, so they must say where."""


def read_landing(fields: Fields, relations: tuple[str, ...] = RELATIONS) -> Landing | None:
    """The one layer relation among the keys."""
    given = [relation for relation in relations if fields.has(relation)]
    landings = [Landing(relation, fields.texts(relation)) for relation in given]
    for relation in relations:
        fields.node(relation)
    if len(given) > 1:
        fields.faults.note(
            fields.place(given[1]), f"{fields.of} goes `{given[0]}` one thing and `{given[1]}` another", "keep one of the two"
        )
    if landings and landings[0].relation == "between" and len(landings[0].refs) != 2:
        fields.faults.note(fields.place("between"), f"`between` of {fields.of} needs two names", "write `between: [a, b]`")
    return landings[0] if landings else None


def _need_landing(fields: Fields, relations: tuple[str, ...] = RELATIONS) -> Landing:
    landing = read_landing(fields, relations)
    if landing is None:
        fields.faults.note(fields.where, f"{fields.of} does not say where it goes", f"add `{relations[0]}: …`")
    return landing or Landing(relations[0], ())


def read_join(verb: str, fields: Fields) -> Join:
    """`place` is loose, so the keys of adhesive are not taken for it."""
    parts = fields.texts(verb)
    sticks = verb != "place"
    return Join(
        verb=verb,
        parts=parts,
        by=fields.text("by"),
        landing=_need_landing(fields) if verb in NEEDS_A_PLACE else read_landing(fields),
        meet=_meet(fields),
        turned=fields.text("turned"),
        reveal=fields.text("reveal"),
        along=fields.texts("along") if sticks else (),
        width=fields.text("width") if sticks else None,
        setback=fields.text("setback") if sticks else None,
        keep_clear=fields.texts("keep clear") if sticks else (),
        with_=fields.text("with") if sticks else None,
        makes=fields.text("makes"),
    )


def read_turn_in(verb: str, fields: Fields) -> TurnIn:
    return TurnIn(fields.need_text(verb), fields.text("with"))


def read_insert(verb: str, fields: Fields) -> Insert:
    thing = fields.need_text(verb)
    landing = _need_landing(fields, ("into", "between"))
    sticks = landing.relation == "between"
    return Insert(thing, landing, fields.text("shows"), fields.text("clearance"), fields.text("with") if sticks else None)


def read_tie(verb: str, fields: Fields) -> Tie:
    return Tie(
        verb=verb,
        what=fields.need_text(verb),
        around=fields.need_text("around"),
        across=fields.word("across", ("width", "height"), "width"),
        at=fields.text("at"),
        ends=fields.text("ends"),
        lap=fields.text("lap"),
        path=fields.texts("path") if verb == "tie" else (),
        with_=fields.text("with") if verb == "band" else None,
    )


def read_make(verb: str, fields: Fields) -> Make:
    parts, template = fields.texts(verb), fields.text("with")
    if verb == "trim":
        return Make(verb, parts, template, fields.word_or_none("at", ("fore edge",)))
    fields.later("at", "leave it out and say in `say:` what is cut")
    return Make(verb, parts, template)


def read_wait(verb: str, fields: Fields) -> Wait:
    return Wait(verb, fields.need_text(verb), fields.text("for"))


def read_refused(verb: str, fields: Fields) -> Action:
    """A verb that is kept for later; its further keys are not looked at."""
    fields.later(verb, "show this step with `press` or `check`, and put it in words with `say`")
    fields.drop_rest()
    return Wait("press", Text("", fields.where), None)


def _meet(fields: Fields) -> Meet | None:
    node = fields.node("meet")
    if node is None:
        return None
    if isinstance(node, Scalar) and node.text == "centre":
        return Meet(centre=True)
    if not isinstance(node, Mapping):
        fields.faults.note(
            node.where, f"`meet` of {fields.of} is neither `centre` nor pairs of lines", "write {edge: line, edge: line}"
        )
        return None
    if len(node.entries) > 2:
        fields.faults.note(node.where, f"`meet` of {fields.of} has {len(node.entries)} pairs", "keep one across and one along")
    pairs = ((MeetLine(Text(own.text, own.where), None), _meet_line(line, own, fields.faults)) for own, line in node.entries)
    return Meet(tuple(pairs))


def _meet_line(node: Node, own: Scalar, faults: Faults) -> MeetLine:
    """A line of the target, or `{from: line, by: 5 mm}`."""
    if not isinstance(node, Mapping):
        return MeetLine(one_text(node, own.text, faults) or Text("", own.where), None)
    fields = Fields(node, f"{shown(own.text)} in `meet`", faults, own.where)
    line = MeetLine(fields.need_text("from"), fields.need_text("by"))
    fields.finish()
    return line
