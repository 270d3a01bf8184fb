"""Formulas that a comma has cut in two.

Within {…} and […] a comma parts entries, so `{gate: up(a, b)}` arrives as `gate: up(a` and a key `b)`. The pieces are put
together again, so that one fault is told and not three.
"""

from collections.abc import Sequence as Several

from creasewright.reading.faults import Faults, shown
from creasewright.reading.nodes import Node, Scalar

MOST_PIECES = 16
"""Commas of one formula that are looked past."""


def rejoin_items(items: list[Node], faults: Faults) -> list[Node]:
    whole: list[Node] = []
    at = 0
    while at < len(items):
        pieces = _pieces_of_one(items[at : at + MOST_PIECES]) if _is_cut(items[at]) else []
        whole.append(_joined(pieces, faults) if pieces else items[at])
        at += max(1, len(pieces))
    return whole


def rejoin_entries(entries: list[tuple[Scalar, Node]], faults: Faults) -> list[tuple[Scalar, Node]]:
    whole: list[tuple[Scalar, Node]] = []
    at = 0
    while at < len(entries):
        key, value = entries[at]
        pieces = _pieces_of_one([value, *_keys_alone(entries[at + 1 : at + MOST_PIECES])]) if _is_cut(value) else []
        whole.append((key, _joined(pieces, faults) if pieces else value))
        at += max(1, len(pieces))
    return whole


def _is_cut(node: Node) -> bool:
    return isinstance(node, Scalar) and not node.quoted and "(" in node.text and node.text.count("(") > node.text.count(")")


def _keys_alone(entries: list[tuple[Scalar, Node]]) -> list[Scalar]:
    """The keys at the start of `entries` that have no value."""
    alone = []
    for key, value in entries:
        if not isinstance(value, Scalar) or value.text or value.quoted:
            break
        alone.append(key)
    return alone


def _pieces_of_one(nodes: Several[Node]) -> list[Scalar]:
    """The texts at the start of `nodes` up to the one that closes the first one's brackets; none where nothing does."""
    depth = 0
    pieces = []
    for node in nodes:
        if not isinstance(node, Scalar) or node.quoted:
            break
        pieces.append(node)
        depth += node.text.count("(") - node.text.count(")")
        if depth <= 0:
            return pieces
    return []


def _joined(pieces: list[Scalar], faults: Faults) -> Scalar:
    text = ", ".join(piece.text for piece in pieces)
    first = pieces[0]
    faults.note(
        first.where,
        f"{shown(text)} holds a comma, which parts entries within {{…}} and […]",
        f'put it in quotes: "{text}"' if len(text) < 120 else "put it in quotes",
    )
    return Scalar(text, first.where, False)
