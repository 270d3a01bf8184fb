"""Blanks larger than their paper, and pieces and cuts that a trimmer cannot hold."""

from creasewright.checks.facts import Facts
from creasewright.problems import BLOCKS, WARNS, Finding
from creasewright.units.ruler import pair_in_words


def blanks_fit_sheets(facts: Facts) -> list[Finding]:
    worked = facts.worked
    pieces = {piece.letter: piece for piece in worked.pieces}
    found = []
    for plan in facts.plans:
        for large in plan.too_large:
            piece = pieces[large.key]
            over = max(large.width - large.usable_width, large.height - large.usable_height)
            if large.may_turn:
                over = min(over, max(large.height - large.usable_width, large.width - large.usable_height))
            turned = "" if large.may_turn else " the way its print or grain must run"
            found.append(
                Finding(
                    BLOCKS, "sheet", piece.blank.where,
                    f"{piece.blank.name} is {pair_in_words(piece.blank.width, piece.blank.height, worked.ruler)}, "
                    f"but a sheet of {plan.paper} "
                    f"has {pair_in_words(large.usable_width, large.usable_height, worked.ruler)} to use{turned}",
                    f"make it at least {facts.at_least(over)} smaller, or take a larger sheet",
                )
            )  # fmt: skip
    return found


def stock_suffices(facts: Facts) -> list[Finding]:
    """Pieces for which the drawer has not enough sheets."""
    found = []
    for plan in facts.plans:
        if plan.not_laid:
            pieces = ", ".join(f"{one.count} of {one.key}" for one in plan.not_laid)
            found.append(
                Finding(
                    BLOCKS, "drawer", facts.worked.design.where,
                    f"the sheets of {plan.paper} in the drawer are too few: {pieces} find no place",
                    "get more sheets, or take the count out of the drawer",
                )
            )  # fmt: skip
    return found


def trimmer_holds(facts: Facts) -> list[Finding]:
    """Pieces narrower than the trimmer can hold; cuts too long or too thin for it."""
    found = []
    for piece in facts.worked.pieces:
        narrow = min(piece.blank.width, piece.blank.height)
        if narrow < facts.trimmer.narrowest_strip:
            found.append(
                Finding(
                    WARNS, "trimmer", piece.blank.where,
                    f"{piece.blank.name} is {facts.said(narrow)} wide; the trimmer holds {facts.said(facts.trimmer.narrowest_strip)}",
                    "cut it with knife and ruler, or make it wider",
                )
            )  # fmt: skip
    for plan in facts.plans:
        for bad in plan.trimmer_faults:
            words = {
                "cut too long": f"is {facts.said(bad.figure)} long; the trimmer cuts {facts.said(bad.limit)}",
                "strip too narrow": f"leaves a strip of {facts.said(bad.figure)}; the trimmer holds {facts.said(bad.limit)}",
                "trim too thin": f"takes off {facts.said(bad.figure)}; under {facts.said(bad.limit)} the blade wanders",
            }[bad.kind]
            where = facts.worked.design.where
            found.append(
                Finding(
                    WARNS, "trimmer", where, f"cut {bad.cut} of sheet {bad.sheet + 1} of {plan.paper} {words}",
                    "make that cut with knife and ruler",
                )
            )  # fmt: skip
    return found
