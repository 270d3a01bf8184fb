"""Steps and stages as written: one action a step, and the words that go with it."""

from collections.abc import Callable

from creasewright.reading.design import Action, Fold, Stage, Step, Text, Unfold, Wait
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of, meant, one_text
from creasewright.reading.names import check_name
from creasewright.reading.nodes import Mapping, Node, Scalar, Sequence
from creasewright.reading.read_folds import read_crease, read_fold, read_lay, read_tuck, read_turn, read_turn_over, read_unfold
from creasewright.reading.read_joins import read_insert, read_join, read_make, read_refused, read_tie, read_turn_in, read_wait
from creasewright.reading.read_sewing import read_sew

ACTIONS: dict[str, Callable[[str, Fields], Action]] = {
    "lay": read_lay,
    "turn over": read_turn_over,
    "turn": read_turn,
    "fold": read_fold,
    "mountain": read_fold,
    "unfold": read_unfold,
    "crease": read_crease,
    "tuck": read_tuck,
    "glue": read_join,
    "join": read_join,
    "place": read_join,
    "stick on": read_join,
    "insert": read_insert,
    "tie": read_tie,
    "band": read_tie,
    "cut": read_make,
    "score": read_make,
    "trim": read_make,
    "punch": read_make,
    "round": read_make,
    "press": read_wait,
    "dry": read_wait,
    "check": read_wait,
    "sew": read_sew,
    "turn in": read_turn_in,
}
NOW = tuple(verb for verb, reader in ACTIONS.items() if reader is not read_refused)
BESIDES = ("say", "stage", "who", "takes", "picture")
"""What any step may have beside its action."""


def read_steps(owner: Fields) -> tuple[Step, ...]:
    node = owner.node("steps")
    if node is None:
        return ()
    if not isinstance(node, Sequence):
        owner.faults.note(node.where, f"`steps` of {owner.of} is not a list", "begin each step with `- `")
        return ()
    return tuple(_step(item, number, owner) for number, item in enumerate(node.items, start=1))


def read_stages(owner: Fields) -> tuple[Stage, ...]:
    return tuple(_stage(name, node, owner) for name, node in owner.named("stages", "stage"))


def _step(node: Node, number: int, owner: Fields) -> Step:
    fields = fields_of(node, f"step {number}", owner.faults, node.where)
    verb = _verb(fields, node)
    action: Action = Wait("press", Text("", node.where), None)
    if verb:
        fields.of = f"`{verb}` in step {number}"
        action = ACTIONS[verb](verb, fields)
    stage = fields.text("stage")
    step = Step(
        where=node.where,
        action=action,
        say=fields.text("say"),
        stage=check_name(Scalar(stage.text, stage.where, True), "stage", owner.faults) if stage else None,
        who=fields.text("who"),
        takes=fields.text("takes"),
        view=_view(fields),
    )
    if verb:
        fields.finish()
    return step


def _verb(fields: Fields, node: Node) -> str | None:
    """The one action among the step's keys; `fold` stands for `fold` with `mountain`."""
    verbs = [key.text for key, _ in node.entries if key.text in ACTIONS] if isinstance(node, Mapping) else []
    if set(verbs) == {"fold", "mountain"}:
        return "fold"
    if len(verbs) > 1:
        fields.faults.note(fields.place(verbs[1]), f"`{verbs[0]}` and `{verbs[1]}` stand in one step", "make two steps of it")
        for verb in verbs[1:]:
            fields.node(verb)
        fields.drop_rest()
        return None
    if not verbs and isinstance(node, Mapping):
        _no_action(fields, node)
    return verbs[0] if verbs else None


def _no_action(fields: Fields, node: Mapping) -> None:
    first = next((key.text for key, _ in node.entries if key.text not in BESIDES), None)
    if first is None:
        fields.faults.note(node.where, f"{fields.of} has no action", "add what is done, such as `fold: …` or `check: …`")
    else:
        what = f"{fields.of} has {shown(first)}, which is not an action, and no other"
        fields.faults.note(fields.place(first), what, meant(first, NOW))


def _view(fields: Fields) -> dict[str, Text]:
    mapping = fields.mapping("picture")
    texts = {key.text: one_text(node, key.text, fields.faults) for key, node in (mapping.entries if mapping else ())}
    return {key: text for key, text in texts.items() if text is not None}


def _stage(name: Scalar, node: Node, owner: Fields) -> Stage:
    fields = fields_of(node, f"stage {shown(name.text)}", owner.faults, name.where)
    action: Fold | Unfold | None = None
    if fields.has("unfold"):
        action = _unfold_alone(fields)
    elif fields.has("fold") or fields.has("mountain"):
        action = read_fold("fold", fields)
    stage = Stage(name.text, name.where, fields.text("from"), action)
    fields.finish()
    return stage


def _unfold_alone(fields: Fields) -> Unfold:
    """A stage either unfolds or folds."""
    for verb in ("fold", "mountain"):
        if fields.has(verb):
            fields.node(verb)
            fields.faults.note(
                fields.place(verb), f"`unfold` and `{verb}` stand in one stage", "make two stages, the second `from` the first"
            )
    return read_unfold("unfold", fields)
