"""Faces that should read upright and do not."""

from creasewright.checks.facts import Facts
from creasewright.fitting.print_turns import WishResult
from creasewright.folding.refused import called
from creasewright.problems import WARNS, Finding

STANDS = {90: "sideways, its top to the right", 180: "upside down", 270: "sideways, its top to the left"}


def prints_upright(facts: Facts) -> list[Finding]:
    found = []
    for number, result in enumerate(facts.worked.wishes):
        where = facts.worked.design.finished.upright[number].panel.where
        panel = called(result.wish.panel)
        if result.side is None:
            found.append(
                Finding(
                    WARNS, "print", where, f"{panel} does not show in stage {result.wish.stage}",
                    "name a stage in which it is seen, or take it off the list",
                )
            )  # fmt: skip
        elif not result.upright:
            found.append(Finding(WARNS, "print", where, words(panel, result), remedy(result)))
    return found


def words(panel: str, result: WishResult) -> str:
    turn = STANDS.get(result.turn or 0, f"turned by {result.turn}°")
    return f"the print on {panel} stands {turn} in stage {result.wish.stage}"


def remedy(result: WishResult) -> str:
    if result.can_be:
        return "a face higher on the list needs its blank the other way: change their order, or split the blank at a score and join it"
    return "use a paper printed all over for it, or show its other side"
