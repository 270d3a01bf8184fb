"""The sentences of the score guide: how a piece lies, where its lines are, which way they fold."""

from msgspec import Struct

from creasewright.booklet.context import PackContext
from creasewright.booklet.part_words import counted_words
from creasewright.booklet.scoring.groups import Member, ScoreGroup
from creasewright.booklet.scoring.lies import LieLine, Pass, same_turned_over
from creasewright.booklet.scoring.score_drawing import inner_ends, point_letters, points_of
from creasewright.booklet.section_text import section_text
from creasewright.booklet.step_words import side_words
from creasewright.booklet.typeset import literal, plain
from creasewright.fitting.paper_facts import PaperFacts
from creasewright.geometry.point import Number, Point
from creasewright.units.ruler import mark_in_words

TRUE_WITHIN = 0.05
"""mm: what a pack is true to; a line this near to a mark of the ruler is on it."""
TOPS = ("away", "right", "near", "left")
"""Where the top of the piece points, by quarter."""


class Shown(Struct, frozen=True):
    """One drawing to be set: a pass of a group."""

    group: ScoreGroup
    number: int
    """Of the pass among the group's."""

    def of(self, member: Member) -> Pass:
        return member.passes[self.number]

    @property
    def drawn(self) -> Pass:
        return self.of(self.group.drawn)


def marked_length(context: PackContext, mm: Number) -> tuple[str, bool | None]:
    """The nearest mark, and whether the length is over it; None where it is on it as nearly as a pack is true."""
    marked = mark_in_words(mm, context.worked.ruler)
    off = abs(marked.residue_mm) >= TRUE_WITHIN
    return marked.text, marked.residue_mm > 0 if off else None


def said_length(context: PackContext, mm: Number) -> str:
    """`4 1/8 in`, or `just over 4 1/8 in`."""
    mark, over = marked_length(context, mm)
    return mark if over is None else section_text(context, "not exact", mark=mark, over=over)


def paper_of(context: PackContext, member: Member) -> PaperFacts | None:
    return context.worked.paper_of(member.blank)


def lie_values(context: PackContext, each: Shown, member: Member) -> dict[str, object]:
    drawn = each.of(member)
    paper = paper_of(context, member)
    alike = paper is None or (paper.front == paper.back and not paper.sides_differ)
    name = side_words(paper, drawn.lie.up, context.word)
    return {
        "letter": member.letter,
        "pair": len(each.group.members) > 1,
        "side": section_text(context, "side", alike=alike, even=same_turned_over(member.blank), name=name),
        "top": section_text(context, "top", top=TOPS[drawn.lie.quarter]),
        "run": drawn.run,
        "number": drawn.number,
        "of": drawn.of,
    }


def caption(context: PackContext, each: Shown) -> list[str]:
    """Paragraphs under a drawing."""
    drawn, main = each.drawn, each.group.drawn
    texts = [
        section_text(context, "pieces", members=[member_values(context, member) for member in by_letter(each.group)]),
        section_text(context, "lie", **lie_values(context, each, main)),
        *(section_text(context, "mirror", **lie_values(context, each, other)) for other in each.group.members[1:]),
        section_text(context, "folds", **fold_values(context, drawn)),
    ]
    if drawn.run == "aslant":
        texts.append(section_text(context, "aslant", pairs=pairs_of(drawn)))
    if drawn.run == "curved":
        texts.append(section_text(context, "curved", count=len(drawn.own), letter=main.letter, over=drawn.lie.up == "back"))
    return [text for text in texts if text]


def fold_values(context: PackContext, drawn: Pass) -> dict[str, object]:
    places = drawn.positions if drawn.measured else ()

    def of_kind(kind: str) -> list[str]:
        lines = [line for line in drawn.own if line.folds == kind]
        return [said_length(context, x) for x in places if any(abs(float(line.start.x - x)) < 0.01 for line in lines)]

    both = of_kind("both ways")
    return {
        "count": len(places) if drawn.measured else len(drawn.own),
        "both": both,
        "only_both": all(line.folds == "both ways" for line in drawn.own),
        "never": of_kind("never"),
        "others": len(drawn.lines) - len(drawn.own),
        "partial": drawn.measured and bool(inner_ends(drawn)),
        "stretches": any(begins_inside(line) for line in drawn.own),
    }


def begins_inside(line: LieLine) -> bool:
    """Whether the line's end that is farther from the maker lies inside the piece."""
    start_inside, end_inside = line.ends_inside
    return start_inside if float(line.start.y) <= float(line.end.y) else end_inside


def by_letter(group: ScoreGroup) -> list[Member]:
    return sorted(group.members, key=lambda member: member.letter)


def member_values(context: PackContext, member: Member) -> dict[str, object]:
    names = literal(counted_words(context.worked, member.parts))
    return {"letter": member.letter, "names": names, "count": len(member.parts), "of": member.of}


def pairs_of(drawn: Pass) -> list[str]:
    """Which ends of aslant lines belong together: `a–b`."""
    points = points_of(drawn)
    letters = point_letters(len(points))

    def name(end: Point) -> str:
        near = min(range(len(points)), key=lambda k: abs(float(points[k][0] - end.x)) + abs(float(points[k][1] - end.y)))
        return letters[near]

    return sorted("–".join(sorted((name(line.start), name(line.end)))) for line in drawn.own)


def alternative(context: PackContext, each: Shown) -> str:
    drawn = each.drawn
    at = [said_length(context, x) for x in drawn.positions] if drawn.measured else []
    letters = [member.letter for member in by_letter(each.group)]
    values = lie_values(context, each, each.group.drawn)
    return plain(section_text(context, "alternative", letters=letters, positions=at, **values))
