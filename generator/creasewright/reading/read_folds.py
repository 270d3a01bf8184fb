"""Folds and changes of view as written."""

from creasewright.reading.design import Crease, Fold, Landing, Lay, Target, Text, Turn, TurnOver, Unfold
from creasewright.reading.fields import Fields, one_text, some_texts
from creasewright.reading.nodes import Mapping
from creasewright.reading.read_joins import read_landing

SIDES = ("front", "back")
LIKE = ("page", "pad")
BENDING_HINT = "leave it out, and fold only where scores allow it"


def read_fold(verb: str, fields: Fields) -> Fold:
    """`fold` and `mountain` may stand together, so both are taken whichever was found first."""
    fold, mountain = read_targets(fields, "fold"), read_targets(fields, "mountain")
    seen_from = fields.word_or_none("seen from", SIDES)
    _refuse_later(fields)
    return Fold(fold, mountain, read_angle(fields), fields.text("stays"), seen_from, None)


def read_tuck(verb: str, fields: Fields) -> Fold:
    flap = fields.need_text(verb)
    landing = read_landing(fields, ("under", "between", "into"))
    if landing is None:
        fields.faults.note(
            fields.where, f"{fields.of} does not say where it goes", "add `under: …`, `between: [a, b]` or `into: …`"
        )
    return Fold((Target(flap),), (), None, fields.text("stays"), None, landing or Landing("under", ()))


def read_unfold(verb: str, fields: Fields) -> Unfold:
    scores = read_targets(fields, verb)
    _refuse_later(fields)
    return Unfold(scores, read_angle(fields), fields.text("stays"))


def read_crease(verb: str, fields: Fields) -> Crease:
    return Crease(read_targets(fields, verb))


def read_lay(verb: str, fields: Fields) -> Lay:
    return Lay(
        part=fields.need_text(verb),
        up=fields.word_or_none("up", SIDES),
        head=fields.word("head", ("away", "left", "right", "near"), "away"),
        turned=fields.text("turned"),
        like=fields.word("like", LIKE, "page"),
    )


def read_turn_over(verb: str, fields: Fields) -> TurnOver:
    return TurnOver(fields.need_text(verb), fields.word("like", LIKE, "page"))


def read_turn(verb: str, fields: Fields) -> Turn:
    return Turn(fields.need_text(verb), fields.text("by"))


def read_targets(fields: Fields, key: str) -> tuple[Target, ...]:
    """A score or panel, a list of them, or `{name: angle}`."""
    node = fields.node(key)
    if node is None:
        return ()
    if not isinstance(node, Mapping):
        return tuple(Target(text) for text in some_texts(node, key, fields.faults))
    angles = ((name, one_text(angle, name.text, fields.faults)) for name, angle in node.entries)
    return tuple(Target(Text(name.text, name.where), angle) for name, angle in angles)


def read_angle(fields: Fields) -> Text | None:
    to = fields.text("to")
    if to is not None and to.text == "meet":
        fields.faults.note(to.where, "`to: meet` is not part of version 1 yet", "write the angle in degrees")
        return None
    return to


def _refuse_later(fields: Fields) -> None:
    fields.later("follow", "give each score its angle, as in `fold: {a: 90, b: 45}`")
    fields.later("bending", BENDING_HINT)
