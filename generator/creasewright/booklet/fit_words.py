"""Pieces that are cut to fit, in words: which dimension is taken from the real thing, what is added to it, and what it should come to."""

from creasewright.booklet.context import PackContext
from creasewright.booklet.part_words import part_words
from creasewright.booklet.section_text import sentence
from creasewright.booklet.typeset import literal
from creasewright.fitting.worked import FittedSize
from creasewright.hands.put_down import new_bonds
from creasewright.joining.run_step import StepRun
from creasewright.units.ruler import mark_in_words


def fit_words(context: PackContext, blank: str, piece: str = "") -> list[str]:
    """One sentence for each size of the blank that is cut to fit; `piece` is what the reader calls it."""
    return [said(context, size, piece) for size in context.worked.fitted if size.blank == blank and size.taken]


def said(context: PackContext, size: FittedSize, piece: str) -> str:
    """The first thing measured is named; what else follows from the formula is in the difference."""
    ruler = context.worked.ruler
    word, of, value, slope = size.taken[0]
    rest = size.size - slope * value
    values: dict[str, object] = {
        "piece": piece,
        "way": size.way,
        "quality": word,
        "of": literal(part_words(context.worked, of)),
        "share": f"{slope:g}" if abs(slope - 1) > 0.001 else "",
        "more": mark_in_words(rest, ruler).text if rest > 0.01 else "",
        "less": mark_in_words(-rest, ruler).text if rest < -0.01 else "",
        "size": mark_in_words(size.size, ruler).text,
    }
    return sentence(context, "cut to fit", values)


def fitted_in(context: PackContext, run: StepRun) -> list[str]:
    """For the pieces that a step puts in their place."""
    bands = [closure.band for closure in run.after.closures[len(run.before.closures) :] if closure.band]
    inserts = [fit.part for fit in run.after.fits[len(run.before.fits) :]]
    joined = [bond.second[0] for bond in new_bonds(run)]
    blanks = dict.fromkeys(run.after.blanks[part].name for part in (*bands, *inserts, *joined))
    letters = {piece.blank.name: f"**{piece.letter}**" for piece in context.worked.pieces}
    return [words for blank in blanks for words in fit_words(context, blank, letters.get(blank, literal(blank)))]
