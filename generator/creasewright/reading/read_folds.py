"""Folds and changes of view as written."""

from creasewright.reading.design import Crease, Fold, Landing, Lay, Target, Text, Turn, TurnOver, Unfold
from creasewright.reading.fields import Fields, one_text, some_texts
from creasewright.reading.nodes import Mapping
from creasewright.reading.read_joins import read_landing

SIDES = ("front", "back")
LIKE = ("page", "pad")
YES_NO = ("yes", "no")


def read_fold(verb: str, fields: Fields) -> Fold:
    """`fold` and `mountain` may stand together, so both are taken whichever was found first."""
    fold, mountain = read_targets(fields, "fold"), read_targets(fields, "mountain")
    seen_from = fields.word_or_none("seen from", SIDES)
    to = fields.text("to")
    meet = to is not None and to.text == "meet"
    follow = read_targets(fields, "follow")
    bending = fields.word("bending", YES_NO, "no") == "yes"
    if (meet or bending) and follow:
        other = "to: meet" if meet else "bending"
        fields.faults.note(fields.place("follow"), f"`follow` and `{other}` stand in one step", "make two steps of it")
    return Fold(fold, mountain, None if meet else to, fields.text("stays"), seen_from, None, meet, follow, bending)


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
    to = fields.text("to")
    if to is not None and to.text == "meet":
        fields.faults.note(to.where, "`unfold` cannot go `to: meet`", "write the angle in degrees")
    return Unfold(scores, to, fields.text("stays"), read_targets(fields, "follow"))


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
