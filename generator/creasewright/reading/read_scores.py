"""Scores and panel names of a blank as written."""

import re

from creasewright.problems import Where
from creasewright.reading.design import PanelNames, ScoreWritten
from creasewright.reading.faults import shown
from creasewright.reading.fields import Fields, fields_of
from creasewright.reading.names import CORNERS, check_name, check_score_name
from creasewright.reading.nodes import Mapping, Node, Scalar
from creasewright.reading.places import read_line, read_place

WAYS = ("from", "across", "line")
"""The keys that say where a score runs; at most one of them."""
CELL = re.compile(r"\"([^\"]*)\"|'([^']*)'|(\S+)")


def read_scores(blank: Fields) -> tuple[ScoreWritten, ...]:
    mapping = blank.mapping("scores")
    return tuple(_score(name, node, blank) for name, node in (mapping.entries if mapping else ()))


def _score(name: Scalar, node: Node, blank: Fields) -> ScoreWritten:
    check_score_name(name, blank.faults)
    if isinstance(node, Scalar) and node.text == "none":
        return ScoreWritten(name.text, name.where, None, None, (), None, (), None, True)
    fields = fields_of(node, f"score {shown(name.text)}", blank.faults, name.where)
    score = ScoreWritten(
        name=name.text,
        where=name.where,
        from_=fields.text("from"),
        across=fields.word_or_none("across", CORNERS),
        at=fields.texts("at"),
        line=read_line(fields.node("line"), "line", blank.faults),
        over=fields.texts("over"),
        span=read_line(fields.node("span"), "span", blank.faults),
        removed=False,
        rise=fields.text("rise"),
    )
    _one_way(fields)
    if score.rise is not None:
        _check_curved(score, fields)
    fields.finish()
    return score


def _one_way(fields: Fields) -> None:
    ways = [key for key in WAYS if fields.has(key)]
    if len(ways) > 1:
        fields.faults.note(
            fields.place(ways[1]), f"{fields.of} is placed by `{ways[0]}` and by `{ways[1]}`", "keep one of the two"
        )
    elif ways and ways[0] != "line" and not fields.has("at"):
        fields.missing("at", "20 mm")
    elif not ways and not fields.unread and not (fields.has("over") or fields.has("span")):
        fields.faults.note(
            fields.where,
            f"{fields.of} does not say where it runs",
            "write {from: left, at: 20 mm}, {line: [p, q]}, or none to take it away",
        )
    elif fields.has("at") and "line" in (ways or ["line"]):
        fields.faults.note(
            fields.place("at"),
            f"`at` of {fields.of} has nothing to be measured from",
            "add `from: left` or another edge or score",
        )


def _check_curved(score: ScoreWritten, fields: Fields) -> None:
    """A curved score runs from point to point, whole."""
    if score.line is None:
        fields.faults.note(fields.place("rise"), f"`rise` of {fields.of} has no line to rise from", "write {line: [p, q], rise: length}")
    for key in ("over", "span"):
        if fields.has(key):
            fields.faults.note(
                fields.place(key), f"`{key}` limits {fields.of}, which is curved", "let `line` begin and end where the score does"
            )


def read_panels(blank: Fields) -> PanelNames | None:
    """A map of names as the panels lie, or an anchor point for each name."""
    node = blank.node("panels")
    if node is None:
        return None
    if isinstance(node, Mapping):
        return PanelNames(
            node.where,
            (),
            tuple(
                (check_name(name, "panel", blank.faults), read_place(at, name.text, blank.faults)) for name, at in node.entries
            ),
        )
    if isinstance(node, Scalar) and node.text.strip():
        return PanelNames(node.where, _rows(node, blank), ())
    blank.faults.note(
        node.where,
        f"`panels` of {blank.of} is neither a map of names nor `name: place` lines",
        "write | and rows of names below it",
    )
    return None


def _rows(node: Scalar, blank: Fields) -> tuple[tuple[str | None, ...], ...]:
    rows: list[tuple[str | None, ...]] = []
    for line, written in enumerate(node.text.split("\n")):
        if written.strip():
            rows.append(tuple(_cell(match, node.where, line, blank) for match in CELL.finditer(written)))
            if len(rows[-1]) != len(rows[0]):
                what = f"row {len(rows)} of the panel map is {len(rows[-1])} wide, and row 1 is {len(rows[0])}"
                blank.faults.note(
                    Where(node.where.file, node.where.line + line, node.where.column),
                    what,
                    "write - where a cell has no name, and quotes round two words",
                )
    return tuple(rows)


def _cell(match: re.Match[str], start: Where, line: int, blank: Fields) -> str | None:
    """One name of a map that begins at `start`, `line` lines below it; None for `-`."""
    name = match[1] or match[2] or match[3] or ""
    if name == "-":
        return None
    where = Where(start.file, start.line + line, start.column + match.start())
    if not name.strip():
        blank.faults.note(where, f"{shown(match.group())} in the panel map is empty", "write - where a cell has no name")
    else:
        check_name(Scalar(name, where, True), "panel", blank.faults)
    return name
