"""Pricking guides: full-size strips that lie in the fold and show where the holes of a sewn line go."""

from fractions import Fraction

from creasewright.blanks.blank import Hole
from creasewright.booklet.context import PackContext
from creasewright.booklet.section_text import sentence
from creasewright.booklet.tiling.template import Template, TemplateScore, fine_polygon
from creasewright.fitting.worked import Worked
from creasewright.folding.state import Sewing
from creasewright.geometry.outline import Line, Outline
from creasewright.geometry.point import Point
from creasewright.units.ruler import as_set, pair_in_words

WIDE = 60.0
"""mm: two halves of 30, enough to hold while it lies in the fold and to carry its name."""
ACROSS = 1.5
"""mm: a hole as it is drawn; it is pricked, not cut."""


def pricking_guides(context: PackContext) -> tuple[Template, ...]:
    """One for each set of holes."""
    finished = context.worked.finished
    found: dict[tuple[float, ...], Template] = {}
    for number, sewing in enumerate(finished.state.sewings if finished is not None else ()):
        key = tuple(round(value, 3) for value in (sewing.span, *sewing.stations))
        if key not in found:
            found[key] = guide(context, sewing, number)
    return tuple(found.values())


def guide(context: PackContext, sewing: Sewing, number: int) -> Template:
    letters = letters_sewn(context.worked, sewing)
    high = Fraction(sewing.span).limit_denominator(10**6)
    corners = [Point(Fraction(x), y) for x, y in ((0, Fraction(0)), (60, Fraction(0)), (60, high), (0, high))]
    outline = Outline(tuple(Line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)))
    middle = Fraction(30)
    places = [Point(middle, Fraction(at).limit_denominator(10**6)) for at in sewing.stations]
    name = sentence(context, "guide name", {"number": number + 1})
    return Template(
        key=name if number == 0 else f"{name} {number + 1}",
        letters=letters,
        name=name,
        count=sentence(context, "aid count", {"letters": " ".join(letters)}),
        side_up=sentence(context, "guide side"),
        paper=sentence(context, "aid card"),
        outline=outline,
        polygon=fine_polygon(outline),
        scores=(TemplateScore("fold", Point(middle, Fraction(0)), Point(middle, high), "valley"),),
        holes=tuple(Hole(f"hole {k}", place, Fraction(ACROSS)) for k, place in enumerate(places, start=1)),
        panel_names=((sentence(context, "guide top"), Point(Fraction(15), high / 10)),),
        whole_size=as_set(pair_in_words(WIDE, high, context.worked.ruler)),
        note=sentence(context, "guide note", {"holes": len(places)}),
    )


def letters_sewn(worked: Worked, sewing: Sewing) -> tuple[str, ...]:
    return tuple(piece.letter for piece in worked.pieces if set(piece.parts) & set(sewing.parts))
