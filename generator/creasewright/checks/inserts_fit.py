"""Inserts against their pockets, in width, height and thickness, and whether there is a way in."""

from creasewright.checks.facts import Facts, part_words
from creasewright.folding.state import InsertFit, Pocket
from creasewright.joining.run_step import StepRun
from creasewright.problems import BLOCKS, WARNS, Finding

OUT = 0.5
"""mm that an insert may stand out before it is told."""


def inserts_fit(facts: Facts) -> list[Finding]:
    found = []
    for _, run in facts.original_runs():
        for fit in run.after.fits[len(run.before.fits) :]:
            found += of_one(facts, run, fit)
    return found


def of_one(facts: Facts, run: StepRun, fit: InsertFit) -> list[Finding]:
    name = part_words(fit.part)
    space = part_words(fit.pocket) if fit.pocket else "its place"
    found = []
    room_words = "the pocket" if fit.pocket else space
    ways = [("wide", fit.width, fit.room_width, fit.spare_width), ("high", fit.height, fit.room_height, fit.spare_height)]
    if fit.room_depth is not None and fit.spare_depth is not None:
        ways.append(("thick", fit.thick, fit.room_depth, fit.spare_depth))
    for way, size, room, spare in ways:
        if spare < -0.01:
            found.append(
                Finding(
                    BLOCKS, "insert", run.written.where,
                    f"{name} is {facts.said(size)} {way}, but {space} has {facts.said(room)}{thick_words(facts, fit, way)}",
                    f"make {name} at least {facts.at_least(fit.least - spare)} less {way}, or {room_words} that much larger",
                )
            )  # fmt: skip
        elif spare < fit.least - 0.01 and way not in fit.stands_out:
            found.append(
                Finding(
                    WARNS, "insert", run.written.where,
                    f"{name} has {facts.said(spare)} to spare in {space}, where {facts.said(fit.least)} is asked for",
                    f"make it {facts.at_least(fit.least - spare)} less {way}, or say a smaller `clearance:`",
                )
            )  # fmt: skip
    pocket = run.after.pockets.get(fit.pocket)
    if pocket is not None:
        found += way_in(facts, run, fit, pocket)
    if fit.out_of > OUT and fit.spare_width >= 0 and fit.spare_height >= 0 and run_shows(run) is None:
        found.append(
            Finding(
                WARNS, "insert", run.written.where,
                f"{name} stands {facts.said(fit.out_of)} out of {space}",
                "make it smaller, or say how much may show with `shows:`",
            )
        )  # fmt: skip
    return found


def run_shows(run: StepRun) -> object:
    return getattr(run.written.action, "shows", None)


def thick_words(facts: Facts, fit: InsertFit, way: str) -> str:
    return f" (it is {facts.said(fit.thick)} thick)" if fit.thick > 0.5 and way != "thick" else ""


def way_in(facts: Facts, run: StepRun, fit: InsertFit, pocket: Pocket) -> list[Finding]:
    """An insert goes in through an open side that is wider than itself."""
    if not pocket.open:
        return [
            Finding(
                BLOCKS, "opening", run.written.where,
                f"{part_words(fit.pocket)} is closed on all four sides, so {part_words(fit.part)} cannot go in",
                "leave one side out of `along:` in the step that makes it",
            )
        ]  # fmt: skip
    widths = [fit.room_width if side in ("head", "tail") else fit.room_height for side in pocket.open]
    sizes = [fit.width if side in ("head", "tail") else fit.height for side in pocket.open]
    if all(size > width + 0.01 for size, width in zip(sizes, widths, strict=True)):
        return [
            Finding(
                BLOCKS, "opening", run.written.where,
                f"{part_words(fit.part)} does not pass the opening of {part_words(fit.pocket)}",
                f"open it {facts.at_least(min(s - w for s, w in zip(sizes, widths, strict=True)))} wider",
            )
        ]  # fmt: skip
    return []
