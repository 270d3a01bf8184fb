"""`creasewright sheets`: plain rectangles on plain sheets; a plan in words, and on request as a file for other programs."""

import sys
from argparse import Namespace
from fractions import Fraction
from json import dumps
from pathlib import Path
from re import compile

from msgspec.structs import replace

from creasewright.commands.planning import effort_of
from creasewright.commands.told import tell_problems
from creasewright.cutting.demand import NO_LIMITS, Piece, Stock, Wishes
from creasewright.cutting.plan import PaperPlan, SheetPlan
from creasewright.cutting.plan_rectangles import plan_rectangles
from creasewright.exit_codes import CANNOT_BE_BUILT, CANNOT_BE_USED, GOOD, STOPPED
from creasewright.pdf.write_whole import write_all_whole
from creasewright.problems import NOWHERE, Problem, ProblemsFound, Where
from creasewright.progress import Progress
from creasewright.reading.design import Text
from creasewright.reading.faults import Faults
from creasewright.reading.read_file import read_file
from creasewright.reading.read_rectangles import (
    MOST_PIECES,
    WrittenCutting,
    WrittenRectangle,
    WrittenSheet,
    count_in,
    number_of,
    read_rectangles,
    size_of,
)
from creasewright.units.spellings import mixed

SHEET = compile(r"(?P<width>[^x×:@]+)[x×](?P<height>[^x×:@]+)(?::(?P<count>[^@]+))?(?:@(?P<price>.+))?")


def run(options: Namespace) -> int:
    try:
        work = _asked(options)
        wishes = Wishes(_price(options.setting_price, "--setting-price"), options.stages)
        effort = replace(effort_of(options), seed=options.seed)
    except ProblemsFound as found:
        tell_problems(found.problems)
        return CANNOT_BE_USED
    pieces = [
        Piece(one.name, one.width, one.height, one.count * options.makers + options.spares, one.may_turn or options.turn)
        for one in work.rectangles
    ]
    stocks = [Stock("sheet", s.width, s.height, s.margins, s.price, s.limit) for s in work.sheets]
    progress = Progress(options.quiet)
    plan = plan_rectangles(
        pieces, stocks, NO_LIMITS, wishes, effort, lambda sheets, bound: progress.say(f"{sheets} sheets, at least {bound}")
    )
    progress.done()
    if plan.too_large:
        tell_problems([_too_large(work, one.key) for one in plan.too_large])
    if plan.not_laid:
        tell_problems([_not_laid(one.key, one.count) for one in plan.not_laid])
    print("\n".join(told(plan, options.quiet)))
    if options.out:
        plan_file = dumps(as_data(plan), indent=1).encode() + b"\n"
        try:
            write_all_whole([(Path(options.out), plan_file)])
        except OSError as fault:
            tell_problems([Problem(NOWHERE, f"{options.out}: {fault.strerror}", "choose another file with `--out`")])
            return CANNOT_BE_USED
    if plan.stopped and effort.seconds is None:
        print("stopped; this is the best plan so far", file=sys.stderr)
        return STOPPED
    return CANNOT_BE_BUILT if plan.too_large or plan.not_laid else GOOD


def _asked(options: Namespace) -> WrittenCutting:
    """The file with what the options add. Raises ProblemsFound with the faults of both."""
    problems: list[Problem] = []
    written = WrittenCutting((), ())
    try:
        written = read_rectangles(read_file(Path(options.file)), options.file)
    except ProblemsFound as found:
        problems += found.problems
    faults = Faults()
    sheets = [sheet for text in options.sheet or [] if (sheet := _sheet(text, faults)) is not None]
    for name, number, most in (("--makers", options.makers, 3000), ("--spares", options.spares, 1000)):
        if not 0 <= number <= most or (name == "--makers" and number < 1):
            problems.append(Problem(NOWHERE, f"{name} {number} is out of reach", f"give a number up to {most}"))
    problems += [_too_many(one) for one in written.rectangles if one.count * max(1, options.makers) > MOST_PIECES]
    if options.stages is not None and options.stages < 1:
        problems.append(Problem(NOWHERE, f"--stages {options.stages} allows no cut", "give a number from 1"))
    if not options.sheet and not written.sheets and not problems:
        problems.append(Problem(Where(options.file), "no sheet is given", "add `--sheet 305x305`, or `sheets:` in a YAML file"))
    try:
        faults.raise_if_any()
    except ProblemsFound as found:
        problems += found.problems
    if problems:
        raise ProblemsFound(problems)
    return WrittenCutting(written.rectangles, (*written.sheets, *sheets))


def _too_many(one: WrittenRectangle) -> Problem:
    return Problem(one.where, f"{one.name} for so many makers is more than {MOST_PIECES} pieces", "plan fewer makers at a time")


def _sheet(text: str, faults: Faults) -> WrittenSheet | None:
    """`305x305`, `12x12:20` (there are twenty), `12x12:20@0.35` (each costs so much)."""
    found = SHEET.fullmatch(text.strip())
    if found is None:
        faults.note(NOWHERE, f"--sheet {text} is not a size", "write it as 305x305, or 305x305:20@0.35 for twenty at 0.35 each")
        return None
    width, height = (size_of(Text(found[side], NOWHERE), f"--sheet {text}", faults) for side in ("width", "height"))
    limit = count_in(Text(found["count"], NOWHERE), f"--sheet {text}", MOST_PIECES, faults) if found["count"] else None
    price = number_of(Text(found["price"], NOWHERE), f"--sheet {text}", faults) if found["price"] else Fraction(1)
    return WrittenSheet(NOWHERE, width, height, limit, price or Fraction(0), (Fraction(0),) * 4)


def _price(text: str | None, option: str) -> Fraction:
    """Raises ProblemsFound."""
    faults = Faults()
    number = Fraction(0) if text is None else number_of(Text(text, NOWHERE), option, faults)
    faults.raise_if_any()
    return number or Fraction(0)


def _too_large(work: WrittenCutting, key: str) -> Problem:
    one = next(each for each in work.rectangles if each.name == key)
    turned = "" if one.may_turn else " and must not be turned"
    size = f"{mixed(one.width)} x {mixed(one.height)}"
    return Problem(one.where, f"{key} is {size}{turned}: it fits no sheet", "make it smaller, or add a sheet")


def _not_laid(key: str, count: int) -> Problem:
    return Problem(NOWHERE, f"{count} of {key} find no place: the sheets are used up", "add sheets")


def told(plan: PaperPlan, quiet: bool) -> list[str]:
    """The plan in words: the sum and its proof, then each sheet with its cuts."""
    lines = [summed(plan)]
    for number, sheet in enumerate(() if quiet else plan.sheets, start=1):
        size = f"{mixed(Fraction(sheet.stock.width))} x {mixed(Fraction(sheet.stock.height))}"
        lines += ["", f"Sheet {number}, {size}, cut {times(sheet.count)}"]
        lines += [f"  {placed}" for placed in _pieces(sheet)]
        for cut in sheet.cuts:
            same = " (same setting)" if cut.same_setting else ""
            gives = f"{_side(cut.kept.kind, cut.kept.keys)} | {_side(cut.other.kind, cut.other.keys)}"
            lines.append(f"  cut {cut.number}: {cut.from_edge} against the stop, {mixed(cut.setting)}{same}: {gives}")
        if sheet.offcuts:
            lines.append("  left over: " + ", ".join(f"{mixed(o.width)} x {mixed(o.height)}" for o in sheet.offcuts))
    return lines


def summed(plan: PaperPlan) -> str:
    """`31 sheets; at least 30 are needed`; where sheets differ in price, also what they cost."""
    count = "1 sheet" if plan.sheet_count == 1 else f"{plan.sheet_count} sheets"
    priced = any(sheet.stock.price != 1 for sheet in plan.sheets)
    cost = f" for {mixed(plan.price)}" if priced else ""
    if plan.not_laid or plan.too_large:
        return f"{count}{cost}, with pieces missing; {plan.settings} settings"
    if plan.proved:
        proof = "no plan can cost less" if priced else "no plan can do with fewer"
    else:
        proof = f"no plan can cost less than {mixed(plan.least_price)}" if priced else f"at least {plan.lower_bound} are needed"
    return f"{count}{cost}; {proof}; {plan.settings} settings"


def times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _pieces(sheet: SheetPlan) -> list[str]:
    return [
        f"{p.key} at {mixed(p.x)}, {mixed(p.y)}: {mixed(p.width)} x {mixed(p.height)}{', turned' if p.turned else ''}"
        for p in sheet.placements
    ]


def _side(kind: str, keys: tuple[str, ...]) -> str:
    return kind if kind != "pieces" else " + ".join(keys)


def as_data(plan: PaperPlan) -> dict[str, object]:
    """Plain data for other programs; sizes as numbers in the unit of the file."""

    def number(value: Fraction | int) -> float | int:
        return int(value) if value == int(value) else float(value)

    return {
        "sheets": plan.sheet_count,
        "least": plan.lower_bound,
        "price": number(plan.price),
        "least price": number(plan.least_price),
        "proved": plan.proved,
        "settings": plan.settings,
        "missing": {one.key: one.count for one in plan.not_laid},
        "too large": [one.key for one in plan.too_large],
        "patterns": [
            {
                "times": sheet.count,
                "sheet": [number(sheet.stock.width), number(sheet.stock.height)],
                "placements": [
                    {
                        "piece": p.key, "x": number(p.x), "y": number(p.y), "width": number(p.width), "height": number(p.height),
                        "turned": p.turned,
                    }
                    for p in sheet.placements
                ],
                "cuts": [
                    {
                        "number": c.number, "direction": c.direction, "in": [number(v) for v in c.piece_rect],
                        "from": c.from_edge, "setting": number(c.setting),
                    }
                    for c in sheet.cuts
                ],
                "offcuts": [[number(o.x), number(o.y), number(o.width), number(o.height)] for o in sheet.offcuts],
            }
            for sheet in plan.sheets
        ],
    }  # fmt: skip
